"""Where the wires to electrodes start: a post and the house it feeds, two mains on one meter, an old outbuilding."""

from collections.abc import Callable

import pytest

from planlint.facts.bonding import fed_by_existing_three_wire
from planlint.facts.electrode_places import has_electrode_wire
from planlint.facts.electrode_wires import landing
from planlint.facts.electrodes import is_connected_at_its_building
from planlint.facts.engine import Job
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]

# A post with meter and main feeds a house. NFPA 70 250.24(A)(1) wants an electrode at the one, 250.32(A) at the other.
POST = """complete service, feeders, grounding
building cottage
  use one-family
place yard
  outdoors yes
place hall
  building cottage
supply utility
  type utility
meter post-meter
  at yard; mounted-on none
disconnect post-main
  at yard; mounted-on none; breaker 200 A
service drop-wires
  from utility; to post-meter
service post-wires
  from post-meter; to post-main
panel house-panel
  at hall; main 200 A
feeder house-feeder
  from post-main; to house-panel
electrode rods
  type rod; building cottage; count 2
"""

# Two mains side by side on one meter. NFPA 70 250.64(D): a wire for each, or one ahead of both.
TWO_MAINS = """complete service, feeders, grounding
supply utility
  type utility
meter big-meter
  height 5 ft
service drop-wires
  from utility; to big-meter
disconnect north-main
  breaker 200 A
disconnect south-main
  breaker 200 A
service north-wires
  from big-meter; to north-main
service south-wires
  from big-meter; to south-main
electrode rods
  type rod; count 2
"""


def wire_from(gear: str) -> str:
    return f"electrode-conductor rod-wire\n  from {gear}; to rods\n"


@pytest.mark.parametrize(
    ("start", "at_post", "at_house"),
    [("post-meter", True, False), ("post-main", True, False), ("house-panel", False, True)],
)
def test_a_post_and_its_house_want_one_each(job_for: JobFor, start: str, at_post: bool, at_house: bool) -> None:
    job = job_for(POST + wire_from(start))
    assert has_electrode_wire(job.graph.one("post-main"), job) is at_post
    assert is_connected_at_its_building(job.graph.one("rods"), job) is at_house


@pytest.mark.parametrize(
    ("start", "served"), [("north-main", [True, False]), ("south-main", [False, True]), ("big-meter", [True, True])]
)
def test_each_of_two_mains_wants_a_wire_or_one_ahead(job_for: JobFor, start: str, served: list[bool]) -> None:
    job = job_for(TWO_MAINS + wire_from(start))
    assert [has_electrode_wire(job.graph.one(name), job) for name in ("north-main", "south-main")] == served


def test_while_more_wires_may_come_it_is_open(job_for: JobFor) -> None:
    job = job_for(POST.replace(", grounding", "") + wire_from("house-panel"))
    with pytest.raises(NotStated):
        has_electrode_wire(job.graph.one("post-main"), job)
    job = job_for(POST.replace(", grounding", "") + wire_from("post-main"))
    with pytest.raises(NotStated):
        is_connected_at_its_building(job.graph.one("rods"), job)


# NFPA 70 250.32(B)(1), exception: where an old feeder of three wires stays, the electrode's wire lands on its neutral.
@pytest.mark.parametrize(("existing", "lands"), [("yes", "outbuilding-neutral-bar"), ("no", "downstream")])
def test_at_an_old_feeder_of_three_wires_the_neutral_bar_is_right(job_for: JobFor, existing: str, lands: str) -> None:
    job = job_for(
        POST.replace(
            "to house-panel",
            "to house-panel; hot 2 x 4/0 aluminum XHHW-2; neutral 2/0 aluminum XHHW-2; ground none; raceway pipe; "
            f"existing {existing}",
        )
        + "raceway pipe\n  type PVC-40\n"
        + wire_from("house-panel; lands-on neutral-bar")
    )
    assert landing(job.graph.one("rod-wire"), job) == lands


def test_a_switch_in_a_circuit_is_fed_by_no_feeder(job_for: JobFor) -> None:
    job = job_for(POST + "disconnect wood-switch\n  switch-rating 20 A\n")
    assert not fed_by_existing_three_wire(job.graph.one("wood-switch"), job)
