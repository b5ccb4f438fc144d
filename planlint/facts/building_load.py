"""The calculated load of a building: a one-family dwelling by the standard or the optional method, others by what they feed."""

from collections.abc import Sequence

from planlint.facts.buildings import building_served, loads
from planlint.facts.circuit_load import outlet_load
from planlint.facts.demand import COOKING, cooking_demand, dryer_demand, plain_demands, plate_of_one, total
from planlint.facts.engine import Job, fact
from planlint.plan.elements import not_stated
from planlint.plan.members import Members
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit
from planlint.plan.site import Building
from planlint.quantities import Percent, Power

HEAT_FANS = ("furnace", "boiler")
SPACE_HEAT = ("space-heat", "baseboard-heat")
CLIMATE = (*SPACE_HEAT, *HEAT_FANS, "supplementary-heat", "storage-heat", "heat-pump", "air-conditioner")


@fact
def circuits(building: Building, job: Job) -> Members[Circuit]:
    """Branch circuits that serve it."""
    return job.graph.all(Circuit).where(lambda circuit: building_served(circuit, job) is building)


@fact
def small_appliance_circuits(building: Building, job: Job) -> Members[Circuit]:
    """Its circuits for the receptacles of kitchen, pantry and dining room. NFPA 70 210.11(C)(1)."""
    return circuits(building, job).where(lambda circuit: circuit.use == "small-appliance")


@fact
def laundry_circuits(building: Building, job: Job) -> Members[Circuit]:
    """Its circuits for the laundry. NFPA 70 210.11(C)(2)."""
    return circuits(building, job).where(lambda circuit: circuit.use == "laundry")


@fact
def own_load(building: Building, job: Job) -> Power:
    """Load of the building itself, without other buildings that it feeds.

    A one-family dwelling by the method that the plan names; any other building by its appliances at their plates, 180 VA for
    each receptacle and the power of its lights. NFPA 70 220 Parts II to IV.
    """
    if building.use == "two-family":
        not_stated(building, "use", f"{building.name}: its load, which is worked out for one-family dwellings only")
    appliances = loads(building, job).whole()
    if building.use != "one-family":
        return connected_load(appliances, circuits(building, job).whole(), job)
    if building.dwelling_units != 1:
        not_stated(building, "dwelling-units", f"{building.name}: its load, which is worked out for one dwelling only")
    lighting = lighting_and_circuits(building, job)
    if building.load_method == "standard":
        return standard_load(lighting, appliances, job)
    return _optional_load(lighting, appliances, job)


def connected_load(appliances: Sequence[Load], on: Sequence[Circuit], job: Job) -> Power:
    """Appliances and outlets at their full value, and a quarter more for the largest motor. NFPA 70 220.14, 220.50."""
    plates = plain_demands(appliances, job)
    outlets = total(outlet_load(circuit, job) for circuit in on)
    job.step(f"appliances {plates} + receptacles and lights {outlets}", plates + outlets, "NFPA 70 220.14")
    return plates + outlets + _largest_motor(appliances, job)


@fact
def lighting_and_circuits(building: Building, job: Job) -> Power:
    """General lighting by the floor area, and 1500 VA for each small-appliance and laundry circuit, before any demand factor.

    At least the circuits that a dwelling must have are counted. NFPA 70 220.12 (2020: 220.14(J), 2023: 220.41), 220.52.
    """
    light = general_lighting(building, job)
    each: Power = job.setting("lighting-and-circuits.each-circuit")
    least_small: int = job.setting("lighting-and-circuits.least-small-appliance")
    least_laundry: int = job.setting("lighting-and-circuits.least-laundry")
    small = max(len(small_appliance_circuits(building, job).whole()), least_small)
    laundry = max(len(laundry_circuits(building, job).whole()), least_laundry)
    job.step(f"small-appliance circuits: {small} x {each}", each * small, "NFPA 70 220.52(A)")
    job.step(f"laundry circuits: {laundry} x {each}", each * laundry, "NFPA 70 220.52(B)")
    job.step(f"{light} + {each * small} + {each * laundry}", light + each * (small + laundry))
    return light + each * (small + laundry)


