"""Values that their attribute's type can't read, and what is said of them."""

from collections.abc import Callable

import pytest

FaultsOf = Callable[[str], list[tuple[int, int, int, str]]]

# The text; and of each fault its line, column, end column and message.
CASES = {
    "a misspelt choice": ("trench a\n  under drivway", [(2, 9, 16, "'drivway' can't stand here. Did you mean 'driveway'?")]),
    "a choice with capital letters": ("raceway a\n  type emt", [(2, 8, 11, "'emt' can't stand here. Did you mean 'EMT'?")]),
    "a word that is no choice": (
        "trench a\n  under moon",
        [(2, 9, 13, "'moon' can't stand here; under is one of yard, driveway, street, patio-slab, building.")],
    ),
    "two words for a choice": (
        "electrode a\n  type concrete encased",
        [(2, 8, 24, "'concrete encased' can't stand here. Did you mean 'concrete-encased'?")],
    ),
    "a choice in quotes": (
        'trench a\n  under "yard"',
        [
            (
                2,
                9,
                15,
                ("The value of 'under' stands without quotes; under is one of yard, driveway, street, patio-slab, building."),
            )
        ],
    ),
    "a wrong unit": ("trench a\n  cover 26 A", [(2, 9, 13, "26 A is a current; cover is a length, like 26 in.")]),
    "a wrong unit after a right one": (
        "trench a\n  cover 6 ft 26 A",
        [(2, 9, 18, "26 A is a current; cover is a length, like 26 in.")],
    ),
    "no unit": ("trench a\n  cover 26", [(2, 9, 11, "'26' has no unit; cover is a length, like 26 in.")]),
    "no unit at the end": ("trench a\n  cover 2 ft 6", [(2, 14, 15, "'6' has no unit; cover is a length, like 26 in.")]),
    "no space before the unit": ("trench a\n  cover 26in", [(2, 9, 13, "Leave a space between number and unit: 26 in.")]),
    "no space before a percent sign": (
        "supply a\n  transformer-impedance 4.8%",
        [(2, 25, 29, "Leave a space between number and unit: 4.8 %.")],
    ),
    "a unit spelled out": ("trench a\n  cover 26 inch", [(2, 12, 16, "'inch' is written 'in' here.")]),
    "a unit with capital letters": ("circuit a\n  breaker 20 amps", [(2, 14, 18, "'amps' is written 'A' here.")]),
    "a unit of two words spelled out": (
        "building a\n  floor-area 1650 square feet",
        [(2, 19, 30, "'square feet' is written 'sq ft' here.")],
    ),
    "a unit that isn't one": (
        "trench a\n  cover 26 furlongs",
        [(2, 12, 20, "'furlongs' is no unit of length; they are in, ft, mm, cm, m.")],
    ),
    "foot and inch marks": ("trench a\n  cover 5'6\"; under yard", [(2, 9, 13, "Write 5 ft 6 in, not 5'6\".")]),
    "inch marks": ('trench a\n  cover 26"', [(2, 9, 12, 'Write 26 in, not 26".')]),
    "foot marks": ("trench a\n  cover 5'", [(2, 9, 11, "Write 5 ft, not 5'.")]),
    "a space in a mixed number": ("trench a\n  cover 1 1/2 in", [(2, 9, 14, "Write 1-1/2, with a hyphen, not 1 1/2.")]),
    "a zero below the stroke": ("trench a\n  cover 1/0 in", [(2, 9, 15, "'1/0' divides by zero.")]),
    "a zero below the stroke of a mixed number": ("trench a\n  cover 1-1/0 in", [(2, 9, 17, "'1-1/0' divides by zero.")]),
    "thirteen digits": ("trench a\n  cover 1234567890123 in", [(2, 9, 25, "A number has at most 12 digits.")]),
    "four hundred nines": ("trench a\n  cover " + "9" * 400 + " in", [(2, 9, 412, "A number has at most 12 digits.")]),
    "an exponent": ("raceway a\n  friction 1e5", [(2, 12, 15, "'1e5' is not a number; friction is a number, like 0.5.")]),
    "words for a quantity": ("trench a\n  cover deep", [(2, 9, 13, "'deep' can't be read; cover is a length, like 26 in.")]),
    "below zero": ("trench a\n  cover -5 in", [(2, 9, 11, "A length is never below zero.")]),
    "inches before feet": (
        "trench a\n  cover 7 in 6 ft",
        [(2, 9, 18, "'7 in 6 ft' is not one length; each unit stands once, the larger first, like 6 ft 7 in.")],
    ),
    "feet and meters": (
        "trench a\n  cover 6 ft 2 m",
        [(2, 9, 17, "'6 ft 2 m' is not one length; each unit stands once, the larger first, like 6 ft 7 in.")],
    ),
    "two currents without a comma": ("circuit a\n  breaker 20 A 30 A", [(2, 11, 20, "'20 A 30 A' is more than one current.")]),
    "two values for one": ("trench a\n  cover 26 in, 30 in", [(2, 16, 21, "'cover' takes one value, and 2 stand here.")]),
    "a comma in thousands": ("building a\n  floor-area 1,650 sq ft", [(2, 14, 19, "Write 1650 without the comma.")]),
    "a comma in thousands in a list": (
        "raceway a\n  sections 1,650 ft, 20 ft",
        [(2, 12, 17, "Write 1650 without the comma, or put a space after it if they are two values.")],
    ),
    "a comma for the decimals": (
        "trench a\n  cover 4,5 in",
        [(2, 9, 12, "Write 4.5 with a point; a comma stands between two values.")],
    ),
    "a quantity in quotes": (
        'trench a\n  cover "26 in"',
        [(2, 9, 16, "The value of 'cover' stands without quotes; cover is a length, like 26 in.")],
    ),
    "none where it isn't a word": (
        "trench a\n  cover none",
        [
            (
                2,
                9,
                13,
                ("'none' can't stand here; cover is a length, like 26 in. If it isn't known, leave it out or write unknown."),
            )
        ],
    ),
    "none among others": (
        "trench a\n  shares-with gas, none",
        [(2, 20, 24, "'none' stands alone, not in a list with other values.")],
    ),
    "unknown among others": (
        "raceway a\n  bends 90 deg, unknown",
        [(2, 17, 24, "'unknown' stands alone, not in a list with other values.")],
    ),
    "the same choice twice": ("trench a\n  shares-with gas, gas", [(2, 20, 23, "This value stands twice in its list.")]),
    "neither yes nor no": ("trench a\n  rock y", [(2, 8, 9, "'y' is neither yes nor no.")]),
    "no whole number": ("circuit a\n  poles two", [(2, 9, 12, "'two' is not a whole number; poles is a whole number, like 2.")]),
    "none of what there is": ("circuit a\n  poles 0", [(2, 9, 10, "0 is too few, 1 is the least.")]),
    "no number": ("raceway a\n  friction 0.5.1", [(2, 12, 17, "'0.5.1' is not a number; friction is a number, like 0.5.")]),
    "a current or lugs, without unit": (
        "panel a\n  main 200",
        [(2, 8, 11, "'200' has no unit; main is a current or the word lugs, like 20 A.")],
    ),
    "a current or lugs, another quantity": (
        "panel a\n  main 5 ft",
        [(2, 8, 12, "5 ft is a length; main is a current or the word lugs, like 20 A.")],
    ),
    "a current or a power, another quantity": (
        "supply a\n  rating 5 ft",
        [(2, 10, 14, "5 ft is a length; rating is a current or a power, like 32 A.")],
    ),
    "no space round the x": ("circuit a\n  hot 2x4/0 aluminum", [(2, 7, 12, "Leave spaces round the x: 2 x 4/0.")]),
    "a size lost to a comment": (
        "circuit a\n  hot #4 copper",
        [
            (
                2,
                3,
                6,
                ("What follows '#' is a comment, so it doesn't count; hot is a wire or several, like 2 x 4/0 aluminum XHHW-2."),
            )
        ],
    ),
    "a size after a count lost to a comment": (
        "circuit a\n  hot 2 x #4 copper",
        [
            (
                2,
                7,
                10,
                ("What follows '#' is a comment, so it doesn't count; hot is a wire or several, like 2 x 4/0 aluminum XHHW-2."),
            )
        ],
    ),
    "no wire size": (
        "circuit a\n  hot 5 AWG",
        [
            (
                2,
                7,
                8,
                (
                    "'5' is no wire size; sizes are 18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 1/0, 2/0, 3/0, 4/0 "
                    "AWG and 250 to 2000 kcmil."
                ),
            )
        ],
    ),
    "the metal first": ("circuit a\n  hot copper 4", [(2, 7, 13, "The size comes before 'copper', like 4 AWG copper.")]),
    "the wrong size unit": ("circuit a\n  hot 4 kcmil", [(2, 9, 14, "4 is a size in AWG, written '4 AWG'.")]),
    "no space before AWG": ("circuit a\n  hot 12awg", [(2, 7, 12, "Leave a space between size and unit: 12 AWG.")]),
    "no wires": ("circuit a\n  hot 0 x 12 AWG", [(2, 7, 8, "'0' is no number of wires.")]),
    "a misspelt insulation": (
        "circuit a\n  hot 2 x 4/0 aluminum  XHHW2",
        [(2, 25, 30, "'XHHW2' is not a metal or an insulation, like copper or XHHW-2. Did you mean 'XHHW-2'?")],
    ),
    "a misspelt cable": (
        "circuit a\n  cable 12/2 NM",
        [(2, 14, 16, "'NM' is not a metal or a cable type, like copper or NM-B. Did you mean 'NM-B'?")],
    ),
    "no cable": ("circuit a\n  cable 12-2 NM-B", [(2, 9, 18, "'12-2 NM-B' is no cable; write it like 12/2 copper NM-B.")]),
    "a cable without its type": (
        "circuit a\n  cable 12/2 copper",
        [(2, 9, 20, "'12/2 copper' names no cable type; those are NM-B, UF-B, SEU, SER, USE-2, MC, AC.")],
    ),
    "a bare word for a cable": (
        "circuit a\n  cable wire",
        [(2, 9, 13, "'wire' is not a cable type; those are NM-B, UF-B, SEU, SER, USE-2, MC, AC.")],
    ),
    "a size that no raceway has": (
        "raceway a\n  size 2.1 in",
        [(2, 8, 14, ("'2.1 in' is no trade size; those are 3/8, 1/2, 3/4, 1, 1-1/4, 1-1/2, 2, 2-1/2, 3, 3-1/2, 4, 5, 6 in."))],
    ),
    "a trade size in feet": ("raceway a\n  size 2 ft", [(2, 8, 12, "A trade size is in inches, not 2 ft; write it like 2 in.")]),
    "a trade size without unit": ("raceway a\n  size 2", [(2, 8, 9, "'2' has no unit; write it like 2 in.")]),
    "voltages the wrong way round": (
        "supply a\n  volts 240/120 V",
        [(2, 9, 18, "'240/120 V': the lower voltage, to neutral, comes first.")],
    ),
    "voltages without unit": (
        "supply a\n  volts 120/240",
        [(2, 9, 16, "Write the unit after a space, like 120/240 V, not 120/240.")],
    ),
    "a box size without spaces": ("box a\n  size 4x4", [(2, 8, 11, "'4x4' is no box size; write it like 4 x 1-1/2 in.")]),
    "a word in a box size": ("box a\n  size 4 x wide in", [(2, 8, 12, "'wide' is not a number; write it like 4 x 1-1/2 in.")]),
    "a slope with a stroke": ("span a\n  roof-slope 6/12", [(2, 14, 18, "'6/12' is no slope; write it like 6 in 12.")]),
    "a day that isn't one": (
        "permission a\n  date 2026-13-01",
        [(2, 8, 18, "'2026-13-01' is not a date; write it like 2026-04-02.")],
    ),
    "a label without quotes": (
        "circuit a\n  label Kitchen",
        [(2, 9, 16, 'Words of your own are put in quotes, like "Kitchen".')],
    ),
    "a label without quotes and with a comma": (
        "circuit a\n  label Kitchen, north",
        [(2, 9, 23, 'Words of your own are put in quotes; label is a text in quotes, like "Well pump".')],
    ),
    "a label in single quotes": (
        "circuit a\n  label 'Kitchen'",
        [(2, 9, 18, 'Words of your own are put in quotes, like "Kitchen".')],
    ),
    "an empty label": ('circuit a\n  label ""', [(2, 9, 11, "Nothing stands between the quotes.")]),
    "a tab in a label": ('circuit a\n  label "a\tb"', [(2, 9, 14, "A tab stands inside the quotes; write a space.")]),
    "a rule that is no name": (
        "permission a\n  rule Trench_Too_Shallow",
        [
            (
                2,
                8,
                26,
                (
                    "'Trench_Too_Shallow' is not a name; a name is lower-case letters, digits and hyphens, "
                    "like trench-too-shallow."
                ),
            )
        ],
    ),
    "faults in two values of one list": (
        "wall-space a\n  receptacles-at 4ft, 10 A",
        [
            (2, 18, 21, "Leave a space between number and unit: 4 ft."),
            (2, 23, 27, "10 A is a current; receptacles-at is a length, like 4 ft."),
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_it_is_told_at_its_place(case: str, faults_of: FaultsOf) -> None:
    text, told = CASES[case]
    assert faults_of(text) == told
