"""The profiles of one plan in the order of their layers: each one's bases first, down to the model edition."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from planlint.book.records import ProfileRecord
from planlint.book.shelves import NOWHERE, Shelf, find_profile, profile_names
from planlint.faults import Fault, Faults
from planlint.positions import Span


@dataclass(frozen=True, slots=True)
class Stack:
    """`named` are those that the plan names, `profiles` all with their bases, the most general first.

    `ancestors` leads from a profile to those it is based on, however far; one that cuts across localities lies on top of every
    locality beside it. `notes` says which names are out of date.
    """

    named: tuple[ProfileRecord, ...]
    profiles: tuple[ProfileRecord, ...]
    ancestors: Mapping[str, frozenset[str]]
    edition: int
    notes: tuple[Fault, ...]

    def chain(self, profile: ProfileRecord) -> list[ProfileRecord]:
        """The profile and all that it is based on, the most general first."""
        return [one for one in self.profiles if one.name in self.ancestors[profile.name] or one is profile]

    def is_across(self, profile: ProfileRecord) -> bool:
        """Whether it is based on no model edition, and so cuts across localities."""
        return not any(one.edition for one in _own_chain(profile, {one.name: one for one in self.profiles}))


def stack_profiles(names: Sequence[str], where: Sequence[Shelf]) -> Stack:
    """Find the named profiles and their bases.

    Raises Faults for a profile that is missing, found twice, wrong in its file or based on itself, for none at all, for two
    editions and for no edition.
    """
    if not names:
        there = ", ".join(profile_names(where))
        raise Faults([Fault(NOWHERE, f"no profile and no edition is named; there are: {there}")])
    finding = _Finding(where)
    named = tuple(dict.fromkeys(finding.find(name, NOWHERE).name for name in names))
    for name in named:
        finding.follow(name)
    chains = [_own_chain(finding.found[name], finding.found) for name in named]
    chains.sort(key=lambda chain: not chain[0].edition)  # stable: those that cut across localities come last
    profiles = tuple({one.name: one for chain in chains for one in chain}.values())
    return Stack(
        tuple(finding.found[name] for name in named),
        profiles,
        _ancestors(chains),
        _edition(profiles),
        tuple(finding.notes),
    )


class _Finding:
    """Finds profiles, each once."""

    def __init__(self, where: Sequence[Shelf]) -> None:
        self.where = where
        self.found: dict[str, ProfileRecord] = {}
        self.notes: list[Fault] = []

    def find(self, name: str, at: Span) -> ProfileRecord:
        """The profile of that name, kept. What is wrong with the name stands at `at`."""
        if name in self.found:
            return self.found[name]
        try:
            record = find_profile(name, self.where)
        except Faults as found:
            raise Faults(Fault(at if fault.span == NOWHERE else fault.span, fault.message) for fault in found.faults) from None
        if record.name != name:
            self.notes.append(Fault(at, f"the profile '{name}' is called '{record.name}' now"))
        return self.found.setdefault(record.name, record)

    def follow(self, name: str) -> None:
        """Find all that a profile is based on. Raises Faults where it is based on itself."""
        chain = [self.found[name]]
        while chain[-1].based_on:
            base = self.find(chain[-1].based_on.text, chain[-1].based_on.span)
            chain.append(base)
            if base in chain[:-1]:
                circle = ", which is based on ".join(one.name for one in chain[chain.index(base) :])
                raise Faults([Fault(chain[-2].based_on.span if chain[-2].based_on else NOWHERE, f"{circle}: a circle")])


def _own_chain(profile: ProfileRecord, found: Mapping[str, ProfileRecord]) -> list[ProfileRecord]:
    chain = [profile]
    while chain[0].based_on:
        chain.insert(0, _by_name(chain[0].based_on.text, found))
    return chain


def _by_name(name: str, found: Mapping[str, ProfileRecord]) -> ProfileRecord:
    return found.get(name) or next(one for one in found.values() if name in one.renamed)


def _ancestors(chains: Iterable[list[ProfileRecord]]) -> dict[str, frozenset[str]]:
    ancestors: dict[str, frozenset[str]] = {}
    models: set[str] = set()
    for chain in chains:
        models.update(one.name for one in chain if one.edition)
        below = set() if chain[0].edition else models
        for number, one in enumerate(chain):
            ancestors[one.name] = frozenset(below | {other.name for other in chain[:number]})
    return ancestors


def _edition(profiles: Iterable[ProfileRecord]) -> int:
    models = [one for one in profiles if one.edition]
    editions = {one.edition for one in models if one.edition}
    if len(editions) == 1:
        return editions.pop()
    if editions:
        both = " and ".join(one.name for one in models)
        raise Faults([Fault(models[-1].span, f"these profiles rest on two editions, {both}; a plan is held against one")])
    names = " and ".join(f"'{one.name}'" for one in profiles)
    message = f"{names} rests on no edition; name it beside a model edition or a locality that is based on one"
    raise Faults([Fault(NOWHERE, message)])
