"""Laws of voltage drop and fault current: what more length, more wire, more load and more sets can and cannot do."""

from collections.abc import Callable
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planlint.facts.drop import drop, drop_ahead, drop_by_impedance, drop_to_last_outlet, longest_for_drop, size_for_drop
from planlint.facts.engine import Job
from planlint.facts.fault import available_fault, available_fault_to_neutral, fault_at_end, most_fault
from planlint.facts.starting import starting_drop
from planlint.plan.elements import NotStated

JobFor = Callable[..., Job]
LAWS = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])

COPPER = ["12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"]
FEET = st.integers(0, 400)
SIZES = st.integers(0, len(COPPER) - 1)
PIPES = st.sampled_from(["PVC-40", "EMT"])

SHOP = """complete service, feeders, circuits, receptacles, lights, loads, raceways
building shop
  use workshop
place shop-room
  building shop
supply utility
  type utility; volts 120/240 V; {supply}
disconnect shop-disconnect
  at shop-room; breaker 200 A
service drop
  from utility; to shop-disconnect; owner utility
panel shop-panel
  at shop-room; main lugs
feeder shop-feeder
  from shop-disconnect; to shop-panel; breaker 100 A; raceway pipe; length {feeder} ft; sets {sets}
  hot 2 x {size} AWG copper XHHW-2; neutral {size} AWG copper XHHW-2
raceway pipe
  type {pipe}
circuit motor-circuit
  panel shop-panel; poles {poles}; use appliance; cable UF-B; hot {poles} x {small} AWG copper; length {circuit} ft
load saw
  at shop-room; type motor; circuit motor-circuit; connection hard-wired; amps {amps} A; volts {volts} V
  locked-rotor {starting} A
"""


def shop(job_for: JobFor, poles: int = 2, **said: Any) -> Job:
    usual = {
        "supply": "fault-current 10 kA", "feeder": 100, "sets": 1, "size": "4", "pipe": "PVC-40", "small": "10",
        "circuit": 50, "amps": 12, "starting": 70,
    }  # fmt: skip
    return job_for(SHOP.format(**(usual | said), poles=poles, volts=120 * poles))


def percent(job: Job, fact: Any, name: str) -> float:
    share: float = fact(job.graph.one(name), job).within("%")
    return share


def amperes(job: Job, fact: Any, name: str) -> float:
    current: float = fact(job.graph.one(name), job).within("A")
    return current


@LAWS
@given(feet=FEET, more=st.integers(1, 300), poles=st.sampled_from([1, 2]), pipe=PIPES)
def test_a_longer_run_never_drops_less(job_for: JobFor, feet: int, more: int, poles: int, pipe: str) -> None:
    near, far = (shop(job_for, poles, circuit=each, feeder=each, pipe=pipe) for each in (feet, feet + more))
    for fact in (drop, drop_by_impedance, drop_to_last_outlet):
        assert percent(far, fact, "motor-circuit") > percent(near, fact, "motor-circuit")
    assert percent(far, drop_ahead, "motor-circuit") > percent(near, drop_ahead, "motor-circuit")
    assert percent(far, starting_drop, "saw") > percent(near, starting_drop, "saw")


@LAWS
@given(first=SIZES, second=SIZES, poles=st.sampled_from([1, 2]), pipe=PIPES)
def test_a_larger_wire_never_drops_more(job_for: JobFor, first: int, second: int, poles: int, pipe: str) -> None:
    small, large = (
        shop(job_for, poles, size=COPPER[at], small=COPPER[at], pipe=pipe) for at in sorted((first, second))
    )  # fmt: skip
    for fact in (drop, drop_by_impedance, drop_to_last_outlet):
        assert percent(large, fact, "motor-circuit") <= percent(small, fact, "motor-circuit") + 1e-12
    assert percent(large, starting_drop, "saw") <= percent(small, starting_drop, "saw") + 1e-12


@LAWS
@given(amps=st.integers(1, 80), more=st.integers(1, 40))
def test_more_current_never_drops_less(job_for: JobFor, amps: int, more: int) -> None:
    light, heavy = (shop(job_for, amps=each, starting=each) for each in (amps, amps + more))
    assert percent(heavy, drop_to_last_outlet, "motor-circuit") > percent(light, drop_to_last_outlet, "motor-circuit")
    assert percent(heavy, starting_drop, "saw") > percent(light, starting_drop, "saw")


