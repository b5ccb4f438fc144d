"""Pulling wire through pipe, against handbooks, the capstan equation and the differential equation of a rope over an arc.

Sources: CommScope, ConQuest Conduit Construction Manual, pages 44 and 68 to 71 (straight and bent runs, bend factors, one whole
run); EC&M, 1 November 2001 (radius from the pressure allowed); IEWC, Pulling Tensions (0.008 and 0.006 lb for each circular mil,
1000 lb by a basket grip, after an ICEA-sponsored study); UFC 3-535-01, table 12-4 (tension of 6 AWG); Euler's equation of a rope
round a post; statics of round wires in a round pipe.
"""

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.facts import pull_forces as forces
from planlint.facts.engine import Job
from planlint.facts.pull_limits import most_tension_by_wires, weight_correction_here
from planlint.facts.pulling import (
    bend_radius_for_pull,
    better_end,
    longest_pull,
    most_pull_tension,
    most_sidewall_pressure,
    pull_tension,
    pull_tension_back,
    sidewall,
)
from planlint.plan.elements import NotStated
from planlint.quantities import figured

JobFor = Callable[..., Job]
COAX = "cable-weight 0.144 lb/ft; friction 0.5; most-tension 340 lb; weight-correction 1"


def pulled(way: str, wires: str = COAX, size: str = "2 in") -> str:
    return f"complete raceways\nraceway pipe\n  type HDPE; size {size}; continues none; {way}\n  {wires}\n"


def of(job: Job, fact: Callable[..., object], unit: str) -> float:
    return float(fact(job.graph.one("pipe"), job).within(unit))  # type: ignore[attr-defined]


def steps(job: Job, fact: Callable[..., object]) -> list[float]:
    """The pounds (or lb/ft) at the end of each line of the working."""
    with job.observing(job.graph.one("pipe")) as root:
        fact(job.graph.one("pipe"), job)
    return [float(step.value.split()[0]) for step in root.uses[0].steps]


def test_the_longest_straight_pull(job_for: JobFor) -> None:
    """CommScope page 68: 340 lb / (0.144 lb/ft x 0.5) = 340 / 0.072 = 4722 ft."""
    job = job_for(pulled("length 500 ft; bends none; slopes 0 deg"))
    assert of(job, longest_pull, "ft") == pytest.approx(4722.2, abs=0.05)


def test_a_straight_pull(job_for: JobFor) -> None:
    """CommScope page 68: 500 ft x 0.144 x 0.5 = 36 lb."""
    job = job_for(pulled("length 500 ft; bends none; slopes 0 deg"))
    assert of(job, pull_tension, "lb") == pytest.approx(36)
    assert of(job, sidewall, "lb/ft") == 0


def test_at_the_longest_length_the_limit_is_reached(job_for: JobFor) -> None:
    """The same page, backward: 4722.2 ft pull with 340 lb."""
    job = job_for(pulled("length 4722.222 ft; bends none; slopes 0 deg"))
    assert of(job, pull_tension, "lb") == pytest.approx(340, abs=0.001)


RUN = "sections 100 ft, 80 ft, 75 ft, 70 ft; bends 45 deg, 90 deg, 45 deg; bend-radius 10 ft; slopes 0 deg, 0 deg, 0 deg, 0 deg"
PRINTED = (7, 10, 16, 35, 40, 59, 64)
PRESSED = (1.0, 3.5, 5.9)


def test_a_whole_run_rounded_at_each_step_as_printed() -> None:
    """CommScope page 71: 100, 80, 75, 70 ft with bends of 45, 90, 45 deg: 7, 10, 16, 35, 40, 59, 64 lb; 1.0, 3.5, 5.9 lb/ft.

    The page rounds each tension to whole pounds before it goes on, and so does this chain of our formulas.
    """
    tension, found = 0.0, []
    for at, feet in enumerate((100, 80, 75, 70)):
        tension = round(forces.straight(tension, 0.144, 0.5, feet))
        found.append(tension)
        if at < 3:
            tension = round(forces.capstan(tension, 0.5, math.radians((45, 90, 45)[at])))
            found.append(tension)
    assert tuple(found) == PRINTED
    assert tuple(found[at] / 10 for at in (1, 3, 5)) == PRESSED


