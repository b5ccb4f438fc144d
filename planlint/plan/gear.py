"""Where power comes from and the equipment it passes: supplies, meters, disconnects, panels, transfer switches."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.plan.elements import Element, Stated
from planlint.plan.types import COUNT, VOLTAGE_SYSTEM, YES_NO, choice, either, list_of, reference
from planlint.quantities import Current, Length, Percent, Power

if TYPE_CHECKING:
    from planlint.plan.outlets import Load
    from planlint.plan.site import Building, Place


class WorkingSpace(Element):
    """The free space before equipment that is worked on while it may be live."""

    clear_depth = Stated(Length, "free space in front", example="36 in")
    clear_width = Stated(Length, "free space from side to side", example="30 in")
    clear_height = Stated(Length, "free height in front", example="6 ft 6 in")


class Gear(Element):
    """What disconnects, panels and transfer switches have in common."""

    interrupting = Stated(Current, "the fault current that its breakers can break (AIC, SCCR)", first=True, example="22 kA")
    neutral = Stated(choice("bonded", "isolated"), "is the neutral bar tied to the case", first=True)
    series_rated = Stated(YES_NO, "the label allows it with the breaker ahead", default="no")
    series_rating = Stated(
        Current, "series rated: the fault current for which its label names it and the breaker ahead together", example="22 kA"
    )
    service_rated = Stated(YES_NO, "marked suitable for use as service equipment")
    line_barrier = Stated(YES_NO, "live service terminals are covered")
    marking = Stated(
        list_of(
            choice(
                "emergency-disconnect",
                "service-disconnect",
                "meter-disconnect",
                "not-service-equipment",
                "building-disconnect",
                "fed-from",
            )
        ),
        "the words on its label",
        first=True,
    )
    handle_height = Stated(Length, "floor to the middle of the topmost handle", example="5 ft 6 in")
    readily_accessible = Stated(YES_NO, "reached quickly, nothing to climb over, move or unlock")
    over_stairs = Stated(YES_NO, "it hangs over stair steps")
    mounted_on: Stated[Building | None] = Stated(
        reference("building"), "the wall it is on; none: a post of its own", none=True, first=True, example="house"
    )
    within_sight_of: Stated[tuple[Building | Load, ...]] = Stated(
        list_of(reference("building", "load")),
        "seen from there and not more than 50 ft off; none: from no building and no load",
        none=True,
        example="house",
    )
    label = Stated(choice("plain", "white-on-red"), "colors of the emergency label")


class Supply(Element, kind="supply", topic="service"):
    """Where power comes from."""

    type = Stated(choice("utility", "generator", "solar", "battery"), "what it is", first=True)
    volts = Stated(VOLTAGE_SYSTEM, "to neutral and between hots", first=True, example="120/240 V, 120/208 V, 240 V, 24 V")
    fault_current = Stated(Current, "what the utility says it can deliver at its own terminals", first=True, example="10 kA")
    transformer = Stated(Power, "the transformer's size, if the fault current isn't known", first=True, example="25 kVA")
    transformer_impedance = Stated(Percent, "from the transformer's plate", first=True, example="1.8 %")
    phase = Stated(choice("single-phase", "three-phase"), "one phase or three", default="single-phase")
    rating: Stated[Current | Power] = Stated(
        either(Current, Power), "generator, solar, battery: the most it gives", first=True, example="32 A, 7.6 kW"
    )
    at: Stated[Place] = Stated(reference("place"), "where it stands", first=True, example="yard")
    connection = Stated(choice("hard-wired", "inlet", "cords-only"), "generator: how it is joined to the house", first=True)
    neutral = Stated(choice("bonded", "floating"), "generator: is its neutral tied to its frame")
    building: Stated[Building | None] = Stated(
        reference("building"),
        "solar: the building that carries the panels, or that their direct current enters; none: they stand by themselves, and "
        "only alternating current enters a building",
        none=True,
        example="house",
    )
    rapid_shutdown = Stated(YES_NO, "solar: fire crews can shut it down")
    shutdown_at: Stated[Place] = Stated(
        reference("place"), "where its emergency stop is; solar: what starts the rapid shutdown", example="yard"
    )


class Meter(WorkingSpace, kind="meter", topic="service"):
    """The meter socket or pedestal."""

    at: Stated[Place] = Stated(reference("place"), "where it stands", first=True, example="yard")
    mounted_on: Stated[Building | None] = Stated(
        reference("building"), "the wall it is on; none: a post of its own", none=True, first=True, example="house"
    )
    rating = Stated(Current, "of the socket", first=True, example="200 A")
    height = Stated(Length, "ground to the middle of the meter", first=True, example="5 ft")
    gas_distance = Stated(Length, "to the gas meter or regulator", first=True, example="3 ft")
    bonding = Stated(choice("neutral-lug", "jumper", "none"), "how the metal can is tied to the neutral")


class Disconnect(Gear, WorkingSpace, kind="disconnect", topic="service"):
    """A switch or breaker, in its own case, that opens a service or feeder."""

    at: Stated[Place] = Stated(reference("place"), "where it is", first=True, example="yard")
    breaker = Stated(Current, "its breaker (OCPD)", first=True, example="200 A")
    fuses = Stated(Current, "its fuses", example="60 A")
    enclosure = Stated(choice("indoor", "weatherproof"), "what its case is made for")
    switch_rating = Stated(Current, "of a switch without overcurrent protection", example="100 A")
    shares_enclosure_with: Stated[Disconnect | Panel | None] = Stated(
        reference("disconnect", "panel"), "another main in the same box; none: a box of its own", none=True, example="main-1"
    )
    source_plaque = Stated(YES_NO, "a plaque lists every other source and where to shut it off")
    surge_protection = Stated(choice("type-1", "type-2", "none"), "a surge device in or beside it")
    surge_rating = Stated(Current, "nominal discharge current on the surge device's label", example="20 kA")


class Panel(Gear, WorkingSpace, kind="panel", topic="feeders"):
    """A panelboard."""

    at: Stated[Place] = Stated(reference("place"), "the room it is in", first=True, example="mechanical-room")
    bus = Stated(Current, "the bus rating on its label", first=True, example="200 A")
    main: Stated[Current | str] = Stated(either(Current, choice("lugs")), "its main breaker, or lugs only", first=True)
    spaces = Stated(COUNT, "breaker spaces", first=True, example="40")
    circuits_most = Stated(COUNT, "the most poles the label allows", example="40")
    ground_bar = Stated(
        choice("separate", "shared", "none"), "where the grounds land: on a bar of their own or with the neutrals", first=True
    )
    width = Stated(Length, "of the case", example="14-1/2 in")
    enclosure = Stated(choice("indoor", "weatherproof"), "what its case is made for")
    lit = Stated(YES_NO, "the space in front has a light that isn't only automatic")
    main_held_down = Stated(YES_NO, "its main is bolted in, or a plug-on one held by a fastener of its own", site=True)
    dedicated_space_clear = Stated(YES_NO, "no pipe or duct above, up to 6 ft or the ceiling")
    surge_protection = Stated(choice("type-1", "type-2", "none"), "a surge device in or beside it")
    surge_rating = Stated(Current, "nominal discharge current on its label", example="20 kA")
    source_plaque = Stated(YES_NO, "a plaque lists every other source and where to shut it off")
    directory = Stated(YES_NO, "every circuit is described on the door", site=True)
    breakers_listed = Stated(YES_NO, "every breaker is one the label allows", site=True)
    torqued = Stated(YES_NO, "every screw tightened to the marked torque, with a tool that shows it", site=True)
    neutral_terminals = Stated(COUNT, "screws and lugs on the neutral bar, beside that of its own feed", site=True, example="30")
    neutrals_alone = Stated(YES_NO, "no screw of the neutral bar holds a neutral together with another wire", site=True)
    plug_on_neutral = Stated(
        YES_NO, "its AFCI and GFCI breakers clip onto the neutral bar, so that their neutrals need no screws", site=True
    )
    temporary = Stated(YES_NO, "a temporary pole or panel for the building work", default="no")
    braced = Stated(YES_NO, "temporary pole: braced against the pull of the line", site=True)
    removed = Stated(YES_NO, "temporary: taken down again", site=True)


class TransferSwitch(Gear, WorkingSpace, kind="transfer-switch", topic="feeders"):
    """Chooses between two sources."""

    at: Stated[Place] = Stated(reference("place"), "where it is", first=True, example="mechanical-room")
    type = Stated(
        choice("manual", "automatic", "interlock"), "an interlock is a slide plate between two breakers of a panel", first=True
    )
    panel: Stated[Panel] = Stated(reference("panel"), "interlock: the panel it is in", first=True, example="house-panel")
    rating = Stated(Current, "the most it carries", example="200 A")
    switches_neutral = Stated(YES_NO, "it opens the neutral too; a slide plate never does", first=True)
    sheds_load = Stated(YES_NO, "automatic: it drops loads that the source can't carry")
    source_plaque = Stated(YES_NO, "a plaque lists every other source and where to shut it off")


AnyGear = Meter | Disconnect | Panel | TransferSwitch
