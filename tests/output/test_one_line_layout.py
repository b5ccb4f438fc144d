"""The one-line diagram on the cottages and on 200 made-up plans: nothing overlaps, crosses, leaves the page or is forgotten.

Told from the placed figures by geometry of the tests' own. The widths of the words are held against an installed font and
against a browser in test_one_line_widths.py.
"""

import random
import re
from collections import Counter, defaultdict
from functools import cache
from pathlib import Path

import pytest
from one_line_geometry import crossings, outside, overlapping, struck_words, touching
from one_line_plans import plan_by_lot

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.desk import Desk
from planlint.facts import load_facts
from planlint.facts.engine import Job
from planlint.language import read_text
from planlint.output.one_line.figures import Figure, Number, Words
from planlint.output.one_line.page import MARGIN, Sheet, lay_out
from planlint.papers.docket import Docket
from planlint.papers.one_line.drawing import one_line
from planlint.papers.one_line.paths import part_of_panel
from planlint.papers.one_line.records import Drawing
from planlint.plan import Bond, Disconnect, Electrode, ElectrodeConductor, Feeder, Meter, Panel, Service, Supply, TransferSwitch
from planlint.plan.graph import Graph
from planlint.plan.wiring_faults import wiring_faults
from planlint.report import SEVERITIES, Finding, ProfileHead, Report, Subject

ROOT = Path(__file__).parents[2]
DRAWN_ONCE = (Supply, Meter, Disconnect, Panel, TransferSwitch, Service, Feeder, Electrode, ElectrodeConductor, Bond)
SEEDS = range(200)
TENS = [range(first, first + 20) for first in range(0, 200, 20)]


@cache
def book() -> tuple[object, Tables]:
    load_facts()
    return resolve(("model-2020",)), Tables()


def docket_by_lot(seed: int) -> Docket:
    """A made-up plan with findings strewn over its elements: a check of all rules would take longer and find fewer."""
    code, tables = book()
    graph = Graph(read_text(plan_by_lot(seed)).elements)
    assert wiring_faults(graph) == []
    dice = random.Random(seed)
    head = ProfileHead(("model-2020",), "Model code, 2020 edition", 2020, 0, "", "the authority", ())
    report = Report(graph.plan.name, "", head)
    for _ in range(dice.choice((0, 3, 12, 120))):
        element = dice.choice(graph.elements)
        finding = Finding(f"rule-{len(report.findings)}", dice.choice(SEVERITIES), Subject(element.kind, element.name),
                          element.line, "", "", "", (), "final", "", "")  # fmt: skip
        report.findings.append(finding)
    return Docket(Job(graph, code, tables), {}, report, [])  # type: ignore[arg-type]


@cache
def drawn(seed: int) -> tuple[Docket, Drawing, list[Sheet]]:
    docket = docket_by_lot(seed)
    drawing = one_line(docket)
    return docket, drawing, lay_out(drawing, "a4" if seed % 3 == 0 else "letter")


@cache
def cottage(name: str) -> tuple[Docket, Drawing, list[Sheet]]:
    docket = Desk().docket_file(ROOT / "fixtures" / f"{name}.plan")
    drawing = one_line(docket)
    return docket, drawing, lay_out(drawing)


def hold(docket: Docket, sheets: list[Sheet]) -> None:
    """All that a drawing must be."""
    assert docket.failed == []
    for sheet in sheets:
        assert overlapping(sheet.figures) == []
        assert crossings(sheet.figures) == []
        assert struck_words(sheet.figures) == []
        inside = (MARGIN, MARGIN, sheet.width - MARGIN, sheet.height - MARGIN)
        assert outside(sheet.figures, inside) == []
        assert all(figure.size >= 6.5 for figure in sheet.figures if isinstance(figure, Words) and not figure.in_symbol)
    named = Counter(f.owner for sheet in sheets for f in sheet.figures if isinstance(f, Words) and f.names and f.owner)
    assert named.most_common(1)[0][1] == 1 if named else True
    wanted = {element.name for element in docket.graph.elements if isinstance(element, DRAWN_ONCE)}
    assert wanted <= set(named)


@pytest.mark.parametrize("name", ["cottage", "cottage-faults"])
def test_the_cottage_is_drawn_on_one_sheet_with_nothing_in_the_way(name: str) -> None:
    docket, _, sheets = cottage(name)
    assert len(sheets) == 1
    hold(docket, sheets)


@pytest.mark.parametrize("seeds", TENS, ids=lambda seeds: f"{seeds.start}-{seeds.stop - 1}")
def test_nothing_overlaps_crosses_leaves_the_page_or_is_forgotten(seeds: range) -> None:
    for seed in seeds:
        docket, _, sheets = drawn(seed)
        hold(docket, sheets)


def by_owner(sheet: Sheet) -> dict[str, list[Figure]]:
    found: dict[str, list[Figure]] = defaultdict(list)
    for figure in sheet.figures:
        found[figure.owner].append(figure)
    return found


