"""What ties metal piping to the service, and how large it has to be: edge cases, and the laws of the sizes."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.engine import Job
from planlint.facts.piping import bond_needed, bond_size, fits_its_pipe, is_bonded, is_electrode
from planlint.plan.elements import NotStated
from planlint.trade import NO_WIRE, WireSize

JobFor = Callable[..., Job]
COPPER = ("8", "6", "4", "2", "1/0", "2/0", "3/0")

PLACES = """building cottage
  use {use}
building shed
  use shed
building studio
  use workshop
place hall
  building cottage
place shed-room
  building shed
place studio-room
  building studio
supply utility
  type utility
disconnect main-switch
  at hall; breaker 200 A
service drop-wires
  from utility; to main-switch; owner customer; hot 2 x {hot} XHHW-2; raceway drop-pipe
raceway drop-pipe
  type PVC-80
panel hall-panel
  at hall
feeder hall-feeder
  from main-switch; to hall-panel; breaker 100 A; hot 2 x 1 AWG aluminum XHHW-2; raceway hall-pipe
raceway hall-pipe
  type PVC-40
panel studio-panel
  at studio-room
feeder studio-feeder
  from main-switch; to studio-panel; breaker 100 A; hot 2 x 1 AWG aluminum XHHW-2; raceway studio-pipe
raceway studio-pipe
  type PVC-40
disconnect shed-switch
  at shed-room; switch-rating 30 A
circuit shed-circuit
  panel main-switch; breaker 20 A; cable 12/2 copper UF-B
lights shed-light
  at shed-room; circuit shed-circuit
piping pipe
  {pipe}
"""


def job_of(
    job_for: JobFor, rest: str = "", pipe: str = "", hot: str = "4/0 aluminum", whole: bool = True, use: str = "one-family"
) -> Job:
    head = "complete service, feeders, circuits, lights, loads, receptacles, grounding\n" if whole else ""
    pipe = pipe or "type water; building cottage; material copper"
    return job_for(head + PLACES.format(pipe=pipe, hot=hot, use=use) + rest)


def bond(said: str, kind: str = "water-pipe") -> str:
    return f"bond b\n  type {kind}; to pipe; {said}\n"


def answer(fact: Callable[[Any, Job], object], name: str, job: Job) -> object:
    try:
        return fact(job.graph.one(name), job)
    except NotStated:
        return "undecided"


RODS = "electrode rods\n  type rod; building {home}; count 2\n"
STUDIO_WIRE = "electrode-conductor rod-wire\n  from studio-panel; to rods; size {size}\n"
ROD_WIRE = "electrode-conductor rod-wire\n  from main-switch; to rods; size {size}\n"


@pytest.mark.parametrize(
    ("pipe", "start", "counts"),
    [
        ("type water; building cottage; material copper", "main-switch", True),
        # 250.104(A)(1): the service, not a panel past it.
        ("type water; building cottage; material copper", "hall-panel", False),
        ("type water; building cottage; material copper", "studio-panel", False),
        # 250.104(A)(3): a building that a feeder supplies has its own place.
        ("type water; building studio; material copper", "studio-panel", True),
        ("type water; building studio; material copper", "main-switch", False),
        ("type water; building shed; material copper", "shed-switch", True),
        # 250.104(B): the ground of any gear leads to the service; the fuel gas code wants csst tied at the electrodes.
        ("type gas; building cottage; material steel", "hall-panel", True),
        ("type gas; building cottage; material csst", "hall-panel", False),
        ("type gas; building cottage; material csst", "main-switch", True),
        ("type gas; building cottage; material csst", "utility", False),
    ],
)
def test_where_a_jumper_to_piping_starts(job_for: JobFor, pipe: str, start: str, counts: bool) -> None:
    job = job_of(job_for, bond(f"from {start}; size 4 AWG copper", "gas-pipe" if "gas" in pipe else "water-pipe"), pipe)
    assert answer(is_bonded, "pipe", job) is counts
    assert answer(bond_size, "pipe", job) == (WireSize("4", "copper") if counts else NO_WIRE)


def test_of_several_dwellings_a_panel_may_be_the_place(job_for: JobFor) -> None:
    """250.104(A)(2): where the pipes of each are apart, which a plan doesn't say."""
    job = job_of(job_for, bond("from hall-panel; size 4 AWG copper"), use="two-family; dwelling-units 2")
    assert answer(is_bonded, "pipe", job) == "undecided"


