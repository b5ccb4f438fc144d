"""Electrodes, the conductors to them, bonding jumpers, and the piping that is bonded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.plan.elements import Element, Stated
from planlint.plan.types import CONDUCTORS, COUNT, SOME, YES_NO, choice, list_of, reference
from planlint.quantities import Area, Length, Resistance

if TYPE_CHECKING:
    from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
    from planlint.plan.routes import Raceway
    from planlint.plan.runs import Circuit
    from planlint.plan.site import Building, Place


class Electrode(Element, kind="electrode", topic="grounding"):
    """What meets the earth."""

    type = Stated(
        choice("concrete-encased", "rod", "pipe", "ring", "plate", "water-pipe", "metal-in-ground"), "what it is", first=True
    )
    building: Stated[Building] = Stated(reference("building"), "the building it serves", first=True, example="house")
    length = Stated(Length, "of bar, wire or rod that is in concrete or soil", first=True, example="24 ft")
    bar = Stated(Length, "concrete-encased: thickness of the bar", first=True, example="1/2 in")
    wire = Stated(CONDUCTORS, "concrete-encased or ring: if it is wire", example="4 AWG copper bare")
    encasement = Stated(Length, "concrete-encased: concrete all round it", first=True, example="2 in")
    stub_ups = Stated(COUNT, "concrete-encased: ends that come out where one can clamp to them", first=True, example="2")
    stub_at: Stated[Place] = Stated(reference("place"), "where they come out", first=True, example="crawl-space")
    coated = Stated(YES_NO, "bar: with epoxy or another coat that insulates")
    soil_contact = Stated(YES_NO, "nothing (foam, film) between this concrete and the soil", site=True)
    stub_protected = Stated(YES_NO, "bar that comes out: galvanized or coated against rust", site=True)
    diameter = Stated(Length, "rod or pipe", example="5/8 in")
    listed = Stated(YES_NO, "rod thinner than 5/8 in: listed")
    material = Stated(choice("copper", "copper-clad", "galvanized", "stainless", "aluminum", "steel"), "what it is made of")
    count = Stated(SOME, "rods or plates of this sort", first=True, default="1", example="2")
    spacing = Stated(Length, "between rods or plates, and to the next other rod or plate", first=True, example="8 ft")
    depth = Stated(Length, "ring, plate or rod laid flat; footing: how deep its bar lies", example="30 in")
    area = Stated(Area, "plate: both faces", example="2 sq ft")
    resistance = Stated(Resistance, "as measured", example="25 ohm")
    pipe: Stated[Piping] = Stated(reference("piping"), "water-pipe: which", example="well-line")
    connection_distance = Stated(Length, "water-pipe: from where it comes in to the clamp", example="4 ft")


class ElectrodeConductor(Element, kind="electrode-conductor", topic="grounding"):
    """Wire from equipment to an electrode, or from one electrode to the next."""

    from_: Stated[Disconnect | Panel | TransferSwitch | Meter | Electrode] = Stated(
        reference("disconnect", "panel", "transfer-switch", "meter", "electrode"),
        "the gear or electrode where it starts (GEC)",
        first=True,
        example="house-disconnect",
    )
    to: Stated[Electrode] = Stated(reference("electrode"), "the electrode where it ends", first=True, example="footing-bar")
    size = Stated(CONDUCTORS, "the wire (GEC)", first=True, example="4 AWG copper")
    length = Stated(Length, "of the wire, for the material list", example="30 ft")
    lands_on = Stated(choice("neutral-bar", "ground-bar"), "in the equipment it comes from", first=True)
    splices = Stated(choice("none", "irreversible", "welded", "busbar", "clamp"), "how it is joined on its way", first=True)
    clamp = Stated(list_of(choice("rebar", "rod", "pipe", "direct-burial", "welded")), "what the clamp is listed for", first=True)
    protected = Stated(YES_NO, "in pipe or armor", first=True)
    raceway: Stated[Raceway | None] = Stated(
        reference("raceway"), "the pipe it is in; none: in no pipe, be it bare or in armor", none=True, example="bond-sleeve"
    )
    armor_bonded = Stated(YES_NO, "in armor, not in pipe: the armor is bonded to the wire at both ends")
    subject_to_damage = Stated(YES_NO, "it can be hit")
    same_point = Stated(YES_NO, "between two electrodes: it is clamped where the wire from the equipment lands")
    soil_distance = Stated(
        Length, "aluminum: from its ends to the soil; an end inside a case made for outdoors doesn't count", example="18 in"
    )


class Bond(Element, kind="bond", topic="grounding"):
    """A bonding jumper."""

    type = Stated(
        choice("main", "supply-side", "system", "water-pipe", "gas-pipe", "steel", "intersystem"), "what it joins", first=True
    )
    from_: Stated[Disconnect | Panel | TransferSwitch | Meter | Supply | Electrode] = Stated(
        reference("disconnect", "panel", "transfer-switch", "meter", "supply", "electrode"),
        "one end",
        first=True,
        example="house-disconnect",
    )
    to: Stated[Disconnect | Panel | TransferSwitch | Meter | Raceway | Piping | Building | Electrode] = Stated(
        reference("disconnect", "panel", "transfer-switch", "meter", "raceway", "piping", "building", "electrode"),
        "the other end",
        first=True,
        example="gas-line",
    )
    size = Stated(CONDUCTORS, "the wire", first=True, example="6 AWG copper")
    listed_screw = Stated(YES_NO, "main: the screw or strap that came with the gear", first=True)
    length = Stated(
        Length,
        "of the wire, for the material list; gas-pipe: from the clamp on the pipe to the electrodes or the service",
        example="20 ft",
    )
    terminals = Stated(COUNT, "intersystem: places for communications wires", first=True, example="3")


class Piping(Element, kind="piping", topic="piping"):
    """Metal or plastic pipe of another trade."""

    type = Stated(choice("water", "gas"), "what it carries", first=True)
    building: Stated[Building] = Stated(reference("building"), "the building it is in", first=True, example="house")
    material = Stated(choice("copper", "steel", "csst", "plastic"), "csst: corrugated stainless tubing", first=True)
    buried_length = Stated(Length, "water: metal pipe in the soil outside", first=True, example="40 ft")
    meter_jumper = Stated(YES_NO, "water: jumpers bridge meter and filter, or there are none on the way to the clamp")
    through_appliance = Stated(YES_NO, "gas: tied through the ground of an appliance's circuit")
    circuit: Stated[Circuit | None] = Stated(
        reference("circuit"),
        "gas: the largest circuit of the appliances on it, which may make it live; none: no appliance on it has one",
        none=True,
        example="furnace-circuit",
    )
