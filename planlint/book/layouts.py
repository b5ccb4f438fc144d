"""What each table of `rules/tables/` is: its name in the trade, its columns, the columns that name a row, what to cite for it."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from planlint.quantities import Length, Percent, Power, Unreadable
from planlint.trade import SIZES, Dimensions, TradeSize

Kind = Callable[[str], object]


@dataclass(frozen=True, slots=True)
class Layout:
    """One table. `title` is for messages; `sources` are the citations in the order of EDITIONS.

    `columns` are those of the file but the last, `status`; each has the kind that a profile's cell must be readable as.
    """

    title: str
    key: tuple[str, ...]
    columns: Mapping[str, Kind]
    sources: tuple[str, str, str]


def word(text: str) -> str:
    """A cell that may say anything."""
    return text


def number(text: str) -> float:
    """A cell with a plain number, never below zero. Raises Unreadable."""
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not (math.isfinite(value) and value >= 0):
        raise Unreadable(f"'{text}' is not a number; write it like 12 or 0.94, without a unit")
    return value


def year(text: str) -> int:
    """A cell with an edition. Raises Unreadable."""
    if not (text.isascii() and text.isdigit() and len(text) == 4):
        raise Unreadable(f"'{text}' is no edition; write it like 2020")
    return int(text)


def wire(text: str) -> str:
    """A cell with a wire size without its unit. Raises Unreadable."""
    if text not in SIZES:
        raise Unreadable(f"'{text}' is no wire size; write it like 4, 4/0 or 250, without AWG or kcmil")
    return text


def permit(text: str) -> str:
    """A cell that allows, forbids, or allows what is marked for it. Raises Unreadable."""
    if text not in ("yes", "no", "marked"):
        raise Unreadable(f"'{text}' is none of yes, no and marked")
    return text


def row_end(text: str) -> str:
    """A cell with the largest wire of a row, of any number of kcmil, or `larger` in the last row. Raises Unreadable."""
    return text if text == "larger" or (text.isascii() and text.isdigit()) else wire(text)


def wire_or_share(text: str) -> object:
    """A cell with a wire size, or a percent of the circular mils. Raises Unreadable."""
    return Percent.read(text) if text.endswith("%") else wire(text)


def trade_size(text: str) -> TradeSize:
    """A cell with a trade size without its unit. Raises Unreadable."""
    return TradeSize.read(f"{text} in")


def box(text: str) -> Dimensions:
    """A cell with the dimensions of a box, without their unit. Raises Unreadable."""
    return Dimensions.read(f"{text} in")


def demand_limit(text: str) -> object:
    """A cell with a power or a percent. Raises Unreadable."""
    return Percent.read(text) if text.endswith("%") else Power.read(text)


def _alike(citation: str) -> tuple[str, str, str]:
    return (citation, citation, citation)


def _nfpa(*numbers: str) -> tuple[str, str, str]:
    first, second, third = (f"NFPA 70 {each}" for each in numbers)
    return (first, second, third)


_PAIR: Mapping[str, Kind] = {"copper": wire, "aluminum": wire}

LAYOUTS: Mapping[str, Layout] = {
    "ampacity": Layout(
        "the table of ampacities",
        ("size", "metal", "column"),
        {"size": wire, "metal": word, "column": number, "amperes": number, "before-2011": number},
        _nfpa("Table 310.15(B)(16)", "Table 310.16", "Table 310.16"),
    ),
    "ambient-correction": Layout(
        "the table of factors for ambient temperature",
        ("to",),
        {"to": number, "from": number, "fahrenheit": word, "column-60": number, "column-75": number, "column-90": number},
        _nfpa("Table 310.15(B)(2)(a)", "Table 310.15(B)(1)", "Table 310.15(B)(1)(1)"),
    ),
    "conductor-count": Layout(
        "the table of factors for more than three wires",
        ("from",),
        {"from": number, "to": number, "percent": number},
        _nfpa("Table 310.15(B)(3)(a)", "Table 310.15(C)(1)", "Table 310.15(C)(1)"),
    ),
    "dwelling-service": Layout(
        "the table of dwelling services and feeders",
        ("rating",),
        {"rating": number, **_PAIR},
        _nfpa("310.15(B)(7)", "Table 310.12", "Table 310.12(A)"),
    ),
    "equipment-ground": Layout("Table 250.122", ("rating",), {"rating": number, **_PAIR}, _alike("NFPA 70 Table 250.122")),
    "electrode-conductor": Layout(
        "Table 250.66", ("copper-to",), {"copper-to": row_end, "aluminum-to": row_end, **_PAIR}, _alike("NFPA 70 Table 250.66")
    ),
    "bonding-jumper": Layout(
        "Table 250.102(C)(1)",
        ("copper-to",),
        {"copper-to": row_end, "aluminum-to": row_end, "copper": wire_or_share, "aluminum": wire_or_share},
        _alike("NFPA 70 Table 250.102(C)(1)"),
    ),
    "standard-ratings": Layout(
        "Table 240.6(A)",
        ("rating", "device"),
        {"rating": number, "device": word, "from-edition": year},
        _alike("NFPA 70 Table 240.6(A)"),
    ),
    "small-conductors": Layout(
        "240.4(D)",
        ("size", "metal"),
        {"size": wire, "metal": word, "amperes": number, "from-edition": year},
        _alike("NFPA 70 240.4(D)"),
    ),
    "burial-cover": Layout(
        "the table of cover",
        ("location",),
        {"location": word}
        | dict.fromkeys(("direct-burial", "rigid-metal", "nonmetallic", "gfci-branch", "low-voltage", "concrete"), number),
        _nfpa("Table 300.5", "Table 300.5", "Table 300.5(A)"),
    ),
    "raceway-fill": Layout(
        "Chapter 9 Table 1", ("wires",), {"wires": word, "percent": number}, _alike("NFPA 70 Chapter 9 Table 1")
    ),
    "raceway-inside": Layout(
        "Chapter 9 Table 4",
        ("type", "size"),
        {"type": word, "size": trade_size, "inside-diameter": number, "area": number},
        _alike("NFPA 70 Chapter 9 Table 4"),
    ),
    "raceway-outside": Layout(
        "the table of outside diameters",
        ("size",),
        {"size": trade_size, "pipe": number, "emt": number, "imc": number},
        _alike("ASME B36.10M; UL 797, UL 1242"),
    ),
    "conductor-area": Layout(
        "Chapter 9 Table 5",
        ("insulation", "size"),
        {"insulation": word, "size": wire, "diameter": number, "area": number},
        _alike("NFPA 70 Chapter 9 Table 5"),
    ),
    "conductor-properties": Layout(
        "Chapter 9 Table 8",
        ("size", "stranding"),
        {"size": wire, "stranding": word}
        | dict.fromkeys(
            ("circular-mils", "strands", "strand-diameter", "diameter", "area", "copper", "copper-coated", "aluminum"), number
        ),
        _alike("NFPA 70 Chapter 9 Table 8"),
    ),
    "impedance": Layout(
        "Chapter 9 Table 9",
        ("size", "metal", "conduit"),
        {"size": wire, "metal": word, "conduit": word, "resistance": number, "reactance": number, "impedance": number},
        _alike("NFPA 70 Chapter 9 Table 9"),
    ),
    "fault-constants": Layout(
        "the table of constants for fault current",
        ("size", "metal"),
        {"size": wire, "metal": word, "steel": number, "nonmagnetic": number},
        _alike("point-to-point method, table of conductor constants"),
    ),
    "bend-radius": Layout(
        "Chapter 9 Table 2",
        ("size",),
        {"size": trade_size, "one-shot": number, "other": number},
        _alike("NFPA 70 Chapter 9 Table 2"),
    ),
    "working-space": Layout(
        "the table of working space",
        ("item", "volts-to", "condition"),
        {"item": word, "volts-to": number, "condition": number, "value": Length.read},
        _alike("NFPA 70 110.26(A)"),
    ),
    "box-volume": Layout(
        "Table 314.16(A)",
        ("shape", "size"),
        {"shape": word, "size": box, "volume": number},
        _alike("NFPA 70 Table 314.16(A)"),
    ),
    "box-allowance": Layout(
        "the table of room for one wire in a box",
        ("size",),
        {"size": wire, "volume": number},
        _nfpa("Table 314.16(B)", "Table 314.16(B)(1)", "Table 314.16(B)(1)"),
    ),
    "expansion": Layout(
        "the table of expansion",
        ("type",),
        {"type": word, "coefficient": number},
        _nfpa("Table 352.44", "Table 352.44(A)", "Table 352.44(A)"),
    ),
    "supports": Layout(
        "the table of supports",
        ("type", "size-to"),
        {"type": word, "size-to": trade_size, "spacing": number, "threaded": number, "first": number},
        _alike("NFPA 70, section .30 of the article on the raceway or cable"),
    ),
    "raceway-places": Layout(
        "the table of places for raceways",
        ("type",),
        {"type": word} | dict.fromkeys(("soil", "concrete", "weather", "indoors"), permit),
        _alike("NFPA 70, sections .10 and .12 of the article on the raceway"),
    ),
    "insulations": Layout(
        "the table of insulations",
        ("insulation",),
        {"insulation": word, "dry": number, "wet": number, "area-row": word},
        _nfpa("Table 310.104(A)", "Table 310.4(A)", "Table 310.4(1)"),
    ),
    "cable-grounds": Layout(
        "the table of ground wires in cables",
        ("type", "size"),
        {"type": word, "size": wire, "ground": wire},
        _alike("UL 719 and UL 493"),
    ),
    "lighting-demand": Layout(
        "the table of lighting demand",
        ("over",),
        {"over": number, "to": number, "percent": number},
        _nfpa("Table 220.42", "Table 220.42", "Table 220.45"),
    ),
    "range-demand": Layout(
        "Table 220.55",
        ("from",),
        dict.fromkeys(("from", "to", "column-a", "column-b", "column-c", "column-c-each"), number),
        _alike("NFPA 70 Table 220.55"),
    ),
    "dryer-demand": Layout(
        "Table 220.54",
        ("from",),
        dict.fromkeys(("from", "to", "percent", "less-each"), number),
        _alike("NFPA 70 Table 220.54"),
    ),
    "demand-limits": Layout(
        "220.54 and 220.55", ("item",), {"item": word, "value": demand_limit}, _alike("NFPA 70 220.54, 220.55")
    ),
    "receptacle-ratings": Layout(
        "Table 210.21(B)(3)",
        ("circuit",),
        dict.fromkeys(("circuit", "least", "most"), number),
        _alike("NFPA 70 Table 210.21(B)(3)"),
    ),
    "motor-current": Layout(
        "Table 430.248",
        ("horsepower", "volts"),
        {"horsepower": word, "volts": number, "volts-from": number, "volts-to": number, "amperes": number},
        _alike("NFPA 70 Table 430.248"),
    ),
    "code-letters": Layout(
        "Table 430.7(B)",
        ("letter",),
        {"letter": word, "from": number, "to": number},
        _alike("NFPA 70 Table 430.7(B)"),
    ),
    "sold-as": Layout(
        "the table of packages",
        ("thing", "package"),
        {"thing": word, "package": number, "word": word},
        _alike("common practice, no source"),
    ),
}
