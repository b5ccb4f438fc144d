"""What lies where: pipes and what is in them, ditches, and how a run gets through the ground."""

from typing import Literal, cast

from planlint.facts.engine import Job, fact
from planlint.facts.wires import Wired, cable_type, is_cable
from planlint.plan.elements import Element, Need, not_stated
from planlint.plan.members import Members, all_hold, merged
from planlint.plan.routes import Raceway, Trench
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Length

Lies = Literal["buried", "inside", "above-grade", "below-slab", "in-concrete", "riser", "sleeve", "roof"]
# Routes that a pipe in a ditch may state beside it; any other contradicts the ditch.
BESIDE_A_DITCH = ("in-concrete", "below-slab")


@fact
def lies(raceway: Raceway, job: Job) -> Lies:
    """Where a pipe runs: buried if it names a ditch, otherwise by its route. Not stated where the two contradict each other."""
    if not _says(raceway, "trench"):
        return cast(Lies, raceway.route)
    if raceway.trench and _says(raceway, "route") and raceway.route not in BESIDE_A_DITCH:
        not_stated(raceway, "route", f"{raceway.name}: trench or route {raceway.route}, for it can't be both")
    return "buried"


@fact
def contents(raceway: Raceway, job: Job) -> Members[Service | Feeder | Circuit]:
    """The runs that pass through it: those that name it. What it holds beside them is not among them.

    A pipe that no run names and that doesn't say what it holds is open: somebody forgot to name it.
    """
    services, feeders, circuits = (job.graph.those(kind, "raceway", raceway) for kind in (Service, Feeder, Circuit))
    found = cast("Members[Wired]", services.joined(feeders, circuits))
    if found.known or raceway.states("holds"):
        return found
    return Members((), merged(found.gaps, (Need(raceway, "holds"),)))


def pipes_of(run: Wired, job: Job) -> tuple[Raceway, ...]:
    """The pipes that it passes. A cable that names none lies in none; so do loose wires only if all raceways are shown."""
    shown = job.graph.is_complete("raceways") or is_cable(run, job)
    return () if shown and not _says(run, "raceway") else run.raceway


def sets_inside(run: Wired) -> int:
    """How many of its parallel sets lie in one of its pipes: all of them if it says that they are kept together."""
    return run.sets if run.sets > 1 and run.kept_together else 1


@fact
def is_utility_owned(line: Service | Feeder | Circuit | Raceway, job: Job) -> bool:
    """Whether it is the utility's own: its service conductors, or a pipe that holds nothing else. NFPA 70 90.2(B)(5)."""
    if not isinstance(line, Raceway):
        return isinstance(line, Service) and line.owner == "utility"
    if line.states("holds") and line.holds:
        return False
    inside = contents(line, job)
    if not inside.known:
        inside.whole()
        return False
    return all_hold(lambda: inside.every(lambda run: is_utility_owned(run, job)), lambda: not line.holds)


@fact
def carries_service(way: Raceway | Trench, job: Job) -> bool:
    """Whether a service conductor of the customer is in it. The utility's own follow its rules."""
    attribute = "raceway" if isinstance(way, Raceway) else "trench"
    services = job.graph.those(Service, attribute, way)
    found = cast("Members[Service | Raceway]", Members(services.known, merged(services.gaps, _if_empty(way, job))))
    if isinstance(way, Trench):
        found = found.joined(job.graph.those(Raceway, "trench", way))
    return found.some(lambda each: carries_service(each, job) if isinstance(each, Raceway) else each.owner == "customer")


@fact
def carries_only_utility(trench: Trench, job: Job) -> bool:
    """Whether nothing but the utility's own conductors, with their pipes, lies in it. NFPA 70 90.2(B)(5)."""
    found = [job.graph.those(kind, "trench", trench) for kind in (Raceway, Service, Feeder, Circuit)]
    inside = cast("Members[Wired | Raceway]", found[0].joined(*found[1:]))
    return Members(inside.known, merged(inside.gaps, _if_empty(trench, job))).every(lambda line: is_utility_owned(line, job))


def _if_empty(way: Raceway | Trench, job: Job) -> tuple[Need, ...]:
    """What has to be stated of a pipe or ditch in which nothing seems to lie."""
    if isinstance(way, Raceway):
        return () if contents(way, job).known else contents(way, job).gaps
    if any(job.graph.those(kind, "trench", way).known for kind in (Raceway, Service, Feeder, Circuit)):
        return ()
    return (Need(way, "contents", note=f"what lies in {way.name}"),)


@fact
def lies_in_trench(line: Raceway | Service | Feeder | Circuit, job: Job) -> bool:
    """Whether it names a ditch itself; a run whose pipe does lies in the pipe. NFPA 70 300.5."""
    return lies(line, job) == "buried" if isinstance(line, Raceway) else is_direct_buried(line, job)


@fact
def is_direct_buried(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether it is laid in the soil without pipe: it names a ditch itself. NFPA 70 300.5."""
    return _says(run, "trench") and bool(run.trench)


@fact
def is_underground(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether it lies in a ditch, or a pipe of it does or runs below a slab. NFPA 70 300.5(B)."""
    if is_direct_buried(run, job):
        return True
    return Members(pipes_of(run, job)).some(lambda pipe: lies(pipe, job) in ("buried", "below-slab"))


@fact
def cable_suits_soil(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether what it is made of may lie below ground where it does.

    NM-B, SE and AC cable may not, even in pipe; without pipe UF-B and USE-2 may, but never below a building. Loose wires may in
    pipe. Not stated of MC cable, some of which is made for the soil. NFPA 70 300.5(C), 320.12, 334.12(B)(4), 338.12(A)(2),
    340.10(1).
    """
    kind = cable_type(run, job)
    if kind in ("NM-B", "SEU", "SER", "AC"):
        return False
    ditches = Members(run.trench if is_direct_buried(run, job) else ())
    return all_hold(
        lambda: ditches.every(lambda ditch: ditch.under != "building" or _in_pipe_there(run, ditch, job)),
        lambda: kind != "none" or ditches.every(lambda ditch: _wires_suit(run, ditch, job)),
        lambda: kind != "MC" or not_stated(run, "cable", f"{run.name}: whether its cable is made and marked for the soil"),
    )


def _wires_suit(run: Wired, ditch: Trench, job: Job) -> bool:
    """Whether its loose wires may lie in the ditch: there in pipe, or made for the soil."""
    if run.hot.insulation == "USE-2" or _in_pipe_there(run, ditch, job):
        return True
    if not run.hot.insulation:
        not_stated(run, "hot", f"{run.name}: hot, the insulation of its wires")
    return False


def _in_pipe_there(run: Wired, ditch: Trench, job: Job) -> bool:
    return any(pipe.states("trench") and pipe.trench is ditch for pipe in pipes_of(run, job))


@fact
def is_below_building(raceway: Raceway, job: Job) -> bool:
    """Whether it runs below a slab, or in a ditch under a building. NFPA 70 230.6."""
    where = lies(raceway, job)
    return where == "below-slab" or (where == "buried" and raceway.trench.under == "building")


@fact
def earth_cover(raceway: Raceway, job: Job) -> Length:
    """From the surface down to the top of the pipe in its ditch. NFPA 70 230.6."""
    return raceway.trench.cover


def _says(element: Element, attribute: str) -> bool:
    """Whether the plan speaks of it, be it to say that it is unknown: reading it then gives the value or raises NotStated."""
    return element.states(attribute) or attribute in element.unknown
