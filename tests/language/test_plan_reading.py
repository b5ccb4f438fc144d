"""What a plan that can be read gives: elements in source order, values, places, references joined."""

import datetime
from collections.abc import Callable
from pathlib import Path

import pytest

from planlint.faults import Faults
from planlint.language import Reading, read_plan, read_text
from planlint.plan import Circuit, Panel, Place, Plan, Raceway, Trench
from planlint.positions import Span
from planlint.quantities import Angle, Current, Length

FIXTURES = Path(__file__).parents[2] / "fixtures"
PlanOf = Callable[..., Reading]


@pytest.mark.parametrize("name", ["cottage", "cottage-faults"])
def test_the_cottages_can_be_read(name: str) -> None:
    reading = read_plan(FIXTURES / f"{name}.plan")
    heads = [line.split()[:2] for line in (FIXTURES / f"{name}.plan").read_text().split("\n") if line[:1].strip("# ")]
    assert [[e.kind, e.name.split()[0].strip('"')] for e in reading.elements] == [[k, n.strip('"')] for k, n in heads]
    assert {element.plan for element in reading.elements} == {reading.elements[0]}


def test_values_are_typed_and_keep_their_words(plan: PlanOf) -> None:
    _, raceway, trench, permission = plan(
        'plan "T"\nraceway r\n  length 6 ft  7 in; bends 90 deg, 45 deg; holds none; continues none; type PVC-40; trench t\n'
        "  expansion-fitting yes; friction 1-1/2\n"
        'trench t\npermission p\n  date 2026-04-02; for r; granted-by "The board; room 2"\n'
    ).elements
    assert isinstance(raceway, Raceway)
    assert raceway.length == Length.of(79, "in")
    assert str(raceway.length) == "6 ft 7 in"
    assert raceway.bends == (Angle.of(90, "deg"), Angle.of(45, "deg"))
    assert (raceway.holds, raceway.continues, raceway.type, raceway.expansion_fitting) == ((), None, "PVC-40", True)
    assert raceway.friction == 1.5
    assert raceway.trench is trench
    assert permission.value("date") == datetime.date(2026, 4, 2)
    assert permission.value("for") is raceway
    assert permission.value("granted-by") == "The board; room 2"


def test_references_join_forward_and_backward_and_in_lists(plan: PlanOf) -> None:
    _, circuit, first, second, panel = plan(
        'plan "T"\ncircuit c\n  panel p; raceway b, a\nraceway a\nraceway b\npanel p\n'
    ).elements
    assert isinstance(circuit, Circuit)
    assert circuit.panel is panel
    assert circuit.raceway == (second, first)


def test_unknown_is_no_value_but_has_a_place(plan: PlanOf) -> None:
    trench = plan('plan "T"\ntrench t\n  cover unknown\n').elements[1]
    assert not trench.states("cover")
    assert trench.unknown == {"cover"}
    assert trench.position("cover") == Span("plan", 3, 3, 3, 8)


def test_none_may_be_a_choice_or_say_that_there_is_none(plan: PlanOf) -> None:
    _, building, circuit = plan(
        'plan "T"\nbuilding b\n  footing-steel none\ncircuit c\n  shares-neutral-with none; neutral none\n'
    ).elements
    assert building.value("footing-steel") == "none"
    assert circuit.value("shares-neutral-with") is None
    assert circuit.value("neutral").count == 0


def test_places_are_counted_in_code_points(plan: PlanOf) -> None:
    circuit = plan('plan "Töpferei 𝄞"\ncircuit  c   # 𝄞\n  label "𝄞 Küche"; breaker  20  A\n').elements[1]
    assert circuit.line == Span("plan", 2, 1, 2, 11)
    assert circuit.standing["label"].values == (Span("plan", 3, 9, 3, 18),)
    assert circuit.standing["breaker"].name == Span("plan", 3, 20, 3, 27)
    assert circuit.standing["breaker"].values == (Span("plan", 3, 29, 3, 34),)
    assert circuit.value("breaker") == Current.of(20, "A")


def test_every_value_of_a_list_has_its_place(plan: PlanOf) -> None:
    raceway = plan('plan "T"\nraceway r\n  bends 90 deg,45 deg , 30 deg\n').elements[1]
    assert [(span.column, span.end_column) for span in raceway.standing["bends"].values] == [(9, 15), (16, 22), (25, 31)]


@pytest.mark.parametrize(
    "text",
    [
        'plan "T"\nplace a\n  use kitchen\n',
        'plan "T"\nplace a\n  use kitchen',
        'plan "T"\r\nplace a\r\n  use kitchen\r\n',
        '\ufeffplan "T"\nplace a\n  use kitchen\n',
        '# first\n\nplan "T" # title\n   \n\t\nplace a\n# at the margin\n        # further in\n  use kitchen # last\n\n',
        'plan "T"\nplace a\n         use\tkitchen  ',
        'place a\n use kitchen\nplan "T"\n',
    ],
)
def test_layout_makes_no_difference(text: str, plan: PlanOf) -> None:
    place = next(element for element in plan(text).elements if isinstance(element, Place))
    assert place.use == "kitchen"


def test_a_statement_needs_no_attributes(plan: PlanOf) -> None:
    assert [element.name for element in plan('plan "T"\npanel 1\npanel main-2').elements] == ["T", "1", "main-2"]


