"""Every kind of local amendment that real places make, as a made-up profile without a line of Python.

The kinds are those of a survey of local codes (places that name a figure, drop or delay a rule, bar a wiring method, mix
editions). Each profile is tried on a plan: what is found under it, and that its base finds otherwise.
"""

from dataclasses import dataclass, field
from pathlib import Path

import pytest

from planlint.desk import Desk

RULE = """rule: {name}
about: {about}
when: {when}
must: {must}
at: {at}
severity: correction
hazard: cost-of-rework
inspection: {inspection}
clause: {{2020: "Ordinance, section 9"}}
finding: "{{name}} isn't as this place wants it."
remedy: Ask the building department how they want it.
why: The place has its own way.
"""


@dataclass(frozen=True)
class Kind:
    """One kind: the profile's body, a plan, and what of some rules is found under it and under its base."""

    name: str
    body: str
    plan: str
    found: set[str]
    found_by_base: set[str]
    base: str = "model-2020"
    rules: dict[str, dict[str, str]] = field(default_factory=dict)


def added(name: str, about: str, must: str, at: str, when: str = "yes", inspection: str = "service") -> dict[str, dict[str, str]]:
    return {name: {"about": about, "must": must, "at": at, "when": when, "inspection": inspection}}


SERVICE = """supply utility
  type utility; volts 120/240 V; fault-current 10 kA
disconnect main
  at {at}; breaker {rating}; mounted-on house
building house
  use one-family; construction new; floor-area {area}
place yard
  outdoors yes; use yard
place mechanical
  building house; use mechanical
service drop
  from utility; to main; owner customer; hot 2 x 4/0 aluminum XHHW-2; neutral 2/0 aluminum XHHW-2; ground none
  {more}
"""


def service(at: str = "mechanical", rating: str = "200 A", area: str = "1650 sq ft", more: str = "inside-length 0 ft") -> str:
    return SERVICE.format(at=at, rating=rating, area=area, more=more)


