"""What installed packages offer to planlint, by their entry points: folders of profiles, and modules of facts."""

import os
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache


@dataclass(frozen=True, slots=True)
class Offer:
    """One entry point: what it names, and how its package is called in a report's list of what took part."""

    value: str
    called: str


def offers(group: str) -> Iterator[Offer]:
    """The entry points of a group, in order. Nothing of the packages is run by looking."""
    if not _some_package_offers(group):
        return
    from importlib.metadata import entry_points  # slow to import, and few have such a package

    for point in sorted(entry_points(group=group), key=lambda point: (point.value, point.name)):
        top = point.value.partition(":")[0].partition(".")[0]
        yield Offer(point.value, f"{point.dist.name} {point.dist.version}" if point.dist else top)


def _some_package_offers(group: str) -> bool:
    """Whether any installed package has the entry-point group."""
    return group.encode() in _entry_points_in(tuple(dict.fromkeys(sys.path)))


@cache
def _entry_points_in(places: tuple[str, ...]) -> bytes:
    """The entry points of all packages in these places that speak of planlint, as they are written.

    A look into small files takes a millisecond or two where importing importlib.metadata takes forty; once is enough for all
    groups.
    """
    found = []
    for place in places:
        try:
            entries = [entry.path for entry in os.scandir(place or ".") if entry.name.endswith((".dist-info", ".egg-info"))]
        except OSError:
            continue
        for entry in entries:
            try:
                with open(os.path.join(entry, "entry_points.txt"), "rb") as file:
                    text = file.read()
            except OSError:
                continue
            if b"planlint" in text:
                found.append(text)
    return b"\n".join(found)
