"""What a condition comes to on one element: yes, no or unknown, what stands behind it, and how answers are joined."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Literal

from planlint.plan.elements import Element, Need, NotStated
from planlint.plan.members import merged

Answer = Literal["yes", "no", "unknown"]


@dataclass(frozen=True, slots=True)
class Verdict:
    """The answer, and what a report needs beside it.

    `needs`: of an unknown one, what the plan would have to state, each once, in the order met. `half_broken`: unknown, while one
    side of an `or` is no already. `broken`: the two values of each comparison that came out no. `notes`: sentences for the
    finding, such as that a setting lists no size for the wire's metal. `whether`: of a rule, those of the needs on which it hangs
    whether it applies at all.
    """

    answer: Answer
    needs: tuple[Need, ...] = ()
    half_broken: bool = False
    broken: tuple[tuple[object, object], ...] = ()
    notes: tuple[str, ...] = ()
    whether: tuple[Need, ...] = ()


YES = Verdict("yes")
NO = Verdict("no")
Judge = Callable[[Element, Any], Verdict]


def unknown(gap: NotStated) -> Verdict:
    """What it comes to where something isn't stated."""
    return Verdict("unknown", merged(gap.needs))


def all_of(verdicts: Iterable[Verdict], gaps: tuple[Need, ...] = ()) -> Verdict:
    """Yes if all are: one no decides, and then the rest isn't asked. `gaps` leave open whether there are more."""
    open_: list[Verdict] = []
    for verdict in verdicts:
        if verdict.answer == "no":
            return verdict
        if verdict.answer == "unknown":
            open_.append(verdict)
    if not open_ and not gaps:
        return YES
    needs = merged(*(verdict.needs for verdict in open_), gaps)
    half_broken = any(verdict.half_broken for verdict in open_)
    return Verdict("unknown", needs, half_broken, tuple(pair for verdict in open_ for pair in verdict.broken))


def any_of(verdicts: Iterable[Verdict], gaps: tuple[Need, ...] = (), *, sides: bool = False) -> Verdict:
    """Yes if one is, and then the rest isn't asked. `sides`: they are those of an `or`, of which one may be broken already."""
    met: list[Verdict] = []
    for verdict in verdicts:
        if verdict.answer == "yes":
            return verdict
        met.append(verdict)
    needs = merged(*(verdict.needs for verdict in met), gaps)
    broken = tuple(pair for verdict in met for pair in verdict.broken)
    if all(verdict.answer == "no" for verdict in met) and not gaps:
        return Verdict("no", broken=broken, notes=tuple(dict.fromkeys(note for verdict in met for note in verdict.notes)))
    half_broken = any(verdict.half_broken or (sides and verdict.answer == "no") for verdict in met)
    return Verdict("unknown", needs, half_broken, broken)