@fact
def general_lighting(building: Building, job: Job) -> Power:
    """Lighting and general receptacles of a dwelling by its floor area. NFPA 70 220.12 (2020: 220.14(J), 2023: 220.41)."""
    unit = job.setting("general-lighting.for-each-square-foot")
    load = Power.of(building.floor_area.within("sq ft") * unit.within("VA"), "VA")
    clause = {2017: "220.12", 2020: "220.14(J)", 2023: "220.41"}[job.edition]
    job.step(f"{building.floor_area} x {unit} for each sq ft", load, f"NFPA 70 {clause}")
    return load


def standard_load(lighting: Power, appliances: Sequence[Load], job: Job) -> Power:
    """A dwelling's load, or that of a part of it, from its lighting and circuits and its appliances. NFPA 70 220 Part III."""
    counted = [load for load in appliances if not _stands_on_its_circuit(load, job)]
    parts = [
        ("lighting and circuits", _lighting_demand(lighting, job)),
        ("cooking", cooking_demand([load for load in counted if load.type in COOKING], job)),
        ("dryers", dryer_demand([load for load in counted if load.type == "dryer"], job)),
        ("other appliances", _fixed_appliances(counted, job)),
        ("heating or cooling", _larger_season(counted, job)),
        ("more for the largest motor", _largest_motor(counted, job)),
    ]
    load = total(part for _, part in parts)
    job.step(" + ".join(f"{name} {part}" for name, part in parts if part.amount), load, "NFPA 70 220 Part III")
    return load


def _lighting_demand(connected: Power, job: Job) -> Power:
    load = job.tables.lighting_demand(connected)
    parts = " + ".join(f"{part} x {share}" for part, share in job.tables.lighting_steps(connected))
    job.step(f"lighting and circuits {connected}: {parts}", load, job.from_table("lighting-demand"))
    return load


def _fixed_appliances(appliances: Sequence[Load], job: Job) -> Power:
    """What is neither cooking, drying, heating nor cooling: 75 % of what is fastened in place, where there are four or more."""
    rest = [load for load in appliances if load.type not in (*COOKING, "dryer", *CLIMATE) or _is_fan_only(load, job)]
    wanted: int = job.setting("own-load.fastened-for-demand")
    fastened = [load for load in rest if _may_count_fastened(load, job)]
    if sum(one.count for one in fastened) >= wanted:  # how they are joined is asked for only where it may matter
        fastened = [load for load in fastened if _is_fastened(load, job)]
    others = plain_demands([load for load in rest if load not in fastened], job)
    load = plain_demands(fastened, job)
    number = sum(one.count for one in fastened)
    if number >= wanted:
        share: Percent = job.setting("own-load.demand-of-fastened")
        job.step(f"{number} appliances fastened in place: {load} x {share}", load * share, "NFPA 70 220.53")
        load = load * share
    return load + others


def _may_count_fastened(load: Load, job: Job) -> bool:
    """Whether it is of those that count among the four or more, if it is fastened in place."""
    least: Power = job.setting("own-load.least-fastened")
    if load.type in job.setting("own-load.never-fastened") or load.type in CLIMATE:
        return False
    return plate_of_one(load, job) >= least


def _is_fastened(load: Load, job: Job) -> bool:
    return load.type in job.setting("own-load.always-fastened") or load.connection == "hard-wired"


def _is_fan_only(load: Load, job: Job) -> bool:
    """A furnace or boiler that burns fuel: its plate is that of a fan or pump, which runs in every season."""
    return load.type in HEAT_FANS and plate_of_one(load, job) <= job.setting("own-load.most-of-a-fan")


def _stands_on_its_circuit(load: Load, job: Job) -> bool:
    """Whether the 1500 VA of its small-appliance or laundry circuit stand for it. NFPA 70 220.52, 220.82(B)."""
    if load.planned and not load.states("circuit"):
        return False
    if load.type == "refrigerator":
        return load.circuit.use == "small-appliance"
    if load.type not in ("washer", "dryer") or plate_of_one(load, job) > job.setting("lighting-and-circuits.each-circuit"):
        return False
    return load.circuit.use == "laundry"


