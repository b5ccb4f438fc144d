"""The words of a panel schedule that its text, its page and its table share."""

from planlint.papers.docket import Unknown
from planlint.papers.schedule import Breaker, PanelSchedule, Total
from planlint.quantities import Power

LEFT_OUT = "not stated"
_NOTHING = Power.of(0, "VA")
LEGS = "Load with everything on, no demand factor applied; legs taken by the panel's rows (common practice, no source)."


def said(value: object) -> str:
    """A value as it is shown, or that the plan leaves it out."""
    return LEFT_OUT if isinstance(value, Unknown) else str(value)


def volt_amperes(power: Power | Unknown) -> str:
    """Volt-amperes, whole ones."""
    return LEFT_OUT if isinstance(power, Unknown) else f"{power.within('VA'):,.0f}"


def leg_words(one: Breaker) -> str:
    """`leg A 1,500 VA`; of two poles what it puts on each leg."""
    shares = [(word, share) for word, share in (("A", one.leg_a), ("B", one.leg_b)) if share != _NOTHING]
    if not shares:
        return "no load shown"
    if all(isinstance(share, Unknown) for _, share in shares):
        return f"load {LEFT_OUT}"
    return (
        ("leg " if len(shares) == 1 else "legs ") + ", ".join(f"{word} {volt_amperes(share)}" for word, share in shares) + " VA"
    )


def total_words(total: Total) -> str:
    """A leg's total; "at least" where a share isn't known."""
    if total.at_least and total.power == _NOTHING:
        return LEFT_OUT
    return ("at least " if total.at_least else "") + f"{volt_amperes(total.power)} VA"


def breaker_words(one: Breaker) -> str:
    """`20 A`, `50 A 2-pole`."""
    if isinstance(one.poles, Unknown):
        return f"{said(one.rating)}, poles {LEFT_OUT}"
    return said(one.rating) + (f" {one.poles}-pole" if one.poles != 1 else "")


def protection_words(one: Breaker) -> str:
    """`AFCI, GFCI`; nothing for a plain breaker."""
    if isinstance(one.protection, Unknown):
        return f"protection {LEFT_OUT}"
    return ", ".join(word.upper() if "-" not in word else "AFCI at the first outlet" for word in one.protection)


def spaces_words(one: Breaker) -> str:
    """`1, 3`."""
    return LEFT_OUT if isinstance(one.spaces, Unknown) else ", ".join(map(str, one.spaces))


def free_words(panel: PanelSchedule) -> str:
    """`20 of 40 spaces free: 21-40`, with what may still take some of them."""
    if isinstance(panel.free, Unknown) or isinstance(panel.spaces, Unknown):
        return f"Spaces {LEFT_OUT}."
    ranges: list[list[int]] = []
    for space in panel.free:
        if ranges and ranges[-1][1] == space - 1:
            ranges[-1][1] = space
        else:
            ranges.append([space, space])
    listed = ", ".join(f"{first}-{last}" if first != last else str(first) for first, last in ranges)
    words = f"{len(panel.free)} of {panel.spaces} spaces free" + (f": {listed}." if listed else ".")
    if panel.unplaced:
        words += f" {len(panel.unplaced)} below name no space yet."
    if not panel.complete:
        words += " The plan doesn't say that all circuits and feeders are shown."
    return words


def head_words(panel: PanelSchedule) -> list[tuple[str, str]]:
    """The head of a schedule: what is asked and what the plan says."""
    return [
        ("Place", said(panel.place)),
        ("Volts", said(panel.volts)),
        ("Bus", said(panel.bus)),
        ("Main", said(panel.main)),
        ("Fed by", said(panel.fed_by)),
        ("Breaker ahead", said(panel.ahead)),
        ("Its breakers can break", said(panel.interrupting)),
        ("Fault current there", said(panel.fault)),
    ]


def balance_words(panel: PanelSchedule) -> str:
    """Totals of the legs and how far they are apart."""
    words = f"Leg A {total_words(panel.leg_a)}, leg B {total_words(panel.leg_b)}"
    return words + (f"; {volt_amperes(panel.imbalance)} VA apart." if panel.imbalance is not None else ".")