def test_a_whole_run_without_rounding(job_for: JobFor) -> None:
    """The same run, put into a plan: within 5 % or 3/4 lb of what is printed, which rounds at each step; unrounded 66.4 lb."""
    job = job_for(pulled(RUN))
    assert steps(job, pull_tension) == pytest.approx(PRINTED, rel=0.05, abs=0.75)
    assert of(job, pull_tension, "lb") == pytest.approx(66.4, rel=0.01)
    pressures = steps(job, sidewall)[-3:]
    assert pressures == pytest.approx([tension / (10 - 2.047 / 24) for tension in steps(job, pull_tension)[1::2]], rel=0.001)
    assert pressures == pytest.approx(PRESSED, rel=0.06, abs=0.1)
    assert of(job, sidewall, "lb/ft") == pytest.approx(max(pressures), rel=0.001)


FACTORS = {
    15: (1.20, 1.17, 1.14, 1.11, 1.08, 1.04), 30: (1.44, 1.37, 1.30, 1.23, 1.17, 1.08), 45: (1.73, 1.60, 1.48, 1.37, 1.27, 1.13),
    60: (2.08, 1.87, 1.68, 1.52, 1.37, 1.17), 75: (2.50, 2.19, 1.92, 1.69, 1.48, 1.22), 90: (3.00, 2.57, 2.19, 1.87, 1.60, 1.27),
}  # fmt: skip


@pytest.mark.parametrize("degrees", FACTORS)
def test_bend_factors(degrees: int) -> None:
    """CommScope page 69: what a bend multiplies by, for friction 0.7, 0.6, 0.5, 0.4, 0.3 and 0.15."""
    for friction, printed in zip((0.7, 0.6, 0.5, 0.4, 0.3, 0.15), FACTORS[degrees], strict=True):
        assert forces.capstan(1, friction, math.radians(degrees)) == pytest.approx(printed, abs=0.0101)


def test_the_radius_for_a_pressure(job_for: JobFor) -> None:
    """EC&M, November 2001: 3600 lb / 1200 lb/ft = 3 ft, which is to the inner wall; plans state it to the middle of the pipe."""
    wires = "cable-weight 7.2 lb/ft; friction 0.5; most-sidewall 1200 lb/ft; weight-correction 1"
    job = job_for(pulled("sections 1000 ft, 0 ft; bends 0.001 deg; slopes 0 deg, 0 deg; bend-radius 4 ft", wires))
    assert of(job, pull_tension, "lb") == pytest.approx(3600, rel=1e-4)
    assert of(job, bend_radius_for_pull, "ft") - 2.047 / 24 == pytest.approx(3, rel=1e-4)


@pytest.mark.parametrize(("wires", "printed"), [(2, 420), (3, 630)])
def test_what_six_gauge_bears(job_for: JobFor, wires: int, printed: float) -> None:
    """UFC 3-535-01, table 12-4: two 6 AWG 420 lb, three 630 lb; 26,240 circular mils (Table 8) x 0.008 lb each."""
    job = job_for(f"raceway pipe\n  type PVC-40; size 2 in; holds {wires} x 6 AWG copper XHHW-2\n")
    assert of(job, most_tension_by_wires, "lb") == pytest.approx(printed, abs=0.5)


def test_aluminum_many_wires_and_the_basket_grip(job_for: JobFor) -> None:
    """IEWC: 0.006 lb for aluminum; 1000 lb by a basket grip. A wire maker's page: 80 % for more than three."""

    def bears(more: str) -> float:
        return of(job_for(f"raceway pipe\n  type PVC-40; size 4 in; {more}\n"), most_tension_by_wires, "lb")

    assert bears("holds 3 x 2 AWG aluminum XHHW-2; pulled-by eye") == pytest.approx(3 * 66360 * 0.006)
    assert bears("holds 3 x 2 AWG aluminum XHHW-2; pulled-by grip") == 1000
    assert bears("holds 4 x 2 AWG aluminum XHHW-2; pulled-by eye") == pytest.approx(4 * 66360 * 0.006 * 0.8)
    assert bears("holds 2 x 4 AWG copper XHHW-2, 1 x 4 AWG aluminum XHHW-2; pulled-by eye") == pytest.approx(3 * 41740 * 0.006)
    with pytest.raises(NotStated, match="pulled-by"):
        bears("holds 3 x 2 AWG aluminum XHHW-2")


