"""What the circuits feed and the boxes they end in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.plan.elements import Element, Stated
from planlint.plan.types import CONDUCTORS, COUNT, DIMENSIONS, NUMBER, SOME, YES_NO, choice, either, list_of, or_none, reference
from planlint.quantities import Current, Length, Percent, Power, TemperatureDifference, Voltage, Volume

if TYPE_CHECKING:
    from planlint.plan.routes import Raceway
    from planlint.plan.runs import Circuit
    from planlint.plan.site import Building, Place


class Receptacles(Element, kind="receptacles", topic="receptacles"):
    """Receptacles of one sort, in one place, on one circuit."""

    at: Stated[Place] = Stated(reference("place"), "the room or spot", first=True, example="kitchen")
    circuit: Stated[Circuit] = Stated(reference("circuit"), "what feeds them", first=True, example="kitchen-a")
    count = Stated(SOME, "how many (a duplex is one)", first=True, default="1", example="4")
    rating = Stated(Current, "stamped on it", first=True, example="20 A")
    serves = Stated(
        list_of(
            choice(
                "general",
                "counter",
                "basin",
                "laundry",
                "refrigerator",
                "service",
                "vehicle-bay",
                "appliance",
                "dishwasher",
                "car",
                "security",
                "snow-melting",
            )
        ),
        "what they are there for",
        first=True,
    )
    gfci = Stated(YES_NO, "protected at the receptacle or one before it (breaker: say it on the circuit)", first=True)
    tamper_resistant = Stated(YES_NO, "they have shutters (TR)", first=True)
    volts = Stated(Voltage, "only if it isn't 120 V", example="240 V")
    single = Stated(YES_NO, "one receptacle on the strap, not a duplex")
    weather_resistant = Stated(YES_NO, "marked WR", first=True)
    cover = Stated(choice("none", "weatherproof", "in-use"), "in-use: proof with a plug in it", first=True)
    height = Stated(Length, "floor or ground to its middle", example="16 in")
    distance_to_sink = Stated(Length, "nearest edge of any sink (not asked where its place says sink no)", example="4 ft")
    distance_to_basin = Stated(Length, "bathroom: edge of the basin", example="18 in")
    distance_to_tub = Stated(Length, "edge of bathtub, shower or hot tub (not asked where its place says tub no)", example="4 ft")
    behind_door = Stated(YES_NO, "between it and the sink or tub is a door or window, be it a cabinet's")
    readily_accessible = Stated(YES_NO, "snow melting: it is reached without a ladder and without moving anything")
    grounds_tested = Stated(YES_NO, "building work: a written program tests the grounds of its cords and tools")
    distance_to_appliance = Stated(Length, "washer, or the heating unit it is there to service", example="5 ft")
    opposite_tub = Stated(
        YES_NO,
        "nearer to a bathtub or shower than 3 ft: on the wall farthest from it, as the room leaves no 3 ft, or another exception",
    )
    switched = Stated(YES_NO, "a wall switch turns one or more of them on, for lamps")
    existing = Stated(YES_NO, "on a circuit that was there before: so were they, and they stay as they are")
    gfci_reachable = Stated(YES_NO, "the GFCI's button can be reached without moving anything", site=True)


class Lights(Element, kind="lights", topic="lights"):
    """Lighting outlets of one sort, in one place, on one circuit."""

    at: Stated[Place] = Stated(reference("place"), "the room or spot", first=True, example="kitchen")
    circuit: Stated[Circuit] = Stated(reference("circuit"), "what feeds them", first=True, example="lights-north")
    count = Stated(SOME, "how many", first=True, default="1", example="6")
    rating = Stated(Power, "of each", example="60 W")
    switched_from = Stated(COUNT, "places with a switch for them", first=True, example="2")
    switch_at: Stated[tuple[Place, ...]] = Stated(
        list_of(reference("place")), "rooms and spots in which their switches are", none=True, example="hall"
    )
    automatic = Stated(YES_NO, "a sensor, a clock or a central control turns them on, with no wall switch needed", default="no")
    switch_neutral = Stated(YES_NO, "the neutral is in the switch box", first=True)
    gfci = Stated(YES_NO, "protected by a GFCI", first=True)
    outside_doors = Stated(COUNT, "outside doors that they light", example="1")
    type = Stated(
        choice("enclosed", "recessed", "fluorescent", "in-storage", "bare", "pendant"),
        "closet lights: what they are; enclosed: on the surface, lamp wholly enclosed; recessed: enclosed too, or fluorescent; "
        "fluorescent: on the surface; in-storage: marked for the space of shelves and rods",
    )
    distance_to_storage = Stated(Length, "closet: to the nearest shelf or rod", site=True, example="12 in")


class Load(Element, kind="load", topic="loads"):
    """An appliance or motor."""

    at: Stated[Place | Building] = Stated(reference("place", "building"), "where it stands", first=True, example="kitchen")
    type = Stated(
        choice(
            "range",
            "oven",
            "cooktop",
            "dryer",
            "water-heater",
            "dishwasher",
            "disposal",
            "microwave",
            "refrigerator",
            "washer",
            "furnace",
            "boiler",
            "air-handler",
            "heat-pump",
            "air-conditioner",
            "supplementary-heat",
            "space-heat",
            "baseboard-heat",
            "storage-heat",
            "well-pump",
            "sump-pump",
            "motor",
            "kiln",
            "welder",
            "car-charger",
            "hot-tub",
            "hood",
            "fan",
            "other",
        ),
        "what it is",
        first=True,
    )
    circuit: Stated[Circuit] = Stated(reference("circuit"), "what feeds it", first=True, example="range-circuit")
    rating = Stated(Power, "on its plate", first=True, example="9.6 kW")
    amps = Stated(Current, "on its plate, if it gives amperes", first=True, example="14 A")
    volts = Stated(Voltage, "on its plate", first=True, example="240 V")
    horsepower = Stated(
        or_none(Power.of(0, "hp")), "of a motor; none: its plate gives amperes only", none=True, first=True, example="1 hp"
    )
    continuous = Stated(YES_NO, "runs three hours or more on end", first=True)
    connection = Stated(choice("cord", "hard-wired"), "how it is joined to its circuit; cord: with a plug, in a receptacle")
    count = Stated(COUNT, "how many the same", default="1", example="2")
    units = Stated(COUNT, "heaters that are switched separately", example="5")
    nameplate_ampacity = Stated(Current, "minimum circuit ampacity on the plate (MCA)", example="22 A")
    nameplate_breaker = Stated(Current, "largest breaker or fuse on the plate (MOCP)", example="35 A")
    locked_rotor = Stated(
        Current, "starting current on the plate (LRA); with a soft starter or a drive, what that lets through", example="45 A"
    )
    code_letter = Stated(
        choice(*"ABCDEFGHJKLMNPRSTUV"), "motor: its letter for the starting current, if the plate has no amperes for it"
    )
    power_factor = Stated(Percent, "of the load at its full current", default="100 %", example="85 %")
    disconnect = Stated(
        choice("cord", "breaker", "lockable-breaker", "unit-switch", "switch", "lockable-switch"),
        "what shuts it off; lockable: with a fixed lock hasp",
    )
    disconnect_in_sight = Stated(YES_NO, "its disconnect is seen from it and not more than 50 ft off")
    sight_impracticable = Stated(
        YES_NO, "motor: a disconnect in its sight is impracticable or adds to the danger, as of a pump down in a well; ask"
    )
    disconnect_distance = Stated(
        Length, "hot tub: from the water to its disconnect, by the way an arm would take round a fixed barrier", example="8 ft"
    )
    overload: Stated[Current | str] = Stated(
        either(Current, choice("built-in", "none")),
        "setting of the motor's overload protection; built-in: its plate says thermally protected",
        example="10 A",
    )
    service_factor = Stated(NUMBER, "motor: on its plate (SF); 1 if there is none", example="1.15")
    temperature_rise = Stated(
        or_none(TemperatureDifference.of(0, "C")), "motor: on its plate; none: it gives no rise", none=True, example="40 C"
    )
    tankless = Stated(YES_NO, "water heater: it heats the water as it flows, and has no tank")
    set_to = Stated(
        or_none(Current.of(0, "A")),
        "car charger: what it is set down to behind a lock, a tool or a password, as its label says then",
        none=True,
        default="none",
        example="32 A",
    )
    gfci = Stated(YES_NO, "protected by a GFCI beside it or in it")
    gfci_built_in = Stated(YES_NO, "that GFCI is part of it or of its cord, and protects nothing ahead of that")
    variable_speed = Stated(YES_NO, "heat pump, air conditioner: a drive sets its compressor's speed (inverter, mini-split)")
    planned = Stated(YES_NO, "counted in the load now, put in later", default="no")
    existing = Stated(YES_NO, "heating, cooling: it was there before this work")
    counted = Stated(Power, "what your own load form counts for it", example="8 kW")
    part_of: Stated[Load | None] = Stated(
        reference("load"),
        "fan, pump, valve, humidifier, air cleaner: the heating or cooling unit that it belongs to; none: to none",
        none=True,
        example="furnace",
    )
    own_rod = Stated(YES_NO, "a ground rod of its own stands at it", default="no")
    service_receptacle = Stated(Length, "heating, cooling: to the nearest receptacle on its level", example="15 ft")
    casing = Stated(
        choice("steel", "plastic", "none"), "well pump: the casing that it hangs in; none: the pump stands outside the well"
    )
    casing_bonded = Stated(YES_NO, "well pump: steel casing tied to the circuit's ground")
    self_contained = Stated(YES_NO, "hot tub: listed as one unit for above the ground")
    rim_height = Stated(Length, "hot tub: above all floor within 30 in", example="32 in")
    surround_bonded = Stated(YES_NO, "hot tub: the floor round it, out to 3 ft, is bonded with it")
    receptacle_distance = Stated(Length, "hot tub: from the water to the nearest receptacle", example="8 ft")


class Box(Element, kind="box"):
    """An outlet, device, junction or pull box."""

    type = Stated(choice("outlet", "device", "junction", "pull", "handhole"), "what it is for", first=True)
    at: Stated[Place] = Stated(reference("place"), "the room or spot it is in", first=True, example="kitchen")
    volume = Stated(Volume, "marked in it", first=True, example="20.3 cu in")
    shape = Stated(choice("square", "round", "device", "utility"), "metal box without a marking")
    size = Stated(DIMENSIONS, "metal box without a marking: trade size", example="4 x 1-1/2 in")
    rings: Stated[tuple[Volume, ...]] = Stated(
        list_of(Volume),
        "what plaster rings, extension rings and domed covers on it are marked with",
        none=True,
        default="none",
        example="6 cu in",
    )
    conductors = Stated(
        list_of(CONDUCTORS),
        "that end or are spliced in it, or pass through unbroken: once each (no grounds, no pigtails)",
        none=True,
        first=True,
        example="9 x 12 AWG",
    )
    loops = Stated(
        list_of(CONDUCTORS),
        "that pass through unbroken with a loop of 12 in or more: they count twice (not among conductors)",
        none=True,
        default="none",
        example="2 x 12 AWG",
    )
    canopy_wires = Stated(
        list_of(CONDUCTORS),
        "that come in from a domed fixture or canopy on it (its ground is not counted)",
        none=True,
        default="none",
        example="2 x 18 AWG",
    )
    devices = Stated(
        list_of(CONDUCTORS),
        "devices, and the largest wire on each; one wider than 2 in once for each gang",
        none=True,
        first=True,
        example="1 x 12 AWG",
    )
    grounds = Stated(list_of(CONDUCTORS), "ground wires that come in", none=True, first=True, example="3 x 12 AWG")
    isolated_grounds = Stated(
        list_of(CONDUCTORS),
        "a second set of grounds, for isolated-ground receptacles (not among grounds)",
        none=True,
        default="none",
        example="1 x 12 AWG",
    )
    clamps = Stated(YES_NO, "cable clamps inside it", first=True)
    supports = Stated(COUNT, "fixture studs and hickeys: how many kinds of them", default="0", example="1")
    terminal_blocks = Stated(
        list_of(CONDUCTORS), "terminal blocks, and the largest wire on each", none=True, default="none", example="1 x 12 AWG"
    )
    material = Stated(choice("metal", "plastic"), "what it is made of")
    grounded = Stated(YES_NO, "metal box: grounded by screw or clip")
    accessible = Stated(YES_NO, "can be opened without breaking or digging", site=True)
    free_wire = Stated(Length, "of each wire beyond the sheath", site=True, example="6 in")
    reach = Stated(Length, "of each wire out of the opening, where that is less than 8 in wide", site=True, example="3 in")
    pull = Stated(
        choice("straight", "angle", "splice", "both"),
        "4 AWG and larger: how they go through; angle: they turn or go back; splice: they end or are spliced in it; "
        "both: some go straight, some turn",
    )
    raceways: Stated[tuple[Raceway, ...]] = Stated(
        list_of(reference("raceway")),
        "4 AWG and larger: pipes that enter one wall in one row; of several rows the one that needs most room",
        example="studio-conduit",
    )
    length = Stated(Length, "from that wall to the one opposite, inside", example="16 in")
    side_raceways: Stated[tuple[Raceway, ...]] = Stated(
        list_of(reference("raceway")),
        "pipes in one row in a wall beside it, if wires turn or are spliced; none: all pipes are in that wall or opposite",
        none=True,
        example="shed-conduit",
    )
    width = Stated(Length, "from the wall of the side-raceways to the one opposite, inside", example="12 in")
    straight_raceways: Stated[tuple[Raceway, ...]] = Stated(
        list_of(reference("raceway")), "pull both: those of the raceways whose wires go straight on", example="studio-conduit"
    )
    entry_spacing = Stated(Length, "if wires turn: between the two largest pipes of the same wires, inside", example="12 in")
