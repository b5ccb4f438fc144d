"""Sheets of a one-line diagram as SVG: readable text, a title and a description, links to the findings, one color only.

Everything is drawn in the color of the surrounding text, so that a page on a dark ground turns it with its words. Each element
has a group of its own with the id `element-NAME`, on the sheet on which its label stands.
"""

import math
from collections.abc import Iterable, Sequence
from xml.etree import ElementTree as ET

from planlint.output.layout import literal
from planlint.output.one_line.figures import Arc, Figure, Number, Pen, Ring, Words
from planlint.output.one_line.page import Sheet
from planlint.output.one_line.typeface import width
from planlint.papers.one_line.records import Drawing

_SVG = "http://www.w3.org/2000/svg"
_FONT = "Helvetica, Arial, 'Liberation Sans', sans-serif"
_PENS: dict[Pen, dict[str, str]] = {
    "power": {"stroke-width": "0.9"},
    "bus": {"stroke-width": "2.6"},
    "ground": {"stroke-width": "0.7", "stroke-dasharray": "2.4 1.2"},
    "earth": {"stroke-width": "0.8"},
    "fine": {"stroke-width": "0.5"},
    "planned": {"stroke-width": "0.8", "stroke-dasharray": "1.2 1.6"},
    "area": {"stroke-width": "0.6", "stroke-dasharray": "9 2.5 1.5 2.5"},
}


def one_line_svgs(drawing: Drawing, sheets: Sequence[Sheet]) -> list[str]:
    """One SVG document for each sheet."""
    return [_document(drawing, sheet, number, len(sheets)) for number, sheet in enumerate(sheets, start=1)]


def _document(drawing: Drawing, sheet: Sheet, number: int, count: int) -> str:
    title, told = f"one-line-title-{number}", f"one-line-desc-{number}"
    root = ET.Element(
        "svg",
        {
            "xmlns": _SVG,
            "width": f"{sheet.width / 72:.4g}in",
            "height": f"{sheet.height / 72:.4g}in",
            "viewBox": f"0 0 {_n(sheet.width)} {_n(sheet.height)}",
            "role": "img",
            "aria-labelledby": f"{title} {told}",
            "font-family": _FONT,
            "fill": "currentColor",
        },
    )
    of = f", sheet {number} of {count}" if count > 1 else ""
    ET.SubElement(root, "title", {"id": title}).text = f"One-line diagram of {literal(drawing.plan)}{of}"
    ET.SubElement(root, "desc", {"id": told}).text = literal(drawing.words)
    for owner, figures in _by_owner(sheet.figures).items():
        _add_group(root, owner, figures)
    ET.indent(root)
    return ET.tostring(root, encoding="unicode") + "\n"


def _by_owner(figures: Iterable[Figure]) -> dict[str, list[Figure]]:
    groups: dict[str, list[Figure]] = {}
    for figure in figures:
        groups.setdefault(figure.owner, []).append(figure)
    return groups


def _add_group(root: ET.Element, owner: str, figures: list[Figure]) -> None:
    group = ET.SubElement(root, "g")
    if owner:
        named = any(isinstance(figure, Words) and figure.names for figure in figures)
        group.set("id" if named else "class", f"element-{owner}")
        ET.SubElement(group, "title").text = owner
    for figure in figures:
        _add(group, figure)


def _add(group: ET.Element, figure: Figure) -> None:
    if isinstance(figure, Words):
        _add_words(group, figure)
    elif isinstance(figure, Number):
        _add_number(group, figure)
    elif isinstance(figure, Ring):
        ET.SubElement(
            group,
            "circle",
            {"cx": _n(figure.x), "cy": _n(figure.y), "r": _n(figure.radius), **_drawn(figure.pen, figure.filled)},
        )
    elif isinstance(figure, Arc):
        (x, y), (z, w) = figure.start, figure.end
        path = f"M {_n(x)} {_n(y)} A {_n(figure.radius)} {_n(figure.radius)} 0 0 {int(figure.clockwise)} {_n(z)} {_n(w)}"
        ET.SubElement(group, "path", {"d": path, **_drawn(figure.pen, False)})
    else:
        points = " ".join(f"{_n(x)},{_n(y)}" for x, y in figure.points)
        ET.SubElement(group, "polyline", {"points": points, **_drawn(figure.pen, figure.filled)})


def _drawn(pen: Pen, filled: bool) -> dict[str, str]:
    if filled:
        return {"fill": "currentColor", "stroke": "none"}
    return {"fill": "none", "stroke": "currentColor", **_PENS[pen]}


def _add_words(group: ET.Element, words: Words) -> None:
    weight = {"font-weight": "bold"} if words.bold else {}
    text = ET.SubElement(
        group,
        "text",
        {
            "x": _n(words.x),
            "y": _n(words.y),
            "font-size": _n(words.size),
            "textLength": _n(width(words.text, words.size, words.bold)),
            "lengthAdjust": "spacingAndGlyphs",
            **weight,
        },
    )
    text.text = words.text
    if words.whole:
        ET.SubElement(text, "title").text = words.whole


def _add_number(group: ET.Element, mark: Number) -> None:
    """The number in a thick circle for a correction, a thin one for a caution, a square for advice; it leads to the finding."""
    link = group
    if not mark.sample:
        link = ET.SubElement(group, "a", {"href": f"#finding-{mark.number}", "aria-label": f"{mark.severity} {mark.number}"})
    r = mark.radius
    if mark.severity == "advice":
        side = r * 1.8
        box = {"x": _n(mark.x - side / 2), "y": _n(mark.y - side / 2), "width": _n(side), "height": _n(side)}
        ET.SubElement(link, "rect", {**box, "fill": "none", "stroke": "currentColor", "stroke-width": "0.6"})
    else:
        heavy = "1.4" if mark.severity == "correction" else "0.5"
        inside = r - 0.7 if mark.severity == "correction" else r
        round_ = {"cx": _n(mark.x), "cy": _n(mark.y), "r": _n(inside)}
        ET.SubElement(link, "circle", {**round_, "fill": "none", "stroke": "currentColor", "stroke-width": heavy})
    text = str(mark.number)
    size = r * {1: 1.35, 2: 1.2}.get(len(text), 2.6 / len(text))
    own = width(text, size, bold=True)
    attributes = {"x": _n(mark.x - own / 2), "y": _n(mark.y + size * 0.36), "font-size": _n(size), "font-weight": "bold"}
    ET.SubElement(link, "text", attributes).text = text


def _n(number: float) -> str:
    """A number to a hundredth of a point, without a needless zero."""
    if not math.isfinite(number):
        raise ValueError(f"{number} is no place on a page")
    return f"{number:.2f}".rstrip("0").rstrip(".")
