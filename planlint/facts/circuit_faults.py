"""What is wrong with the circuit of a motor or appliance, in words for a finding: only the parts that are broken."""

from collections.abc import Callable

from planlint.book.tables import OutOfTable
from planlint.facts.appliances import (
    appliance_breaker_fits,
    gfci_protected,
    has_own_circuit,
    heaters_may_share,
    largest_appliance_breaker,
    may_share_circuit,
    plate_breaker_carries,
    plate_breaker_fits,
    voltage_suits,
    wires_suit,
)
from planlint.facts.circuit_needs import circuit_large_enough, circuit_needed, least_drawn, least_needed
from planlint.facts.engine import Job, fact
from planlint.facts.equipment_ground import ground_path
from planlint.facts.motor_breakers import breaker_on_it, largest_motor_breaker, motor_breaker_carries, motor_breaker_fits
from planlint.facts.motors import served_by_run, wire_carries, wire_carries_enough, wire_to_carry
from planlint.facts.overloads import most_overload, overload_suits
from planlint.facts.wires import has_neutral
from planlint.plan.elements import Element, NotStated, does_not_arise
from planlint.plan.members import Part, broken_words
from planlint.plan.outlets import Load
from planlint.plan.runs import Feeder
from planlint.quantities import Percent


def broken_parts(owner: Element, *parts: Part) -> str:
    """The words of those parts that are broken for certain."""
    found = broken_words(*parts)
    if not found:
        does_not_arise(owner, f"{owner.name}: something that is wrong with it")
    return "; ".join(found)


def _shown(read: Callable[[], object], otherwise: str) -> str:
    try:
        return str(read())
    except (NotStated, OutOfTable):
        return otherwise


def _wire_words(owner: Load | Feeder, job: Job) -> str:
    carried = _shown(lambda: wire_carries(owner, job), "less than that")
    least = f"{least_drawn(served_by_run(owner, job).known, job)} or more"
    return f"its wires must carry {_shown(lambda: wire_to_carry(owner, job), least)}, and carry {carried}"


def _too_small(owner: Load | Feeder, job: Job) -> str:
    drawn = least_drawn(served_by_run(owner, job).known, job)
    return f"its breaker of {breaker_on_it(owner, job)} is smaller than the {drawn} that it is to carry"


@fact
def motor_fault(owner: Load | Feeder, job: Job) -> str:
    """What is wrong with the circuit of a motor, or with a feeder for motors: wires, breaker, overload protection."""
    return broken_parts(
        owner,
        (lambda: wire_carries_enough(owner, job), lambda: _wire_words(owner, job)),
        (lambda: motor_breaker_carries(owner, job), lambda: _too_small(owner, job)),
        (
            lambda: motor_breaker_fits(owner, job),
            lambda: f"its breaker is {breaker_on_it(owner, job)}, and {largest_motor_breaker(owner, job)} is the largest for it",
        ),
        (lambda: overload_suits(owner, job), lambda: _overload_words(owner, job)),
        (lambda: isinstance(owner, Feeder) or voltage_suits(owner, job), lambda: _voltage_words(owner)),
    )


def _overload_words(owner: Load | Feeder, job: Job) -> str:
    assert isinstance(owner, Load)
    if owner.overload == "none":
        return "it has no overload protection"
    sturdy: Percent = job.setting("most-overload.sturdy")
    most = _shown(lambda: most_overload(owner, job), f"{owner.amps * sturdy}")
    return f"its overload protection is set to {owner.overload}, and {most} is the most"


def _voltage_words(owner: Load | Feeder) -> str:
    assert isinstance(owner, Load)
    if owner.circuit.poles == 1:
        return f"it takes {owner.volts}, and its breaker has one pole"
    return f"it takes {owner.volts}, and gets two hot wires without a neutral"


@fact
def plate_fault(load: Load, job: Job) -> str:
    """What in its circuit goes against its plate."""
    return broken_parts(
        load,
        (lambda: wire_carries_enough(load, job), lambda: _wire_words(load, job)),
        (
            lambda: plate_breaker_fits(load, job),
            lambda: f"its plate allows a breaker of {load.nameplate_breaker}, and it has {load.circuit.breaker}",
        ),
        (lambda: plate_breaker_carries(load, job), lambda: _too_small(load, job)),
        (lambda: voltage_suits(load, job), lambda: _voltage_words(load)),
    )


def _need_words(load: Load, job: Job) -> str:
    least = f"{least_needed(served_by_run(load, job).known, job)} or more"
    return f"it must be good for {_shown(lambda: circuit_needed(load, job), least)}, and its breaker is {load.circuit.breaker}"


@fact
def circuit_fault(load: Load, job: Job) -> str:
    """What is wrong with the circuit of a large appliance or a car charger: its breaker, its wires, its company, its GFCI."""
    charges = load.type == "car-charger"
    return broken_parts(
        load,
        (lambda: circuit_large_enough(load, job), lambda: _need_words(load, job)),
        (lambda: voltage_suits(load, job), lambda: _voltage_words(load)),
        (lambda: charges or wires_suit(load, job), lambda: _missing_wire(load, job)),
        (
            lambda: charges or appliance_breaker_fits(load, job),
            lambda: f"its breaker is {load.circuit.breaker}, and {largest_appliance_breaker(load, job)} is the most for it alone",
        ),
        (
            lambda: charges or heaters_may_share(load, job),
            lambda: (
                f"its breaker is {load.circuit.breaker}, and several heaters may share {job.setting('heaters-may-share.most')}"
            ),
        ),
        (
            lambda: not charges or has_own_circuit(load, job) or may_share_circuit(load, job),
            lambda: "other outlets are on it",
        ),
        (
            lambda: not charges or load.connection == "hard-wired" or gfci_protected(load, job),
            lambda: "its receptacle has no GFCI",
        ),
    )


def _missing_wire(load: Load, job: Job) -> str:
    neutral = _shown(lambda: has_neutral(load.circuit, job), "")
    if neutral == "False":
        return "it brings no neutral"
    ground = _shown(lambda: ground_path(load.circuit, job), "")
    return "it brings no ground beside the neutral" if ground == "none" else "its three wires may not stay"


@fact
def pump_ground_fault(load: Load, job: Job) -> str:
    """What of a well pump is not tied to the ground of its circuit: the pump, its steel casing. NFPA 70 250.112(L), (M)."""
    return broken_parts(
        load,
        (lambda: ground_path(load.circuit, job) != "none", lambda: f"no ground comes to it with {load.circuit.name}"),
        (lambda: load.casing != "steel" or load.casing_bonded, lambda: "its steel casing is not tied to its circuit's ground"),
    )
