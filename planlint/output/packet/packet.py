"""All papers of a job on one page, in the order in which they are read: what is wrong, how it hangs together, the papers."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from planlint.output.check.page import DUE, PASSED, sums
from planlint.output.check.questions import asked_words, question_lines, topics, who_words
from planlint.output.checklist import words as checklist_words
from planlint.output.one_line.page import lay_out
from planlint.output.one_line.svg import one_line_svgs
from planlint.output.packet.pages import in_page, page
from planlint.output.schedule import words as schedule_words
from planlint.output.schedule.table import schedules_csv
from planlint.output.takeoff import words as takeoff_words
from planlint.output.takeoff.table import takeoff_csv
from planlint.output.worksheet import words as worksheet_words
from planlint.papers.checklist import Checklist, make_checklist
from planlint.papers.docket import Docket
from planlint.papers.material.prices import Cost, cost
from planlint.papers.material.takeoff import Takeoff, take_off
from planlint.papers.one_line.drawing import one_line
from planlint.papers.schedule import Schedules, panel_schedules
from planlint.report import Finding, Report
from planlint.workings import Worksheet

CAUTIONS = (
    "A self-check by whoever wrote the plan, no permit and no approval. The code in force where you build and the authority that "
    "enforces it decide; each finding names whom to confirm it with.",
    "It sees only what the plan says. What the plan leaves out stands under open questions; what only eyes can tell, on the "
    "checklist.",
    "Electricity kills and burns. Work on supply conductors is for licensed people and the utility; much of it stays live with "
    "the main switched off. Call before you dig.",
    "Have an electrician look at the plan, and the inspector at the work, before anything is covered.",
)
CONTENTS = (
    ("findings", "Findings"), ("questions", "Open questions"), ("one-line", "One-line diagram"),
    ("schedules", "Panel schedules"), ("checklist", "Checklist by inspection"), ("takeoff", "Material list"),
    ("worksheet", "Worksheet"), ("signing", "For the inspector's word"),
)  # fmt: skip


_PAPERS = ("findings", "questions", "one-line", "schedules", "checklist", "takeoff", "worksheet", "signing")


@dataclass(frozen=True, slots=True)
class Packet:
    """Every paper of one plan, made once."""

    report: Report
    schedules: Schedules
    checklist: Checklist
    takeoff: Takeoff
    cost: Cost | None
    worksheet: Worksheet
    diagrams: tuple[str, ...]
    plan_date: str


def make_packet(docket: Docket, prices: Mapping[str, float] | None = None) -> Packet:
    """All papers of a plan; with prices, what its material costs."""
    plan, takeoff = docket.graph.plan, take_off(docket)
    date = str(plan.value("date")) if plan.states("date") else ""
    priced = None if prices is None else cost(takeoff, prices)
    return Packet(
        report=docket.report,
        schedules=panel_schedules(docket),
        checklist=make_checklist(docket),
        takeoff=takeoff,
        cost=priced,
        diagrams=_diagrams(docket),
        worksheet=docket.worksheet(),
        plan_date=date,
    )


def _diagrams(docket: Docket) -> tuple[str, ...]:
    drawing = one_line(docket)
    return tuple(one_line_svgs(drawing, lay_out(drawing, "letter")))


def packet_page(packet: Packet) -> str:
    """The whole page. Raises planlint.output.packet.pages.NoTemplates."""
    return page("packet.html", packet.report.plan, packet.report.profile, **_content(packet))


def packet_files(packet: Packet) -> dict[str, str]:
    """One file for each paper, by its name; `index.html` leads to them. Raises planlint.output.packet.pages.NoTemplates."""
    content, report = _content(packet), packet.report
    files = {"index.html": page("index.html", report.plan, report.profile, **content)}
    for name, title in CONTENTS:
        if name in _PAPERS:
            head = f"{report.plan}: {title[0].lower()}{title[1:]}"
            files[f"{name}.html"] = page("paper.html", head, report.profile, section=f"{name}.html", **content)
    for number, svg in enumerate(packet.diagrams, 1):
        files["one-line.svg" if number == 1 else f"one-line-{number}.svg"] = svg
    files["takeoff.csv"] = takeoff_csv(packet.takeoff, {})
    files["schedules.csv"] = schedules_csv(packet.schedules)
    return files


def schedules_html(docket: Docket) -> str:
    """The panel schedules by themselves. Raises planlint.output.packet.pages.NoTemplates."""
    schedules = panel_schedules(docket)
    head = f"{schedules.plan}: panel schedules"
    return page("paper.html", head, docket.head, section="schedules.html", schedules=schedules, words=schedule_words)


def checklist_html(docket: Docket) -> str:
    """The checklist by itself. Raises planlint.output.packet.pages.NoTemplates."""
    checklist = make_checklist(docket)
    head = f"{checklist.plan}: checklist"
    return page("paper.html", head, docket.head, section="checklist.html", checklist=checklist, list_words=checklist_words)


def _content(packet: Packet) -> dict[str, Any]:
    """What the templates of all papers ask for."""
    report = packet.report
    waiting = [check for check in report.open_checks if check.inspection not in report.passed]
    return {
        "cautions": CAUTIONS,
        "contents": CONTENTS,
        "diagrams": [in_page(svg) for svg in packet.diagrams],
        "drawn": _drawn(packet),
        "report": report,
        "plan_date": packet.plan_date,
        "sums": " · ".join(sums(report)),
        "findings": list(_by_due(report)),
        "questions": [(who_words(line), asked_words(line), len(line.checks)) for line in question_lines(waiting)],
        "topics": sorted(topics(waiting)),
        "schedules": packet.schedules,
        "checklist": packet.checklist,
        "takeoff": packet.takeoff,
        "cost": packet.cost,
        "worksheet": packet.worksheet,
        "words": schedule_words,
        "list_words": checklist_words,
        "buy_words": takeoff_words,
        "sheet_words": worksheet_words,
    }


def _drawn(packet: Packet) -> dict[str, str]:
    """Where in the diagram each element with a finding stands: its name and the id of its group."""
    names = {finding.subject.name for finding in packet.report.findings}
    return {name: f"element-{name}" for name in names if any(f'id="element-{name}"' in svg for svg in packet.diagrams)}


def _by_due(report: Report) -> Iterator[tuple[str, list[tuple[int, Sequence[Finding]]]]]:
    """The findings as the check has them: numbered, under the moment before which they must be right."""
    groups: dict[str, list[tuple[int, Sequence[Finding]]]] = {}
    for number, same in enumerate(report.numbered(), 1):
        inspection = same[0].inspection
        due = PASSED if inspection in report.passed else DUE[inspection].capitalize()
        groups.setdefault(due, []).append((number, same))
    yield from groups.items()
