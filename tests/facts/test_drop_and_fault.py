"""Voltage drop and fault current in cases that the published examples don't have."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.drop import drop, drop_ahead, drop_at_full_breaker, mend_for_total_drop, run_volts, size_for_drop
from planlint.facts.engine import Job
from planlint.facts.fault import (
    available_fault,
    available_fault_to_neutral,
    bears_neutral_fault,
    fault_at_end,
    has_fault_rating,
    most_fault,
)
from planlint.facts.series_ratings import series_rating_suits
from planlint.plan.elements import NotStated
from planlint.quantities import Current, Percent, Voltage

JobFor = Callable[..., Job]


def worked(job: Job, fact: Any, name: str) -> Any:
    return fact(job.graph.one(name), job)


def not_stated(job: Job, fact: Any, name: str) -> str:
    with pytest.raises(NotStated) as gap:
        worked(job, fact, name)
    return str(gap.value)


STUDIO = """complete service, feeders, circuits, receptacles, lights, loads
building studio
  use workshop
place studio-room
  building studio
supply utility
  type utility; volts 120/240 V; fault-current 10 kA
disconnect studio-disconnect
  at studio-room; breaker 100 A
panel studio-panel
  at studio-room; main lugs
service drop
  from utility; to studio-disconnect; owner utility
feeder studio-feeder
  from studio-disconnect; to studio-panel; cable SER; hot 2 x 4 AWG copper; length 100 ft
circuit kiln-circuit
  panel studio-panel; use appliance; breaker 60 A; poles 2; cable 6/2 copper NM-B; length 30 ft
load kiln
  at studio-room; type kiln; circuit kiln-circuit; rating 12 kW; volts 240 V; continuous yes
