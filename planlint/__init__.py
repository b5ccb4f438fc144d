"""planlint: a rule-checking linter for house wiring plans written as text.

    >>> import planlint
    >>> report = planlint.check("cottage.plan")  # doctest: +SKIP

The names below are the public face; everything else may change.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from planlint.book import Code as Profile
    from planlint.desk import check, worksheet
    from planlint.faults import Fault, Faults
    from planlint.language import Unopened, read_plan
    from planlint.quantities import Quantity
    from planlint.report import Finding, Report
    from planlint.workings import Worksheet

__version__ = "0.1.0"
__all__ = [
    "Fault", "Faults", "Finding", "Profile", "Quantity", "Report", "Unopened", "Worksheet", "check", "read_plan", "worksheet",
]  # fmt: skip

_HOMES = {
    "check": ("planlint.desk", "check"),
    "worksheet": ("planlint.desk", "worksheet"),
    "Worksheet": ("planlint.workings", "Worksheet"),
    "read_plan": ("planlint.language", "read_plan"),
    "Unopened": ("planlint.language", "Unopened"),
    "Report": ("planlint.report", "Report"),
    "Finding": ("planlint.report", "Finding"),
    "Profile": ("planlint.book", "Code"),
    "Quantity": ("planlint.quantities", "Quantity"),
    "Fault": ("planlint.faults", "Fault"),
    "Faults": ("planlint.faults", "Faults"),
}


def __getattr__(name: str) -> Any:
    """Import a public name when it is first asked for, so that starting planlint stays fast."""
    if name not in _HOMES:
        raise AttributeError(f"module 'planlint' has no attribute '{name}'")
    from importlib import import_module

    module, attribute = _HOMES[name]
    return getattr(import_module(module), attribute)
