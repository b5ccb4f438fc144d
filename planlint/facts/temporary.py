"""Power for the building work: whether a circuit is temporary, how its receptacles are protected, and how its pole stands."""

from collections.abc import Callable

from planlint.facts.appliances import gfci_protected
from planlint.facts.buildings import stands_at
from planlint.facts.electrode_places import has_electrode_wire
from planlint.facts.engine import Job, fact
from planlint.facts.outlet_volts import is_within
from planlint.facts.ways import is_underground
from planlint.plan.elements import NotStated
from planlint.plan.gear import Panel
from planlint.plan.members import all_hold, any_holds
from planlint.plan.outlets import Lights, Receptacles
from planlint.plan.runs import Circuit, Feeder
from planlint.quantities import Current, Voltage


@fact
def is_temporary(circuit: Circuit, job: Job) -> bool:
    """Whether it feeds the building work: by its own word or its panel's. NFPA 70 590.3(A)."""
    return any_holds(lambda: circuit.temporary, lambda: isinstance(circuit.panel, Panel) and circuit.panel.temporary)


@fact
def protected_for_work(receptacles: Receptacles, job: Job) -> bool:
    """Whether whoever works with it is protected: by a GFCI; of larger ones by a written program that tests grounds instead.

    NFPA 70 590.6(A), (B).
    """
    return any_holds(
        lambda: gfci_protected(receptacles, job),
        lambda: all_hold(lambda: not _is_small(receptacles, job), lambda: receptacles.grounds_tested),
    )


def _is_small(receptacles: Receptacles, job: Job) -> bool:
    rating: Current = job.setting("protected-for-work.most-rating")
    volts: Voltage = job.setting("protected-for-work.most-volts")
    return is_within(receptacles, rating, volts, job)


@fact
def shares_with_lights(receptacles: Receptacles, job: Job) -> bool:
    """Whether lights are on its circuit: one tripped GFCI would leave the site in the dark. NFPA 70 590.4(D)(1)."""
    return job.graph.those(Lights, "circuit", receptacles.circuit).some(lambda lights: True)


@fact
def work_receptacle_fault(receptacles: Receptacles, job: Job) -> str:
    """What is wrong with a receptacle for building work, in words. NFPA 70 590.4(D)(1), 590.6."""
    faults = ["no GFCI protects it"] if _is_broken(lambda: protected_for_work(receptacles, job)) else []
    if job.graph.those(Lights, "circuit", receptacles.circuit).known:
        faults.append("lights are on its circuit")
    return " and ".join(faults) or "nothing"


@fact
def stands_firm(panel: Panel, job: Job) -> bool:
    """Whether it is braced against the pull of an overhead line; one on or in a building, or fed from below, needs no brace.

    NFPA 70 590.4(A), 230.28.
    """
    return any_holds(
        lambda: _is_fed_from_below(panel, job),
        lambda: panel.braced,
        lambda: panel.mounted_on is not None if panel.states("mounted-on") else stands_at(panel, job) is not None,
    )


def _is_fed_from_below(panel: Panel, job: Job) -> bool:
    run = job.graph.feed(panel)
    return not run.states("span") and is_underground(run, job)


@fact
def feeds_permanent_panel(panel: Panel, job: Job) -> bool:
    """Whether a feeder goes from it to a panel that isn't temporary. NFPA 70 590.2(B), 590.3(A)."""
    return job.graph.those(Feeder, "from", panel).some(lambda run: isinstance(run.to, Panel) and not run.to.temporary)


@fact
def temporary_supply_fault(panel: Panel, job: Job) -> str:
    """What is wrong with a supply for building work, in words: only what is known to be. NFPA 70 590.2(B), 590.4(A)."""
    parts: tuple[tuple[Callable[[], bool], str], ...] = (
        (lambda: stands_firm(panel, job), "nothing braces it against the pull of the line"),
        (lambda: has_electrode_wire(panel, job), "no ground rod is joined to it"),
        (lambda: not feeds_permanent_panel(panel, job), "it feeds a panel of the finished wiring"),
    )
    return " and ".join(words for holds, words in parts if _is_broken(holds)) or "nothing"


def _is_broken(holds: Callable[[], bool]) -> bool:
    try:
        return not holds()
    except NotStated:
        return False
