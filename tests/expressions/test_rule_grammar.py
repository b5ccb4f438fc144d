"""How expressions are read: what real rules say, and the traps that words with hyphens and units with names of words lay."""

import pytest

from planlint.expressions import tree
from planlint.expressions.faults import ExpressionFault
from planlint.expressions.grammar import MOST_LETTERS, parse

REAL = """
count(services) > 0
unfused-inside-length <= most-inside or (in-metal-raceway and unfused-inside-length <= most-inside-in-metal)
readily-accessible and handle-height <= highest-handle and not at.room in banned-places
count(service-disconnects) <= most-disconnects and mains-grouped and (mains-apart or not own-enclosures)
every services has (ends-in-emergency-disconnect)
disconnect-in-sight or disconnect is cord or (disconnect is lockable-breaker and lock-is-enough)
role is downstream and not fed-by-existing-three-wire
type in [supply-side, system] or (type is main and not listed-screw)
bonding in [threaded-hub, bonding-bushing, bonding-locknut] and (bonding is bonding-bushing or not ring-knockouts)
(through-appliance and material is not csst) or (is-bonded and bond-size >= least-bond)
some bonds has (type is intersystem and terminals >= least-terminals and size >= least-size)
circuit.ground-path is not none
stub-ups >= least-stub-ups or some conductors-to-it has (clamp includes direct-burial)
not stub-at.is-outdoors or stub-protected
count >= least-count or (companions-but-water >= 1 or (water-pipe-counts and companions >= 1)) or resistance <= most-resistance
length >= least-length and diameter >= least-diameter and (count = 1 or spacing >= least-spacing)
jam-ratio < jam-from or jam-ratio > jam-to
type in [PVC-40, PVC-80] and lies in [above-grade, riser, roof]
cover >= cover-needed + extra-cover
separation >= separation-needed and plan.lines-located
main is not lugs and main-held-down is stated
count(small-appliance-circuits) >= least-circuits and no small-appliance-circuits has (serves-other-rooms)
some receptacles-here has (distance-to-basin <= most-distance) and (not tub-zone or no bonds has (distance-to-tub < 3 ft))
some laundry-circuits has (breaker = 20 A and not serves-other-rooms)
load-amps <= most-share * service-rating
drop-at-full-breaker + drop-ahead <= most-drop or drop + drop-ahead <= most-drop
circuit.ampacity >= 125 % * motor-current and circuit.breaker <= largest-motor-breaker and overload <= most-overload
neutral is same as neutral-wanted
edge-distance >= 1-1/4 in or plates
rating in ratings-allowed
"""


@pytest.mark.parametrize("text", REAL.strip().splitlines())
def test_what_rules_say_can_be_read(text: str) -> None:
    node = parse(text, "condition")
    assert (node.start >= 0, node.end <= len(text)) == (True, True)


def path(text: str, at: int = 0) -> tree.Path:
    return tree.Path(at, at + len(text), tuple(text.split(".")))


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        # a hyphen belongs to a name: only a minus with a space on both sides takes away
        ("bus-load", path("bus-load")),
        ("not-service", path("not-service")),
        ("in-metal or-else", None),
        ("is-metal", path("is-metal")),
        ("no-more.in-use", path("no-more.in-use")),
        ("some-more", path("some-more")),
        ("yes", tree.YesNo(0, 3, True)),
        ("no", tree.YesNo(0, 2, False)),
        ("count", path("count")),
        ("stated", path("stated")),
    ],
)
def test_a_name_may_hold_a_keyword(text: str, meant: tree.Node | None) -> None:
    if meant is None:
        with pytest.raises(ExpressionFault):
            parse(text, "condition")
    else:
        assert parse(text, "condition") == meant


@pytest.mark.parametrize(
    "word", ["isolated", "not-service-equipment", "in-use", "no-more", "other", "PVC-40", "NM-B", "2020", "type-1"]
)
@pytest.mark.parametrize("negated", [False, True])
def test_a_word_after_is_swallows_no_keyword_and_is_swallowed_by_none(word: str, negated: bool) -> None:
    node = parse(f"neutral is {'not ' if negated else ''}{word}", "condition")
    assert isinstance(node, tree.Is)
    assert (node.right.text, node.negated) == (word, negated)


def test_stated_and_same_as_are_asked_for_after_is() -> None:
    assert isinstance(parse("a is stated", "condition"), tree.IsStated)
    assert isinstance(parse("a is not stated", "condition"), tree.IsStated)
    assert isinstance(parse("a is same as b", "condition"), tree.IsSame)
    assert parse("a is not  same\n as b", "condition") == tree.IsSame(0, 20, path("a"), path("b", 19), True)


