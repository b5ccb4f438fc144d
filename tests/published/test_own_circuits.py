"""The circuits that kitchens, laundries, bathrooms and garages of dwellings have to themselves, and central heating: what the
trade press, forums and inspectors say of 210.11(C), 210.50(C), 210.52(B) and 422.12. The source stands at each."""

from collections.abc import Callable

import pytest

from planlint.book import resolve
from planlint.checking import run_rule
from planlint.facts.engine import Job
from planlint.facts.own_circuits import serves_other_rooms
from planlint.plan.runs import Circuit
from planlint.rulebook import compile_rule

JobFor = Callable[..., Job]
EDITIONS = pytest.mark.parametrize("edition", [2017, 2020, 2023])
HOUSE = """complete circuits, receptacles, lights, loads, rooms
building house
  use one-family; construction new
place {0}
  building house; use {0}
place hall
  building house; use hallway
place yard
  outdoors yes; use yard
panel house-panel
  at hall
circuit own
  panel house-panel; breaker {1} A; poles 1; use {2}
"""


def answer(job: Job, rule: str, name: str) -> str:
    code = resolve((f"model-{job.edition}",))
    return run_rule(compile_rule(code.rules[rule], code), job.graph.one(name), job).answer


def strays(job: Job) -> bool:
    own = job.graph.one("own")
    assert isinstance(own, Circuit)
    return serves_other_rooms(own, job)


KITCHEN = HOUSE.format("kitchen", 20, "small-appliance")
COUNTERS = """circuit second
  panel house-panel; breaker 20 A; poles 1; use small-appliance
receptacles north
  at kitchen; circuit own; serves counter
receptacles south
  at kitchen; circuit second; serves counter
"""


@EDITIONS
def test_two_circuits_at_the_counters(job_for: JobFor, edition: int) -> None:
    """mikeholt.com, thread 2564697, prints 210.52(B)(1): two or more 20 A circuits for all wall, floor and counter
    receptacles."""
    rule = "kitchen-circuits-missing-or-shared"
    assert answer(job_for(KITCHEN + COUNTERS, edition), rule, "house") == "met"
    one = COUNTERS.replace("circuit second; serves", "circuit own; serves")
    assert answer(job_for(KITCHEN + one, edition), rule, "house") == "broken"
    weak = COUNTERS.replace("breaker 20 A", "breaker 15 A")
    assert answer(job_for(KITCHEN + weak, edition), rule, "house") == "broken"
    alone = "receptacles north\n  at kitchen; circuit own; serves counter\n"
    assert answer(job_for(KITCHEN + alone, edition), rule, "house") == "broken"


@EDITIONS
@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ("lights light\n  at kitchen; circuit own\n", True),
        ("load dishwasher\n  at kitchen; type dishwasher; circuit own; connection hard-wired\n", True),
        ("load disposal\n  at kitchen; type disposal; circuit own; connection cord\n", True),
        ("load hood\n  at kitchen; type hood; circuit own; connection cord\n", True),
        ("load microwave\n  at kitchen; type microwave; circuit own; connection hard-wired\n", True),
        ("load microwave\n  at kitchen; type microwave; circuit own; connection cord\n", False),
        ("load gas-range\n  at kitchen; type range; circuit own; connection cord\n", False),
        ("receptacles fridge\n  at kitchen; circuit own; serves refrigerator\n", False),
        ("receptacles outside\n  at yard; circuit own; serves general\n", True),
        ("receptacles hall-wall\n  at hall; circuit own; serves general\n", True),
    ],
)
def test_what_a_kitchen_circuit_may_feed(job_for: JobFor, more: str, expected: bool, edition: int) -> None:
    """ecmweb.com, code Q&A, small-appliance circuits: no luminaires and no appliances; a gas range's receptacle may be on it, a
    hood or a microwave as hood not. electrical-contractor.net, post 195113, the handbook of 2008: no hoods, disposals,
    dishwashers; the refrigerator counts among its receptacles. mikeholt.com, thread 36077: a microwave on the counter is
    fine."""
    assert strays(job_for(KITCHEN + COUNTERS + more, edition)) == expected


def test_a_refrigerator_on_its_own(job_for: JobFor) -> None:
    """mikeholt.com, thread 2564697: a specific appliance may have an individual circuit of 15 A or more; not one for two
    things."""
    more = """circuit fridge-circuit
  panel house-panel; breaker 15 A; poles 1; use appliance
receptacles fridge
  at kitchen; circuit fridge-circuit; serves refrigerator
"""
    rule = "kitchen-circuits-missing-or-shared"
    assert answer(job_for(KITCHEN + COUNTERS + more), rule, "house") == "met"
    shared = more + "receptacles hall-wall\n  at hall; circuit fridge-circuit; serves general\n"
    assert answer(job_for(KITCHEN + COUNTERS + shared), rule, "house") == "broken"


LAUNDRY = HOUSE.format("laundry", 20, "laundry") + "receptacles washer\n  at laundry; circuit own; serves laundry\n"


@EDITIONS
@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ("", "met"),
        ("receptacles dryer\n  at laundry; circuit own; serves appliance\n", "met"),
        ("receptacles iron\n  at laundry; circuit own; serves general\n", "met"),
        ("load dryer\n  at laundry; type dryer; circuit own; connection cord\n", "met"),
        ("lights light\n  at laundry; circuit own\n", "broken"),
        ("load fan\n  at laundry; type fan; circuit own; connection hard-wired\n", "broken"),
        ("receptacles outside\n  at yard; circuit own; serves general\n", "broken"),
    ],
)
def test_what_a_laundry_circuit_may_feed(job_for: JobFor, more: str, expected: str, edition: int) -> None:
    """mikeholt.com, threads 25631 and 27475, an inspector of Ohio: gas dryer and iron of the same laundry are fine on it, what
    leaves the laundry and hard-wired lights aren't; thread 25310 has outdoor receptacles refused."""
    assert answer(job_for(LAUNDRY + more, edition), "laundry-circuit-missing", "house") == expected


