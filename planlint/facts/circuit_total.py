"""Whether a breaker carries what the appliances on its circuit take together, whether or not anything runs long."""

from collections.abc import Sequence

from planlint.book.tables import OutOfTable
from planlint.facts.circuit_load import loads_on
from planlint.facts.circuit_needs import cooking_current
from planlint.facts.demand import COOKING, is_enough, plate_current, total_current
from planlint.facts.engine import Job, fact
from planlint.facts.standard_load import CLIMATE
from planlint.plan.elements import NotStated
from planlint.plan.members import Members
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit
from planlint.quantities import Current


@fact
def appliances_take(circuit: Circuit, job: Job) -> Current:
    """What the appliances on it take together by their plates, as far as they are stated: of heating and cooling the larger.

    Cooking by the note to its table. Not what is planned only, nor welders, which go by how long they weld.
    NFPA 70 210.22, 210.23, 220.55 note 4, 220.60, 630.11.
    """
    appliances = _counted(circuit, job)
    cooking = [load for load in appliances if load.type in COOKING] if not appliances.gaps else []
    parts = [*_plates(appliances.known, job), *([cooking_current(cooking, job)] if cooking else [])]
    if not parts:  # nothing is known yet, which is not 0 A
        return total_current(plate_current(load, job) for load in appliances.whole())
    if len(parts) > 1:
        job.step(" + ".join(map(str, parts)), total_current(parts), "NFPA 70 210.22, 210.23")
    return total_current(parts)


def _counted(circuit: Circuit, job: Job) -> Members[Load]:
    by_duty: tuple[str, ...] = job.setting("appliances-take.by-duty")
    return loads_on(circuit, job).where(lambda load: not load.planned and load.type not in by_duty)


def _plates(appliances: Sequence[Load], job: Job) -> list[Current]:
    """Each plate that is stated; of what heats and what cools only the larger sum."""
    rest = [load for load in appliances if load.type not in (*COOKING, *CLIMATE)]
    warm = _stated([load for load in appliances if load.type in CLIMATE and load.type != "air-conditioner"], job)
    cool = _stated([load for load in appliances if load.type == "air-conditioner"], job)
    return [*_stated(rest, job), *max((warm, cool), key=lambda part: total_current(part).amount)]


def _stated(appliances: Sequence[Load], job: Job) -> list[Current]:
    found = []
    for load in appliances:
        try:
            found.append(plate_current(load, job))
        except (NotStated, OutOfTable):
            continue
    return found


@fact
def breaker_carries_appliances(circuit: Circuit, job: Job) -> bool:
    """Whether its breaker is no smaller than what the appliances on it take together. NFPA 70 210.22, 210.23.

    No as soon as those that are stated take more; yes only where all are stated.
    """
    if not is_enough(circuit.breaker, appliances_take(circuit, job), job):
        return False
    for load in _counted(circuit, job).whole():
        plate_current(load, job)
    return True
