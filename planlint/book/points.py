"""What no rule can decide from a plan, and what real lists ask: `rules/coverage.yaml`, by inspection."""

from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from planlint.data import data_folder

Who = Literal["eyes", "office", "on-site"]


@dataclass(frozen=True, slots=True)
class SitePoint:
    """One thing that only somebody on site can tell, that the office asks for, or to have there.

    `about`: kinds of element without which it has no meaning; none: it always has.
    """

    name: str
    inspection: str
    who: Who
    text: str
    clause: str
    about: tuple[str, ...]


@cache
def load_coverage() -> dict[str, Any]:
    """`rules/coverage.yaml` as it stands: `points`, and the `items` of published lists."""
    import yaml

    loaded: dict[str, Any] = yaml.safe_load((data_folder("rules") / "coverage.yaml").read_text("utf-8"))
    return loaded


def site_points() -> tuple[SitePoint, ...]:
    """Its points, in their order."""
    return tuple(
        SitePoint(name, one["inspection"], one["kind"], one["text"], one["clause"], tuple(one.get("about", ())))
        for name, one in load_coverage()["points"].items()
    )
