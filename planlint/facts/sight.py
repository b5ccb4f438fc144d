"""What shuts an appliance, heater, cooling unit or motor off: in its sight, or locked open."""

from planlint.facts.engine import Job, fact
from planlint.facts.motors import is_cooling_unit
from planlint.plan.elements import not_stated
from planlint.plan.members import all_hold
from planlint.plan.outlets import Load

LOCKED = ("lockable-breaker", "lockable-switch")


@fact
def needs_disconnect(load: Load, job: Job) -> bool:
    """Whether what shuts it off must be in its sight or lock open: what is wired in, whatever its size.

    NFPA 70 422.31, 424.19, 430.102, 440.14. A plug does for what has a cord (422.33). Welders, car chargers and hot tubs have
    clauses of their own (630.13, 625.43, 680.13).
    """
    return all_hold(lambda: load.type not in job.setting("needs-disconnect.not-of"), lambda: load.connection == "hard-wired")


def _is_motor(load: Load, job: Job) -> bool:
    types: tuple[str, ...] = job.setting("lock-is-enough.motors")
    return load.type in types


@fact
def disconnect_in_view(load: Load, job: Job) -> bool:
    """Whether its disconnect is seen from it and not more than 50 ft off: as it says, or as the panel with its breaker says.

    NFPA 70 article 100, in sight from.
    """
    said = load.states("disconnect-in-sight") or "disconnect-in-sight" in load.unknown
    if not said and load.states("circuit") and load.circuit.states("panel"):
        gear = load.circuit.panel
        if gear.states("within-sight-of") and load in gear.within_sight_of:
            return True
    return load.disconnect_in_sight


@fact
def lock_is_enough(load: Load, job: Job) -> bool:
    """Whether its disconnect locks open, and that does for one out of sight.

    It does for appliances and heaters (NFPA 70 422.31, 424.19), for motors only where a place in sight is impracticable or adds
    to the danger (430.102(B), exception), and never for cooling units of a house (440.14). The lock hasp stays in place (110.25).
    """
    return all_hold(
        lambda: not is_cooling_unit(load, job),
        lambda: locks_open(load, job),
        lambda: not _is_motor(load, job) or load.sight_impracticable,
    )


@fact
def locks_open(load: Load, job: Job) -> bool:
    """Whether what shuts it off locks open with a hasp that stays on it; not stated of a plain switch. NFPA 70 110.25."""
    if load.disconnect == "switch":
        not_stated(load, "disconnect", f"{load.name}: disconnect, whether its switch locks open (lockable-switch)")
    return load.disconnect in LOCKED


@fact
def unit_switch_is_enough(load: Load, job: Job) -> bool:
    """Whether a switch in it with a marked off position shuts it off, and that does: for appliances and heaters.

    NFPA 70 422.34, 424.19(C): the breaker or the service disconnect is the other means.
    """
    return all_hold(
        lambda: load.disconnect == "unit-switch",
        lambda: not is_cooling_unit(load, job),
        lambda: not _is_motor(load, job),
    )