DITCH = """trench ditch
  under yard; cover {cover}; backfill {backfill}; bedding none
raceway pipe
  type PVC-40; size 1 in; bends none; continues none; trench ditch; holds 3 x 6 AWG copper THWN-2
"""
KINDS = [
    Kind(
        "nearest the point of entrance, in feet by wiring method",
        'settings:\n  service-wires-long-inside.most-inside: {value: 5 ft, because: "Code 4"}\n'
        '  service-wires-long-inside.most-inside-in-metal: {value: 15 ft, because: "Code 4"}\n',
        service(more="inside-length 8 ft; cable SER"),
        {"service-wires-long-inside"},
        set(),
    ),
    Kind(
        "the same in metal pipe",
        "settings:\n  service-wires-long-inside.most-inside: 5 ft\n  service-wires-long-inside.most-inside-in-metal: 15 ft\n",
        service(more="inside-length 12 ft; raceway mast\nraceway mast\n  type RMC; size 2 in; route inside; at mechanical"),
        set(),
        {"service-wires-long-inside"},
    ),
    Kind(
        "the main always outdoors",
        "adds: [rules/main-not-outdoors.yaml]\n",
        service(),
        {"main-not-outdoors"},
        set(),
        rules=added("main-not-outdoors", "disconnect", "at.is-outdoors", "at", "role is service"),
    ),
    Kind(
        "the emergency disconnect taken up by an older edition",
        'takes-up:\n  outdoor-emergency-disconnect-missing: "Code 2"\n',
        "complete service, feeders\n" + service(),
        {"outdoor-emergency-disconnect-missing"},
        set(),
        base="model-2017",
    ),
    Kind(
        "the emergency disconnect not adopted",
        'leaves-out:\n  outdoor-emergency-disconnect-missing: "Not adopted"\n',
        "complete service, feeders\n" + service(),
        set(),
        {"outdoor-emergency-disconnect-missing"},
    ),
    Kind(
        "six mains in one case, as before",
        'settings:\n  too-many-service-disconnects.own-enclosures: {value: no, because: "Code 15A"}\n',
        "complete service, feeders\n"
        + service(more="inside-length 0 ft")
        + "disconnect second\n  at mechanical; breaker 100 A; mounted-on house; shares-enclosure-with main\n"
        + "service tap\n  from utility; to second; owner customer; inside-length 0 ft\n",
        set(),
        {"too-many-service-disconnects"},
    ),
    Kind(
        "two ends of the footing's bar turned up",
        "settings:\n  footing-electrode-no-reachable-end.least-stub-ups: 2\n",
        "complete grounding\nelectrode bar\n"
        "  type concrete-encased; bar 1/2 in; length 24 ft; encasement 3 in; stub-ups 1; stub-at basement\n"
        "place basement\n  use basement; outdoors no\n",
        {"footing-electrode-no-reachable-end"},
        set(),
    ),
    Kind(
        "a wiring method barred",
        "adds: [rules/plastic-pipe-barred.yaml]\n",
        DITCH.format(cover="24 in", backfill="clean"),
        {"plastic-pipe-barred"},
        set(),
        rules=added("plastic-pipe-barred", "raceway", "type in [RMC, IMC, EMT]", "type", inspection="underground"),
    ),
    Kind(
        "a wiring method for the service only",
        "adds: [rules/service-in-steel.yaml]\n",
        service(more="inside-length 0 ft; raceway mast\nraceway mast\n  type PVC-80; size 2 in; route above-grade; at yard"),
        {"service-in-steel"},
        set(),
        rules=added("service-in-steel", "raceway", "type in [RMC, IMC]", "type", "carries-service"),
    ),
    Kind(
        "copper only after the meter",
        "adds: [rules/aluminum-barred.yaml]\n",
        "feeder long\n  hot 2 x 1 AWG aluminum XHHW-2\n",
        {"aluminum-barred"},
        set(),
        rules=added("aluminum-barred", "feeder", "hot-size >= 14 AWG copper", "hot", inspection="rough-in"),
    ),
    Kind(
        "a ground wire in every pipe",
        "settings:\n  equipment-ground-missing.wire-always: yes\n",
        "circuit bench\n  hot 2 x 12 AWG copper THWN-2; ground none; raceway pipe; breaker 20 A\n"
        "raceway pipe\n  type EMT; size 1/2 in; route inside\n",
        {"equipment-ground-missing"},
        set(),
    ),
    Kind(
        "a least service by floor area",
        "adds: [rules/service-small-for-area.yaml]\n",
        "complete service, feeders\n" + service(rating="150 A", area="2400 sq ft"),
        {"service-small-for-area"},
        set(),
        rules=added("service-small-for-area", "building", "service-rating >= 200 A", "floor-area", "floor-area >= 2000 sq ft"),
    ),
    Kind(
        "a least number of panel spaces",
        "adds: [rules/few-spaces.yaml]\n",
        "panel small\n  spaces 16\n",
        {"few-spaces"},
        set(),
        rules=added("few-spaces", "panel", "spaces >= 20", "spaces", inspection="rough-in"),
    ),
    Kind(
        "rooms where panels may not be",
        "settings:\n  breakers-in-forbidden-place.banned-places: [bathroom, clothes-closet, kitchen]\n",
        "panel sub\n  at kitchen; handle-height 5 ft; readily-accessible yes; over-stairs no\nplace kitchen\n  use kitchen\n",
        {"breakers-in-forbidden-place"},
        set(),
    ),
    Kind(
        "ground-fault rules cut back",
        'leaves-out:\n  gfci-receptacle-location: "Not adopted"\n',
        "receptacles basin\n  at bath; circuit c; rating 20 A; serves basin; gfci no\nplace bath\n  use bathroom\n"
        "circuit c\n  protection none; poles 1; breaker 20 A\n",
        set(),
        {"gfci-receptacle-location"},
    ),
    Kind(
        "arc-fault rules without the kitchen",
        "settings:\n  afci-needed.rooms: [bedroom, living]\n",
        "receptacles counter\n  at kitchen; circuit c; rating 20 A; serves counter\n"
        "place kitchen\n  use kitchen; building house\n"
        "building house\n  use one-family\ncircuit c\n  protection gfci; poles 1; breaker 20 A; use small-appliance\n",
        set(),
        {"afci-room-circuit"},
    ),
    Kind(
        "tamper-resistant receptacles not adopted",
        'leaves-out:\n  receptacle-not-tamper-resistant: "Deleted"\n',
        "receptacles wall\n  at bedroom; circuit c; rating 15 A; tamper-resistant no; height 16 in; serves general\n"
        "place bedroom\n  use bedroom; building house\nbuilding house\n  use one-family\n"
        "circuit c\n  panel p; poles 1; breaker 15 A\n"
        "panel p\n  at bedroom\n",
        set(),
        {"receptacle-not-tamper-resistant"},
    ),
    Kind(
        "the surge device taken back",
        'leaves-out:\n  surge-device-missing: "Not adopted"\n',
        "complete service, feeders, circuits\n"
        + service(more="inside-length 0 ft").replace("breaker", "surge-protection none; breaker"),
        set(),
        {"surge-device-missing"},
    ),
    Kind(
        "more cover by a setting",
        "settings:\n  trench-too-shallow.extra-cover: 6 in\n",
        DITCH.format(cover="20 in", backfill="clean"),
        {"trench-too-shallow"},
        set(),
    ),
    Kind(
        "more cover by a row of the table",
        'tables:\n  burial-cover:\n    - {location: yard, nonmetallic: 24, because: "Code 300.5"}\n',
        DITCH.format(cover="20 in", backfill="clean"),
        {"trench-too-shallow"},
        set(),
    ),
    Kind(
        "a rule that counts less",
        'changes:\n  backfill-rocky: {severity: caution, because: "Code 300.5"}\n',
        DITCH.format(cover="24 in", backfill="rocky"),
        {"backfill-rocky"},
        {"backfill-rocky"},
    ),
    Kind(
        "voltage drop as a rule",
        'changes:\n  total-voltage-drop: {severity: correction, because: "Code 24.1"}\n'
        "settings:\n  total-voltage-drop.most-drop: 4 %\n",
        "",
        set(),
        set(),
    ),
    Kind(
        "service cable in insulation by its lowest column, any size",
        "settings:\n  ampacity-of-cable.sixty-degrees-up-to: 500 kcmil copper, 500 kcmil aluminum\n",
        "complete loads, receptacles, lights\ncircuit c\n"
        "  breaker 60 A; cable SEU; hot 2 x 6 AWG copper XHHW-2; touches-insulation yes\n"
        "load heater\n  type space-heat; circuit c; amps 47 A; connection hard-wired\n",
        {"service-cable-in-insulation"},
        set(),
    ),
    Kind(
        "ready for a car",
        "adds: [rules/not-ready-for-a-car.yaml]\n",
        "complete circuits\nbuilding house\n  use one-family; car-charger none\n",
        {"not-ready-for-a-car"},
        set(),
        rules=added(
            "not-ready-for-a-car", "building", "car-charger is not none", "car-charger", "is-dwelling", inspection="rough-in"
        ),
    ),
    Kind(
        "a permission for three wires to outbuildings taken away",
        "adds: [rules/three-wires-out.yaml]\n",
        "feeder out\n  ground none; existing yes; hot 2 x 6 AWG copper THWN-2\n",
        {"three-wires-out"},
        set(),
        rules=added("three-wires-out", "feeder", "ground is not none", "ground", inspection="underground"),
    ),
    Kind(
        "bends of a utility's own pipe",
        "settings:\n  raceway-too-many-bends.most-bend: 180 deg\n",
        "complete raceways\nraceway pipe\n"
        "  type PVC-40; size 1 in; bends 90 deg, 90 deg, 45 deg; continues none; route inside; holds none\n",
        {"raceway-too-many-bends"},
        set(),
    ),
    Kind(
        "another inspection",
        'changes:\n  trench-too-shallow: {inspection: footing, because: "Stages of inspection"}\n',
        DITCH.format(cover="10 in", backfill="clean"),
        {"trench-too-shallow"},
        {"trench-too-shallow"},
    ),
    Kind(
        "the houses stay on an older edition of one rule",
        'leaves-out:\n  emergency-disconnect-missing-at-feeder-fed-house: "Houses stay on 2020 here"\n',
        "",
        set(),
        set(),
        base="model-2023",
    ),
]


