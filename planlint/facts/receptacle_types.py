"""What a receptacle itself must be: with shutters, made for the weather, under a cover that suits."""

from planlint.facts.buildings import in_open_air
from planlint.facts.engine import Job, fact
from planlint.facts.ground_fault_places import is_in_outbuilding
from planlint.facts.outlet_volts import is_within, receptacle_volts, stays_as_it_was
from planlint.facts.temporary import is_temporary
from planlint.plan.elements import not_stated
from planlint.plan.members import all_hold, any_holds
from planlint.plan.outlets import Receptacles
from planlint.quantities import Current, Length, Voltage

SEVERAL = 2


@fact
def wants_tamper_resistant(receptacles: Receptacles, job: Job) -> bool:
    """Whether it needs shutters: 15 and 20 A, within a child's reach, not in the space of an appliance that stays there.

    NFPA 70 406.12 and its exception. Receptacles of building work are no part of a dwelling (590).
    """
    rating: Current = job.setting("wants-tamper-resistant.most-rating")
    volts: Voltage = job.setting("wants-tamper-resistant.most-volts")
    height: Length = job.setting("wants-tamper-resistant.most-height")
    return all_hold(
        lambda: receptacles.rating <= rating,
        lambda: receptacle_volts(receptacles, job) <= volts,
        lambda: receptacles.height <= height,
        lambda: not _is_in_the_space_of_appliances(receptacles, job),
        lambda: _is_in_the_places(receptacles, job),
        lambda: not is_temporary(receptacles.circuit, job),
        lambda: not stays_as_it_was(receptacles),
    )


def _is_in_the_space_of_appliances(receptacles: Receptacles, job: Job) -> bool:
    """One appliance at a single receptacle, or two at a duplex."""
    fixed: tuple[str, ...] = job.setting("wants-tamper-resistant.appliances")
    return all_hold(
        lambda: set(receptacles.serves) <= set(fixed),
        lambda: len(set(receptacles.serves)) >= SEVERAL or receptacles.single,
    )


def _is_in_the_places(receptacles: Receptacles, job: Job) -> bool:
    place = receptacles.at
    return job.setting("wants-tamper-resistant.anywhere") or any_holds(
        lambda: in_open_air(place, job),
        lambda: place.use in job.setting("wants-tamper-resistant.rooms"),
        lambda: is_in_outbuilding(place, job),
    )


@fact
def wants_weather_resistant(receptacles: Receptacles, job: Job) -> bool:
    """Whether it must be marked WR where it is damp or wet: 15 and 20 A, up to 250 V. NFPA 70 406.9(A), (B)(1)."""
    rating: Current = job.setting("wants-weather-resistant.most-rating")
    volts: Voltage = job.setting("wants-weather-resistant.most-volts")
    return is_within(receptacles, rating, volts, job)


@fact
def cover_suits(receptacles: Receptacles, job: Job) -> bool:
    """Whether its cover suits the place: where it is wet proof with a plug in it, where it is damp at least without one.

    NFPA 70 406.9(A), (B). One of more than 20 A in a wet place wants the larger cover only if what is plugged in runs unattended,
    as a car charger does.
    """
    cover, place = receptacles.cover, receptacles.at
    if cover == "in-use":
        return True
    if cover == "none":
        return not in_open_air(place, job) and place.moisture == "dry"
    if place.moisture != "wet":
        if place.moisture == "dry" and in_open_air(place, job):
            not_stated(place, "moisture", f"{place.name}: moisture, damp or wet, because it is outdoors")
        return True
    if not wants_weather_resistant(receptacles, job) and "car" not in receptacles.serves:
        not_stated(receptacles, "cover", f"{receptacles.name}: whether what is plugged in there runs unattended")
    return False


@fact
def suits_weather(receptacles: Receptacles, job: Job) -> bool:
    """Whether it may be where it is damp or wet, outdoors or in a room: its cover, and its mark WR if it is a small one.

    NFPA 70 406.9(A), (B).
    """
    place = receptacles.at
    if not in_open_air(place, job) and place.moisture == "dry":
        return True
    return any_holds(
        lambda: all_hold(
            lambda: cover_suits(receptacles, job),
            lambda: not all_hold(lambda: not receptacles.weather_resistant, lambda: wants_weather_resistant(receptacles, job)),
        ),
        lambda: stays_as_it_was(receptacles),
    )


@fact
def weather_fault(receptacles: Receptacles, job: Job) -> str:
    """What is wrong with it for its place outdoors, in words. NFPA 70 406.9(A), (B)."""
    faults = []
    if receptacles.states("cover") and receptacles.cover != "in-use":
        wet = receptacles.at.states("moisture") and receptacles.at.moisture == "wet"
        have = "no weatherproof cover" if receptacles.cover == "none" else "a cover that is weatherproof only without a plug"
        if wet or receptacles.cover == "none":
            faults.append(f"it has {have}")
    if receptacles.states("weather-resistant") and not receptacles.weather_resistant:
        faults.append("it isn't marked WR")
    return " and ".join(faults) or "nothing"
