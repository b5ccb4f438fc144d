"""The path of a rule's `at`: from the element that is judged to the attribute whose place is reported."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from operator import eq, is_
from typing import Any

from planlint.expressions import tree
from planlint.expressions.faults import ExpressionFault
from planlint.expressions.grammar import parse
from planlint.expressions.names import Name, Names
from planlint.expressions.paths import fault, unknown_name
from planlint.expressions.verdict import Verdict
from planlint.plan.elements import Element, NotStated
from planlint.plan.members import Members


@dataclass(frozen=True, slots=True)
class _Step:
    """One word of the path, and what it is on each kind that may be met there."""

    word: str
    by_kind: Mapping[str, Name]

    def read(self, element: Element, job: Any) -> Any:
        return self.by_kind[element.kind].read(element, job)


@dataclass(frozen=True, slots=True)
class PositionPath:
    """A compiled `at`."""

    text: str
    _steps: tuple[_Step, ...]

    def locate(self, element: Element, job: Any, verdict: Verdict | None = None) -> tuple[Element, str]:
        """The element and the attribute's name. Where the plan leaves out a link on the way, or has none there, that link.

        Through a list it takes the member whose value decided the verdict, otherwise the first.
        """
        return self._locate(element, 0, job, verdict)

    def _locate(self, element: Element, number: int, job: Any, verdict: Verdict | None) -> tuple[Element, str]:
        step = self._steps[number]
        if number == len(self._steps) - 1:
            return element, step.word
        try:
            met = step.read(element, job)
        except NotStated:
            return element, step.word
        members = tuple(met or ()) if isinstance(met, tuple | Members) else () if met is None else (met,)
        found = [self._locate(member, number + 1, job, verdict) for member in members]
        if not found:
            return element, step.word
        if verdict is None:
            return found[0]
        # Another member may happen to say the limit itself, so the very value that was compared goes before an equal one.
        deciding = (place for same in (is_, eq) for place in found if self._decided(place, job, verdict, same))
        return next(deciding, found[0])

    def _decided(self, place: tuple[Element, str], job: Any, verdict: Verdict, same: Callable[[Any, Any], bool]) -> bool:
        element, attribute = place
        if any(need.element is element and need.attribute == attribute for need in verdict.needs):
            return True
        if attribute != self._steps[-1].word:
            return False
        try:
            value = self._steps[-1].read(element, job)
        except NotStated:
            return False
        return any(same(value, side) for pair in verdict.broken for side in pair)


def compile_path(text: str, kinds: tuple[str, ...], names: Names) -> PositionPath:
    """Parse and check a path on elements of these kinds; a word on it may be of another type on each.

    Raises ExpressionFault where a kind lacks it, where it leads nowhere, and where it doesn't end at an attribute.
    """
    node = parse(text, "value")
    if not isinstance(node, tree.Path):
        raise fault(node, f"a place in the plan is one attribute, like cover or trench.cover; '{text.strip()}' is more than that")
    steps: list[_Step] = []
    at = node.start
    for word in node.words:
        end = at + len(word)
        by_kind = {kind: names.lookup((kind,), word) for kind in kinds}
        found = {kind: name for kind, name in by_kind.items() if name is not None}
        if len(found) < len(kinds):
            raise ExpressionFault(unknown_name(names, kinds, word), at, end)
        steps.append(_Step(word, found))
        if len(steps) == len(node.words):
            _check_last(word, found, at, end)
        else:
            kinds = _following(word, found, at, end)
        at = end + 1
    return PositionPath(text, tuple(steps))


def _following(word: str, found: Mapping[str, Name], at: int, end: int) -> tuple[str, ...]:
    kinds: dict[str, None] = {}
    for name in found.values():
        leads = name.type.of or name.type
        if leads.base != "element":
            raise ExpressionFault(f"'{word}' leads to no other statement, so nothing follows its dot", at, end)
        kinds.update(dict.fromkeys(leads.kinds))
    return tuple(kinds)


def _check_last(word: str, found: Mapping[str, Name], at: int, end: int) -> None:
    for kind, name in found.items():
        if not name.attribute:
            raise ExpressionFault(f"'{word}' of a {kind} stands nowhere in a plan; 'at' names an attribute", at, end)
