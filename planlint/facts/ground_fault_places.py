"""Where a receptacle wants a GFCI: rooms, the open air, the reach of a sink or a tub; and what an edition exempts."""

from collections.abc import Callable

from planlint.facts.buildings import building_at, in_open_air, is_dwelling
from planlint.facts.engine import Job, fact
from planlint.facts.outlet_volts import is_low_to_ground, receptacle_volts, stays_as_it_was
from planlint.plan.elements import NotStated, does_not_arise, not_stated
from planlint.plan.members import all_hold, any_holds
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.plan.runs import Circuit
from planlint.plan.site import Place
from planlint.plan.spaces import Counter
from planlint.quantities import Current, Length, Voltage

Reason = tuple[Callable[[], bool], Callable[[], str]]


def receptacle_needs_gfci(receptacles: Receptacles, job: Job) -> bool:
    """Whether its place, voltage and rating call for a GFCI. NFPA 70 210.8(A), (E)."""
    volts: Voltage = job.setting("gfci-needed.most-volts")
    rating: Current = job.setting("gfci-needed.most-rating")
    to_ground: Voltage = job.setting("gfci-needed.most-to-ground")
    needed = all_hold(
        lambda: any_holds(*(holds for holds, _ in _reasons(receptacles, job))),
        lambda: rating.amount == 0 or receptacles.rating <= rating,
        lambda: receptacle_volts(receptacles, job) <= volts,
        lambda: is_low_to_ground(receptacle_volts(receptacles, job), receptacles.circuit, to_ground, job),
        lambda: not _is_exempt(receptacles, job),
        lambda: not stays_as_it_was(receptacles),
    )
    if needed:
        job.step(f"{receptacle_volts(receptacles, job)}, and {gfci_reason(receptacles, job)}", "GFCI", "NFPA 70 210.8(A), (E)")
    return needed


@fact
def gfci_reason(receptacles: Receptacles, job: Job) -> str:
    """Why its place calls for a GFCI, in words: the first reason that holds. NFPA 70 210.8(A), (E)."""
    for holds, words in _reasons(receptacles, job):
        try:
            if holds():
                return words()
        except NotStated:
            continue
    does_not_arise(receptacles, f"{receptacles.name}: a place that calls for a GFCI")


def _reasons(receptacles: Receptacles, job: Job) -> tuple[Reason, ...]:
    place = receptacles.at
    sink, tub = job.setting("gfci-needed.sink-distance"), job.setting("gfci-needed.tub-distance")
    return (
        (lambda: in_open_air(place, job), lambda: "it is outdoors"),
        (lambda: place.use in job.setting("gfci-needed.rooms"), lambda: f"the use of its room is {place.use}"),
        (lambda: _is_unfinished(place, job), lambda: f"its room is not finished and of use {place.use}"),
        (lambda: _is_for_work_in_an_outbuilding(place, job), lambda: f"{place.name} is for work or storage, in an outbuilding"),
        (lambda: bool(_serves(receptacles, job)), lambda: f"it is there for {_serves(receptacles, job)}"),
        (lambda: _feeds_a_dishwasher(receptacles, job), lambda: "it is there for a dishwasher"),
        (lambda: _is_at_a_counter(receptacles, job), lambda: f"it serves a counter of the {place.use}"),
        (lambda: _is_near(receptacles, "sink", sink, job), lambda: f"a sink is within {sink}"),
        (lambda: _is_near(receptacles, "tub", tub, job), lambda: f"a tub or shower is within {tub}"),
        (lambda: _is_damp(place, job), lambda: f"{place.name} is {place.moisture}"),
        (lambda: _has_a_bar(place, job), lambda: f"{place.name} has a counter with a sink"),
    )


def _is_unfinished(place: Place, job: Job) -> bool:
    return place.use in job.setting("gfci-needed.unfinished-rooms") and not place.finished


def _is_for_work_in_an_outbuilding(place: Place, job: Job) -> bool:
    """Accessory buildings with a floor at or below grade, where it is for storage or work. NFPA 70 210.8(A)(2)."""
    return all_hold(
        lambda: place.use in job.setting("gfci-needed.outbuilding-rooms"),
        lambda: is_in_outbuilding(place, job),
        lambda: _stands_on_the_ground(place),
    )


def is_in_outbuilding(place: Place, job: Job) -> bool:
    """Whether it is in a building where nobody lives."""
    home = building_at(place)
    return home is not None and not is_dwelling(home, job)


def _stands_on_the_ground(place: Place) -> bool:
    home = building_at(place)
    return home is not None and home.floor_level == "at-or-below-grade"


def _serves(receptacles: Receptacles, job: Job) -> str:
    """What it serves of that which wants a GFCI whatever the room, in words. NFPA 70 210.8(A)(10), (E)."""
    return " and ".join(word for word in job.setting("gfci-needed.serving") if word in receptacles.serves)