@pytest.mark.parametrize(
    ("home", "wire", "fits"),
    [
        ("cottage", ROD_WIRE.format(size="4 AWG copper"), True),
        ("cottage", ROD_WIRE.format(size="6 AWG copper"), False),
        ("cottage", "", "undecided"),
    ],
)
def test_by_way_of_an_electrode_both_wires_count(job_for: JobFor, home: str, wire: str, fits: object) -> None:
    """250.104(A)(1)(4)."""
    job = job_of(job_for, bond("from rods; size 4 AWG copper") + RODS.format(home=home) + wire, whole=bool(wire))
    assert answer(fits_its_pipe, "b", job) is fits or answer(fits_its_pipe, "b", job) == fits


METER = """meter meter-can
  at hall; mounted-on cottage
disconnect ahead
  at hall; marking not-service-equipment
disconnect second-main
  at hall; breaker 100 A
service to-can
  from utility; to meter-can; owner utility
service to-ahead
  from meter-can; to ahead; owner customer; hot 2 x 1 AWG aluminum XHHW-2; raceway drop-pipe
service to-second
  from ahead; to second-main; owner customer; hot 2 x 1 AWG aluminum XHHW-2; raceway drop-pipe
"""


@pytest.mark.parametrize(("start", "counts"), [("meter-can", True), ("ahead", True), ("second-main", True)])
def test_the_neutral_ahead_of_the_service_is_a_place_too(job_for: JobFor, start: str, counts: bool) -> None:
    """250.104(A)(1)(2)."""
    job = job_of(job_for, METER + bond(f"from {start}; size 2 AWG copper"))
    assert answer(is_bonded, "pipe", job) is counts


def test_a_jumper_of_another_kind_is_none_to_the_pipe(job_for: JobFor) -> None:
    assert answer(is_bonded, "pipe", job_of(job_for, bond("from main-switch; size 4 AWG copper", "steel"))) is False


def test_never_larger_than_the_hot_wire_of_what_supplies_it(job_for: JobFor) -> None:
    """250.122(A): 40 A ask for 10 AWG, behind which a motor's 12 AWG wires may lie."""
    text = """circuit pump
  breaker 40 A; poles 2; hot 2 x 12 AWG {} THWN-2; neutral none; ground none; raceway drop-pipe
piping gas
  type gas; building cottage; material steel; circuit pump
"""
    assert str(answer(bond_needed, "gas", job_of(job_for, text.format("copper")))) == "12 AWG copper"
    assert str(answer(bond_needed, "gas", job_of(job_for, text.format("aluminum")))) == "10 AWG copper"


def test_an_electrode_that_is_not_joined_or_stands_elsewhere_ties_nothing(job_for: JobFor) -> None:
    apart = job_of(job_for, bond("from rods; size 4 AWG copper") + RODS.format(home="cottage"))
    elsewhere = job_of(
        job_for, bond("from rods; size 4 AWG copper") + RODS.format(home="studio") + STUDIO_WIRE.format(size="4 AWG copper")
    )
    assert answer(is_bonded, "pipe", apart) is answer(is_bonded, "pipe", elsewhere) is False


@pytest.mark.parametrize(
    ("building", "needed"),
    [("cottage", "4 AWG copper"), ("studio", "8 AWG copper"), ("shed", "12 AWG copper")],
)
def test_the_size_comes_from_what_supplies_the_building(job_for: JobFor, building: str, needed: str) -> None:
    """4/0 AWG aluminum service wires, a feeder of 100 A, a circuit of 20 A."""
    job = job_of(job_for, pipe=f"type water; building {building}; material copper")
    assert str(answer(bond_needed, "pipe", job)) == needed


