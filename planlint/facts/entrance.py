"""How far service wires go inside a building before something can shut them off."""

from planlint.facts.buildings import building_at
from planlint.facts.engine import Job, fact
from planlint.facts.ways import pipes_of
from planlint.plan import Raceway, Service, Trench
from planlint.plan.gear import Supply
from planlint.plan.members import any_holds
from planlint.quantities import Length

# Raceways of metal: NFPA 70 articles 342, 344, 348, 350, 358.
METALS = ("EMT", "IMC", "RMC", "FMC", "LFMC")


@fact
def unfused_inside_length(service: Service, job: Job) -> Length:
    """How far service wires go in and under the building up to its end: its inside length, its stretches under the building
    that don't count as outside, and those of the customer's wires ahead of it.

    NFPA 70 230.70(A)(1), 230.6.
    """
    feet = service.inside_length.within("ft")
    parts = [str(service.inside_length)]
    for stretch in _stretches_below(service, job):
        feet += stretch.length.within("ft")
        parts.append(f"{stretch.length} of {stretch.name}, which doesn't count as outside")
    before = _customers_ahead(service, job)
    if before is not None:
        feet += unfused_inside_length(before, job).within("ft")
        parts.append(f"{unfused_inside_length(before, job)} of {before.name}")
    total = Length.of(feet, "ft")
    job.step(" + ".join(parts), total, "NFPA 70 230.70(A)(1), 230.6")
    return total


def _customers_ahead(service: Service, job: Job) -> Service | None:
    """The customer's service wires that lead to where it starts."""
    start = service.from_
    if isinstance(start, Supply):
        return None
    run = job.graph.feed(start)
    return run if isinstance(run, Service) and run.owner == "customer" else None


def _stretches_below(service: Service, job: Job) -> list[Raceway | Trench]:
    """Its pipes in or under the floor, and its ditches under the building, that don't count as outside."""
    return [way for way in ways_of(service, job) if is_below(way) and not counts_as_outside(way, job)]


def ways_of(service: Service, job: Job) -> tuple[Raceway | Trench, ...]:
    """Its pipes, and the ditches in which it lies without one."""
    ditches = service.trench if service.states("trench") or "trench" in service.unknown else ()
    return (*_pipes(service, job), *ditches)


def _pipes(service: Service, job: Job) -> tuple[Raceway, ...]:
    return service.raceway if service.states("raceway") else pipes_of(service, job)


def is_below(way: Raceway | Trench) -> bool:
    """Whether it lies under a building, or in its concrete."""
    if isinstance(way, Trench):
        return way.under == "building"
    if way.states("trench"):
        return way.trench.under == "building"
    return way.route in ("below-slab", "in-concrete") and building_at(way.at) is not None


def counts_as_outside(way: Raceway | Trench, job: Job) -> bool:
    """Whether enough concrete or earth lies between what is below a building and its inside. NFPA 70 230.6(1), (2), (4).

    Earth counts only over pipe.
    """
    concrete: Length = job.setting("unfused-inside-length.concrete-outside")
    earth: Length = job.setting("unfused-inside-length.earth-outside")
    if isinstance(way, Trench):
        return way.concrete_over >= concrete
    if not way.states("trench"):
        return way.concrete_cover >= concrete
    return any_holds(lambda: way.trench.cover >= earth, lambda: way.concrete_cover >= concrete)


@fact
def in_metal_raceway(service: Service, job: Job) -> bool:
    """Whether its whole inside part lies in metal pipe, and that of the customer's wires ahead of it. NFPA 70 230.70(A)(1)."""
    inside = [pipe for pipe in _pipes(service, job) if not pipe.states("trench") and pipe.route == "inside"]
    if any(pipe.type not in METALS for pipe in inside):
        return False
    if sum(pipe.length.within("ft") for pipe in inside) < service.inside_length.within("ft"):
        return False
    if any(not isinstance(below, Raceway) or below.type not in METALS for below in _stretches_below(service, job)):
        return False
    before = _customers_ahead(service, job)
    return before is None or in_metal_raceway(before, job)
