"""Pipes in wet places: where the inside of one counts as wet, and whether the pipe and its wires are made for that."""

from typing import Literal, cast

from planlint.book.pathtables import Spot
from planlint.facts.buildings import in_open_air
from planlint.facts.engine import Job, fact
from planlint.facts.ways import contents, lies
from planlint.facts.wires import Wired, cable_type
from planlint.plan.elements import Element, does_not_arise, not_stated
from planlint.plan.members import all_hold, broken_words
from planlint.plan.routes import Raceway
from planlint.trade import Conductors

# Where a pipe touches the earth. A riser does so with its lower end.
IN_SOIL = ("buried", "below-slab", "riser")
# Cables that no wet and no damp place takes: NFPA 70 334.12(B)(4), 320.12. Service-entrance cable is made for above the ground.
DRY_ONLY = ("NM-B", "AC")
ABOVE_GROUND = ("SEU", "SER")


@fact
def moisture_inside(raceway: Raceway, job: Job) -> Literal["dry", "damp", "wet"]:
    """How wet it gets inside: wet below ground, in concrete against the ground and on a roof; elsewhere as wet as its place.

    Not stated of a place outdoors that is said to be dry. NFPA 70 300.5(B), 300.9, article 100 (locations).
    """
    where = lies(raceway, job)
    if where in IN_SOIL or where == "roof":
        return "wet"
    if where == "in-concrete":
        return "wet" if raceway.against_ground else "dry"
    place = raceway.at
    moisture = cast(Literal["dry", "damp", "wet"], place.moisture)
    if moisture == "dry" and in_open_air(place, job):
        not_stated(place, "moisture", f"{place.name}: moisture dry or outdoors yes, for it can't be both")
    return moisture


@fact
def is_wet_inside(raceway: Raceway, job: Job) -> bool:
    """Whether its inside is a wet place. NFPA 70 300.5(B), 300.9."""
    return moisture_inside(raceway, job) == "wet"


@fact
def type_suits_place(raceway: Raceway, job: Job) -> bool:
    """Whether a pipe of its type may be where it is wet: in the soil, in concrete, in the weather, or in a wet room.

    Where it is only damp, any may. For some types it depends on a marking or coating, which the plan has to say.
    NFPA 70 sections .10 and .12 of its article.
    """
    said = [(spot, job.tables.raceway_place(raceway.type, spot)) for spot in _spots(raceway, job)]
    for spot, allowed in said:
        job.step(f"{raceway.type} in {spot}", allowed, job.from_table("raceway-places"))
    answers = {allowed for _, allowed in said}
    if answers == {"yes"}:
        return True
    return not all_hold(lambda: is_wet_inside(raceway, job), lambda: "no" in answers or not raceway.approved_for_place)


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
    """Whether every wire and cable in it may lie where it gets as wet as there; bare wires may.

    NM-B and AC cable not even where it is damp; SE cable not below ground; UF-B and USE-2 always. Not stated of MC cable in
    wet places, some of it being made for them.
    NFPA 70 310.10(B), (C), Table 310.4(A) (2017: 310.104(A)), 300.5(B), 334.12(B)(4), 338.12(A)(2), 340.10(3).
    """
    return all_hold(
        lambda: contents(raceway, job).every(lambda run: _suits(run, raceway, job)),
        lambda: all_hold(*(lambda wires=wires: _bears_water(wires, raceway, "holds", raceway, job) for wires in raceway.holds)),
    )


@fact
def unfit_for_wet(raceway: Raceway, job: Job) -> str:
    """The wires and cables in it that are known not to be made for a place so wet, in words; none where there are none."""
    runs = contents(raceway, job).where(lambda run: not _suits(run, raceway, job)).known
    names = [f"{_made_of(run, job)} of {run.name}" for run in runs]
    if raceway.states("holds"):
        names += [
            str(wires) for wires in raceway.holds if wires.insulation and not _bears_water(wires, raceway, "holds", raceway, job)
        ]
    return ", ".join(names) or "none"


@fact
def wet_fault(raceway: Raceway, job: Job) -> str:
    """What is not made for how wet it gets there, in words: the pipe, what is in it, or both; only what is so for certain.

    NFPA 70 300.5(B), 300.9, and what type-suits-place and wires-suit-wet name.
    """
    found = broken_words(
        (lambda: type_suits_place(raceway, job), lambda: f"{raceway.type} may not be {_where(raceway, job)}"),
        (lambda: wires_suit_wet(raceway, job), lambda: f"in it and not made for that: {unfit_for_wet(raceway, job)}"),
    )
    if not found:
        does_not_arise(raceway, f"{raceway.name}: something that is not made for how wet it gets there")
    return "; ".join(found)


def _where(raceway: Raceway, job: Job) -> str:
    """The spots that its type is not made for, in words."""
    words: dict[Spot, str] = {
        "soil": "in the soil",
        "concrete": "in concrete there",
        "weather": "out in the weather",
        "indoors": "in a wet room",
    }
    said = {spot: job.tables.raceway_place(raceway.type, spot) for spot in _spots(raceway, job)}
    barred = [spot for spot, allowed in said.items() if allowed == "no"]
    return " or ".join(words[spot] for spot in barred or [spot for spot, allowed in said.items() if allowed == "marked"])


def _suits(run: Wired, raceway: Raceway, job: Job) -> bool:
    kind = cable_type(run, job)
    if kind == "none":
        return all_hold(
            lambda: _bears_water(run.hot, run, "hot", raceway, job),
            lambda: _bears_water(run.neutral, run, "neutral", raceway, job),
            lambda: _bears_water(run.ground, run, "ground", raceway, job),
        )
    if kind == "MC" and is_wet_inside(raceway, job):
        not_stated(run, "cable", f"{run.name}: whether its cable is made and marked for wet places")
    if kind in ABOVE_GROUND:
        return lies(raceway, job) not in (*IN_SOIL, "in-concrete")
    return kind not in DRY_ONLY


def _bears_water(wires: Conductors, element: Element, attribute: str, raceway: Raceway, job: Job) -> bool:
    """Whether the insulation is made for wet places, or the pipe isn't wet. Raises NotStated where the insulation isn't said."""
    if not wires.count:
        return True
    if not wires.insulation:
        not_stated(element, attribute, f"{element.name}: {attribute}, the insulation of its wires (or bare)")
    return job.tables.insulation(wires.insulation).wet_rated or not is_wet_inside(raceway, job)


def _made_of(run: Wired, job: Job) -> str:
    kind = cable_type(run, job)
    if kind != "none":
        return f"the {kind} cable"
    stated = [run.value(name) for name in ("hot", "neutral", "ground") if run.states(name)]
    kinds = [wires.insulation for wires in stated if wires.count and wires.insulation]
    unfit = [insulation for insulation in kinds if not job.tables.insulation(insulation).wet_rated]
    return " and ".join(dict.fromkeys(unfit))