def lay_out(kind: Kind, folder: Path) -> Path:
    place = folder / "profiles"
    (place / "rules").mkdir(parents=True)
    head = f"profile: place\ntitle: A made-up place\nbased-on: {kind.base}\nconfirm-with: Building office\nchecked: 2026-03-01\n"
    (place / "place.yaml").write_text(head + kind.body)
    for name, parts in kind.rules.items():
        (place / "rules" / f"{name}.yaml").write_text(RULE.format(name=name, **parts).replace("when: yes\n", ""))
    plan = folder / "house.plan"
    complete = kind.plan.partition("\n")[0] if kind.plan.startswith("complete") else ""
    body = kind.plan.removeprefix(complete).lstrip("\n")
    plan.write_text(f'plan "House"\n  profile place{f"; {complete}" if complete else ""}\n{body}')
    return plan


def rules_found(names: list[str], plan: Path) -> set[str]:
    report = Desk(names, [plan.parent / "profiles"]).check_file(plan)
    assert report.not_checked == []
    return {finding.rule for finding in report.findings}


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_a_place_says_it_without_python(kind: Kind, tmp_path: Path) -> None:
    plan = lay_out(kind, tmp_path)
    spoken = kind.found | kind.found_by_base
    assert rules_found(["place"], plan) & spoken == kind.found
    assert rules_found([kind.base], plan) & spoken == kind.found_by_base
    code = Desk(["place"], [plan.parent / "profiles"]).code()
    assert code.changes_count > 0
    base = Desk([kind.base]).code()
    assert kind.found != kind.found_by_base or any(code.rules.get(name) != base.rules.get(name) for name in base.rules)


