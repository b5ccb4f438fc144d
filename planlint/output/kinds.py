"""How several elements of one kind are called."""

_PLURALS = {"box": "boxes", "supply": "supplies", "trench": "trenches", "transfer-switch": "transfer-switches"}


def plural(kind: str) -> str:
    """`circuits`, `trenches`; `lights`, `holes` and `piping` as they are."""
    return kind if kind.endswith(("s", "piping")) else _PLURALS.get(kind, f"{kind}s")
