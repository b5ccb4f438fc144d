"""The nearest right word to a wrong one, for every message that proposes one."""

from collections.abc import Collection, Iterable


def nearest(word: str, known: Collection[str]) -> str | None:
    """The known word that was most likely meant: the only one that goes on with a hyphen, else a slip's; None if none is near."""
    longer = [each for each in known if each.startswith(f"{word}-")]
    if len(longer) == 1:
        return longer[0]
    from difflib import get_close_matches  # only a plan with an error pays for it

    by_lower = {each.lower(): each for each in known}
    found = get_close_matches(word.lower(), list(by_lower), n=1, cutoff=0.6)
    return by_lower[found[0]] if found else None


def proposal(word: str, known: Iterable[str]) -> str:
    """A sentence that proposes the nearest word, or nothing."""
    meant = nearest(word, tuple(known))
    return f" Did you mean '{meant}'?" if meant and meant != word else ""
