"""Laws of the facts of protection and outlets, on random plans: leaving out never changes an answer; editions only add places."""

from collections.abc import Callable, Mapping

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planlint.book import resolve
from planlint.book.tables import Tables
from planlint.facts.arc_faults import afci_needed
from planlint.facts.engine import Job
from planlint.facts.ground_faults import gfci_in_reach, gfci_needed, gfci_needed_outdoors
from planlint.facts.receptacle_types import cover_suits, wants_tamper_resistant, wants_weather_resistant
from planlint.facts.temporary import protected_for_work
from planlint.language import read_text
from planlint.plan import Element
from planlint.plan.elements import NotStated
from planlint.plan.graph import Graph

EDITIONS = (2017, 2020, 2023)
YES_NO = ("yes", "no")
ROOMS = ("kitchen", "bedroom", "bathroom", "laundry", "garage", "basement", "crawl-space", "workshop", "storage", "den", "attic")
CHOICES: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "building home": {
        "use": ("one-family", "workshop", "shed"),
        "floor-level": ("at-or-below-grade", "above-grade"),
    },
    "place spot": {
        "building": ("home",),
        "outdoors": YES_NO,
        "use": ROOMS,
        "moisture": ("dry", "damp", "wet"),
        "finished": YES_NO,
    },
    "supply power": {"type": ("utility",), "volts": ("120/240 V", "120/208 V", "240 V")},
    "panel board": {"readily-accessible": YES_NO, "bus": ("200 A",)},
    "circuit run": {
        "panel": ("board",),
        "breaker": ("10 A", "15 A", "20 A", "50 A", "60 A"),
        "poles": ("1",),
        "protection": ("none", "gfci", "afci", "afci, gfci"),
        "cable": ("12/2 copper NM-B", "12/3 copper NM-B"),
    },
    "receptacles outlet": {
        "at": ("spot",),
        "circuit": ("run",),
        "rating": ("15 A", "20 A", "30 A", "50 A"),
        "serves": ("general", "counter", "laundry", "service", "refrigerator", "security", "snow-melting", "car"),
        "gfci": YES_NO,
        "gfci-reachable": YES_NO,
        "height": ("16 in", "6 ft"),
        "single": YES_NO,
        "cover": ("none", "weatherproof", "in-use"),
        "distance-to-sink": ("2 ft", "20 ft"),
        "distance-to-tub": ("2 ft", "20 ft"),
        "behind-door": YES_NO,
        "readily-accessible": YES_NO,
        "grounds-tested": YES_NO,
    },
    "load unit": {
        "at": ("spot",),
        "circuit": ("run",),
        "type": ("dishwasher", "heat-pump", "microwave", "other"),
        "volts": ("120 V", "240 V"),
        "amps": ("10 A", "70 A"),
        "connection": ("cord", "hard-wired"),
        "variable-speed": YES_NO,
        "gfci": YES_NO,
    },
    "lights lamp": {"at": ("spot",), "circuit": ("run",), "gfci": YES_NO},
    "counter bar": {"at": ("spot",), "sink": YES_NO},
}
ASKED: tuple[tuple[Callable[[Element, Job], object], str], ...] = (
    (gfci_needed, "outlet"),
    (gfci_needed, "unit"),
    (gfci_needed, "lamp"),
    (gfci_needed_outdoors, "unit"),
    (gfci_in_reach, "outlet"),
    (afci_needed, "run"),
    (wants_tamper_resistant, "outlet"),
    (wants_weather_resistant, "outlet"),
    (cover_suits, "outlet"),
    (protected_for_work, "outlet"),
)  # type: ignore[assignment]
Plan = dict[tuple[str, str], str]
COMPLETE = "complete receptacles, lights, loads, rooms"
KEYS = [(head, attribute) for head, attributes in CHOICES.items() for attribute in attributes]


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """A plan that says everything; what is outdoors is in no building, and has no use of a room."""
    plan = {(head, name): draw(st.sampled_from(CHOICES[head][name])) for head, name in KEYS}
    if plan["place spot", "outdoors"] == "yes":
        del plan["place spot", "building"], plan["place spot", "use"]
    return plan


def job_of(plan: Plan, edition: int, complete: bool, date: str = "") -> Job:
    lines = ['plan "It"', f"  edition {edition}"] + ([f"  {COMPLETE}"] if complete else []) + ([f"  date {date}"] if date else [])
    for head in CHOICES:
        lines.append(head)
        lines += [f"  {name} {value}" for (where, name), value in plan.items() if where == head]
    return Job(Graph(read_text("\n".join(lines) + "\n").elements), resolve((f"model-{edition}",)), Tables())


def answers(job: Job) -> list[object]:
    found: list[object] = []
    for asked, name in ASKED:
        try:
            found.append(asked(job.graph.one(name), job))
        except NotStated:
            found.append("open")
    return found


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    plan=plans(), left_out=st.sets(st.sampled_from(KEYS), max_size=4), edition=st.sampled_from([2017, 2020, 2023]), data=st.data()
)
def test_leaving_out_only_opens(plan: Plan, left_out: set[tuple[str, str]], edition: int, data: st.DataObject) -> None:
    date = data.draw(st.sampled_from(["2021-01-01", "2024-01-01", "2027-01-01"]))
    whole = answers(job_of(plan, edition, True, date))
    less = {key: value for key, value in plan.items() if key not in left_out}
    part = answers(job_of(less, edition, data.draw(st.booleans()), date if data.draw(st.booleans()) else ""))
    for (asked, name), before, after in zip(ASKED, whole, part, strict=True):
        assert after in ("open", before), (asked.__name__, name, before, after)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans())
def test_editions_only_add_places(plan: Plan) -> None:
    """But for alarms, which 2023 exempts anywhere."""
    if plan["receptacles outlet", "serves"] == "security":
        return
    for asked, name in ((gfci_needed, "outlet"), (gfci_needed, "unit"), (gfci_needed, "lamp"), (afci_needed, "run")):
        found = []
        for edition in EDITIONS:
            job = job_of(plan, edition, True)
            try:
                found.append(bool(asked(job.graph.one(name), job)))  # type: ignore[arg-type]
            except NotStated:
                return
        assert found == sorted(found), (name, found)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans(), edition=st.sampled_from(EDITIONS))
def test_nearer_to_water_never_needs_less(plan: Plan, edition: int) -> None:
    far = {**plan, ("receptacles outlet", "distance-to-sink"): "6.1 ft", ("receptacles outlet", "distance-to-tub"): "6.1 ft"}
    for what in ("distance-to-sink", "distance-to-tub"):
        near = {**far, ("receptacles outlet", what): "6 ft"}
        jobs = [job_of(each, edition, True) for each in (far, near)]
        try:
            first, second = (gfci_needed(job.graph.one("outlet"), job) for job in jobs)  # type: ignore[arg-type]
        except NotStated:  # an alarm's receptacle outdoors, in a spot whose use isn't said
            return
        assert second or not first