def _larger_season(appliances: Sequence[Load], job: Job) -> Power:
    """Heating or cooling at their plates, whichever is more; a heat pump and its extra heat together. NFPA 70 220.51, 220.60."""
    climate = [load for load in appliances if load.type in CLIMATE and not _is_fan_only(load, job)]
    warm = [load for load in climate if load.type != "air-conditioner"]
    cool = [load for load in climate if load.type in ("air-conditioner", "heat-pump")]
    heating, cooling = plain_demands(warm, job), plain_demands(cool, job)
    if heating.amount or cooling.amount:
        job.step(f"the larger of heating {heating} and cooling {cooling}", max(heating, cooling), "NFPA 70 220.51, 220.60")
    return max(heating, cooling)


def _largest_motor(appliances: Sequence[Load], job: Job) -> Power:
    """A quarter more for the largest motor. NFPA 70 220.50, 430.24."""
    motors = [plate_of_one(load, job) for load in appliances if load.type in job.setting("own-load.motors")]
    if not motors:
        return Power.of(0, "VA")
    share: Percent = job.setting("own-load.more-for-largest-motor")
    largest = max(motors).shown_in("VA")
    job.step(f"{share} of the largest motor, {largest}", largest * share, "NFPA 70 220.50, 430.24")
    return largest * share


def _optional_load(lighting: Power, appliances: Sequence[Load], job: Job) -> Power:
    """NFPA 70 220.82."""
    counted = [load for load in appliances if not _stands_on_its_circuit(load, job)]
    climate = [load for load in counted if load.type in CLIMATE and not _is_fan_only(load, job)]
    plates = plain_demands([load for load in counted if load not in climate], job)
    general = lighting + plates
    job.step(f"lighting and circuits {lighting} + appliances at their plates {plates}", general, "NFPA 70 220.82(B)")
    first: Power = job.setting("own-load.optional-whole")
    first = first.shown_in("VA")
    share: Percent = job.setting("own-load.optional-rest")
    rest = max(general - first, Power.of(0, "VA"))
    load = min(general, first) + rest * share
    job.step(f"the first {first} whole + {rest} x {share}", load, "NFPA 70 220.82(B)")
    season = _optional_climate(climate, job)
    job.step(f"{load} + heating or cooling {season}", load + season, "NFPA 70 220.82")
    return load + season


def _optional_climate(climate: Sequence[Load], job: Job) -> Power:
    """The larger of cooling and of what heats together, each kind at its percentage. NFPA 70 220.82(C)."""

    def of(*types: str) -> Power:
        return plain_demands([load for load in climate if load.type in types], job)

    heaters = [load for load in climate if load.type in (*SPACE_HEAT, *HEAT_FANS)]
    number = sum(load.units if load.type in SPACE_HEAT else load.count for load in heaters)
    few = number < job.setting("own-load.heaters-for-lower-share")
    share: Percent = job.setting("own-load.few-heaters" if few else "own-load.many-heaters")
    extra: Percent = job.setting("own-load.extra-heat")
    pump, strips, space, storage = of("heat-pump"), of("supplementary-heat"), of(*SPACE_HEAT, *HEAT_FANS), of("storage-heat")
    heating = pump + strips * extra + space * share + storage
    parts = [(pump, "heat pump {0}"), (strips, f"extra heat {{0}} x {extra}"), (space, f"{number} heaters {{0}} x {share}"),
             (storage, "storage heat {0}")]  # fmt: skip
    if heating.amount:
        job.step(" + ".join(text.format(part) for part, text in parts if part.amount), heating, "NFPA 70 220.82(C)")
    cooling = pump + of("air-conditioner")
    if cooling.amount:
        job.step(f"the larger of heating {heating} and cooling {cooling}", max(heating, cooling), "NFPA 70 220.82(C)")
    return max(heating, cooling)
