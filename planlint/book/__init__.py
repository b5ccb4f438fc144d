"""What `rules/` says: tables, settings, rule records, and profiles resolved into the code that is in force."""

from planlint.book.in_force import Code, Confirm, Layer, RuleInForce, Setting
from planlint.book.records import (
    EDITIONS,
    HAZARDS,
    INSPECTIONS,
    SEVERITIES,
    Case,
    ProfileRecord,
    RuleRecord,
    SettingRecord,
    Severity,
    Value,
)
from planlint.book.source import Sourced

__all__ = [
    "EDITIONS", "HAZARDS", "INSPECTIONS", "SEVERITIES", "Case", "Code", "Confirm", "Layer", "ProfileRecord", "RuleInForce",
    "RuleRecord", "Setting", "SettingRecord", "Severity", "Sourced", "Value",
]  # fmt: skip
