"""At which gear an electrode's wire starts, seen from a service disconnect."""

from planlint.facts.engine import Job, fact
from planlint.plan import Disconnect, ElectrodeConductor, Panel, TransferSwitch
from planlint.plan.elements import NotStated
from planlint.plan.gear import AnyGear, Supply
from planlint.plan.members import Members


@fact
def has_electrode_wire(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether a wire to an electrode starts at it or at gear ahead of it, up to the supply.

    NFPA 70 250.24(A)(1), 250.64(D): anywhere from the service wires to the disconnect, and for each of several disconnects.
    """
    found = job.graph.those(ElectrodeConductor, "from", gear)
    here: AnyGear = gear
    try:
        while not isinstance(start := job.graph.feed(here).from_, Supply):
            found = found.joined(job.graph.those(ElectrodeConductor, "from", start))
            here = start
    except NotStated as gap:
        found = found.joined(Members((), gap.needs))
    return found.some(lambda wire: True)
