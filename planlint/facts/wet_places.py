"""Pipes in wet places: where the inside of one counts as wet, and whether the pipe and its wires are made for that."""

from planlint.book.pathtables import Spot
from planlint.facts.buildings import in_open_air
from planlint.facts.engine import Job, fact
from planlint.facts.ways import contents, lies
from planlint.facts.wires import Wired, cable_type
from planlint.plan.elements import Element, not_stated
from planlint.plan.members import all_hold
from planlint.plan.routes import Raceway
from planlint.trade import Conductors

# Where a pipe touches the earth. A riser does so with its lower end.
IN_SOIL = ("buried", "below-slab", "riser")
# Cables that no wet place takes: NFPA 70 334.12(B)(4), 320.12. Service-entrance cable is made for above the ground.
NEVER_WET = ("NM-B", "AC")
ABOVE_GROUND = ("SEU", "SER")


@fact
def is_wet_inside(raceway: Raceway, job: Job) -> bool:
    """Whether its inside is a wet place: below ground, in concrete against the ground, on a roof, or where the place is wet.

    NFPA 70 300.5(B), 300.9, article 100 (location, wet).
    """
    where = lies(raceway, job)
    if where in IN_SOIL or where == "roof":
        return True
    return raceway.against_ground if where == "in-concrete" else raceway.at.moisture == "wet"


@fact
def type_suits_place(raceway: Raceway, job: Job) -> bool:
    """Whether a pipe of its type may be where it is wet: in the soil, in concrete, in the weather, or in a wet room.

    NFPA 70 sections .10 and .12 of its article; for some types it depends on a marking or coating, which the plan has to say.
    """
    said = [(spot, job.tables.raceway_place(raceway.type, spot)) for spot in _spots(raceway, job)]
    for spot, allowed in said:
        job.step(f"{raceway.type} in {spot}", allowed, job.from_table("raceway-places"))
    if any(allowed == "no" for _, allowed in said):
        return False
    return raceway.approved_for_place if any(allowed == "marked" for _, allowed in said) else True


def _spots(raceway: Raceway, job: Job) -> tuple[Spot, ...]:
    where = lies(raceway, job)
    if where == "buried":
        return ("concrete",) if raceway.trench.encased else ("soil",)
    if where in ("inside", "sleeve"):
        return ("weather",) if where == "sleeve" and in_open_air(raceway.at, job) else ("indoors",)
    spots: dict[str, tuple[Spot, ...]] = {"below-slab": ("soil",), "riser": ("soil", "weather"), "in-concrete": ("concrete",)}
    return spots.get(where, ("weather",))


@fact
def wires_suit_wet(raceway: Raceway, job: Job) -> bool:
    """Whether every wire and cable in it may lie where it is wet; bare wires may.

    NM-B and AC cable never; SE cable not below ground; UF-B and USE-2 always. Not stated of MC cable, some of it being made
    for that. NFPA 70 310.10(C), Table 310.4(A) (2017: 310.104(A)), 300.5(B), 334.12(B)(4), 338.12(A)(2), 340.10(3).
    """
    return all_hold(
        lambda: contents(raceway, job).every(lambda run: _suits(run, raceway, job)),
        lambda: all_hold(*(lambda wires=wires: _bears_water(wires, raceway, "holds", job) for wires in raceway.holds)),
    )


@fact
def unfit_for_wet(raceway: Raceway, job: Job) -> str:
    """The wires and cables in it that are known not to be made for wet places, in words; none where there are none."""
    runs = contents(raceway, job).where(lambda run: not _suits(run, raceway, job)).known
    names = [f"{_made_of(run, job)} of {run.name}" for run in runs]
    if raceway.states("holds"):
        names += [str(wires) for wires in raceway.holds if wires.insulation and not _bears_water(wires, raceway, "holds", job)]
    return ", ".join(names) or "none"


def _suits(run: Wired, raceway: Raceway, job: Job) -> bool:
    kind = cable_type(run, job)
    if kind == "none":
        return all_hold(
            lambda: _bears_water(run.hot, run, "hot", job),
            lambda: _bears_water(run.neutral, run, "neutral", job),
            lambda: _bears_water(run.ground, run, "ground", job),
        )
    if kind == "MC":
        not_stated(run, "cable", f"{run.name}: whether its cable is made and marked for wet places")
    if kind in ABOVE_GROUND:
        return lies(raceway, job) not in (*IN_SOIL, "in-concrete")
    return kind not in NEVER_WET


def _bears_water(wires: Conductors, element: Element, attribute: str, job: Job) -> bool:
    """Whether the insulation is made for wet places. Raises NotStated where it isn't said."""
    if not wires.count:
        return True
    if not wires.insulation:
        not_stated(element, attribute, f"{element.name}: {attribute}, the insulation of its wires (or bare)")
    return job.tables.insulation(wires.insulation).wet_rated


def _made_of(run: Wired, job: Job) -> str:
    kind = cable_type(run, job)
    if kind != "none":
        return f"the {kind} cable"
    stated = [run.value(name) for name in ("hot", "neutral", "ground") if run.states(name)]
    kinds = [wires.insulation for wires in stated if wires.count and wires.insulation]
    unfit = [insulation for insulation in kinds if not job.tables.insulation(insulation).wet_rated]
    return " and ".join(dict.fromkeys(unfit))
