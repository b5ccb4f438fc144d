"""Faults of the cottage that no rule catches, whatever the value, each with the reason why none should.

Keys are the name of a statement, or its kind, then the attribute; without an attribute the statement is left out. A kind stands
where no statement of it is caught, or where it wouldn't matter if none were; names where others of their kind must be caught.
"""

from itertools import chain

_GROUPS: dict[str, str] = {
    "says more than the plan needs to say: what it allows the cottage doesn't use": """
        panel series-rated; disconnect series-rated; feeder full-rating; circuit full-rating; lights automatic; trench encased
        trench rock; trench concrete-over; supply connection""",
    "old work may stay as it is": "building construction; circuit existing; feeder existing",
    "what hangs free by right needs no straps or staples": """
        service unfastened; feeder unfastened; circuit unfastened; raceway unfastened""",
    "a circuit for the building work has rules of its own, which it meets": "circuit temporary",
    "a rod beside the ground wire is lawful; only instead of it it is a fault": "load own-rod",
    "a load that is only planned takes no power yet": "load planned",
    "the utility's wires follow its own rules": "meter-to-disconnect owner",
    "the book that the plan is held against is given beside it here": "plan profile",
    "for the worksheet; no limit stands in the code": "building soil-resistivity; electrode depth",
    "read for circuits that share a neutral, and the cottage has none": "circuit space; feeder space",
    "the most poles on the label are the limit, for some breakers share a space": "panel spaces",
    "asked only of gear behind the old feed of three wires (225.36)": "studio-panel service-rated",
    "asked only where a line, a charger or a bar is said to be": """
        house communications; house car-charger; house footing-steel""",
    "its receptacles have a GFCI wherever the floor is": "building floor-level",
    "an outbuilding's load goes by its circuits and no door of it is asked to be lit": """
        studio floor-area; studio outside-doors; studio-room floor-area; studio-lights outside-doors""",
    "a deck that stands apart is asked for less": "place house-distance",
    "it has what the longest hall, a finished or a used crawl space wants": "place length; place finished; place holds-equipment",
    "what is there is made for wet places": """
        back-deck moisture; front-porch moisture; crawl-space moisture; yard moisture""",
    "a ground ahead of the service disconnect is a bond, which is a statement of its own": "service ground",
    "with the edition of 2020 only wires up to 10 AWG suffer by insulation (338.10(B)(4)); that of 2017 is another matter": """
        feeder touches-insulation""",
    "a pull of pipe is judged by its bends and its fill; its length counts where it is pulled hard or moves with the sun": """
        raceway length; raceway temperature-swing""",
    "pipe that can be hit anywhere does for where it can't": "raceway subject-to-damage",
    "begins in the pipe below it, which lies at depth": """
        house-riser begins-below; studio-riser begins-below; meter-riser begins-below""",
    "what lies in a pipe, a ditch or a hole is what names it; named by nothing it is none of the cottage's": """
        heat-pump-pipe; studio-pipe-in; charger-pipe; well-trench
        holes; circuit holes; feeder holes; studio-riser ends-in""",
    "pipes of two runs drawn as one pull: both together bend no more than a pull may": """
        heat-pump-whip continues; charger-pipe continues""",
    "any metal or plastic pipe does there, dry and inside": "studio-pipe-in type",
    "an empty pipe is asked nothing of its ends": "charger-pipe sealed",
    "ribbon is asked above the service's wires only (300.5(D)(3))": """
        studio-trench warning-ribbon; well-trench warning-ribbon; studio-trench ribbon-above; well-trench ribbon-above""",
    "deeper than any place in the county asks": "service-trench under",
    "holes in the framing without foam, and no more of the wood than any may lose": "holes sealed; holes together; holes bearing",
    "a house without it is lawful": "piping; box; counter; load; laundry-lights; crawl-lights; studio-lights",
    "plastic water pipe and bonded gas pipe of any metal, for whatever appliance": """
        cold-water type; cold-water building; propane material; propane through-appliance""",
    "what a circuit is for counts in a dwelling's load; the studio's goes by what is on it": """
        studio-bench use; kiln-circuit use; studio-lights-circuit use""",
    "protection beyond what is asked": """
        air-handler-circuit protection; kiln-circuit protection; studio-lights-circuit protection; range-circuit protection""",
    "the drop goes by what the circuit's appliances and receptacles may take, if that is more": """
        kitchen-a design-load; studio-bench design-load""",
    "another statement says where the receptacles are, and is taken at its word": """
        bedroom-receptacles; refrigerator-receptacle; mechanical-receptacle; living-receptacles
        living-receptacles count; porch-receptacle count; range-receptacle count; dryer-receptacle count
        bedroom-receptacles count; deck-receptacle count; counter-north count; island-receptacles count""",
    "for 240 V on one pole: it gets too little; and who says no volts there means 120 V": "receptacles volts",
    "one receptacle or two on the strap of an appliance's own": "receptacles single",
    "one single receptacle behind an appliance needs no shutters (406.12)": """
        dishwasher-receptacle tamper-resistant; refrigerator-receptacle tamper-resistant
        """,
    "has a GFCI, or stands so far off that no distance matters": """
        refrigerator-receptacle distance-to-sink; bench-receptacles distance-to-sink; dishwasher-receptacle distance-to-sink
        refrigerator-receptacle distance-to-tub; bench-receptacles distance-to-tub""",
    "no height is asked of a receptacle for appliances or a counter; others are told by the walls": """
        living-receptacles height; dryer-receptacle height; washer-receptacle height; mechanical-receptacle height
        dishwasher-receptacle height; bedroom-receptacles height; counter-north height
        island-receptacles height; range-receptacle height; refrigerator-receptacle height""",
    "no neutral is asked for there (404.2(C))": """
        laundry-lights switch-neutral; utility-lights switch-neutral; studio-lights switch-neutral""",
    "lights of a dwelling are in its general load, whatever they are": "lights count; lights rating",
    "no light is asked for there (210.70)": """
        laundry-lights at; laundry-lights switched-from; crawl-lights switched-from; studio-lights switched-from""",
    "the box is large enough in any place, of any sort": "box type; box at; box rings; box clamps",
    "the edition of 2020 doesn't ask": "counter no-place-above; counter future-provision",
    "a counter elsewhere than in a kitchen is asked nothing": "counter at; island type",
    "stands anywhere": "dishwasher at; dryer at; car-charger at; heat-pump at",
    "the charger is planned only": "car-charger volts",
    "any disconnect does, in sight or with a cord": """
        well-pump disconnect; kiln disconnect; dryer disconnect; dishwasher disconnect; range disconnect; heat-pump disconnect""",
    "its wires do for long running too": "load continuous",
    "served by the receptacle of the appliance beside it": "heat-strips service-receptacle",
    "without a metal casing none is bonded": "load casing",
}

LAWFUL: dict[str, str] = dict(
    chain.from_iterable(
        ((key, reason) for line in keys.splitlines() for key in map(str.strip, line.split(";")) if key)
        for reason, keys in _GROUPS.items()
    )
)
