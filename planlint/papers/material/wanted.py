"""One thing that one statement needs, before things alike are put together."""

from collections.abc import Callable
from dataclasses import dataclass

from planlint.checking import subject_of
from planlint.papers.docket import Docket, Unknown
from planlint.plan import Element
from planlint.quantities import Length
from planlint.report import Subject

GROUPS = ("Wire and cable", "Pipe and fittings", "In the ditch", "Boxes and outlets", "Panels and breakers", "Grounding")


@dataclass(frozen=True, slots=True)
class Wanted:
    """So many pieces (or feet, uncut) of an item for one element.

    `thing` is the sort by which packages are kept; nothing where it is bought by the piece. `joined`: lengths may be put
    together from several packages.
    """

    group: str
    item: str
    subject: Subject
    count: int = 1
    length: Length | None = None
    thing: str = ""
    joined: bool = False


@dataclass(frozen=True, slots=True)
class LeftOut:
    """What the list lacks because the plan leaves something out: the item's words, and what to state."""

    group: str
    item: str
    subject: Subject
    unknown: Unknown


class Collector:
    """Takes what elements need; a question that the plan leaves open goes among what is left out."""

    def __init__(self, docket: Docket) -> None:
        self.docket = docket
        self.wanted: list[Wanted] = []
        self.left_out: list[LeftOut] = []

    def pieces(self, group: str, element: Element, item: str | Callable[[], str], count: int | Callable[[], int] = 1) -> None:
        """So many pieces of an item. Words or number may be questions."""
        asked = self.docket.ask(element, item if callable(item) else lambda: item)
        number = self.docket.ask(element, count if callable(count) else lambda: count)
        words = item if isinstance(item, str) else "something"
        for answer in (asked, number):
            if isinstance(answer, Unknown):
                self._leave_out(group, words if isinstance(asked, Unknown) else asked, element, answer)
                return
        assert isinstance(asked, str)
        assert isinstance(number, int)
        if number:
            self.wanted.append(Wanted(group, asked, subject_of(element), number))

    def lengths(
        self,
        group: str,
        element: Element,
        item: str,
        length: Callable[[], Length],
        thing: str,
        count: int = 1,
        joined: bool = False,
    ) -> None:
        """So many pieces of this length."""
        answer = self.docket.ask(element, length)
        if isinstance(answer, Unknown):
            self._leave_out(group, item, element, answer)
        else:
            self.wanted.append(Wanted(group, item, subject_of(element), count, answer, thing, joined))

    def unless_unknown(self, group: str, element: Element, item: str, question: Callable[[], object]) -> object | None:
        """What a question comes to; None, and noted as left out, where the plan leaves it open."""
        answer = self.docket.ask(element, question)
        if isinstance(answer, Unknown):
            self._leave_out(group, item, element, answer)
            return None
        return answer

    def _leave_out(self, group: str, item: str, element: Element, unknown: Unknown) -> None:
        if unknown.arises:
            self.left_out.append(LeftOut(group, item, subject_of(element), unknown))
