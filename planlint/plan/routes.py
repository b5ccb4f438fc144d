"""What the conductors pass through: raceways, trenches, overhead spans, holes in the framing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.plan.elements import Element, Stated
from planlint.plan.types import CONDUCTORS, NUMBER, SLOPE, SOME, TRADE_SIZE, YES_NO, choice, list_of, reference
from planlint.quantities import Angle, Force, ForcePerLength, Inclination, Length, TemperatureDifference, WeightPerLength

if TYPE_CHECKING:
    from planlint.plan.gear import Disconnect, Meter, Panel, TransferSwitch
    from planlint.plan.outlets import Box, Load
    from planlint.plan.site import Place


class Raceway(Element, kind="raceway", topic="raceways"):
    """One run of conduit or tubing between pull points."""

    type = Stated(
        choice("EMT", "IMC", "RMC", "PVC-40", "PVC-80", "HDPE", "ENT", "FMC", "LFMC", "LFNC-A", "LFNC-B"),
        "the kind of pipe or tubing",
        first=True,
    )
    size = Stated(TRADE_SIZE, "the trade size, like 2 in", first=True, example="2 in")
    length = Stated(Length, "pull point to pull point", first=True, example="30 ft")
    bends: Stated[tuple[Angle, ...]] = Stated(
        list_of(Angle), "every bend, in order; none: straight", none=True, first=True, example="90 deg, 90 deg"
    )
    continues: Stated[Raceway | None] = Stated(
        reference("raceway"),
        "the next piece of the same pull: no box or conduit body between",
        none=True,
        first=True,
        example="studio-riser",
    )
    trench: Stated[Trench] = Stated(reference("trench"), "the ditch it lies in", first=True, example="front-trench")
    route = Stated(
        choice("inside", "above-grade", "below-slab", "in-concrete", "riser", "sleeve", "roof"),
        "where it runs, if not in a trench",
        first=True,
    )
    at: Stated[Place] = Stated(reference("place"), "the room or spot it runs through", first=True, example="yard")
    holds = Stated(
        list_of(CONDUCTORS),
        "what is in it beside the runs that name it; none: empty spare",
        none=True,
        default="none",
        first=True,
        example="3 x 6 AWG copper THWN-2",
    )
    bend_radius = Stated(Length, "to the middle of the pipe, tightest bend", example="24 in")
    sections: Stated[tuple[Length, ...]] = Stated(
        list_of(Length), "straight parts, in order, one more than the bends", example="100 ft, 80 ft, 75 ft"
    )
    against_ground = Stated(YES_NO, "in-concrete: the slab or wall that it is cast in lies against the ground")
    approved_for_place = Stated(
        YES_NO, "EMT in soil, flexible pipe outdoors or in soil: marked or protected for it, and accepted by the authority"
    )
    slopes: Stated[tuple[Inclination, ...]] = Stated(
        list_of(Inclination), "for the pull: how each straight part rises (minus: falls), in order", example="0 deg, 90 deg"
    )
    concrete_cover = Stated(Length, "concrete round it or over it", example="2 in")
    subject_to_damage = Stated(YES_NO, "it can be hit")
    begins_below = Stated(Length, "riser: how far below the ground it starts", example="18 in")
    ends_above = Stated(Length, "riser: how far above the ground it ends", example="8 ft")
    ends_in: Stated[Meter | Disconnect | Panel | TransferSwitch | Box | Load | None] = Stated(
        reference("meter", "disconnect", "panel", "transfer-switch", "box", "load"),
        "riser: the case it ends in; none: its top is open",
        none=True,
        example="meter-post",
    )
    temperature_swing = Stated(
        TemperatureDifference, "of the pipe, coldest to hottest in the year; the sun adds some 30 F to the air", example="120 F"
    )
    expansion_fitting = Stated(YES_NO, "it has one")
    above_roof = Stated(Length, "roof: between roof and pipe", example="1 in")
    bonding = Stated(
        choice("threaded-hub", "bonding-bushing", "bonding-locknut", "plain-locknut", "none"),
        "how its metal is tied to the enclosure; none: to none",
    )
    ring_knockouts = Stated(YES_NO, "rings are left in the knockout")
    ends_bonded = Stated(YES_NO, "steel round an electrode conductor: bonded at both ends")
    slack_loop = Stated(YES_NO, "slack for moving ground", site=True)
    sealed = Stated(YES_NO, "its end at the house wall is sealed", site=True)
    bushings = Stated(YES_NO, "smooth fittings where wires leave it", site=True)
    support_spacing = Stated(Length, "between straps", site=True, example="3 ft")
    first_support = Stated(Length, "box to first strap", site=True, example="18 in")
    threaded = Stated(YES_NO, "rigid steel: straight, with threaded couplings")
    unbroken_to_framing = Stated(YES_NO, "rigid metal: no framing nearer, and no coupling up to the first strap")
    unfastened = Stated(
        choice("no", "fished", "whip"),
        "without straps because it is fished through a finished wall, or is a short flexible whip",
        default="no",
    )
    cable_weight = Stated(WeightPerLength, "for the pull: all that goes in", example="0.144 lb/ft")
    weight_correction = Stated(
        NUMBER, "for the pull: how much harder the wires press than they weigh; 1 for one cable", example="1"
    )
    pulled_by = Stated(choice("eye", "grip"), "for the pull: an eye on the conductors, or a basket grip over them")
    friction = Stated(NUMBER, "for the pull; left out, a profile may set another", default="0.5", example="0.5")
    most_tension = Stated(Force, "for the pull: the maker's limit", example="340 lb")
    most_sidewall = Stated(ForcePerLength, "for the pull: the maker's limit in bends", example="300 lb/ft")


class Trench(Element, kind="trench", topic="raceways"):
    """A ditch."""

    cover = Stated(Length, "ground surface to the top of the pipe or cable", first=True, example="26 in")
    under = Stated(
        choice("yard", "driveway", "street", "patio-slab", "building"),
        "what lies above; patio-slab: 4 in of concrete without cars",
        first=True,
    )
    warning_ribbon = Stated(YES_NO, "a marked ribbon lies over the line", first=True)
    ribbon_above = Stated(Length, "how far above the line", first=True, example="12 in")
    concrete_over = Stated(Length, "over the line, in the ditch", default="0 in", example="2 in")
    rock = Stated(YES_NO, "solid rock keeps it from going deeper", default="no")
    encased = Stated(YES_NO, "its pipes are cast in concrete", default="no")
    layers = Stated(SOME, "how many pipes or cables lie one above another", default="1", example="2")
    spacing = Stated(Length, "between pipes side by side, and between layers", example="2 in")
    shares_with = Stated(list_of(choice("gas", "water", "sewer", "communications")), "what else lies in it", none=True)
    separation = Stated(Length, "to the nearest of them", example="12 in")
    bedding = Stated(choice("sand", "screened-soil", "none"), "under and over the line", site=True)
    bedding_depth = Stated(Length, "under the line, for the depth to dig", example="4 in")
    backfill = Stated(choice("clean", "rocky"), "what the ditch is filled with", site=True)
    length = Stated(Length, "for the material list", example="80 ft")


class OverheadSpan(Element, kind="span", topic="raceways"):
    """Overhead conductors between two points."""

    passes_over = Stated(
        list_of(choice("walkway", "driveway", "street", "roof", "windows", "water")), "what lies below or beside", first=True
    )
    attachment = Stated(Length, "ground to where it is fastened", first=True, example="14 ft")
    above_walkway = Stated(Length, "lowest point, over ground where people walk", first=True, example="12 ft")
    above_driveway = Stated(Length, "lowest point, over a driveway", first=True, example="14 ft")
    above_street = Stated(Length, "lowest point, over a street", first=True, example="18 ft")
    above_roof = Stated(Length, "lowest point, over a roof", first=True, example="8 ft 6 in")
    roof_slope = Stated(SLOPE, "rise in run", example="6 in 12")
    over_overhang_only = Stated(YES_NO, "not more than 6 ft of it over not more than 4 ft of overhang, to a mast")
    from_windows = Stated(Length, "to the side of or below any window that opens", first=True, example="3 ft")


class Holes(Element, kind="holes", topic="raceways"):
    """Holes of one sort in the framing."""

    through = Stated(
        choice("stud", "joist", "i-joist", "rim-board", "plate", "truss", "metal-stud"), "what they are bored in", first=True
    )
    diameter = Stated(Length, "of each hole", first=True, example="1 in")
    edge_distance = Stated(Length, "edge of the hole to the nearest edge of the wood", first=True, example="1-1/4 in")
    member_depth = Stated(Length, "real depth of the stud or joist", first=True, example="3-1/2 in")
    plates = Stated(YES_NO, "steel plates cover them", first=True)
    sealed = Stated(YES_NO, "filled with insulation, caulk or foam", first=True)
    bearing = Stated(YES_NO, "the wall or joist carries weight")
    largest_by_maker = Stated(Length, "i-joist: from the maker's chart", example="3 in")
    fire_rated = Stated(YES_NO, "the wall or floor is fire-rated")
    fire_stopped = Stated(YES_NO, "filled with listed material")
    together = Stated(SOME, "most cables that share one hole", default="1", example="2")
