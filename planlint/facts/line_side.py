"""Metal pipe ahead of the service disconnect: how it is tied to the cases, where no breaker clears a fault."""

from planlint.facts.engine import Job, fact
from planlint.facts.piping import is_metal
from planlint.facts.ways import lies
from planlint.plan.elements import Need
from planlint.plan.members import Members, all_hold
from planlint.plan.routes import Raceway
from planlint.plan.runs import Service
from planlint.quantities import Length


@fact
def bonded_on_line_side(raceway: Raceway, job: Job) -> bool:
    """Whether its metal, or that of metal pipe coupled to it, is tied to a case by more than a plain locknut.

    One end is enough. Where rings are left in the knockout, only a bushing with a jumper past them counts. NFPA 70 250.92(B).
    """
    return _coupled_to(raceway, job).some(lambda pipe: _is_well_tied(pipe, job))


@fact
def is_out_of_reach(raceway: Raceway, job: Job) -> bool:
    """Whether it is a metal piece, such as an elbow, in a run of plastic pipe below the ground: deep, with plastic at both ends.

    NFPA 70 250.80, exception.
    """
    return all_hold(lambda: _is_deep(raceway, job), lambda: _lies_between_plastic(raceway, job))


def _is_deep(raceway: Raceway, job: Job) -> bool:
    least: Length = job.setting("is-out-of-reach.least-cover")
    return lies(raceway, job) == "buried" and raceway.trench.cover >= least


def _lies_between_plastic(raceway: Raceway, job: Job) -> bool:
    beside = Members(_pipes_beside(raceway, job))
    plastic = beside.where(lambda pipe: all_hold(lambda: not is_metal(pipe, job), lambda: _goes_on(raceway, pipe)))
    return len(plastic.known) > 1 or len(plastic.whole()) > 1


def _is_well_tied(pipe: Raceway, job: Job) -> bool:
    if pipe.bonding not in job.setting("bonded-on-line-side.fittings"):
        return False
    return pipe.bonding in job.setting("bonded-on-line-side.past-rings") or not pipe.ring_knockouts


def _coupled_to(raceway: Raceway, job: Job) -> Members[Raceway]:
    """It and all metal pipe of the same service that is joined to it without a box between."""
    pipes = _pipes_beside(raceway, job)
    found, gaps, todo = [raceway], list[Need](), [raceway]
    while todo:
        here = todo.pop()
        others = Members(tuple(pipe for pipe in pipes if pipe not in found))
        near = others.where(lambda pipe, here=here: _is_coupled(here, pipe, job))  # type: ignore[misc]
        found += near.known
        todo += near.known
        gaps += near.gaps
    return Members(tuple(found), tuple(gaps))


def _is_coupled(one: Raceway, other: Raceway, job: Job) -> bool:
    """Whether both are metal, and the one goes on as the other."""
    return all_hold(lambda: is_metal(other, job), lambda: _goes_on(one, other))


def _pipes_beside(raceway: Raceway, job: Job) -> tuple[Raceway, ...]:
    """The other pipes of the services in it."""
    pipes = {id(pipe): pipe for service in job.graph.those(Service, "raceway", raceway) for pipe in service.raceway}
    return tuple(pipe for pipe in pipes.values() if pipe is not raceway)


def _goes_on(one: Raceway, other: Raceway) -> bool:
    return not all_hold(lambda: one.continues is not other, lambda: other.continues is not one)
