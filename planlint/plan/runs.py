"""Conductors from one place to another: services, feeders, branch circuits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.plan.elements import Element, Stated
from planlint.plan.types import CABLE, CONDUCTORS, SOME, TEXT, YES_NO, choice, list_of, reference
from planlint.quantities import Current, Length, Temperature, Voltage

if TYPE_CHECKING:
    from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
    from planlint.plan.routes import Holes, OverheadSpan, Raceway, Trench
    from planlint.plan.site import Building, Place

_FULL_RATING = "its breaker, in its enclosure, is listed to carry its whole rating on and on (100 % rated)"


class Run(Element):
    """What services, feeders and circuits have in common: wires, length, and the way they take."""

    hot = Stated(CONDUCTORS, "the hot wires of one set", first=True, example="2 x 4/0 aluminum XHHW-2")
    neutral = Stated(
        CONDUCTORS,
        "the neutral (grounded conductor); none: there is none",
        none=True,
        first=True,
        example="2/0 aluminum XHHW-2, none",
    )
    ground = Stated(
        CONDUCTORS, "the equipment ground (EGC); none: there is none", none=True, first=True, example="4 AWG aluminum bare, none"
    )
    cable = Stated(CABLE, "the cable; with a size it says all its wires", first=True, example="12/2 copper NM-B, SER")
    raceway: Stated[tuple[Raceway, ...]] = Stated(
        list_of(reference("raceway")), "every pipe it passes through, in order", first=True, example="studio-conduit"
    )
    length = Stated(Length, "one way, along the wire", first=True, example="62 ft")
    trench: Stated[tuple[Trench, ...]] = Stated(
        list_of(reference("trench")), "cable laid in the soil without pipe", example="well-trench"
    )
    span: Stated[tuple[OverheadSpan, ...]] = Stated(list_of(reference("span")), "overhead", example="drop")
    holes: Stated[tuple[Holes, ...]] = Stated(list_of(reference("holes")), "framing it passes through", example="joist-holes")
    sets = Stated(SOME, "parallel sets", default="1", example="2")
    terminals: Stated[tuple[Temperature, ...]] = Stated(
        list_of(Temperature), "marked at its two ends; one value for both", example="75 C, 60 C"
    )
    ambient = Stated(
        Temperature,
        "the warmest place it passes; where nothing says it, it has to pass as in a hot attic (131 F)",
        example="120 F",
    )
    touches_insulation = Stated(YES_NO, "thermal insulation lies against it")
    passes: Stated[tuple[Place | Building, ...]] = Stated(
        list_of(reference("place", "building")), "rooms or buildings it passes through", example="crawl-space"
    )
    cable_width = Stated(Length, "of the cable, flat cable the wide way (for pipe fill and holes)", example="0.6 in")
    buried_splice = Stated(choice("none", "listed", "other"), "splice in the soil; listed: with a kit for direct burial")
    kept_together = Stated(
        YES_NO, "all its wires in the same pipe, cable or ditch; several sets: no for one set per pipe, yes if all share one"
    )
    support_spacing = Stated(Length, "between staples, or the holes that bear it", site=True, example="4 ft")
    first_support = Stated(Length, "box to first staple", site=True, example="8 in")
    boxes_without_clamps = Stated(YES_NO, "some of its boxes are single-gang plastic ones that don't clamp it", site=True)
    unfastened = Stated(
        choice("no", "fished", "whip"),
        "without staples because it is fished through finished walls, or to a light above an accessible ceiling",
        default="no",
    )
    extra_at_ends = Stated(Length, "wire beside its length at each end, for the material list", example="4 ft")
    colors_right = Stated(YES_NO, "white, green and marked as they should be", site=True)


class Service(Run, kind="service", topic="service"):
    """Conductors ahead of the service disconnect."""

    from_: Stated[Supply | Meter | Disconnect | TransferSwitch] = Stated(
        reference("supply", "meter", "disconnect", "transfer-switch"),
        "the end toward the utility",
        first=True,
        example="meter-post",
    )
    to: Stated[Meter | Disconnect | Panel | TransferSwitch] = Stated(
        reference("meter", "disconnect", "panel", "transfer-switch"),
        "the end toward the house",
        first=True,
        example="house-disconnect",
    )
    owner = Stated(choice("customer", "utility"), "whose conductors they are; the utility's follow its own rules", first=True)
    existing = Stated(YES_NO, "its equipment was there before this work")
    inside_length = Stated(Length, "from where it comes in to the first disconnect, along the conductor", example="0 ft")


class Feeder(Run, kind="feeder", topic="feeders"):
    """Conductors from one piece of distribution equipment to another."""

    from_: Stated[Disconnect | Panel | TransferSwitch | Supply] = Stated(
        reference("disconnect", "panel", "transfer-switch", "supply"),
        "the end toward the source",
        first=True,
        example="house-disconnect",
    )
    to: Stated[Disconnect | Panel | TransferSwitch] = Stated(
        reference("disconnect", "panel", "transfer-switch"), "the end toward the load", first=True, example="house-panel"
    )
    breaker = Stated(Current, "the breaker that protects it (OCPD)", first=True, example="100 A")
    fuses = Stated(Current, "or the fuses", example="60 A")
    space = Stated(list_of(SOME), "the place of its breaker in the panel it starts from", example="2, 4")
    full_rating = Stated(YES_NO, _FULL_RATING, default="no")
    held_down = Stated(YES_NO, "back-fed breaker: fastened, or made for an inverter")
    bus_position = Stated(choice("opposite-end", "other"), "back-fed breaker: where on the bus")
    existing = Stated(YES_NO, "it was there before this work", default="no")
    guarded = Stated(YES_NO, "attic, joists: strips or bored holes guard it", site=True)
    protected = Stated(YES_NO, "sleeved where it can be hit", site=True)


class Circuit(Run, kind="circuit", topic="circuits"):
    """A branch circuit."""

    panel: Stated[Panel | Disconnect] = Stated(
        reference("panel", "disconnect"), "where its breaker is", first=True, example="house-panel"
    )
    breaker = Stated(Current, "its breaker (OCPD)", first=True, example="20 A")
    full_rating = Stated(YES_NO, _FULL_RATING, default="no")
    poles = Stated(SOME, "1, or 2 for 240 V", example="2")
    space = Stated(list_of(SOME), "its place in the panel", example="4, 6")
    use = Stated(
        choice("small-appliance", "laundry", "bathroom", "garage", "lighting", "general", "appliance"),
        "what it is for in the load calculation and on the panel door",
        first=True,
    )
    protection = Stated(
        list_of(choice("afci", "gfci", "afci-outlet")),
        "what its breaker adds; afci-outlet: at its first outlet instead, the wires up to there as the code asks for it",
        none=True,
        first=True,
    )
    label = Stated(TEXT, "words for the panel's door", example='"Well pump"')
    volts = Stated(Voltage, "only if it isn't the panel's 120 V (1 pole) or 240 V (2 poles)", example="24 V")
    design_load = Stated(Current, "what it is expected to carry, for voltage drop", example="10 A")
    shares_neutral_with: Stated[Circuit | None] = Stated(
        reference("circuit"), "another circuit on the same neutral", none=True, default="none", example="den-b"
    )
    handle_tie = Stated(YES_NO, "the two breakers that share a neutral trip or switch together")
    temporary = Stated(YES_NO, "it feeds the building work for now", default="no")
    existing = Stated(YES_NO, "it was there before this work", default="no")
    extended = Stated(YES_NO, "it was there before this work, and something new is fed from it")
    guarded = Stated(YES_NO, "attic, joists: strips or bored holes guard it", site=True)
    protected = Stated(YES_NO, "sleeved where it can be hit", site=True)