def test_a_laundry_circuit_of_fifteen_amperes(job_for: JobFor) -> None:
    """210.11(C)(2) as printed in mikeholt.com, post 2635509: a 20-ampere branch circuit."""
    assert answer(job_for(LAUNDRY.replace("20 A", "15 A")), "laundry-circuit-missing", "house") == "broken"


@EDITIONS
@pytest.mark.parametrize(("distance", "expected"), [("6 ft", "met"), ("6 ft 1 in", "broken")])
def test_six_feet_to_the_washer(job_for: JobFor, distance: str, expected: str, edition: int) -> None:
    """contractortalk.com, thread 41092, prints 210.50(C): within 1.8 m (6 ft) of the intended location of the appliance."""
    text = f"receptacles washer\n  serves laundry; distance-to-appliance {distance}\n"
    assert answer(job_for(text, edition), "laundry-receptacle-far-from-washer", "washer") == expected


BATHROOM = HOUSE.format("bathroom", "{}", "bathroom") + "receptacles basin\n  at bathroom; circuit own; serves basin\n"
SECOND = "place bath-2\n  building house; use bathroom\nreceptacles basin-2\n  at bath-2; circuit own; serves basin\n"
LIGHT = "lights light\n  at bathroom; circuit own\n"
FAN = "load fan\n  at bathroom; type fan; circuit own; connection hard-wired; volts 120 V; amps {}\n"


@EDITIONS
@pytest.mark.parametrize(
    ("breaker", "more", "expected"),
    [
        (20, "", "met"),
        (15, "", "broken"),
        (20, SECOND, "met"),
        (20, LIGHT, "met"),
        (20, SECOND + LIGHT, "broken"),
        (20, "receptacles hall-wall\n  at hall; circuit own; serves general\n", "broken"),
        (20, "lights hall-light\n  at hall; circuit own\n", "broken"),
        (20, LIGHT + FAN.format("10 A"), "met"),
        (20, LIGHT + FAN.format("10.1 A"), "broken"),
    ],
)
def test_the_bathroom_circuit(job_for: JobFor, breaker: int, more: str, expected: str, edition: int) -> None:
    """mikeholt.com, post 2635509, prints 210.11(C)(3) and its exception; thread 101771: one bathroom and all in it, or
    receptacles of several. The half for what is fastened, 210.23(A)(2), from memory."""
    assert answer(job_for(BATHROOM.format(breaker) + more, edition), "bathroom-circuit-missing", "bathroom") == expected


GARAGE = HOUSE.format("garage", 20, "garage").replace("use garage\nplace", "use garage; vehicle-bays {}\nplace")
BAYS = "receptacles bays\n  at garage; circuit own; serves vehicle-bay; count {}\n"
OUTSIDE = "receptacles outside\n  at yard; circuit own; serves general; height {}\n"
ONLY_2023 = {2017: "broken", 2020: "broken", 2023: "met"}


@EDITIONS
@pytest.mark.parametrize(
    ("bays", "more", "expected"),
    [
        (2, BAYS.format(2), "met"),
        (2, BAYS.format(1), "broken"),
        (2, BAYS.format(2) + "lights light\n  at garage; circuit own\n", "broken"),
        (2, BAYS.format(2) + "receptacles opener\n  at garage; circuit own; serves appliance\n", "met"),
        (2, BAYS.format(2) + OUTSIDE.format("6 ft 6 in"), "met"),
        (2, BAYS.format(2) + OUTSIDE.format("6 ft 7 in"), ONLY_2023),
        (1, BAYS.format(1) + "lights light\n  at garage; circuit own\n", ONLY_2023),
    ],
)
def test_the_garage_circuit(job_for: JobFor, bays: int, more: str, expected: str | dict[int, str], edition: int) -> None:
    """captaincode2017.leviton.com/node/126, captaincode2020.leviton.com/node/132 and serveacademy.it (2023) print 210.11(C)(4):
    no other outlets but outdoor receptacles within reach (2023: any), and in 2023 all in a garage for one car.
    electricallicenserenewal.com, section 1428: other receptacles of the garage too, which 2023 made clear."""
    wanted = expected if isinstance(expected, str) else expected[edition]
    assert answer(job_for(GARAGE.format(bays) + more, edition), "garage-circuit-missing", "garage") == wanted


HEATING = (
    "complete circuits, receptacles, lights, loads\ncircuit own\nload furnace\n  type {}; circuit own; connection hard-wired\n"
)


@EDITIONS
@pytest.mark.parametrize("type_", ["furnace", "boiler", "air-handler"])
@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ("", "met"),
        ("load pump\n  type motor; circuit own; part-of furnace\n", "met"),
        ("load pump\n  type motor; circuit own; part-of none\n", "broken"),
        ("load pump\n  type motor; circuit own\n", "undecided"),
        ("load cooling\n  type air-conditioner; circuit own\n", "met"),
        ("lights light\n  circuit own\n", "broken"),
        ("receptacles service\n  circuit own\n", "broken"),
    ],
)
def test_central_heating_by_itself(job_for: JobFor, type_: str, more: str, expected: str, edition: int) -> None:
    """mikeholt.com, threads 138166 and 83622, print 422.12 and its exceptions, and refuse the light and the receptacle of an
    attic furnace; electricallicenserenewal.com, section 1938: only the edition of 2026 allows these."""
    assert answer(job_for(HEATING.format(type_) + more, edition), "heating-circuit-shared", "furnace") == expected