def _feeds_a_dishwasher(receptacles: Receptacles, job: Job) -> bool:
    """A dishwasher's receptacle; in the edition of 2020 not where a GFCI is built into the dishwasher or its cord instead.

    NFPA 70 210.8(D), 422.5(B).
    """
    if "dishwasher" not in receptacles.serves:
        return False
    dishwashers = job.graph.those(Load, "circuit", receptacles.circuit).where(lambda load: load.type == "dishwasher")
    return not job.setting("gfci-needed.built-in-is-enough") or not dishwashers.some(lambda load: load.gfci)


def _is_at_a_counter(receptacles: Receptacles, job: Job) -> bool:
    return all_hold(
        lambda: receptacles.at.use in job.setting("gfci-needed.counters-in"),
        lambda: "counter" in receptacles.serves,
    )


def _is_near(receptacles: Receptacles, what: str, limit: Length, job: Job) -> bool:
    """Within the limit of it, as a cord would go; in editions where doors end the way, no door between. NFPA 70 210.8."""
    doors = job.setting("gfci-needed.doors-end-the-way")
    if not limit.amount or (doors and receptacles.states("behind-door") and receptacles.behind_door):
        return False
    return is_within_of(receptacles, what, limit) and not (doors and receptacles.behind_door)


def is_within_of(receptacles: Receptacles, what: str, limit: Length) -> bool:
    """Whether a sink or tub is no farther from it than the limit, which is no more than the length of a cord.

    Its own distance tells; where it states none, its room is asked once for all in it whether one is in reach, but for a kitchen,
    which has a sink by what it is. NFPA 70 210.8, article 100 (kitchen).
    """
    attribute, place = f"distance-to-{what}", receptacles.at
    if not receptacles.states(attribute):
        has_one = what == "sink" and not place.states("sink") and place.states("use") and place.use == "kitchen"
        return bool((has_one or place.value(what)) and receptacles.value(attribute) <= limit)
    near: bool = receptacles.value(attribute) <= limit
    if near and place.states(what) and not place.value(what):
        far = f"{receptacles.value(attribute)} from one, and {place.name} says {what} no"
        not_stated(receptacles, attribute, f"{receptacles.name}: {attribute}, because it is {far}")
    return near


def _is_damp(place: Place, job: Job) -> bool:
    words: tuple[str, ...] = job.setting("gfci-needed.moisture")
    return bool(words) and place.moisture in words


def _has_a_bar(place: Place, job: Job) -> bool:
    """A sink with a fixed place to prepare food or drinks, other than a kitchen. NFPA 70 210.8(A)(7), from 2023 on."""
    if not job.setting("gfci-needed.bars"):
        return False
    counters = job.graph.those(Counter, "at", place)
    if not place.states("sink") or place.sink:
        return counters.some(lambda counter: counter.sink)
    for counter in counters:
        if counter.states("sink") and counter.sink:
            not_stated(place, "sink", f"{place.name}: sink, because {counter.name} in it has one")
    return False


def _is_exempt(receptacles: Receptacles, job: Job) -> bool:
    """A receptacle for an alarm system only, for snow melting out of reach, or for what a locality spares.

    NFPA 70 210.8(A) exceptions.
    """
    return any_holds(
        lambda: _is_spared_alarm(receptacles, job),
        lambda: _melts_snow_out_of_reach(receptacles, job),
        lambda: all_hold(
            lambda: bool(job.setting("gfci-needed.single-spared")),
            lambda: set(receptacles.serves) <= set(job.setting("gfci-needed.single-spared")),
            lambda: receptacles.single,
        ),
    )


def _is_spared_alarm(receptacles: Receptacles, job: Job) -> bool:
    return all_hold(
        lambda: job.setting("gfci-needed.alarm-anywhere") or receptacles.at.use in job.setting("gfci-needed.alarm-rooms"),
        lambda: set(receptacles.serves) == {"security"},
    )


def _melts_snow_out_of_reach(receptacles: Receptacles, job: Job) -> bool:
    """Outdoors, on a circuit for nothing else. What it serves comes first, so that no other receptacle is asked the rest."""
    place = receptacles.at
    indoors = place.states("use") and place.use in job.setting("gfci-needed.rooms")
    if indoors or set(receptacles.serves) != {"snow-melting"}:
        return False
    return all_hold(
        lambda: in_open_air(place, job),
        lambda: not receptacles.readily_accessible,
        lambda: _melts_snow_only(receptacles.circuit, job),
    )


def _melts_snow_only(circuit: Circuit, job: Job) -> bool:
    return all_hold(
        lambda: job.graph.those(Receptacles, "circuit", circuit).every(lambda one: set(one.serves) == {"snow-melting"}),
        lambda: not job.graph.those(Lights, "circuit", circuit).some(lambda one: True),
        lambda: job.graph.those(Load, "circuit", circuit).every(lambda one: one.type == "other"),
    )
