"""Lines along which receptacles are spaced: stretches of wall, and counters."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.plan.elements import Element, Stated
from planlint.plan.types import YES_NO, choice, list_of, reference
from planlint.quantities import Length

if TYPE_CHECKING:
    from planlint.plan.site import Place


class WallSpace(Element, kind="wall-space", topic="rooms"):
    """One unbroken stretch of wall line, round corners, between doors, fireplaces and fixed cabinets."""

    at: Stated[Place] = Stated(reference("place"), "the room", first=True, example="living")
    length = Stated(Length, "along the floor", first=True, example="14 ft")
    receptacles_at: Stated[tuple[Length, ...]] = Stated(
        list_of(Length),
        "where they are, from its left end (none above 5 ft 6 in, behind an appliance, or there for a counter)",
        none=True,
        first=True,
        example="4 ft, 10 ft",
    )
    receptacle_within = Stated(
        Length, "instead of receptacles-at: no point of it is farther than this from one of its receptacles", example="5 ft 6 in"
    )


class Counter(Element, kind="counter", topic="rooms"):
    """One unbroken kitchen or bar counter: a sink or range with little room behind it ends one and begins another."""

    at: Stated[Place] = Stated(reference("place"), "the room", first=True, example="kitchen")
    type = Stated(choice("wall", "island", "peninsula"), "along a wall, or free on three sides or four", first=True)
    length = Stated(Length, "along the wall; island: the long way; peninsula: out from the wall", first=True, example="9 ft")
    depth = Stated(Length, "island or peninsula: the other way", example="2 ft")
    receptacles_at: Stated[tuple[Length, ...]] = Stated(
        list_of(Length),
        "where they are, from its left end; peninsula: from the wall (none behind an appliance in its place)",
        none=True,
        first=True,
        example="1 ft, 4 ft 6 in",
    )
    receptacle_within = Stated(
        Length, "instead of receptacles-at: no point of its wall line is farther than this from one", example="22 in"
    )
    sink = Stated(YES_NO, "bar counter: a sink belongs to it")
    receptacle_height = Stated(Length, "above the top; 0 in: in or on the top", example="12 in")
    below_top = Stated(Length, "if they are below the top, how far", example="8 in")
    overhang = Stated(Length, "of the top, above receptacles below it", example="4 in")
    no_place_above = Stated(
        YES_NO,
        "edition 2017, receptacles below the top: it is an island or peninsula that is flat all over with nothing above to mount "
        "them on, or the kitchen is built for the physically impaired",
    )
    future_provision = Stated(YES_NO, "a way is left to add a receptacle")
