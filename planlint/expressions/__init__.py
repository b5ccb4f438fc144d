"""The rule language: an expression is parsed, checked against names and types that are handed in, and compiled."""

from planlint.expressions.conditions import Condition, compile_condition
from planlint.expressions.faults import ExpressionFault
from planlint.expressions.names import Name, Names, WireSizes
from planlint.expressions.positions import PositionPath, compile_path
from planlint.expressions.template import Template, compile_template
from planlint.expressions.verdict import Verdict

__all__ = [
    "Condition", "ExpressionFault", "Name", "Names", "PositionPath", "Template", "Verdict", "WireSizes", "compile_condition",
    "compile_path", "compile_template",
]  # fmt: skip