"""


@pytest.mark.parametrize(("said", "volts"), [("poles 1", 120), ("poles 2", 240), ("poles 1; volts 24 V", 24), ("volts 24 V", 24)])
def test_the_voltage_of_a_circuit(job_for: JobFor, said: str, volts: float) -> None:
    job = job_for(f"{STUDIO}circuit bench\n  panel studio-panel; {said}\n")
    assert worked(job, run_volts, "bench") == Voltage.of(volts, "V")


@pytest.mark.parametrize(
    ("said", "need"), [("use general", "bench: poles"), ("poles 3", "3 poles"), ("volts unknown; poles 1", "volts")]
)
def test_the_voltage_of_a_circuit_that_is_not_stated(job_for: JobFor, said: str, need: str) -> None:
    job = job_for(f"{STUDIO}circuit bench\n  panel studio-panel; {said}\n")
    assert need in not_stated(job, run_volts, "bench")


def test_a_supply_without_neutral(job_for: JobFor) -> None:
    job = job_for(STUDIO.replace("120/240 V", "240 V") + "circuit bench\n  panel studio-panel; poles 1\n")
    assert worked(job, run_volts, "bench") == Voltage.of(240, "V")


def test_drops_add_up(job_for: JobFor) -> None:
    """Physics: 50 A of the kiln through 100 ft of 4 AWG (0.308 ohm per 1000 ft), then 30 ft of 6 AWG (0.491), both at 240 V."""
    job = job_for(STUDIO)
    feeder = 2 * 100 * 50 * 0.308 / 1000 / 240 * 100
    assert worked(job, drop, "studio-feeder").within("%") == pytest.approx(feeder)
    assert worked(job, drop_ahead, "kiln-circuit").within("%") == pytest.approx(feeder)
    assert worked(job, drop, "kiln-circuit").within("%") == pytest.approx(2 * 30 * 50 * 0.491 / 1000 / 240 * 100)


def test_the_utilitys_wires_lose_nothing_of_the_customers(job_for: JobFor) -> None:
    job = job_for(STUDIO)
    assert worked(job, drop_ahead, "studio-disconnect") == Percent.of(0, "%")
    assert "owner" in not_stated(job_for(STUDIO.replace("; owner utility", "")), drop_ahead, "studio-disconnect")
    assert "hot" in not_stated(job_for(STUDIO.replace("owner utility", "owner customer")), drop_ahead, "studio-disconnect")


def test_parallel_sets_share_the_current(job_for: JobFor) -> None:
    one, two = job_for(STUDIO), job_for(STUDIO.replace("length 100 ft", "length 100 ft; sets 2"))
    assert worked(two, drop, "studio-feeder") == worked(one, drop, "studio-feeder") * 0.5


def test_the_full_breaker_needs_no_load(job_for: JobFor) -> None:
    job = job_for("circuit bench\n  breaker 20 A; volts 120 V; cable 12/2 copper NM-B; length 45 ft\n")
    assert worked(job, drop_at_full_breaker, "bench").within("%") == pytest.approx(2 * 45 * 20 * 1.98 / 1000 / 120 * 100)
    assert not_stated(job, drop, "bench") != ""


def test_what_mends_a_total_drop(job_for: JobFor) -> None:
    bench = "circuit bench\n  panel studio-panel; use general; poles 1; cable 14/2 copper NM-B; design-load 12 A; length "
    job = job_for(f"{STUDIO}{bench}70 ft\n")
    assert worked(job, mend_for_total_drop, "bench").startswith("Take 12 AWG copper or larger")
    long = STUDIO.replace("length 100 ft", "length 500 ft")
    assert worked(job_for(f"{long}{bench}70 ft\n"), mend_for_total_drop, "bench").startswith(
        "A larger wire in this circuit alone"
    )


def test_no_wire_is_large_enough(job_for: JobFor) -> None:
    job = job_for("circuit bench\n  volts 24 V; cable 12/2 copper NM-B; length 5000 ft; design-load 12 A\n")
    assert "Table 8" in not_stated(job, size_for_drop, "bench")


def test_the_utilitys_wires_take_nothing_off_the_fault_current(job_for: JobFor) -> None:
    """Even where their length and size are stated: the safe side, and the figure is often given for their far end."""
    stated = STUDIO.replace("owner utility", "owner utility; cable SEU; hot 2 x 4/0 aluminum; length 100 ft")
    for text in (STUDIO, stated):
        assert worked(job_for(text), available_fault, "studio-disconnect") == Current.of(10, "kA")


def test_a_transformer_stands_in_for_the_utilitys_figure(job_for: JobFor) -> None:
    """Physics: 25 kVA / (240 V x 1.8 %) = 5787 A."""
    job = job_for(STUDIO.replace("fault-current 10 kA", "transformer 25 kVA; transformer-impedance 1.8 %"))
    assert round(worked(job, available_fault, "studio-disconnect").within("A")) == 5787
    job = job_for(STUDIO.replace("fault-current 10 kA", "transformer 25 kVA"))
    assert "transformer-impedance" in not_stated(job, available_fault, "studio-disconnect")
    job = job_for(STUDIO.replace("; fault-current 10 kA", ""))
    assert "utility: fault-current" in not_stated(job, available_fault, "studio-disconnect")


def test_an_interlock_is_a_plate(job_for: JobFor) -> None:
    job = job_for(STUDIO + "transfer-switch plate\n  type interlock; panel studio-panel\n")
    assert not worked(job, has_fault_rating, "plate")
    assert worked(job, available_fault, "plate") == worked(job, available_fault, "studio-panel")
    assert worked(job, drop_ahead, "plate") == worked(job, drop_ahead, "studio-panel")
    assert worked(job, has_fault_rating, "studio-panel")


@pytest.mark.parametrize(("plate", "interrupting", "borne"), [("25 kVA", "10 kA", True), ("37.5 kVA", "10 kA", False)])
def test_near_a_transformer_a_fault_to_neutral_is_more(job_for: JobFor, plate: str, interrupting: str, borne: bool) -> None:
    """Up to 1.67 times what flows between the hots: 25 kVA / (240 V x 1.8 %) gives 9664 A, 37.5 kVA 14497 A."""
    text = STUDIO.replace("fault-current 10 kA", f"transformer {plate}; transformer-impedance 1.8 %")
    text = text.replace("disconnect studio-disconnect\n", f"disconnect studio-disconnect\n  interrupting {interrupting}\n")
    job = job_for(text)
    if borne:
        assert worked(job, bears_neutral_fault, "studio-disconnect") is True
    else:
        assert "14497 A" in not_stated(job, bears_neutral_fault, "studio-disconnect")
    assert worked(job_for(STUDIO), bears_neutral_fault, "studio-disconnect") is True


def test_the_larger_of_two_faults(job_for: JobFor) -> None:
    """25 kVA, 1.8 %: 5787 A between the hots, half as much again to the neutral, which 100 ft of 4 AWG turn round."""
    job = job_for(STUDIO.replace("fault-current 10 kA", "transformer 25 kVA; transformer-impedance 1.8 %"))
    assert round(worked(job, available_fault_to_neutral, "studio-disconnect").within("A")) == 8681
    assert worked(job, most_fault, "studio-disconnect") == worked(job, available_fault_to_neutral, "studio-disconnect")
    assert worked(job, most_fault, "studio-panel") == worked(job, available_fault, "studio-panel")
    ohms = 120 / (25000 / 240 / 0.018 * 1.5) + 2 * 100 / 3826
    assert worked(job, available_fault_to_neutral, "studio-panel").within("A") == pytest.approx(120 / ohms)


def test_by_the_utilitys_own_figure_no_more_flows_to_the_neutral(job_for: JobFor) -> None:
    job = job_for(STUDIO)
    assert worked(job, available_fault_to_neutral, "studio-disconnect") == Current.of(10, "kA")
    assert worked(job, most_fault, "studio-panel") == worked(job, available_fault, "studio-panel")
    assert worked(job, available_fault_to_neutral, "studio-panel") < worked(job, available_fault, "studio-panel")


def test_without_a_neutral_there_is_no_fault_to_it(job_for: JobFor) -> None:
    job = job_for(STUDIO.replace("120/240 V", "240 V"))
    assert "utility: volts" in not_stated(job, available_fault_to_neutral, "studio-panel")
    assert worked(job, most_fault, "studio-panel") == worked(job, available_fault, "studio-panel")


def test_at_the_end_of_a_circuit(job_for: JobFor) -> None:
    """Physics: Ohm's law; 30 ft of 6 AWG (1 / 2430 ohm a foot) at 240 V; 45 ft of 12 AWG (1 / 617) at 120 V."""
    job = job_for(STUDIO + "circuit bench\n  panel studio-panel; poles 1; cable 12/2 copper NM-B; length 45 ft\n")
    kiln = 240 / 10_000 + 2 * 100 / 3826 + 2 * 30 / 2430
    bench = 120 / 10_000 + 2 * 100 / 3826 + 2 * 45 / 617
    assert worked(job, fault_at_end, "kiln-circuit").within("A") == pytest.approx(240 / kiln)
    assert worked(job, fault_at_end, "bench").within("A") == pytest.approx(120 / bench)
    assert worked(job, fault_at_end, "studio-feeder") == worked(job, available_fault, "studio-panel")
    job = job_for(STUDIO + "circuit bell\n  panel studio-panel; volts 24 V\n")
    assert "24 V is no voltage" in not_stated(job, fault_at_end, "bell")


