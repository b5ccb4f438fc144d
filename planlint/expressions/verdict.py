"""What a condition comes to on one element: yes, no or unknown, and what stands behind it."""

from dataclasses import dataclass
from typing import Literal

from planlint.plan.elements import Need

Answer = Literal["yes", "no", "unknown"]


@dataclass(frozen=True, slots=True)
class Verdict:
    """The answer, and what a report needs beside it.

    `needs`: of an unknown one, what the plan would have to state, each once, in the order met. `half_broken`: unknown, while one
    side of an `or` is no already. `broken`: the two values of each comparison that made it a no. `notes`: sentences for the
    finding, such as that a setting lists no size for the wire's metal.
    """

    answer: Answer
    needs: tuple[Need, ...] = ()
    half_broken: bool = False
    broken: tuple[tuple[object, object], ...] = ()
    notes: tuple[str, ...] = ()


YES = Verdict("yes")
NO = Verdict("no")
