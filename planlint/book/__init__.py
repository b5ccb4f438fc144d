"""What `rules/` says: tables, settings, rule records, and profiles resolved into the code that is in force."""

from planlint.book.in_force import Code, Confirm, Layer, RuleInForce, Setting
from planlint.book.layers import resolve
from planlint.book.records import (
    EDITIONS,
    HAZARDS,
    INSPECTIONS,
    PREVIEWED,
    SEVERITIES,
    Case,
    ProfileRecord,
    RuleRecord,
    SettingRecord,
    Severity,
    TableRow,
    Value,
)
from planlint.book.rules import load_rules
from planlint.book.shelves import NOWHERE
from planlint.book.source import Sourced

__all__ = [
    "EDITIONS", "HAZARDS", "INSPECTIONS", "NOWHERE", "PREVIEWED", "SEVERITIES", "Case", "Code", "Confirm", "Layer",
    "ProfileRecord", "RuleInForce", "RuleRecord", "Setting", "SettingRecord", "Severity", "Sourced", "TableRow", "Value",
    "load_rules", "resolve",
]  # fmt: skip