@pytest.mark.parametrize(
    ("text", "sort"),
    [
        ("18 in", "quantity"),
        ("6 ft 7 in", "quantity"),
        ("1-1/4 in", "quantity"),
        ("3 %", "quantity"),
        ("0.144 lb/ft", "quantity"),
        ("1650 sq ft", "quantity"),
        ("100 ohm-m", "quantity"),
        ("-10 F", "quantity"),
        ("6 AWG copper", "size"),
        ("4/0 AWG aluminum", "size"),
        ("250 kcmil copper", "size"),
        ("2.8", "number"),
        ("1/2", "number"),
    ],
)
def test_a_number_and_its_unit_are_one_word(text: str, sort: str) -> None:
    node = parse(f"a <= {text} and b", "condition")
    assert isinstance(node, tree.Joined)
    compared = node.parts[0]
    assert isinstance(compared, tree.Compare)
    assert compared.operands[1] == tree.Written(5, 5 + len(text), sort, text)


def test_in_is_a_unit_after_a_number_and_a_keyword_elsewhere() -> None:
    both = parse("a >= 18 in and b in [c] and d in e", "condition")
    assert isinstance(both, tree.Joined)
    assert [type(part) for part in both.parts] == [tree.Compare, tree.In, tree.In]
    assert parse("a in [2 in, 3 in]", "condition") == tree.In(
        0, 17, path("a"), (tree.Written(6, 10, "quantity", "2 in"), tree.Written(12, 16, "quantity", "3 in"))
    )


def test_count_is_a_keyword_only_before_a_bracket() -> None:
    both = parse("count >= 2 and count (a) > 1", "condition")
    assert isinstance(both, tree.Joined)
    assert [type(part.operands[0]) for part in both.parts if isinstance(part, tree.Compare)] == [tree.Path, tree.Count]


def test_no_is_a_quantifier_only_before_a_list_and_has() -> None:
    assert isinstance(parse("no bonds has (a)", "condition"), tree.Quantified)
    assert isinstance(parse("a and no", "condition"), tree.Joined)
    with pytest.raises(ExpressionFault):
        parse("no bonds", "condition")


@pytest.mark.parametrize("word", ["some", "every", "and", "or", "not", "in", "has", "includes", "is"])
def test_reserved_words_are_no_names(word: str) -> None:
    with pytest.raises(ExpressionFault):
        parse(f"a >= {word}", "condition")


def test_and_binds_tighter_than_or_and_not_reaches_over_a_comparison() -> None:
    either = parse("a or b and not c in d", "condition")
    assert isinstance(either, tree.Joined)
    assert either.word == "or"
    both = either.parts[1]
    assert isinstance(both, tree.Joined)
    assert both.word == "and"
    assert isinstance(both.parts[1], tree.Not)
    assert isinstance(both.parts[1].part, tree.In)


def test_a_sum_of_products() -> None:
    node = parse("a - 2 * b + c / d", "value")
    assert isinstance(node, tree.Arithmetic)
    assert (node.operator, node.start, node.end) == ("+", 0, 17)
    assert isinstance(node.left, tree.Arithmetic)
    assert isinstance(node.left.right, tree.Arithmetic)
    assert (node.left.operator, node.left.right.operator) == ("-", "*")


def test_the_tree_holds_plain_text_and_no_tokens() -> None:
    """A token is a kind of text that JSON keys and marshal don't take as such."""
    node = parse("at.room in [bathroom] and 3 ft * 2 < a", "condition")
    assert isinstance(node, tree.Joined)
    room, less = node.parts
    assert isinstance(room, tree.In)
    assert isinstance(less, tree.Compare)
    assert isinstance(room.left, tree.Path)
    assert isinstance(room.right, tuple)
    assert isinstance(less.operands[0], tree.Arithmetic)
    texts = [*room.left.words, room.right[0].text, less.operators[0], less.operands[0].operator]
    assert {type(text) for text in texts} == {str}


def test_an_expression_has_an_end() -> None:
    with pytest.raises(ExpressionFault, match="fact of its own"):
        parse("not " * MOST_LETTERS + "a", "condition")
    deep = "not " * (MOST_LETTERS // 4 - 1) + "a"
    assert isinstance(parse(deep, "condition"), tree.Not)