def test_an_example_is_given_a_plan(plan: PlanOf) -> None:
    given, panel = plan("panel p\n", example=True).elements
    assert isinstance(given, Plan)
    assert given.name == "example"
    assert panel.plan is given
    assert not given.states("complete")


def test_an_example_may_begin_with_what_is_complete(plan: PlanOf) -> None:
    given, panel = plan("# comment\ncomplete service, feeders; date 2026-04-02\npanel p\n", example=True).elements
    assert isinstance(panel, Panel)
    assert given.value("complete") == ("service", "feeders")
    assert given.value("date") == datetime.date(2026, 4, 2)
    assert given.line == Span("plan", 2, 1, 2, 9)


@pytest.mark.parametrize(
    ("text", "line", "message"),
    [
        ("complete servce\npanel p", 1, "'servce' can't stand here. Did you mean 'service'?"),
        ("panel p\ncomplete service", 2, "'complete' is an attribute, not a kind of statement: indent it below a plan."),
        ('complete service\nplan "T"', 2, "A plan has one plan statement; the first stands in line 1."),
    ],
)
def test_only_the_first_line_of_an_example_says_what_is_complete(text: str, line: int, message: str, plan: PlanOf) -> None:
    with pytest.raises(Faults) as caught:
        plan(text, example=True)
    assert [(fault.span.line, fault.message) for fault in caught.value.faults] == [(line, message)]


@pytest.mark.parametrize(
    ("text", "line", "message"),
    [
        ("", 1, 'Nothing stands in this file; a plan begins with a line like plan "Plover Lane cottage".'),
        ("\n# a comment\n", 1, 'Nothing stands in this file; a plan begins with a line like plan "Plover Lane cottage".'),
        (
            "\ntrench a\n",
            2,
            "No plan statement stands in this file, so it is a part of another plan: check the plan that includes it.",
        ),
    ],
)
def test_a_plan_has_a_plan_statement(text: str, line: int, message: str) -> None:
    with pytest.raises(Faults) as caught:
        read_text(text)
    assert [(fault.span.line, fault.message) for fault in caught.value.faults] == [(line, message)]


def test_a_part_has_no_plan() -> None:
    (trench,) = read_text("trench a\n", part=True).elements
    assert isinstance(trench, Trench)
    assert not hasattr(trench, "plan")


# ---- one fault never causes another


@pytest.mark.parametrize(
    ("statement", "names"),
    [
        ("place Front-Yard", ("Front-Yard", "front-yard")),
        ("place front yard", ("front-yard", "front")),
        ("place front-yard; use yard", ("front-yard",)),
        ("plce front-yard", ("front-yard",)),
        ("Place front-yard", ("front-yard",)),
        ("front-yard place", ("front-yard",)),
        ("  place front-yard", ("front-yard",)),
        ("place frоnt-yard", ("front-yard",)),
        ("place front\u00ad-yard", ("front-yard",)),
        ("place", ("front-yard",)),
        ('place "front-yard"', ("front-yard",)),
        ('include "front.plan"', ("front-yard",)),
    ],
)
def test_a_reference_to_a_faulty_statement_is_no_fault_of_its_own(
    statement: str, names: tuple[str, ...], faults_of: Callable[[str], list[tuple[int, int, int, str]]]
) -> None:
    counters = "".join(f"\ncounter c{at}\n  at {name}" for at, name in enumerate(names))
    assert [line for line, *_ in faults_of(statement + counters)] == [1]


def test_a_faulty_statement_hides_nothing_in_the_next(faults_of: Callable[[str], list[tuple[int, int, int, str]]]) -> None:
    text = "trnch a\n  cover 5\npanel\n  bus x\ncircuit c; poles 1\n  poles 1,\n  breaker 20 ft\nplace p\n  use kitchn; at p\n"
    assert [(line, column) for line, column, *_ in faults_of(text)] == [
        (1, 1),
        (3, 1),
        (4, 7),
        (5, 10),
        (6, 10),
        (7, 11),
        (9, 7),
        (9, 15),
    ]


def test_a_misspelt_plan_is_not_called_missing_too() -> None:
    for text in ('plann "T"\nplace a', "plan T\nplace a", 'Plan "T"'):
        with pytest.raises(Faults) as caught:
            read_text(text)
        assert [fault.span.line for fault in caught.value.faults] == [1]


def test_faults_are_told_up_to_a_bound() -> None:
    with pytest.raises(Faults) as caught:
        read_text('plan "T"\n' + "trench t\n  covr 5\n" * 10_000)
    assert len(caught.value.faults) == 201
    assert caught.value.faults[-1].message == "Reading stops here, after 200 faults; there may be more."


def test_a_person_is_shown_fifty_at_once() -> None:
    with pytest.raises(Faults) as caught:
        read_text('plan "T"\n' + "".join(f"trench t{at}\n  covr 5\n" for at in range(60)))
    shown = str(caught.value).split("\n")
    assert len(caught.value.faults) == 60
    assert shown[0] == "plan, line 3, column 3: 'covr' is no attribute of a trench. Did you mean 'cover'?"
    assert shown[49].startswith("plan, line 101, ")
    assert shown[50:] == ["And 10 more."]