def test_a_house_that_a_post_feeds_goes_by_its_feeder(job_for: JobFor) -> None:
    """250.104(A)(3): 6 AWG copper by the breaker of 200 A; by the service wires of the post it would be 4 AWG."""
    post = """complete service, feeders, circuits, grounding
building cottage
  use one-family
place hall
  building cottage
place yard
  outdoors yes
supply utility
  type utility
service drop-wires
  from utility; to post-switch; owner customer; hot 2 x 4/0 aluminum XHHW-2
disconnect post-switch
  at yard; mounted-on {wall}; breaker 200 A
panel hall-panel
  at hall
feeder hall-feeder
  from post-switch; to hall-panel; breaker 200 A; hot 2 x 4/0 aluminum XHHW-2; raceway hall-pipe
raceway hall-pipe
  type PVC-40
piping pipe
  type water; building cottage; material copper
"""
    for wall, needed, at_panel in (("none", "6 AWG copper", True), ("cottage", "4 AWG copper", False)):
        job = job_for(post.format(wall=wall) + bond("from hall-panel; size 6 AWG copper"))
        assert str(answer(bond_needed, "pipe", job)) == needed
        assert answer(is_bonded, "pipe", job) is at_panel
    unsaid = job_for(post.replace("; mounted-on {wall}", ""))
    assert answer(bond_needed, "pipe", unsaid) == "undecided"


def test_an_open_list_of_bonds_is_no_missing_bond(job_for: JobFor) -> None:
    job = job_of(job_for, whole=False)
    assert answer(is_bonded, "pipe", job) == answer(bond_size, "pipe", job) == "undecided"
    job = job_of(job_for, bond("from main-switch; size 4 AWG copper"), whole=False)
    assert answer(is_bonded, "pipe", job) is True
    assert answer(fits_its_pipe, "b", job) == "undecided"  # another service might make the hot wires larger


def test_the_metal_of_a_jumper_is_never_guessed(job_for: JobFor) -> None:
    job = job_of(job_for, bond("from main-switch; size 4 AWG"))
    assert answer(fits_its_pipe, "b", job) == "undecided"


@pytest.mark.parametrize(("buried", "joined", "used"), [(True, True, True), (True, False, False), (False, True, False)])
def test_a_pipe_is_used_as_an_electrode_where_one_names_it_and_is_joined(
    job_for: JobFor, buried: bool, joined: bool, used: bool
) -> None:
    rest = f"electrode e\n  type {'water-pipe' if buried else 'rod'}; building cottage; pipe pipe\n"
    rest += "electrode-conductor w\n  from main-switch; to e\n" if joined else ""
    assert answer(is_electrode, "pipe", job_of(job_for, rest)) is used


def test_rods_that_name_no_pipe_leave_nothing_open(job_for: JobFor) -> None:
    assert answer(is_electrode, "pipe", job_of(job_for, RODS.format(home="cottage"))) is False
    unknown = "electrode e\n  type water-pipe; building cottage\nelectrode-conductor w\n  from main-switch; to e\n"
    assert answer(is_electrode, "pipe", job_of(job_for, unknown)) == "undecided"


@pytest.mark.parametrize("metal", ["copper", "aluminum"])
def test_larger_service_wires_never_ask_for_a_smaller_jumper(job_for: JobFor, metal: str) -> None:
    sizes = ("2", "1/0", "3/0", "250", "500", "750", "1000", "1500", "2000")
    needed = []
    for size in sizes:
        job = job_of(job_for, bond(f"from main-switch; size 8 AWG {metal}"), hot=f"{size} {metal}")
        needed.append(bond_needed(job.graph.one("pipe"), job))
    assert needed == sorted(needed)
    assert len(set(needed)) > 3
