"""At which gear and building an electrode's wire starts: a post with the service and the house that it feeds want one each."""

from planlint.facts.buildings import stands_at
from planlint.facts.engine import Job, fact
from planlint.plan import Building, Disconnect, Electrode, ElectrodeConductor, Panel, TransferSwitch
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


@fact
def electrode_wire_starts_at_it(building: Building, job: Job) -> bool:
    """Whether a wire to an electrode starts at gear in the building or on its wall; one at a post that feeds it does not.

    NFPA 70 250.32(A), (E).
    """

    def is_one(wire: ElectrodeConductor) -> bool:
        start = wire.from_
        return not isinstance(start, Electrode) and stands_at(start, job) is building

    return job.graph.all(ElectrodeConductor).some(is_one)