def test_a_change_of_inspection_shows_in_the_finding(tmp_path: Path) -> None:
    kind = next(kind for kind in KINDS if kind.name == "another inspection")
    plan = lay_out(kind, tmp_path)
    report = Desk(["place"], [plan.parent / "profiles"]).check_file(plan)
    finding = next(finding for finding in report.findings if finding.rule == "trench-too-shallow")
    assert finding.inspection == "footing"
    assert finding.clause[0] == "Stages of inspection (place)"


def test_a_row_of_a_table_shows_in_the_finding_and_in_its_working(tmp_path: Path) -> None:
    kind = next(kind for kind in KINDS if kind.name == "more cover by a row of the table")
    plan = lay_out(kind, tmp_path)
    report = Desk(["place"], [plan.parent / "profiles"]).check_file(plan)
    finding = next(finding for finding in report.findings if finding.rule == "trench-too-shallow")
    assert "burial-cover: location yard, nonmetallic 24 place line 8 (Code 300.5)" in finding.layers
    assert "NFPA 70 Table 300.5, with rows of place" in {step.source for step in finding.working}


def test_a_utilitys_rules_beside_a_countys(tmp_path: Path) -> None:
    """Two on one plan: the county's figure and the utility's; the finding names where each comes from."""
    county = Kind(
        "county",
        "settings:\n  trench-too-shallow.extra-cover: 2 in\n",
        DITCH.format(cover="19 in", backfill="clean"),
        set(),
        set(),
    )
    plan = lay_out(county, tmp_path)
    utility = "profile: power-company\ntitle: Power company\nconfirm-with: Meter desk\n"
    utility += "settings:\n  raceway-too-many-bends.most-bend: 270 deg\n"
    (plan.parent / "profiles" / "power-company.yaml").write_text(utility)
    text = plan.read_text().replace("profile place", "profile place, power-company; complete raceways")
    plan.write_text(
        text
        + "raceway mast\n  type RMC; size 2 in; bends 90 deg, 90 deg, 90 deg, 45 deg; continues none; holds none; route inside\n"
    )
    report = Desk([], [plan.parent / "profiles"]).check_file(plan)
    found = {finding.rule: finding for finding in report.findings}
    assert {"trench-too-shallow", "raceway-too-many-bends"} <= found.keys()
    assert "extra-cover: 0 in model-2020, 2 in place line 7" in found["trench-too-shallow"].layers
    assert "most-bend: 360 deg model-2020, 270 deg power-company line 5" in found["raceway-too-many-bends"].layers
    assert found["raceway-too-many-bends"].confirm == "Meter desk"
    assert found["trench-too-shallow"].confirm == "Building office"