def pressed_by_statics(count: int, x: float) -> float:
    """All forces on the wall over the weight of the wires, from the balance of each wire; x is d / (D - d).

    Two lie side by side, a third in a triangle on top of them: two touch the wall, at angles with sine x from below. Three side
    by side: the line from the middle one to an outer one turns by twice the angle with sine x, and each outer one is held by the
    wall and by the middle one.
    """
    half = math.asin(x)
    if count == 2:
        return 1 / math.cos(half)
    turn = 2 * half
    # Outer wire, weight 1: wall N at `turn`, middle wire F along the line between their centers.
    # N sin(turn) = F cos(half); N cos(turn) + F sin(half) = 1
    wall = 1 / (math.cos(turn) + math.sin(turn) / math.cos(half) * math.sin(half))
    middle = 3 - 2 * wall * math.cos(turn)
    return (2 * wall + middle) / 3


@pytest.mark.parametrize(
    ("wires", "diameter", "as_if"),
    [
        ("1 x 4/0", 0.638, 1),
        ("2 x 4/0", 0.638, 2),
        ("3 x 1 AWG", 0.442, 3),
        ("3 x 4/0", 0.638, 3),
        ("3 x 500 kcmil", 0.943, 2),
    ],
)
def test_how_wires_wedge(job_for: JobFor, wires: str, diameter: float, as_if: int) -> None:
    """Statics, with the diameters of Chapter 9, Tables 4 and 5: one, two or three side by side, or (narrow pipe) a triangle."""
    job = job_for(f"raceway pipe\n  type PVC-40; size 2 in; holds {wires} aluminum XHHW-2\n")
    found = weight_correction_here(job.graph.one("pipe"), job)
    expected = 1.0 if as_if == 1 else pressed_by_statics(as_if, diameter / (2.047 - diameter))
    assert found == pytest.approx(expected, rel=0.003)


def test_side_by_side_is_never_the_easier_way() -> None:
    """So where both are possible it is taken. At D / d = 2.155, where three just go in, the two are alike."""
    for step in range(1, 86):
        x = step / 100
        assert pressed_by_statics(3, x) >= pressed_by_statics(2, x)
    tightest = 1 / (1 + 2 / math.sqrt(3) - 1)
    assert pressed_by_statics(3, tightest) == pytest.approx(pressed_by_statics(2, tightest))


def by_steps(
    tension: float, weight: float, drag: float, enters: float, leaves: float, radius: float, level: float = 0.0
) -> float:
    """The rope over an arc, integrated in small steps: dT/ds = weight x sin(slope) + drag x force against the wall.

    In an upright arc the force is the tension over the radius, with or against the weight across the rope. `level`: the angle of
    a bend that lies level, where the two stand square to each other.
    """
    count = 4000
    angle = level or abs(leaves - enters)
    sign = 0 if level else (1 if leaves < enters else -1)

    def slope(at: float) -> float:
        return 0.0 if level else enters + (leaves - enters) * at / angle

    def grows(at: float, held: float) -> float:
        across = weight * math.cos(slope(at))
        wall = math.hypot(held / radius, weight) if level else abs(held / radius + sign * across)
        return radius * (weight * math.sin(slope(at)) + drag * wall)

    step = angle / count
    for number in range(count):
        at = number * step
        first = grows(at, tension)
        second = grows(at + step / 2, tension + first * step / 2)
        third = grows(at + step / 2, tension + second * step / 2)
        fourth = grows(at + step, tension + third * step)
        tension += step * (first + 2 * second + 2 * third + fourth) / 6
    return tension


NINETY = math.pi / 2


@pytest.mark.parametrize("degrees", [15, 45, 90, 180])
@pytest.mark.parametrize("tension", [0.0, 0.5, 30.0])
def test_a_level_bend_against_the_differential_equation(tension: float, degrees: float) -> None:
    angle = math.radians(degrees)
    assert forces.level_bend(tension, 0.6, 0.55, angle, 3) == pytest.approx(by_steps(tension, 0.6, 0.55, 0, 0, 3, level=angle))


