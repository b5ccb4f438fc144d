"""The optional methods: a new dwelling, an existing one, and two dwellings on one feeder. NFPA 70 220 Part IV."""

from collections.abc import Sequence

from planlint.facts.demand import COOKING, plain_demands, plate_of_one
from planlint.facts.engine import Job
from planlint.facts.standard_load import COOLING, HEAT_FANS, SPACE_HEAT, of_a_season, stands_on_its_circuit
from planlint.plan.members import Members
from planlint.plan.outlets import Load
from planlint.plan.site import Building
from planlint.quantities import Percent, Power

NOTHING = Power.of(0, "VA")


def optional_of(lighting: Power, appliances: Sequence[Load], job: Job) -> Power:
    """A dwelling's load: the general load in two parts, and heating or cooling on top. NFPA 70 220.82."""
    counted = [load for load in appliances if not stands_on_its_circuit(load, job)]
    climate = [load for load in counted if of_a_season(load, job)]
    plates = plain_demands([load for load in counted if load not in climate], job)
    general = lighting + plates
    job.step(f"lighting and circuits {lighting} + appliances at their plates {plates}", general, "NFPA 70 220.82(B)")
    first: Power = job.setting("own-load.optional-whole")
    load = _in_two_parts(general, first, job.setting("own-load.optional-rest"), "NFPA 70 220.82(B)", job)
    season = climate_of(climate, job)
    job.step(f"{load} + heating or cooling {season}", load + season, "NFPA 70 220.82")
    return load + season


def _in_two_parts(general: Power, first: Power, share: Percent, clause: str, job: Job) -> Power:
    first = first.shown_in("VA")
    rest = max(general - first, NOTHING)
    load = min(general, first) + rest * share
    job.step(f"the first {min(general, first)} whole + {rest} x {share}", load, clause)
    return load


def climate_of(climate: Sequence[Load], job: Job) -> Power:
    """The larger of cooling and of what heats together, each kind at its percentage. NFPA 70 220.82(C)."""
    number = _heaters(climate)
    few = number < job.setting("own-load.heaters-for-lower-share")
    share: Percent = job.setting("own-load.few-heaters" if few else "own-load.many-heaters")
    extra: Percent = job.setting("own-load.extra-heat")
    pump, strips = _of(climate, job, "heat-pump"), _of(climate, job, "supplementary-heat")
    space, storage = _of(climate, job, *SPACE_HEAT, *HEAT_FANS), _of(climate, job, "storage-heat")
    heating = pump + strips * extra + space * share + storage
    heaters = f"{number} heater" if number == 1 else f"{number} heaters"
    parts = [(pump, "heat pump {0}"), (strips, f"extra heat {{0}} x {extra}"), (space, f"{heaters} {{0}} x {share}"),
             (storage, "storage heat {0}")]  # fmt: skip
    if heating.amount:
        job.step(" + ".join(text.format(part) for part, text in parts if part.amount), heating, "NFPA 70 220.82(C)")
    cooling = _of(climate, job, *COOLING)
    if cooling.amount:
        job.step(f"the larger of heating {heating} and cooling {cooling}", max(heating, cooling), "NFPA 70 220.82(C)")
    return max(heating, cooling)


def _of(climate: Sequence[Load], job: Job, *types: str) -> Power:
    return plain_demands([load for load in climate if load.type in types], job)


def _heaters(climate: Sequence[Load]) -> int:
    """How many heaters are switched separately; a furnace or boiler is one."""
    heaters = [load for load in climate if load.type in (*SPACE_HEAT, *HEAT_FANS)]
    return sum(load.units if load.type in SPACE_HEAT else load.count for load in heaters)


def existing_of(lighting: Power, appliances: Sequence[Load], job: Job) -> Power:
    """An existing dwelling's load. NFPA 70 220.83.

    (A) Where this work adds no cooling and no electric heat, all at its plates in two parts, heating and cooling too. (B) Where
    it adds some, the larger of heating and cooling whole, and the rest in two parts; with it four heaters or more that are
    switched separately (as the older text of the section has it; from memory).
    """
    counted = [load for load in appliances if not stands_on_its_circuit(load, job)]
    climate = [load for load in counted if of_a_season(load, job)]
    if Members(tuple(climate)).some(_is_new):
        return _existing_with_new_climate(lighting, counted, climate, job)
    plates = plain_demands([load for load in counted if load not in climate], job)
    there = _existing_climate(climate, job)
    general = lighting + plates + there
    job.step(f"lighting and circuits {lighting} + appliances {plates} + heating and cooling as it was {there}", general,
             "NFPA 70 220.83(A)")  # fmt: skip
    first: Power = job.setting("own-load.existing-whole")
    return _in_two_parts(general, first, job.setting("own-load.existing-rest"), "NFPA 70 220.83(A)", job)