def series(job_for: JobFor, panel: str, more: str = "") -> Job:
    text = STUDIO.replace("main lugs\n", f"main lugs; {panel}\n").replace("length 100 ft", "length 0 ft")
    return job_for(text + more)


def test_series_ratings(job_for: JobFor) -> None:
    assert worked(series(job_for, "interrupting 5 kA; series-rated no"), series_rating_suits, "studio-panel") is False
    assert worked(series(job_for, "series-rated yes; series-rating 9 kA"), series_rating_suits, "studio-panel") is False
    rated = "interrupting 5 kA; series-rated yes; series-rating 10 kA"
    assert worked(series(job_for, rated), series_rating_suits, "studio-panel") is True
    motor = "load fan\n  type motor; circuit kiln-circuit; volts 240 V; amps "
    assert worked(series(job_for, rated, motor + "50 A\n"), series_rating_suits, "studio-panel") is True
    assert worked(series(job_for, rated, motor + "51 A\n"), series_rating_suits, "studio-panel") is False


def test_what_a_series_rating_leaves_open(job_for: JobFor) -> None:
    job = series(job_for, "interrupting 5 kA; series-rated yes")
    assert "series-rating" in not_stated(job, series_rating_suits, "studio-panel")
    text = STUDIO.replace(
        "disconnect studio-disconnect\n", "disconnect studio-disconnect\n  series-rated yes; series-rating 10 kA\n"
    )
    assert "no breaker is ahead" in not_stated(job_for(text), series_rating_suits, "studio-disconnect")


def test_the_plate_tells_nothing_of_two_legs_of_three_phases(job_for: JobFor) -> None:
    """75 kVA as one transformer would give 18 kA at 208 V, as a bank of three 10 kA on three phases and less on two."""
    supply = "supply network\n  type utility; volts 120/208 V; transformer 75 kVA; transformer-impedance 2 %\n"
    assert not_stated(job_for(supply), available_fault, "network") == "network: fault-current"
    assert worked(job_for(supply + "  fault-current 9 kA\n"), available_fault, "network") == Current.of(9, "kA")


def test_the_size_before_the_one_that_is_enough_is_shown(job_for: JobFor) -> None:
    """60 A over 400 ft, 7.2 V: 2 AWG copper with 0.194 ohm loses 9.3 V, 1 AWG with 0.154 ohm 7.4 V, 1/0 with 0.122 ohm 5.9 V."""
    job = job_for(
        STUDIO + "circuit bench\n  panel studio-panel; poles 2; cable 6/2 copper NM-B; length 400 ft; design-load 60 A\n"
    )
    bench = job.graph.one("bench")
    with job.observing(bench) as root:
        assert str(size_for_drop(bench, job)) == "1/0 AWG copper"
    shown = [(step.text.split(":")[0], step.value) for step in root.uses[0].steps[1:]]
    assert shown == [("6 AWG copper", "too much"), ("1 AWG copper", "too much"), ("1/0 AWG copper", "enough")]
