"""Characters that don't belong in a plan: letters of other scripts that look like ours, typeset signs, hidden characters.

Outside quotes and comments a plan takes the plain letters and signs of ASCII, so that a name is what it looks like. Inside
them every script is welcome, but no control character: they could change what a terminal or an editor shows.
"""

import re
import unicodedata

ODD = re.compile(r"[^\t\x20-\x7e]")
_HIDDEN = re.compile("[\x00-\x08\x0a-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff\ud800-\udfff]")
_QUOTES_OR_COMMENT = re.compile(r'"[^"]*"|#.*')
_WORD_END = re.compile(r"[ \t,;#\"]|$")

# What to write in place of a typeset sign.
_SIGNS = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "×": "x", "–": "-", "—": "-", "−": "-",
    "‑": "-", "‐": "-", "“": '"', "”": '"', "„": '"', "«": '"', "»": '"', "‘": '"', "’": '"', "\u2126": "ohm", "\u03a9": "ohm",
}  # fmt: skip
_SENTENCES = {
    "°": "Leave out the sign '°': write 86 F or 90 deg",
    "²": "Write sq ft or sq in, not the sign '²'",
    "′": "Write feet and inches in words, like 5 ft 6 in, not with the sign '′'",
    "″": "Write feet and inches in words, like 5 ft 6 in, not with the sign '″'",
}
# Letters of the Cyrillic and Greek scripts that are drawn like a plain letter.
_TWINS = dict(zip("аеорсхуіјѕһԁкмтнвАВЕЗКМНОРСТХУІЈЅοανρικυχ", "aeopcxyijshdkmthbABE3KMHOPCTXYIJSoavpikux", strict=True))


def strange(line: str) -> list[tuple[int, int, str]]:
    """What in this line doesn't belong in a plan: start, end and a message, one for each word."""
    found = []
    shielded = [match.span() for match in _QUOTES_OR_COMMENT.finditer(line)]
    done = 0
    for match in ODD.finditer(line):
        at = match.start()
        inside = any(start <= at < end for start, end in shielded)
        if at < done or (inside and not _HIDDEN.match(line, at)):
            continue
        end = _WORD_END.search(line, at + 1)
        done = at + 1 if match[0].isspace() or inside or end is None else end.start()
        found.append((at, at + 1, _message(match[0], line[at:done])))
    return found


def _message(character: str, word: str) -> str:
    code = f"U+{ord(character):04X}"
    if _is_hidden(character):
        return f"A hidden character ({code}) stands here; take it out"
    if character in _SENTENCES:
        return _SENTENCES[character]
    if character in _SIGNS:
        return f"'{character}' is written {_SIGNS[character]} in a plan"
    name = unicodedata.name(character, "no name").lower()
    if set(ODD.findall(word)) <= _TWINS.keys():
        return (
            f"This '{character}' is another script's letter ({code}, {name}) that only looks like the plain '{_TWINS[character]}'"
        )
    if character.isspace():
        return f"This space ({code}, {name}) is none of a plan's; write a plain one"
    return f"'{character}' ({code}, {name}) belongs inside quotes only; names and words are in plain letters, a to z"


def _is_hidden(character: str) -> bool:
    return unicodedata.category(character)[0] == "C" or _HIDDEN.match(character) is not None


def plain(line: str) -> str:
    """The line with plain letters for the strange ones and without hidden ones: to find the names in it, nothing more."""
    return ODD.sub(lambda match: _plain(match[0]), line)


def _plain(character: str) -> str:
    if character in _TWINS or len(_SIGNS.get(character, "")) == 1:
        return _TWINS.get(character) or _SIGNS[character]
    if _is_hidden(character):
        return ""
    if character.isspace():
        return " "
    first = unicodedata.normalize("NFKD", character)[0]
    return first if first.isascii() and first.isprintable() else "x"
