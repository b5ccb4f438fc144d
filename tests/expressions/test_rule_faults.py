"""What is refused before any plan is read: names that don't exist, values that can't be held against each other."""

from collections.abc import Callable

import pytest

from planlint.expressions import compile_condition

Told = Callable[..., tuple[str, str]]


REFUSED = """
# names

panel: buss >= 100 A
  at buss
  'buss' is no attribute, fact or setting of a panel. Did you mean 'bus'?

panel: zzzz
  at zzzz
  'zzzz' is no attribute, fact or setting of a panel.

panel: at.outdoor
  at outdoor
  'outdoor' is no attribute, fact or setting of a place. Did you mean 'outdoors'?

panel: bus-load-amps > 0 A
  at bus-load-amps
  'bus-load-amps' is one name; a minus has a space on both sides, like bus - load-amps

panel: jam-ratio-1 > 2
  at jam-ratio-1
  'jam-ratio-1' is one name; a minus has a space on both sides, like jam-ratio - 1

panel, feeder: bus > 1 A
  at bus
  'bus' is not known of feeder, only of panel; name a fact that all of them have

panel, feeder: neutral is bonded
  at neutral
  'neutral' is of different types on panel and feeder; name a fact that is of one type on all of them

feeder: from.interrupting > 1 kA
  at interrupting
  'interrupting' is not known of supply, only of disconnect, panel and transfer-switch; name a fact that all of them have

circuit: trench.cover > 1 in
  at trench
  'trench' is a list; write some, every or no trench has (cover ...), or name a fact

panel: bus.name is a
  at bus
  'bus' leads to no other statement, so nothing follows its dot

panel: some services has (bus > 1 A)
  at bus
  'bus' is no attribute, fact or setting of a service.

# units and types

panel: cover >= 20 A
  at cover >= 20 A
  'cover' is a length, '20 A' is a current: they can't be held against each other

panel: 20 A <= cover
  at 20 A <= cover
  '20 A' is a current, 'cover' is a length: they can't be held against each other

panel: cover >= load-amps
  at cover >= load-amps
  'cover' is a length, 'load-amps' is a current: they can't be held against each other

panel: cover >= 18
  at 18
  '18' has no unit; 'cover' is a length, like 6 ft 7 in

panel: 0 < cover
  at 0
  '0' has no unit; 'cover' is a length, like 6 ft 7 in

panel: spaces >= 3 %
  at spaces >= 3 %
  'spaces' is a number, '3 %' is a percent: they can't be held against each other

panel: cover >= 3 ft 2 A
  at 3 ft 2 A
  ~ is a current

panel: cover >= 1/0 in
  at 1/0 in
  '1/0' divides by zero

panel: cover >= -2 in
  at -2
  a length is never below zero

panel: 18 in <= cover <= 24 in
  at 18 in <= cover <= 24 in
  a comparison has two sides; join two of them with and, like cover >= 18 in and cover <= 24 in

bond: size >= 6 AWG
  at 6 AWG
  '6 AWG' has no metal, and sizes are compared within one; write it like 6 AWG copper

bond: size = 6 AWG copper
  at size = 6 AWG copper
  sizes are asked for with is, like size is 6 AWG copper

raceway: size = 2 in
  at size = 2 in
  sizes are asked for with is, like size is 2 in

raceway: size >= 2 m
  at 2 m
  ~ a trade size is in inches

panel: main >= 60 A
  at main >= 60 A
  'main' is a quantity or lugs; name a fact that is a quantity alone

panel: at > 1 A
  at at > 1 A
  'at' is a place, '1 A' is a current: they can't be held against each other

# signs and words

panel: neutral = isolated
  at neutral = isolated
  words are asked for with is, like neutral is isolated

panel: neutral = isolatd
  at neutral = isolatd
  words are asked for with is, like neutral is isolated

panel: neutral = neutral-wanted
  at neutral = neutral-wanted
  'neutral' is a word; two names with words are compared like neutral is same as ...

panel: neutral >= 2
  at neutral >= 2
  'neutral' is a word; words are asked for like neutral is bonded

panel: bus is 200 A
  at bus is 200 A
  'bus' is a current; values are compared with signs, like bus = 200 A

panel: spaces is 40
  at spaces is 40
  'spaces' is a number; values are compared with signs, like spaces = 40

panel: neutral is isolatd
  at isolatd
  'isolatd' is no word of 'neutral'; they are bonded, isolated. Did you mean 'isolated'?

panel: neutral is none
  at none
  'none' is no word of 'neutral'; they are bonded, isolated. Did you mean 'bonded'?

electrode: type in [rod, pype]
  at pype
  ~ 'pype' is no word of 'type'; they are

electrode: type is banned-places
  at banned-places
  'banned-places' is a list, 'type' a word

panel: main is lug
  at lug
  'lug' is no word of 'main'; they are lugs. Did you mean 'lugs'?

panel: neutral is wanted-type
  at wanted-type
  'rod' is no word of 'neutral'; they are bonded, isolated.

panel: temporary = yes
  at temporary = yes
  'temporary' is yes or no by itself; write temporary, or not temporary

panel: temporary is yes
  at temporary is yes
  'temporary' is yes or no by itself; write temporary, or not temporary

panel: marking is service-disconnect
  at marking is service-disconnect
  'marking' is a list; write marking includes service-disconnect

panel: marking = 2
  at marking = 2
  'marking' is a list; write marking includes ..., count(marking), or some marking has (...)

panel: marking includes service-disconect
  at service-disconect
  ~ 'service-disconect' is no word of 'marking'; they are

panel: neutral includes bonded
  at neutral includes bonded
  'neutral' is a word, not a list; write neutral is bonded

raceway: holds includes 4 AWG copper
  at holds includes 4 AWG copper
  'holds' is a list of wires, which are more than their size; name a fact that asks about them

panel: at is yard
  at at is yard
  'at' is a place, not a word; ask about one of its own names after a dot, like at.name

panel: name is house-panel
  at name is house-panel
  'name' is a text, not one of a few words, so no word can be asked for

panel: bus is none
  at none
  'bus' is never none

panel: bus is same as load-amps
  at bus is same as load-amps
  'is same as' stands between two names with words; 'bus' is a current; values are compared with signs, like bus = load-amps

panel: neutral is same as room
  at neutral is same as room
  'neutral' and 'room' have no word in common, so they are never the same

panel: load-amps is stated
  at load-amps is stated
  'load-amps' is worked out or set, not stated in a plan; ask about the attributes that it rests on

panel: (bus + bus) in [1 A]
  at bus + bus
  words are asked about a name, like neutral is isolated; 'bus + bus' is none

panel: bus in [100 A, 18 in]
  at 18 in
  '18 in' is a length, 'bus' a current

panel: bus in spaces
  at spaces
  'spaces' is a number, not a list; a list in brackets is written like [rod, pipe]

panel: bus in banned-places
  at banned-places
  'bus' is a current, and each of 'banned-places' a word

panel: neutral in banned-places
  at banned-places
  'bathroom' is no word of 'neutral'; they are bonded, isolated.

panel: temporary in [yes]
  at temporary in [yes]
  'temporary' is yes or no; 'in' asks whether one value is in a list

# lists and conditions

panel: some bus has (temporary)
  at bus
  'bus' is a current, not a list; 'has' is asked of the members of a list

panel: some marking has (temporary)
  at marking
  the members of 'marking' have no names of their own; write marking includes ...

panel: count(bus) > 1
  at bus
  'bus' is a current, not a list; only lists are counted

panel: bus
  at bus
  'bus' is a current, which is neither yes nor no; ask something about it, like bus >= 20 A

panel: neutral
  at neutral
  'neutral' is a word, which is neither yes nor no; ask something about it, like neutral is bonded

panel: services
  at services
  'services' is a list, which is neither yes nor no; ask something about it, like count(services) > 0

panel: at or temporary
  at at
  'at' is a place, which is neither yes nor no; ask something about it, like at is stated

panel: not spaces
  at spaces
  'spaces' is a number, which is neither yes nor no; ask something about it, like spaces > 0

panel: bus > (temporary or lit)
  at temporary or lit
  'temporary or lit' is a condition; a value belongs here

# arithmetic

panel: bus + cover > 1 A
  at bus + cover
  a current and a length can't be put together with '+'; both sides are of one dimension

panel: bus + 3 % > 1 A
  at bus + 3 %
  a current and a percent can't be put together with '+'; both sides are of one dimension

panel: bus * bus > 1 A
  at bus * bus
  a current and a current can't be multiplied; one side is a plain number or a percent

panel: 2 * neutral > 1 A
  at 2 * neutral
  a number and a word can't be multiplied; one side is a plain number or a percent

panel: 2 / bus > 1 A
  at 2 / bus
  a number and a current can't be divided; the right side is a plain number, a percent, or of the same dimension

panel: hottest + 10 F > 1 F
  at hottest + 10 F
  degrees of temperature can't be added or multiplied like amounts; name a fact that works it out

panel: 2 * hottest > 1 F
  at 2 * hottest
  degrees of temperature can't be added or multiplied like amounts; name a fact that works it out
"""


