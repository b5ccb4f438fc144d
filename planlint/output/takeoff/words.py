"""The words of a material list that its text, its page and its table share."""

from collections.abc import Iterable

from planlint.papers.material.packages import Package
from planlint.papers.material.takeoff import Line, bought
from planlint.papers.material.wanted import LeftOut

LEAD = "Lengths are those of the plan with what ends take and waste. What the plan doesn't state is named below, not guessed."


def quantity_words(line: Line) -> str:
    """How much to buy: `14`, `350 ft`."""
    return f"{bought(line):,.0f}" + ("" if line.length is None else " ft")


def amount_words(line: Line) -> str:
    """What the plan needs: `14`, `330 ft in 7 pieces`."""
    if line.length is None:
        return str(line.pieces)
    feet = f"{line.length.within('ft'):,.1f} ft"
    return f"{feet} in {line.pieces} pieces" if line.pieces > 1 else feet


def bought_words(line: Line) -> str:
    """What to ask for: `1 coil of 250 ft, 1 coil of 100 ft`; nothing beyond the count for pieces."""
    if line.length is None:
        return str(line.pieces)
    if line.packages is None:
        return "longer than any package: order it uncut"
    return ", ".join(_package(package) for package in line.packages)


def _package(package: Package) -> str:
    feet = package.length.within("ft")
    if package.word == "foot":
        return f"{package.count} ft, cut to length"
    word = package.word if package.count == 1 else f"{package.word}s"
    return f"{package.count} {word} of {feet:g} ft"


def serves_words(line: Line) -> str:
    """The statements that it serves."""
    return ", ".join(subject.name for subject in line.serves)


def left_out_words(left: LeftOut) -> str:
    """`4 AWG copper wire, bare, of footing-wire: length is not stated`."""
    needs = ", ".join(_needed(left)) or "something"
    return f"{left.item}, of {left.subject.name}: {needs} {'is' if len(left.unknown.needs) < 2 else 'are'} not stated"


def _needed(left: LeftOut) -> Iterable[str]:
    for need in left.unknown.needs:
        if need.complete:
            yield f"complete {need.complete}"
        elif need.note:
            yield need.note
        elif need.subject == left.subject:
            yield need.attribute
        else:
            yield f"{need.attribute} of {need.subject.name}"


def price_words(amount: float) -> str:
    """An amount of money, in whatever currency the list is."""
    return f"{amount:,.2f}"