@pytest.mark.parametrize(
    ("enters", "leaves"),
    [(0, NINETY), (NINETY, 0), (0, -NINETY), (-NINETY, 0), (-0.5, 0.5), (0.5, -0.5), (0.2, 0.8), (-0.8, -0.2), (-0.2, -0.9)],
)
@pytest.mark.parametrize("drag", [0.2, 0.6, 1.1])
def test_an_upright_bend_against_the_differential_equation(enters: float, leaves: float, drag: float) -> None:
    """Up, down, over a hump and through a dip, with a tension that lifts the rope off the outer wall."""
    found = forces.upright_bend(40, 0.6, drag, enters, leaves, 3).past(drag)
    assert found == pytest.approx(by_steps(40, 0.6, drag, enters, leaves, 3))


@pytest.mark.parametrize(("enters", "leaves"), [(0, NINETY), (-NINETY, 0), (-0.5, 0.5), (0.2, 0.8)])
def test_a_slack_rope_in_a_dip_is_never_taken_too_lightly(enters: float, leaves: float) -> None:
    """Below the tension that lifts it, a little more is taken than the rope takes: at most some weights of the arc."""
    for tension in (0.0, 0.3, 1.0, 1.7):
        found = forces.upright_bend(tension, 0.6, 0.6, enters, leaves, 3).past(0.6)
        real = max(0.0, by_steps(tension, 0.6, 0.6, enters, leaves, 3))
        assert real <= found + 1e-9
        assert found - real <= 6 * 0.6 * 3


@pytest.mark.parametrize(("enters", "leaves"), [(0, NINETY), (0, -NINETY), (0.5, -0.5)])
def test_without_weight_every_bend_is_a_capstan(enters: float, leaves: float) -> None:
    """Euler: T e^(f a)."""
    angle = abs(leaves - enters)
    euler = 100 * math.exp(0.4 * angle)
    assert forces.upright_bend(100, 1e-9, 0.4, enters, leaves, 3).past(0.4) == pytest.approx(euler)
    assert forces.level_bend(100, 1e-9, 0.4, angle, 3) == pytest.approx(euler)
    assert forces.capstan(100, 0.4, angle) == pytest.approx(euler)


def test_without_friction_only_the_height_counts(job_for: JobFor) -> None:
    """Energy: a rope without friction weighs what hangs from it, whatever way it takes. 30 ft up at 0.6 lb/ft: 18 lb."""
    assert forces.straight(0, 0.6, 1e-9, 30, NINETY) == pytest.approx(18)
    past = forces.upright_bend(9, 0.6, 1e-9, 0, NINETY, 5).past(1e-9)
    assert past == pytest.approx(9 + 0.6 * 5)
    assert forces.upright_bend(9, 0.6, 1e-9, NINETY, 0, 5).past(1e-9) == pytest.approx(9 + 0.6 * 5)


def test_a_slope_is_a_block_on_a_ramp() -> None:
    """Physics: weight x (sin + f cos); down a slope steeper than the friction it runs by itself and is held at nothing."""
    assert forces.straight(0, 1, 0.3, 100, math.radians(20)) == pytest.approx(100 * (0.34202 + 0.3 * 0.93969), abs=0.01)
    assert forces.straight(5, 1, 0.3, 100, math.radians(-10)) == pytest.approx(5 + 100 * (-0.17365 + 0.3 * 0.98481), abs=0.01)
    assert forces.straight(5, 1, 0.3, 100, math.radians(-45)) == 0


def test_both_ways_and_the_better_end(job_for: JobFor) -> None:
    """By hand, from Euler: a bend close to the feeding end multiplies little. Level, 0.5: 10 ft, 90 deg, 190 ft."""
    way = "sections 10 ft, 190 ft; bends 90 deg; bend-radius 0.5 ft; slopes 0 deg, 0 deg"
    job = job_for(pulled(way, "cable-weight 1 lb/ft; friction 0.5; weight-correction 1"))
    grow = math.exp(0.5 * NINETY)
    assert of(job, pull_tension, "lb") == pytest.approx(5 * grow + 95, rel=0.005)
    assert of(job, pull_tension_back, "lb") == pytest.approx(95 * grow + 5, rel=0.005)
    assert better_end(job.graph.one("pipe"), job) == "last"