@pytest.mark.parametrize("seeds", TENS, ids=lambda seeds: f"{seeds.start}-{seeds.stop - 1}")
def test_every_run_reaches_the_gear_at_its_two_ends(seeds: range) -> None:
    """Its lines touch the symbol, bus or case of both, on whatever sheet; or its words name the one that is drawn elsewhere."""
    for seed in seeds:
        docket, _, sheets = drawn(seed)
        owned = [by_owner(sheet) for sheet in sheets]
        for run in (*docket.graph.all(Service), *docket.graph.all(Feeder)):
            for end in ("from", "to"):
                if run.states(end):
                    gear = run.value(end).name
                    words = [f for sheet in owned for f in sheet[run.name] if isinstance(f, Words)]
                    reached = any(touching(sheet[run.name], sheet[gear]) for sheet in owned)
                    assert reached or any(gear in (f.whole or f.text) for f in words), f"{seed}: {run.name} and {gear}"


def test_the_lot_is_varied_enough() -> None:
    """Several sheets, cut areas, rings, other sources, interlocks and large marks all come up."""
    texts = [plan_by_lot(seed) for seed in SEEDS]
    assert sum(len(drawn(seed)[2]) > 1 for seed in SEEDS) >= 20
    for word in ("type generator", "type solar", "transfer-switch", "type interlock", "type main", "planned yes", "<script>"):
        assert sum(word in text for text in texts) >= 10, word
    panels = [text.count("\npanel ") for text in texts]
    assert max(panels) >= 5


def test_findings_of_the_faulty_cottage_stand_at_what_they_belong_to() -> None:
    docket, _, sheets = cottage("cottage-faults")
    marks = [figure for sheet in sheets for figure in sheet.figures if isinstance(figure, Number)]
    at = {(mark.number, mark.owner) for mark in marks if mark.owner}
    by_rule = {group[0].rule: number for number, group in enumerate(docket.report.numbered(), start=1)}
    for rule, owner in (
        ("footing-electrode-too-short-or-thin", "footing-bar"),
        ("electrode-wire-too-small", "footing-wire"),
        ("service-trench-ribbon-missing", "meter-to-disconnect"),
        ("breaker-below-available-fault", "house-disconnect"),
        ("neutral-bonded-away-from-service", "house-panel"),
        ("raceway-too-many-bends", "studio-feeder"),
        ("trench-too-shallow", "studio-feeder"),
    ):
        assert (by_rule[rule], owner) in at, rule
    assert numbers_told(sheets) == set(range(1, len(docket.report.numbered()) + 1))


@pytest.mark.parametrize("seeds", TENS[:3], ids=lambda seeds: f"{seeds.start}-{seeds.stop - 1}")
def numbers_told(sheets: list[Sheet]) -> set[int]:
    """The findings whose numbers stand on the sheets, at an element or in the title block."""
    told: set[int] = set()
    for sheet in sheets:
        for figure in sheet.figures:
            in_legend = figure.y > sheet.height - 89 and figure.x > sheet.width * 0.36 if isinstance(figure, Number) else True
            if isinstance(figure, Number) and not in_legend:
                told.add(figure.number)
    for sheet in sheets:
        for figure in sheet.figures:
            if isinstance(figure, Words) and figure.text.startswith("Further findings"):
                told |= set(map(int, re.findall("[0-9]+", figure.whole or figure.text)))
    return told


@pytest.mark.parametrize("seeds", TENS[:3], ids=lambda seeds: f"{seeds.start}-{seeds.stop - 1}")
def test_every_finding_is_on_the_drawing(seeds: range) -> None:
    for seed in seeds:
        docket, _, sheets = drawn(seed)
        assert numbers_told(sheets) == set(range(1, len(docket.report.numbered()) + 1))


def test_labels_say_what_the_plan_says_and_what_was_worked_out() -> None:
    docket, _, sheets = cottage("cottage")
    said = {figure.owner: "" for figure in sheets[0].figures}
    for figure in sheets[0].figures:
        if isinstance(figure, Words):
            said[figure.owner] += f" {figure.text}"
    from planlint.facts.drop import drop
    from planlint.facts.fault import most_fault

    panel, feeder = docket.graph.one("house-panel"), docket.graph.one("house-feeder")
    assert isinstance(panel, Panel) and isinstance(feeder, Feeder)
    assert f"{most_fault(panel, docket.job).show()} available" in said["house-panel"]
    assert f"drop {drop(feeder, docket.job).show()}" in said["house-feeder"]
    for words in ("bus 200 A", "main lugs", "interrupting 10 kA", "neutral isolated"):
        assert words in said["house-panel"]
    for words in ("breaker 100 A", "2 x 1 AWG aluminum XHHW-2", "in 2 in EMT", "2 in PVC-40", "2 in PVC-80", "140 ft"):
        assert words in said["studio-feeder"]


def test_what_is_not_stated_is_said_to_be_so() -> None:
    docket = Desk().docket_text('plan "x"\n  edition 2020\npanel p\nfeeder f\n  to p\n')
    words = " ".join(figure.text for sheet in lay_out(one_line(docket)) for figure in sheet.figures if isinstance(figure, Words))
    for said in ("from: not stated", "not stated: bus, main, interrupting rating, fault current, neutral", "Place not stated"):
        assert said in words
    assert "not stated: wires, raceway, length, drop, fault current" in words


def test_an_interlock_is_told_at_its_panel() -> None:
    docket = Desk().docket_text('plan "x"\n  edition 2020\npanel p\ntransfer-switch plate\n  type interlock; panel p\n')
    assert part_of_panel(docket.graph.one("plate"))
    (root,) = one_line(docket).roots
    assert [part.element for part in root.also] == ["plate"]
