"""The job, its buildings and rooms, and what the authority has allowed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.plan.elements import Element, Stated
from planlint.plan.types import COUNT, DATE, LAST_DATE, SOME, TEXT, WORD, YES_NO, choice, list_of, or_none, reference
from planlint.quantities import Area, Length, Power, Resistivity, Temperature

if TYPE_CHECKING:
    import datetime


class Plan(Element, kind="plan"):
    """The whole job: one file or several joined by include."""

    profile = Stated(
        list_of(WORD),
        "the local rule book (and the utility's, if there is one) that is held against the plan",
        first=True,
        example="tern-county, heron-light-and-power",
    )
    edition = Stated(
        choice("2017", "2020", "2023", instead={"2026": "there is only a preview of it, so write profile model-2026-preview"}),
        "the model edition, if no profile says it",
        first=True,
    )
    passed = Stated(
        list_of(choice("footing", "underground", "service", "rough-in", "final")),
        "inspections that have been signed off",
        first=True,
    )
    complete = Stated(
        list_of(
            choice("service", "grounding", "feeders", "circuits", "receptacles", "lights", "loads", "raceways", "piping", "rooms")
        ),
        "topics of which the plan shows everything: what is not there is not built",
        first=True,
    )
    date = Stated(DATE, "the day the plan stands for (expired permissions are judged by it)", first=True, example="2026-04-02")
    lines_located = Stated(YES_NO, "the call-before-you-dig office has marked the ground")
    address_note = Stated(TEXT, "words for the head of the printed papers", example='"Lot 7, Plover Lane"')


class Building(Element, kind="building"):
    """A structure that stands by itself (what is attached to the house belongs to the house)."""

    use = Stated(
        choice("one-family", "two-family", "workshop", "garage", "barn", "shed", "other"), "what it is used for", first=True
    )
    floor_area = Stated(Area, "by the outside walls; open porches don't count", first=True, example="1650 sq ft, 153 sq m")
    construction = Stated(choice("new", "existing"), "new work, or there before", first=True)
    footing_steel = Stated(
        choice("bare-bar", "coated-bar", "none"), "is there 20 ft or more of bar, 1/2 in or thicker, in the footing", first=True
    )
    load_method = Stated(
        choice("standard", "optional", "existing"),
        "how the load is worked out; existing: a dwelling that was there before, with what is added",
        first=True,
    )
    outside_doors = Stated(COUNT, "doors to the outside at ground level (no vehicle doors)", example="3")
    car_charger = Stated(choice("none", "planned", "installed"), "a charger for an electric car", first=True)
    dwelling_units = Stated(SOME, "how many dwellings are in it", default="1", example="2")
    floor_level = Stated(choice("at-or-below-grade", "above-grade"), "outbuilding: where its floor is")
    animals_or_washdown = Stated(YES_NO, "animals are kept in it, or it is hosed down")
    communications = Stated(YES_NO, "a phone, cable or data line comes in")
    lines_bonded = Stated(
        YES_NO, "existing building: its phone, cable and data lines are tied to its service or electrodes as they are"
    )
    soil_resistivity = Stated(Resistivity, "of the ground round it, for the resistance of rods", example="100 ohm-m")
    load_handed_in = Stated(Power, "the total on the load form that you hand in", example="39.8 kVA")


class Place(Element, kind="place", topic="rooms"):
    """A room or an outdoor spot where something stands."""

    building: Stated[Building] = Stated(
        reference("building"), "the building it is in (in the open air: say outdoors yes instead)", first=True, example="house"
    )
    outdoors = Stated(YES_NO, "in the open air (then say no building)", first=True)
    use = Stated(
        choice(
            "kitchen",
            "pantry",
            "dining",
            "living",
            "bedroom",
            "den",
            "recreation",
            "sunroom",
            "hallway",
            "foyer",
            "stairs",
            "bathroom",
            "laundry",
            "clothes-closet",
            "storage",
            "mechanical",
            "garage",
            "basement",
            "crawl-space",
            "attic",
            "workshop",
            "boathouse",
            "porch",
            "deck",
            "balcony",
            "yard",
            "driveway",
        ),
        "what it is used for",
        first=True,
    )
    moisture = Stated(choice("dry", "damp", "wet"), "the trade's damp and wet location", first=True)
    ambient = Stated(Temperature, "the warmest it gets round the wiring", first=True, example="86 F, 30 C")
    finished = Stated(YES_NO, "walls and floor are finished as living space", first=True)
    side = Stated(choice("front", "back", "left", "right"), "outdoors: which side of the house", first=True)
    length = Stated(Length, "hallway: along its middle line", example="12 ft")
    floor_area = Stated(Area, "of this room", example="120 sq ft")
    vehicle_bays = Stated(COUNT, "garage: cars that fit", example="2")
    stair_risers = Stated(COUNT, "stairs: steps between two floors", example="14")
    receptacle_within = Stated(
        or_none(Length.of(0, "in")),
        "habitable room without wall-space statements: no point of any wall 2 ft wide or more is farther than this, "
        "along the floor, from a receptacle on the same unbroken stretch; none: no wall is as wide as that",
        none=True,
        example="5 ft 6 in",
    )
    basins = Stated(COUNT, "bathroom: washbasins", example="2")
    basin_receptacle = Stated(
        Length,
        "bathroom with several basins: from the edge of each to the receptacle next to it, the most of them",
        example="2 ft",
    )
    sink = Stated(YES_NO, "a sink is in it, or in reach of a 6 ft cord from a receptacle in it, through its doors too")
    tub = Stated(YES_NO, "a bathtub, shower or hot tub is in it, or in such reach")
    above_ground = Stated(Length, "porch, deck, balcony: its floor", example="18 in")
    house_distance = Stated(Length, "porch, deck, balcony: to the dwelling; 0 in: attached", example="0 in")
    reached_from_inside = Stated(YES_NO, "porch, deck, balcony: a door of the dwelling opens onto it")
    holds_equipment = Stated(YES_NO, "attic, crawl space, basement: equipment or storage in it")


class Permission(Element, kind="permission"):
    """A written decision of the authority."""

    rule = Stated(WORD, "the rule's name", first=True, example="trench-too-shallow")
    for_: Stated[Element] = Stated(reference("any"), "the one thing it is about", first=True, example="studio-conduit")
    granted_by = Stated(TEXT, "who decided", first=True, example='"Building department"')
    reference = Stated(TEXT, "what proves it", first=True, example='"letter 14-203"')
    date = Stated(DATE, "the day of the decision", first=True, example="2026-04-02")
    until: Stated[datetime.date | None] = Stated(
        LAST_DATE, "the last day it holds; none: no end", none=True, first=True, example="2027-04-02"
    )