def test_down_is_better_than_up(job_for: JobFor) -> None:
    """A straight pull on a slope: pulled toward its lower end it takes less."""
    job = job_for(pulled("length 100 ft; bends none; slopes 20 deg", "cable-weight 1 lb/ft; friction 0.5; weight-correction 1"))
    assert better_end(job.graph.one("pipe"), job) == "first"
    assert of(job, pull_tension, "lb") - of(job, pull_tension_back, "lb") == pytest.approx(2 * 100 * math.sin(math.radians(20)))


RISERS = """complete raceways
raceway down
  type PVC-80; size 2 in; length 4 ft; bends none; slopes -90 deg; continues ditch; weight-correction 1.3
raceway ditch
  type PVC-40; size 2 in; sections 0 ft, 96 ft, 0 ft; bends 90 deg, 90 deg; bend-radius 24 in; slopes -90 deg, 0 deg, 90 deg
  continues up; weight-correction 1.3; cable-weight 0.5 lb/ft; most-tension 1000 lb; most-sidewall 300 lb/ft
raceway up
  type PVC-80; size 2 in; length 5 ft; bends none; slopes 90 deg; continues none; weight-correction 1.3
"""


@pytest.mark.parametrize("name", ["down", "ditch", "up"])
def test_risers_and_ditch_are_one_pull(job_for: JobFor, name: str) -> None:
    """Against the differential equation from end to end: 4 ft down, bend, 96 ft, bend, 5 ft up, drag 0.5 x 1.3."""
    job = job_for(RISERS)
    drag, weight = 0.65, 0.5
    tension = max(0.0, -weight * 4)
    tension = by_steps(tension, weight, drag, -NINETY, 0, 2)
    tension += weight * drag * 96
    tension = by_steps(tension, weight, drag, 0, NINETY, 2)
    tension += weight * 5
    found = pull_tension(job.graph.one(name), job).within("lb")
    assert tension <= found <= tension * 1.1
    assert most_pull_tension(job.graph.one(name), job).within("lb") == found
    less = job_for(RISERS.replace("sections 0 ft, 96 ft, 0 ft", "length 96 ft"))
    assert most_pull_tension(less.graph.one(name), less).within("lb") > found


@pytest.mark.parametrize(
    ("old", "new", "asked"),
    [
        ("slopes -90 deg; continues ditch", "continues ditch", "slopes"),
        ("slopes -90 deg; continues ditch", "slopes 0 deg; continues ditch", "bend that isn't stated"),
        ("sections 0 ft, 96 ft, 0 ft; ", "", "sections"),
        ("sections 0 ft, 96 ft, 0 ft; ", "sections 96 ft; ", "sections"),
        ("slopes -90 deg, 0 deg, 90 deg", "slopes -90 deg, 0 deg", "slopes"),
        ("slopes -90 deg, 0 deg, 90 deg", "slopes -90 deg, 10 deg, 90 deg", "beside its bend 1"),
        ("bend-radius 24 in; ", "", "bend-radius"),
        ("cable-weight 0.5 lb/ft; ", "", "cable-weight"),
        ("length 5 ft", "friction 0.5", "length"),
        ("; continues none; weight-correction 1.3", "; weight-correction 1.3", "continues"),
        ("continues none; weight-correction 1.3", "continues none", "holds"),
    ],
)
def test_what_is_left_out_stays_open(job_for: JobFor, old: str, new: str, asked: str) -> None:
    assert RISERS.count(old) == 1
    job = job_for(RISERS.replace(old, new))
    with pytest.raises(NotStated, match=asked):
        pull_tension(job.graph.one("ditch"), job)