def _is_new(load: Load) -> bool:
    """Whether this work adds it, as it does what is only planned."""
    return not load.existing if load.states("existing") or not load.planned else True


def _existing_climate(climate: Sequence[Load], job: Job) -> Power:
    """What was there before: all of it at its plates, or the larger of heating and cooling, as the setting has it."""
    if job.setting("own-load.existing-both-seasons"):
        return plain_demands(climate, job)
    return max(plain_demands(part, job) for part in _seasons(climate))


def _seasons(climate: Sequence[Load]) -> tuple[list[Load], list[Load]]:
    warm = [load for load in climate if load.type != "air-conditioner"]
    return warm, [load for load in climate if load.type in COOLING]


def _existing_with_new_climate(lighting: Power, counted: Sequence[Load], climate: Sequence[Load], job: Job) -> Power:
    many = _heaters([load for load in climate if load.type in SPACE_HEAT]) >= job.setting("own-load.heaters-for-lower-share")
    plates = plain_demands([load for load in counted if load not in climate], job)
    first: Power = job.setting("own-load.existing-whole")
    totals = []
    for name, season in zip(("heating", "cooling"), _seasons(climate), strict=True):
        among = [load for load in season if many and load.type in SPACE_HEAT]
        whole = plain_demands([load for load in season if load not in among], job)
        spread = plain_demands(among, job)
        general = lighting + plates + spread
        words = f" + separate heaters {spread}" if among else ""
        job.step(f"lighting and circuits {lighting} + appliances {plates}{words}", general, "NFPA 70 220.83(B)")
        load = _in_two_parts(general, first, job.setting("own-load.existing-rest"), "NFPA 70 220.83(B)", job)
        job.step(f"{load} + {name} whole {whole}", load + whole, "NFPA 70 220.83(B)")
        totals.append(load + whole)
    job.step("the larger of the two", max(totals), "NFPA 70 220.83(B)")
    return max(totals)


def two_dwellings_of(building: Building, lighting: Power, appliances: Sequence[Load], standard: Power, job: Job) -> Power:
    """The load of two dwellings on one service or feeder: the standard one, or that of three alike if it is less.

    Three are allowed only where the two are alike and heat or cool electrically; without electric cooking 8 kW are added for each
    dwelling. NFPA 70 220.85, 220.84.
    """
    counted = [load for load in appliances if not stands_on_its_circuit(load, job)]
    climate = [load for load in counted if of_a_season(load, job)]
    if not climate or not _are_in_pairs(counted, job):
        why = "not both alike" if climate else "no electric heating or cooling"
        job.step(f"{building.name}: {why}, so the standard method holds", standard, "NFPA 70 220.84(A), 220.85")
        return standard
    plates = plain_demands([load for load in counted if load not in climate], job)
    season = max(plain_demands(part, job) for part in _seasons(climate))
    cooking = NOTHING
    if not any(load.type in COOKING for load in counted):
        each: Power = job.setting("own-load.cooking-for-each-dwelling")
        cooking = each.shown_in("VA") * 2
    both = lighting + plates + season + cooking
    added = f" + cooking that is not there {cooking}" if cooking.amount else ""
    job.step(
        f"lighting and circuits {lighting} + appliances {plates} + heating or cooling {season}{added}", both, "NFPA 70 220.84(C)"
    )
    share: Percent = job.setting("own-load.three-dwellings")
    three = both * 1.5
    job.step(f"three dwellings alike: {both} x 3 / 2", three, "NFPA 70 220.85")
    job.step(f"{three} x {share}", three * share, "NFPA 70 Table 220.84")
    job.step(f"the lesser of {three * share} and the standard {standard}", min(three * share, standard), "NFPA 70 220.85")
    return min(three * share, standard)


def _are_in_pairs(appliances: Sequence[Load], job: Job) -> bool:
    """Whether every appliance is there twice, so that two dwellings can be alike."""
    left: list[tuple[str, Power]] = []
    for load in appliances:
        plate = plate_of_one(load, job)
        for _ in range(load.count):
            twin = next((one for one in left if one[0] == load.type and one[1] == plate), None)
            if twin is None:
                left.append((load.type, plate))
            else:
                left.remove(twin)
    return not left
