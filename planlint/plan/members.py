"""A list whose end may not be known: what a plan shows of it, and what it would have to state to close it."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

from planlint.plan.elements import Element, Need, NotStated

E = TypeVar("E", bound=Element, covariant=True)  # a list of services is one of services and feeders
F = TypeVar("F", bound=Element)


@dataclass(frozen=True, slots=True)
class Members(Generic[E]):
    """The known members of a list, and the needs that leave it open (none: the list is whole).

    Iterating gives the known members only: use it where one member decides, and `whole` where all of them count.
    """

    known: tuple[E, ...]
    gaps: tuple[Need, ...] = ()

    def __iter__(self) -> Iterator[E]:
        return iter(self.known)

    def whole(self) -> tuple[E, ...]:
        """All members. Raises NotStated while there may be more."""
        if self.gaps:
            raise NotStated(*self.gaps)
        return self.known

    def some(self, test: Callable[[E], bool]) -> bool:
        """Whether one member passes: yes with one yes; otherwise not stated while a member or the list is open."""
        needs: list[Need] = []
        for member in self.known:
            try:
                if test(member):
                    return True
            except NotStated as gap:
                needs.extend(gap.needs)
        needs.extend(self.gaps)
        if needs:
            raise NotStated(*needs)
        return False

    def every(self: "Members[F]", test: Callable[[F], bool]) -> bool:
        """Whether all members pass: no with one no; otherwise not stated while a member or the list is open."""
        return not self.some(lambda member: not test(member))

    def where(self, test: Callable[[E], bool]) -> "Members[E]":
        """The members that pass; a member of which it isn't stated is left out and leaves the list open."""
        kept: list[E] = []
        needs: list[Need] = []
        for member in self.known:
            try:
                if test(member):
                    kept.append(member)
            except NotStated as gap:
                needs.extend(gap.needs)
        return Members(tuple(kept), merged(needs, self.gaps))

    def joined(self: "Members[F]", *others: "Members[F]") -> "Members[F]":
        """These members and those of the other lists, each once, in this order."""
        known = {id(member): member for part in (self, *others) for member in part.known}
        return Members(tuple(known.values()), merged(*(part.gaps for part in (self, *others))))


def merged(*needs: Iterable[Need]) -> tuple[Need, ...]:
    """Needs, each once, in the order met."""
    return tuple(dict.fromkeys(need for part in needs for need in part))


Part = tuple[Callable[[], bool], Callable[[], str]]


def broken_words(*parts: Part) -> list[str]:
    """Of parts, each a test and the words for its failure, the words of those that fail for certain."""
    found = []
    for holds, words in parts:
        try:
            if not holds():
                found.append(words())
        except NotStated:
            continue
    return found


def all_hold(*tests: Callable[[], bool]) -> bool:
    """Whether every test holds: no with one no; otherwise not stated, with what all of them need, while one is open."""
    needs: list[Need] = []
    for test in tests:
        try:
            if not test():
                return False
        except NotStated as gap:
            needs.extend(gap.needs)
    if needs:
        raise NotStated(*merged(needs))
    return True


def any_holds(*tests: Callable[[], bool]) -> bool:
    """Whether one test holds: yes with one yes; otherwise not stated, with what all of them need, while one is open."""
    return not all_hold(*(lambda test=test: not test() for test in tests))