def test_each_line_of_the_working_can_be_followed(job_for: JobFor) -> None:
    """The numbers of a line give its result: the first straight, and the level bend after it."""
    job = job_for(pulled(RUN))
    with job.observing(job.graph.one("pipe")) as root:
        pull_tension(job.graph.one("pipe"), job)
    first, second = root.uses[0].steps[:2]
    assert (first.text, first.value) == ("100 ft of pipe: 0 + 0.144 x 100 x 0.5", "7.2 lb")
    assert (
        second.text
        == "level bend of 45 deg in pipe: 7.2 x cosh(0.5 x 0.7854) + sqrt(7.2^2 + (0.144 x 10)^2) x sinh(0.5 x 0.7854)"
    )
    assert second.value == f"{figured(7.2 * math.cosh(0.3927) + math.hypot(7.2, 1.44) * math.sinh(0.3927), 4)} lb"


PULLS = st.fixed_dictionaries(
    {
        "feet": st.lists(st.integers(0, 200), min_size=3, max_size=3),
        "radius": st.integers(8, 60),
        "friction": st.floats(0.1, 0.8).map(lambda f: round(f, 2)),
        "weight": st.floats(0.05, 3).map(lambda w: round(w, 2)),
        "slopes": st.sampled_from([(0, 0, 0), (0, 90, 0), (-90, 0, 90), (90, 0, 0), (0, 0, -90), (0, 0, 90)]),
    }
)


def job_of(job_for: JobFor, feet: list[int], radius: int, friction: float, weight: float, slopes: tuple[int, ...] | None) -> Job:
    sections = ", ".join(f"{each} ft" for each in feet)
    told = "; slopes " + ", ".join(f"{each} deg" for each in slopes) if slopes else ""
    wires = f"cable-weight {weight:g} lb/ft; friction {friction:g}; weight-correction 1.2"
    return job_for(pulled(f"sections {sections}; bends 90 deg, 90 deg; bend-radius {radius} in{told}", wires))


@settings(max_examples=60, deadline=None)
@given(pull=PULLS, more=st.integers(1, 100), where=st.integers(0, 2), grip=st.integers(1, 20))
def test_laws(job_for: JobFor, pull: dict[str, object], more: int, where: int, grip: int) -> None:
    """A longer level pull and more friction never take less; a larger radius never presses more (of a pull that isn't slack)."""
    tension = of(job_of(job_for, **pull), pull_tension, "lb")  # type: ignore[arg-type]
    rubbing = job_of(job_for, **{**pull, "friction": pull["friction"] + grip / 100})  # type: ignore[arg-type, operator]
    assert of(rubbing, pull_tension, "lb") >= tension - 1e-9
    if pull["slopes"] == (0, 0, 0):
        feet = [each + (more if at == where else 0) for at, each in enumerate(pull["feet"])]  # type: ignore[arg-type, var-annotated]
        assert of(job_of(job_for, **{**pull, "feet": feet}), pull_tension, "lb") >= tension - 1e-9  # type: ignore[arg-type]
        wide = job_of(job_for, **{**pull, "radius": pull["radius"] + more})  # type: ignore[arg-type, operator]
        assert of(wide, sidewall, "lb/ft") <= of(job_of(job_for, **pull), sidewall, "lb/ft") + 1e-9  # type: ignore[arg-type]


@settings(max_examples=60, deadline=None)
@given(pull=PULLS)
def test_no_slope_is_harder_than_the_hardest(job_for: JobFor, pull: dict[str, object]) -> None:
    """What is said where slopes are left out bounds every way in which the pipe may lie; so does a length without sections."""
    stated = job_of(job_for, **pull)  # type: ignore[arg-type]
    without = job_of(job_for, **{**pull, "slopes": None})  # type: ignore[arg-type]
    assert of(without, most_pull_tension, "lb") >= of(stated, pull_tension, "lb") - 1e-9
    assert of(without, most_sidewall_pressure, "lb/ft") >= of(stated, sidewall, "lb/ft") - 1e-9
    total = sum(pull["feet"])  # type: ignore[arg-type, call-overload]
    wires = f"cable-weight {pull['weight']:g} lb/ft; friction {pull['friction']:g}; weight-correction 1.2"
    whole = job_for(pulled(f"length {total} ft; bends 90 deg, 90 deg; bend-radius {pull['radius']} in", wires))
    assert of(whole, most_pull_tension, "lb") >= of(without, most_pull_tension, "lb") - 1e-9
