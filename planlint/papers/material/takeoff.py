"""The list as it is bought: things alike put together, rounded up to packages, each with what it serves and its price."""

from collections.abc import Iterator
from dataclasses import dataclass

from planlint.papers.docket import Docket
from planlint.papers.material.gear import add_gear, add_grounding, add_outlets
from planlint.papers.material.packages import Package, packed
from planlint.papers.material.pipes import add_pipes
from planlint.papers.material.wanted import GROUPS, Collector, LeftOut, Wanted
from planlint.papers.material.wires import add_wires
from planlint.plan.outlets import Lights, Receptacles
from planlint.quantities import Length
from planlint.report import ProfileHead, Subject


@dataclass(frozen=True, slots=True)
class Line:
    """One item to buy. `length` is all of it together, nothing for what comes by the piece; `pieces` how many.

    `packages`: what to ask for in the store; none where one uncut piece is longer than any package, which is to be ordered.
    `longest`: the longest piece that has to come in one.
    """

    group: str
    item: str
    pieces: int
    length: Length | None
    longest: Length | None
    packages: tuple[Package, ...] | None
    serves: tuple[Subject, ...]


@dataclass(frozen=True, slots=True)
class Takeoff:
    """The whole list, in groups; `left_out` is what it lacks as the plan leaves it open, `notes` what no statement can say."""

    plan: str
    profile: ProfileHead
    lines: tuple[Line, ...]
    left_out: tuple[LeftOut, ...]
    notes: tuple[str, ...]

    def groups(self) -> Iterator[tuple[str, list[Line]]]:
        """The lines by group, those of an empty one left out."""
        for group in GROUPS:
            own = [line for line in self.lines if line.group == group]
            if own:
                yield group, own


def take_off(docket: Docket) -> Takeoff:
    """The material list of a plan."""
    to = Collector(docket)
    add_wires(to)
    add_pipes(to)
    add_outlets(to)
    add_gear(to)
    add_grounding(to)
    alike: dict[tuple[str, str], list[Wanted]] = {}
    for wanted in to.wanted:
        alike.setdefault((wanted.group, wanted.item), []).append(wanted)
    lines = [_line(group, docket) for group in alike.values()]
    lines.sort(key=lambda line: GROUPS.index(line.group))
    return Takeoff(docket.report.plan, docket.head, tuple(lines), tuple(to.left_out), tuple(_notes(docket)))


def _line(alike: list[Wanted], docket: Docket) -> Line:
    first = alike[0]
    serves = tuple(dict.fromkeys(wanted.subject for wanted in alike))
    count = sum(wanted.count for wanted in alike)
    pieces = [wanted.length for wanted in alike for _ in range(wanted.count) if wanted.length is not None]
    if not pieces:
        return Line(first.group, first.item, count, None, None, (), serves)
    together = Length.of(sum(piece.within("ft") for piece in pieces), "ft")
    kept = docket.job.tables.packages(first.thing)
    bought = packed(pieces, kept, uncut=not first.joined)
    return Line(first.group, first.item, count, together, max(pieces), bought, serves)


def _notes(docket: Docket) -> Iterator[str]:
    outlets = sum(one.count for one in docket.graph.all(Receptacles).known)
    outlets += sum(one.count for one in docket.graph.all(Lights).known)
    if outlets:
        yield (
            f"Only the boxes that the plan states are listed: {outlets} receptacles and lights want theirs, and a cover each; "
            "switches and their boxes are not stated in a plan."
        )
    yield (
        "Wire of 4 AWG and larger may be black throughout, with its neutral marked white and its ground green at both ends "
        "(NFPA 70 200.6(B), 250.119)."
    )
    yield "Elbows are not taken off the length of pipe. Where couplings come with the pipe, fewer are needed."
    yield "Screws, tape, wire nuts, cement and pull string are not listed."


def bought(line: Line) -> float:
    """How many pieces, or how many feet in whole packages; what no package holds by the foot."""
    if line.length is None:
        return line.pieces
    if line.packages is None:
        return line.length.within("ft")
    return sum(package.count * package.length.within("ft") for package in line.packages)
