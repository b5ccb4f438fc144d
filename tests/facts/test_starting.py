"""What a motor takes as it starts, where plate, code letter and number leave it open, and voltage drop by impedance."""

from collections.abc import Callable
from typing import Any

import pytest

from planlint.facts.drop import (
    drop,
    drop_by_impedance,
    drop_to_last_outlet,
    longest_for_drop,
    mend_for_total_drop,
    size_for_drop,
)
from planlint.facts.engine import Job
from planlint.facts.starting import is_motor, mend_for_start, starting_current, starting_drop
from planlint.facts.wire_ohms import load_power_factor
from planlint.plan.elements import NotStated
from planlint.trade import WireSize

JobFor = Callable[..., Job]

SHED = """complete service, feeders, circuits, receptacles, lights, loads
supply utility
  type utility; volts 120/240 V
building shed
  use workshop
place shed-room
  building shed
panel shed-panel
  at shed-room; main 100 A
service drop
  from utility; to shed-panel; owner customer; raceway pipe; hot 2 x 4/0 aluminum XHHW-2; length 100 ft; {service}
raceway pipe
  type {pipe}
circuit pump-circuit
  panel shed-panel; use appliance; poles {poles}; cable 10/2 copper UF-B; length 180 ft
load pump
  at shed-room; type well-pump; circuit pump-circuit; connection hard-wired; amps 8 A; volts {volts} V; {said}
"""


def shed(
    job_for: JobFor, said: str, poles: int = 2, volts: int = 240, service: str = "", pipe: str = "PVC-40", **more: Any
) -> Job:
    text = SHED.format(said=said, poles=poles, volts=volts, service=service or "neutral none", pipe=pipe)
    return job_for(text, **more)


def worked(job: Job, fact: Any, name: str = "pump") -> Any:
    return fact(job.graph.one(name), job)


def gap(job: Job, fact: Any, name: str = "pump") -> str:
    with pytest.raises(NotStated) as found:
        worked(job, fact, name)
    return str(found.value)


def test_the_plate_says_what_it_draws(job_for: JobFor) -> None:
    """Ohm's law: 45 A through 2 x 180 ft of 10 AWG (1.24) and 2 x 100 ft of 4/0 aluminum (0.100), of 240 V."""
    job = shed(job_for, "locked-rotor 45 A")
    assert worked(job, starting_drop).within("%") == pytest.approx(45 * (0.36 * 1.24 + 0.2 * 0.100) / 240 * 100)


def test_nothing_on_the_plate_is_an_open_question(job_for: JobFor) -> None:
    """Neither horsepower nor running current says what it draws as it starts."""
    job = shed(job_for, "horsepower 1 hp")
    assert gap(job, starting_drop) == gap(job, starting_current) == "pump: locked-rotor"
    assert "no upper end" in gap(shed(job_for, "horsepower 1 hp; code-letter V"), starting_current)


def test_between_hot_and_neutral_the_neutral_counts(job_for: JobFor) -> None:
    """A pump of 120 V: one hot wire and the smaller neutral of the service, and all of it of 120 V."""
    job = shed(job_for, "locked-rotor 45 A", poles=1, volts=120, service="neutral 2/0 aluminum XHHW-2")
    ohms = 0.36 * 1.24 + 0.1 * (0.100 + 0.159)
    assert worked(job, starting_drop).within("%") == pytest.approx(45 * ohms / 120 * 100)
    assert "neutral" in gap(shed(job_for, "locked-rotor 45 A", poles=1, volts=120), starting_drop)


def test_a_letter_or_a_number_decides_only_where_both_its_ends_agree(job_for: JobFor) -> None:
    """Code letter J, 1 hp, 240 V: 29.6 to 33.3 A, both within 15 %. Four pumps: one 8.5 %, all 34 %: open."""
    job = shed(job_for, "horsepower 1 hp; code-letter J")
    assert worked(job, starting_current).within("A") == pytest.approx(7990 / 240)
    assert worked(job, starting_drop).within("%") == pytest.approx(7990 / 240 * 0.4664 / 240 * 100)
    assert "8.745 % if one does and 34.98 % if all do" in gap(shed(job_for, "locked-rotor 45 A; count 4"), starting_drop)
    assert worked(shed(job_for, "locked-rotor 200 A; count 4"), starting_drop).within("%") == pytest.approx(200 * 0.4664 / 2.4)


def test_what_is_no_motor_does_not_start(job_for: JobFor) -> None:
    job = job_for(SHED.format(said="", poles=2, volts=240, service="neutral none", pipe="EMT").replace("240 V; ", "240 V")
                  .replace("well-pump", "kiln"))  # fmt: skip
    assert "a motor, a pump" in gap(job, starting_current)