def rows() -> list[tuple[str, tuple[str, ...], str, str]]:
    """The table above: kinds and text, the part at fault, the message (after a ~ the part of it that is told of here)."""
    found = []
    for row in REFUSED.strip().split("\n\n"):
        if not row.startswith("#"):
            first, at, message = row.splitlines()
            kinds, _, text = first.partition(": ")
            found.append((text, tuple(kinds.split(", ")), at.removeprefix("  at "), message.removeprefix("  ")))
    return found


@pytest.mark.parametrize(("text", "kinds", "at", "message"), rows())
def test_refused_with_reason_and_place(fault_of: Told, text: str, kinds: tuple[str, ...], at: str, message: str) -> None:
    part, told = fault_of(text, *kinds)
    assert part == at
    if message.startswith("~ "):
        assert message.removeprefix("~ ") in told
    else:
        assert told == message


@pytest.mark.parametrize(
    "text",
    [
        "load-va >= 7.6 kW", "load-va = 1 hp", "cover >= 50 cm", "cover >= 1 ft 6 in", "hottest <= 104 F", "drop <= most-drop",
        "load-amps / bus <= 80 %", "load-amps / bus <= 0.8", "spaces / 2 <= 10", "80 % * bus >= load-amps", "spaces * 50 % >= 3",
        "load-amps * 125 % / 2 + 5 A - load-near <= bus", "drop + 1 % <= most-drop", "100 % - drop >= 97 %",
        "main is lugs", "wire-always", "yes", "not no", "ground-size >= least-bond", "ground-size is least-bond",
        "not (lit or torqued)",
        "bus in ratings-allowed", "bus in [100 A, 200 A]", "spaces in [20, 40]", "room in banned-places", "at in rooms-near",
        "service-disconnect is none", "plan.lines-located", "plan.edition is 2020", "neutral is same as neutral-wanted",
    ],
)  # fmt: skip
def test_accepted(names: object, text: str) -> None:
    assert compile_condition(text, ("panel",), names).text == text


def test_the_first_words_read_are_known(names: object) -> None:
    """So that a setting nobody reads can be found: in lists, after `is`, and inside `has` too."""
    text = "cover >= least-cover and room in banned-places and some bonds has (size >= least-bond) or at.outdoors"
    read = compile_condition(text, ("panel",), names).names_read
    assert read == {"cover", "least-cover", "room", "banned-places", "bonds", "size", "least-bond", "at"}
    assert compile_condition("type is wanted-type", ("electrode",), names).names_read == {"type", "wanted-type"}
