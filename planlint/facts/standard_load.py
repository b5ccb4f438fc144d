"""The standard method: a dwelling's load, or that of a part of one, by the demand factors of Part III."""

from collections.abc import Sequence

from planlint.facts.demand import COOKING, cooking_demand, dryer_demand, plain_demand, plain_demands, plate_of_one, total
from planlint.facts.engine import Job
from planlint.plan.outlets import Load
from planlint.quantities import Percent, Power

HEAT_FANS = ("furnace", "boiler")
SPACE_HEAT = ("space-heat", "baseboard-heat")
CLIMATE = (*SPACE_HEAT, *HEAT_FANS, "supplementary-heat", "storage-heat", "heat-pump", "air-conditioner")
COOLING = ("air-conditioner", "heat-pump")


def standard_of(lighting: Power, appliances: Sequence[Load], job: Job) -> Power:
    """The load from lighting with its circuits and from appliances. NFPA 70 220 Part III."""
    counted = [load for load in appliances if not stands_on_its_circuit(load, job)]
    season = in_season(counted, job)
    parts = [
        ("lighting and circuits", lighting_demand(lighting, job)),
        ("cooking", cooking_demand([load for load in counted if load.type in COOKING], job)),
        ("dryers", dryer_demand([load for load in counted if load.type == "dryer"], job)),
        ("other appliances", _other_appliances(counted, job)),
        ("heating or cooling", total(plain_demand(load, job) for load in season)),
        ("more for the largest motor", largest_motor([*(load for load in counted if not of_a_season(load, job)), *season], job)),
    ]
    load = total(part for _, part in parts)
    job.step(" + ".join(f"{name} {part}" for name, part in parts if part.amount), load, "NFPA 70 220 Part III")
    return load


def lighting_demand(connected: Power, job: Job) -> Power:
    """What lighting with its circuits counts by its table."""
    load = job.tables.lighting_demand(connected)
    parts = " + ".join(f"{part} x {share}" for part, share in job.tables.lighting_steps(connected))
    job.step(f"lighting and circuits {connected}: {parts}", load, job.from_table("lighting-demand"))
    return load


def _other_appliances(appliances: Sequence[Load], job: Job) -> Power:
    """What is neither cooking, drying, heating nor cooling: 75 % of what is fastened in place, where there are four or more."""
    fastened, others = apart(appliances, job)
    share = fastened_share(fastened, job)
    load, number = plain_demands(fastened, job), sum(one.count for one in fastened)
    if share.amount != 1:
        job.step(f"{number} appliances fastened in place: {load} x {share}", load * share, "NFPA 70 220.53")
    return load * share + plain_demands(others, job)


def apart(appliances: Sequence[Load], job: Job) -> tuple[list[Load], list[Load]]:
    """Of what is neither cooking, drying, heating nor cooling: what is fastened in place, and the rest.

    How they are joined is asked for only where it may matter.
    """
    rest = [load for load in appliances if load.type not in (*COOKING, "dryer") and not of_a_season(load, job)]
    fastened = [load for load in rest if _may_count_fastened(load, job)]
    if sum(one.count for one in fastened) >= job.setting("own-load.fastened-for-demand"):
        fastened = [load for load in fastened if _is_fastened(load, job)]
    return fastened, [load for load in rest if load not in fastened]


def fastened_share(fastened: Sequence[Load], job: Job) -> Percent:
    """With what share appliances fastened in place count, by their number. NFPA 70 220.53."""
    if sum(one.count for one in fastened) < job.setting("own-load.fastened-for-demand"):
        return Percent.of(100, "%")
    share: Percent = job.setting("own-load.demand-of-fastened")
    return share


def _may_count_fastened(load: Load, job: Job) -> bool:
    """Whether it is of those that count among the four or more, if it is fastened in place."""
    least: Power = job.setting("own-load.least-fastened")
    if load.type in job.setting("own-load.never-fastened") or load.type in CLIMATE:
        return False
    return plate_of_one(load, job) >= least


def _is_fastened(load: Load, job: Job) -> bool:
    return load.type in job.setting("own-load.always-fastened") or load.connection == "hard-wired"


def of_a_season(load: Load, job: Job) -> bool:
    """Whether it heats or cools; not a furnace or boiler that burns fuel, whose fan or pump runs in every season."""
    if load.type in HEAT_FANS:
        fan: Power = job.setting("own-load.most-of-a-fan")
        return plate_of_one(load, job) > fan
    return load.type in CLIMATE


def stands_on_its_circuit(load: Load, job: Job) -> bool:
    """Whether the 1500 VA of its small-appliance or laundry circuit stand for it. NFPA 70 220.52, 220.82(B)."""
    if load.planned and not load.states("circuit"):
        return False
    if load.type == "refrigerator":
        return load.circuit.use == "small-appliance"
    if load.type not in ("washer", "dryer") or plate_of_one(load, job) > job.setting("lighting-and-circuits.each-circuit"):
        return False
    return load.circuit.use == "laundry"


def in_season(appliances: Sequence[Load], job: Job) -> list[Load]:
    """What heats, or what cools, whichever takes more with the quarter that the largest motor beside it may add.

    A heat pump is of both, and its extra heat runs with it. NFPA 70 220.51, 220.60.
    """
    climate = [load for load in appliances if of_a_season(load, job)]
    others = [load for load in appliances if load not in climate]
    warm = [load for load in climate if load.type != "air-conditioner"]
    cool = [load for load in climate if load.type in COOLING]

    def with_motor(season: Sequence[Load]) -> Power:
        return total(plain_demand(load, job) for load in season) + _motor_share([*others, *season], job)

    larger = warm if with_motor(warm) >= with_motor(cool) else cool
    if climate:
        heating, cooling = plain_demands(warm, job), plain_demands(cool, job)
        words = f"the larger of heating {heating} and cooling {cooling}"
        job.step(words, heating if larger is warm else cooling, "NFPA 70 220.51, 220.60")
    return larger


def largest_motor(appliances: Sequence[Load], job: Job) -> Power:
    """A quarter more for the largest motor. NFPA 70 220.50, 430.24."""
    more = _motor_share(appliances, job)
    if more.amount:
        share: Percent = job.setting("own-load.more-for-largest-motor")
        job.step(f"{share} of the largest motor, {more * (1 / share.amount)}", more, "NFPA 70 220.50, 430.24")
    return more


def _motor_share(appliances: Sequence[Load], job: Job) -> Power:
    share: Percent = job.setting("own-load.more-for-largest-motor")
    motors = [plate_of_one(load, job) for load in appliances if load.type in job.setting("own-load.motors") and load.count]
    return max(motors, default=Power.of(0, "VA")).shown_in("VA") * share
