"""What comes back over the neutral of services and feeders: the largest unbalance. NFPA 70 220.61."""

from collections.abc import Sequence

from planlint.facts.ampacity import carried
from planlint.facts.building_load import circuits, lighting_and_circuits
from planlint.facts.buildings import is_dwelling, loads
from planlint.facts.circuit_load import loads_on, outlet_load
from planlint.facts.demand import COOKING, amperes, cooking_demand, dryer_demand, is_enough, nameplate, total
from planlint.facts.engine import Job, fact
from planlint.facts.parts_served import by_building, comes_from_utility, line_volts, parts_served, source_of, supply_of
from planlint.facts.standard_load import apart, fastened_share, in_season, largest_motor, lighting_demand, of_a_season
from planlint.facts.standard_load import stands_on_its_circuit as stands
from planlint.facts.wires import has_neutral, neutral_size
from planlint.plan.elements import not_stated
from planlint.plan.gear import Supply
from planlint.plan.outlets import Load
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.plan.site import Building
from planlint.quantities import Current, Percent, Power, Voltage


@fact
def own_neutral_load(building: Building, job: Job) -> Power:
    """What of the building's own load may come back over the neutral, at its most.

    A dwelling's by the demand factors of the standard method, whatever method its load is worked out by: lighting and circuits,
    ranges and dryers at 70 %, what is connected from hot to neutral. Elsewhere all that is connected so.
    NFPA 70 220.61, 220.82(A).
    """
    supply = supply_of(building, job)
    appliances = loads(building, job).whole()
    if is_dwelling(building, job):
        return _of_dwelling(lighting_and_circuits(building, job), appliances, supply, job)
    return _connected(appliances, circuits(building, job).whole(), supply, job)


def _of_dwelling(lighting: Power, appliances: Sequence[Load], supply: Supply, job: Job) -> Power:
    counted = [load for load in appliances if not stands(load, job)]
    cooking = cooking_demand([load for load in counted if load.type in COOKING], job)
    dryers = dryer_demand([load for load in counted if load.type == "dryer"], job)
    share: Percent = job.setting("neutral-load.cooking-and-dryers")
    fastened, others = apart(counted, job)
    less: Percent = fastened_share(fastened, job)
    fixed, rest = _by_neutral(fastened, supply, job), _by_neutral(others, supply, job)
    climate = _by_neutral([load for load in counted if of_a_season(load, job)], supply, job)
    season = in_season([*fixed, *rest, *climate], job)
    parts = [
        ("lighting and circuits {0}", lighting_demand(lighting, job), None),
        ("cooking {0}", cooking, share),
        ("dryers {0}", dryers, share),
        ("fastened appliances from hot to neutral {0}", _plates(fixed, job), less if less.amount != 1 else None),
        ("other appliances from hot to neutral {0}", _plates(rest, job), None),
        ("heating or cooling from hot to neutral {0}", _plates(season, job), None),
        ("more for the largest motor {0}", largest_motor([*fixed, *rest, *season], job), None),
    ]
    load = total(power if part is None else power * part for _, power, part in parts)
    words = [text.format(power) + (f" x {part}" if part else "") for text, power, part in parts if power.amount]
    job.step(" + ".join(words), load, "NFPA 70 220.61")
    return load


def _connected(appliances: Sequence[Load], on: Sequence[Circuit], supply: Supply, job: Job) -> Power:
    found = _by_neutral(appliances, supply, job)
    outlets = total(outlet_load(circuit, job) for circuit in on)
    plates, motor = _plates(found, job), largest_motor(found, job)
    words = f"appliances from hot to neutral {plates} + receptacles and lights {outlets}"
    job.step(
        words + (f" + more for the largest motor {motor}" if motor.amount else ""), plates + outlets + motor, "NFPA 70 220.61"
    )
    return plates + outlets + motor


def _plates(appliances: Sequence[Load], job: Job) -> Power:
    return total(nameplate(load, job) for load in appliances)


def _by_neutral(appliances: Sequence[Load], supply: Supply, job: Job) -> list[Load]:
    """Those whose current comes back over the neutral, wholly or in part.

    What is connected from hot to neutral; and from hot to hot, what may have a part from hot to neutral and a neutral for it.
    """
    return [load for load in appliances if _is_at_neutral(load, supply) or _may_be_in_part(load, job)]


def _is_at_neutral(load: Load, supply: Supply) -> bool:
    """Whether its voltage is nearer to that from hot to neutral."""
    return abs(load.volts.amount - _to_neutral(supply).amount) < abs(load.volts.amount - supply.volts.line.amount)


def _may_be_in_part(load: Load, job: Job) -> bool:
    return load.type not in job.setting("neutral-load.without-neutral") and has_neutral(load.circuit, job)


def _to_neutral(supply: Supply) -> Voltage:
    """Raises NotStated for two legs of three phases, where the neutral carries as much as the hots (220.61(C))."""
    low, line = supply.volts.to_neutral, line_volts(supply)
    if low is None or line != low * 2:
        not_stated(supply, "volts", f"{supply.name}: loads of neutrals are worked out for three wires of 120/240 V only")
    return low


@fact
def neutral_load(run: Service | Feeder, job: Job) -> Current:
    """The most that its neutral carries: the largest unbalance, that beyond 200 A at 70 %.

    For what the utility feeds over three wires. NFPA 70 220.61.
    """
    if not comes_from_utility(run, job):
        not_stated(run, "from", f"{run.name}: its neutral's load, which is worked out for the utility's power only")
    supply = source_of(run, job)
    _to_neutral(supply)
    parts = parts_served(run.to, job).whole()
    counted = [(part.name, own_neutral_load(part, job)) for part in parts if isinstance(part, Building)]
    for home, single in by_building(parts, job):
        appliances = [load for circuit in single for load in loads_on(circuit, job).whole()]
        if is_dwelling(home, job):
            lighting = total(outlet_load(circuit, job) for circuit in single)
            counted.append(("single circuits", _of_dwelling(lighting, appliances, supply, job)))
        else:
            counted.append(("single circuits", _connected(appliances, single, supply, job)))
    load = total(power for _, power in counted)
    current = amperes(load, line_volts(supply), run)
    job.step(f"({' + '.join(f'{name} {power}' for name, power in counted)}) / {line_volts(supply)}", current, "NFPA 70 220.61(A)")
    return _less_above(current, job)


def _less_above(current: Current, job: Job) -> Current:
    limit: Current = job.setting("neutral-load.whole-up-to")
    if current <= limit:
        return current
    share: Percent = job.setting("neutral-load.above")
    job.step(f"{limit} + {current - limit} x {share}", limit + (current - limit) * share, "NFPA 70 220.61(B)(2)")
    return limit + (current - limit) * share


@fact
def neutral_carries_load(run: Service | Feeder, job: Job) -> bool:
    """Whether its neutral's ampacity is at least the neutral's load; known too where the plan leaves the ampacity open in part.

    NFPA 70 220.61, 230.42(C), 215.2(A).
    """
    load = neutral_load(run, job)
    limit = carried(run, neutral_size(run, job), job)
    job.step(f"{neutral_size(run, job)} carries {limit.low}{'' if limit.low == limit.high else ' or more'}, its load is {load}")
    if is_enough(limit.low, load, job) or not is_enough(limit.high, load, job):
        return is_enough(limit.low, load, job)
    return is_enough(limit.exact, load, job)