def test_what_mends_it(job_for: JobFor) -> None:
    assert "does as it is" in worked(shed(job_for, "locked-rotor 45 A"), mend_for_start)
    assert "Take 8 AWG copper" in worked(shed(job_for, "locked-rotor 80 A"), mend_for_start)
    assert "alone does not mend" in worked(shed(job_for, "locked-rotor 2500 A"), mend_for_start)


@pytest.mark.parametrize(("kind", "answer"), [("well-pump", True), ("heat-pump", True), ("kiln", False), ("range", False)])
def test_what_a_motor_is(job_for: JobFor, kind: str, answer: bool) -> None:
    assert worked(job_for(f"load pump\n  type {kind}\n"), is_motor) is answer


def test_a_circuit_of_another_voltage_is_open(job_for: JobFor) -> None:
    job = job_for(SHED.format(said="locked-rotor 5 A", poles="1; volts 24 V", volts=24, service="neutral none", pipe="EMT"))
    assert "24 V is no voltage of utility" in gap(job, starting_drop)


# ---- Voltage drop by effective impedance


@pytest.mark.parametrize(("pipe", "reactance"), [("PVC-40", 0.041), ("EMT", 0.051)])
def test_by_impedance_the_pipe_counts(job_for: JobFor, pipe: str, reactance: float) -> None:
    """Chapter 9 Table 9: 4/0 aluminum 0.10 ohm, 0.041 in plastic and 0.051 in steel; the motor counts 10 A."""
    job = shed(job_for, "locked-rotor 45 A", pipe=pipe)
    ohms = 0.10 * 0.85 + reactance * (1 - 0.85**2) ** 0.5
    assert worked(job, drop_by_impedance, "drop").within("%") == pytest.approx(2 * 100 * 10 * ohms / 1000 / 240 * 100)


@pytest.mark.parametrize(("said", "factor"), [("count 1", 1.0), ("power-factor 80 %", 0.8)])
def test_by_impedance_the_power_factor_of_a_circuit_is_its_loads(job_for: JobFor, said: str, factor: float) -> None:
    job = shed(job_for, said)
    assert worked(job, load_power_factor, "pump-circuit").amount == pytest.approx(factor)
    assert worked(job, load_power_factor, "drop").amount == 0.85


def test_power_factors_add_as_real_and_reactive_parts(job_for: JobFor) -> None:
    """960 VA at 0.8 and 1152 VA at 1: 1920 W and 576 var."""
    text = "load strip\n  at shed-room; type kiln; circuit pump-circuit; rating 1152 VA; volts 240 V\n"
    job = job_for(SHED.format(said="power-factor 80 %", poles=2, volts=120, service="neutral none", pipe="EMT") + text)
    assert worked(job, load_power_factor, "pump-circuit").amount == pytest.approx(1920 / (1920**2 + 576**2) ** 0.5)


def test_the_setting_chooses_the_method(job_for: JobFor, monkeypatch: pytest.MonkeyPatch) -> None:
    job = shed(job_for, "power-factor 80 %")
    assert worked(job, drop, "pump-circuit") != worked(job, drop_by_impedance, "pump-circuit")
    other = shed(job_for, "power-factor 80 %")
    plain = other.setting
    monkeypatch.setattr(other, "setting", lambda name: True if name == "drop.by-impedance" else plain(name))
    for fact in (drop, drop_by_impedance):
        assert worked(other, fact, "pump-circuit") == worked(job, drop_by_impedance, "pump-circuit")
    assert worked(other, longest_for_drop, "pump-circuit").within("ft") > worked(job, longest_for_drop, "pump-circuit").within(
        "ft"
    )
    assert worked(other, size_for_drop, "pump-circuit") == WireSize("10", "copper")


def test_all_the_way_to_the_last_outlet(job_for: JobFor) -> None:
    job = shed(job_for, "locked-rotor 45 A")
    added = worked(job, drop, "drop") + worked(job, drop, "pump-circuit")
    assert worked(job, drop_to_last_outlet, "pump-circuit") == added


def test_a_pencil_can_follow_to_the_size_and_to_what_lies_ahead(job_for: JobFor) -> None:
    """The size before the one that is enough is shown as too much, and the limit less what is lost ahead."""
    job = shed(job_for, "locked-rotor 45 A")
    circuit = job.graph.one("pump-circuit")
    with job.observing(circuit) as root:
        mend_for_total_drop(circuit, job)
    steps = [(step.text, step.value) for step in root.uses[0].steps]
    assert steps[0][0].startswith("5 % - ") and steps[0][0].endswith(" ahead")
    assert steps[-1][1] == "enough"
    assert all(verdict == "too much" for text, verdict in steps[2:-1])