@LAWS
@given(amps=st.integers(1, 60), at=SIZES, poles=st.sampled_from([1, 2]))
def test_the_longest_run_just_keeps_the_limit(job_for: JobFor, amps: int, at: int, poles: int) -> None:
    job = shop(job_for, poles, amps=amps, small=COPPER[at])
    longest = longest_for_drop(job.graph.one("motor-circuit"), job).within("ft")  # type: ignore[arg-type]
    at_it, past = (shop(job_for, poles, amps=amps, small=COPPER[at], circuit=feet) for feet in (longest, longest + 1))
    assert percent(at_it, drop, "motor-circuit") <= 3 + 1e-9
    assert percent(past, drop, "motor-circuit") > 3


@LAWS
@given(amps=st.integers(1, 60), at=SIZES, feet=st.integers(1, 400))
def test_the_smallest_wire_keeps_the_limit_and_the_next_smaller_does_not(job_for: JobFor, amps: int, at: int, feet: int) -> None:
    job = shop(job_for, amps=amps, small=COPPER[at], circuit=feet)
    try:
        size = size_for_drop(job.graph.one("motor-circuit"), job).size  # type: ignore[arg-type]
    except NotStated:
        assert percent(shop(job_for, amps=amps, small="4/0", circuit=feet), drop, "motor-circuit") > 3
        return
    if size in COPPER:
        assert percent(shop(job_for, amps=amps, small=size, circuit=feet), drop, "motor-circuit") <= 3 + 1e-9
        smaller = COPPER.index(size) - 1
        if smaller >= at:
            assert percent(shop(job_for, amps=amps, small=COPPER[smaller], circuit=feet), drop, "motor-circuit") > 3


# ---- Fault current

SUPPLIES = st.sampled_from(["fault-current 10 kA", "fault-current 22 kA", "transformer 25 kVA; transformer-impedance 1.8 %"])
FAULTS = ((available_fault, "shop-panel"), (available_fault_to_neutral, "shop-panel"), (most_fault, "shop-panel"))


@LAWS
@given(feet=FEET, more=st.integers(1, 300), poles=st.sampled_from([1, 2]), supply=SUPPLIES)
def test_more_length_never_lets_more_through(job_for: JobFor, feet: int, more: int, poles: int, supply: str) -> None:
    near, far = (shop(job_for, poles, feeder=each, circuit=each, supply=supply) for each in (feet, feet + more))
    for fact, place in (*FAULTS, (fault_at_end, "motor-circuit")):
        assert amperes(far, fact, place) < amperes(near, fact, place)


@LAWS
@given(first=SIZES, second=SIZES, supply=SUPPLIES)
def test_more_metal_never_lets_less_through(job_for: JobFor, first: int, second: int, supply: str) -> None:
    small, large = (shop(job_for, size=COPPER[at], small=COPPER[at], supply=supply) for at in sorted((first, second)))
    for fact, place in (*FAULTS, (fault_at_end, "motor-circuit")):
        assert amperes(large, fact, place) >= amperes(small, fact, place) - 1e-9
    doubled = shop(job_for, size=COPPER[max(first, second)], sets=2, supply=supply)
    assert amperes(doubled, available_fault, "shop-panel") >= amperes(large, available_fault, "shop-panel")


@LAWS
@given(feet=FEET, at=SIZES, supply=SUPPLIES)
def test_nothing_behind_has_more_than_what_is_ahead(job_for: JobFor, feet: int, at: int, supply: str) -> None:
    job = shop(job_for, feeder=feet, size=COPPER[at], supply=supply)
    for fact in (available_fault, available_fault_to_neutral, most_fault):
        assert amperes(job, fact, "shop-panel") <= amperes(job, fact, "shop-disconnect")
    assert amperes(job, most_fault, "shop-panel") >= amperes(job, available_fault, "shop-panel")
    assert amperes(job, fault_at_end, "motor-circuit") <= amperes(job, available_fault, "shop-panel")
