"""What single appliances ask of their circuit: to have it to themselves, its wires, a GFCI, the breaker on their plate."""

from planlint.facts.buildings import building_of, is_dwelling
from planlint.facts.circuit_load import loads_on
from planlint.facts.demand import plate_current
from planlint.facts.engine import Job, fact
from planlint.facts.equipment_ground import ground_path
from planlint.facts.motors import is_cooling_unit
from planlint.facts.outlet_volts import receptacle_volts
from planlint.facts.roles import role
from planlint.facts.wires import has_neutral, neutral_size, neutral_wires
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.members import Members, all_hold, any_holds
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.plan.runs import Circuit, Feeder
from planlint.quantities import Current, Voltage


@fact
def has_own_circuit(load: Load, job: Job) -> bool:
    """Whether nothing else is on its circuit but what belongs to it: the one receptacle of its cord, and parts of its unit.

    NFPA 70 422.12, 625.40. What is planned only doesn't count yet; a duplex receptacle is one outlet.
    """
    circuit = load.circuit
    others = loads_on(circuit, job).where(lambda one: one is not load and not one.planned)
    receptacles = job.graph.those(Receptacles, "circuit", circuit)
    return all_hold(
        lambda: load.count == 1,
        lambda: others.every(lambda one: _belongs_to(one, load, job)),
        lambda: not job.graph.those(Lights, "circuit", circuit).some(lambda one: True),
        lambda: _are_its_own(receptacles, load, job),
    )


def _belongs_to(one: Load, load: Load, job: Job) -> bool:
    """What is associated with central heating, and fixed cooling, may share its circuit. NFPA 70 422.12 exceptions 1, 2.

    Of fans, pumps and what has no type of its own the plan has to say what they are part of.
    """
    units: tuple[str, ...] = job.setting("has-own-circuit.parts-of-heating")
    if load.type not in units:
        return False
    return one.type in units or (one.type in job.setting("has-own-circuit.associated") and one.part_of is load)


def _are_its_own(receptacles: Members[Receptacles], load: Load, job: Job) -> bool:
    """One receptacle, which is there for an appliance, and the load has a cord."""
    if not receptacles.some(lambda one: True):
        return True
    return all_hold(
        lambda: len(receptacles.known) == 1 and not any(one.count > 1 for one in receptacles),
        lambda: load.connection == "cord",
        lambda: receptacles.every(lambda one: any(what in job.setting("has-own-circuit.serving") for what in one.serves)),
    )


@fact
def may_share_circuit(load: Load, job: Job) -> bool:
    """Whether a car charger is small enough to share its circuit with other outlets. NFPA 70 625.40, from 2023 on."""
    if load.type != "car-charger":
        does_not_arise(load, f"{load.name}: a car charger")
    current: Current = job.setting("may-share-circuit.car-charger")
    volts: Voltage = job.setting("may-share-circuit.car-charger-volts")
    return all_hold(lambda: plate_current(load, job) <= current * load.count, lambda: load.volts <= volts)


@fact
def gfci_protected(outlet: Receptacles | Lights | Load, job: Job) -> bool:
    """Whether a GFCI protects it: its own or one before it, or the breaker of its circuit.

    Of what has a cord, the receptacle's counts too. Of a car charger, and where the outlet is what must be protected, one that is
    built in doesn't count. NFPA 70 210.8, 422.5(B), 625.54.
    """
    tests = [lambda: "gfci" in outlet.circuit.protection]
    if not isinstance(outlet, Load):
        tests.append(lambda: outlet.gfci)
    else:
        tests.append(lambda: _has_its_own(outlet, job))
        tests.append(lambda: outlet.connection == "cord" and _receptacle_is_protected(outlet.circuit, job))
    return not all_hold(*(lambda test=test: not test() for test in tests))


def _has_its_own(load: Load, job: Job) -> bool:
    """A GFCI beside it, or in it where that does. Where the plan shows the receptacle of its cord, that one tells."""
    if load.type not in job.setting("gfci-protected.own-is-not-enough"):
        return load.gfci
    return all_hold(
        lambda: not job.graph.those(Receptacles, "circuit", load.circuit).known or load.connection != "cord",
        lambda: load.gfci,
        lambda: not load.gfci_built_in,
    )


def _receptacle_is_protected(circuit: Circuit, job: Job) -> bool:
    receptacles = job.graph.those(Receptacles, "circuit", circuit)
    return receptacles.every(lambda one: one.gfci) and bool(receptacles.whole())


@fact
def has_receptacle_for_its_cord(load: Load, job: Job) -> bool:
    """Whether its circuit has a receptacle into which its cord can be plugged: one of its volts, where two poles give both.

    NFPA 70 210.50(B), 400.10(B), 406.4(A).
    """
    circuit = load.circuit
    most: Voltage = job.setting("voltage-suits.one-pole-up-to")

    def takes_its_plug(one: Receptacles) -> bool:
        return any_holds(lambda: circuit.poles == 1, lambda: (load.volts > most) == (receptacle_volts(one, job) > most))

    return job.graph.those(Receptacles, "circuit", circuit).some(takes_its_plug)


@fact
def wires_suit(load: Load, job: Job) -> bool:
    """Whether its circuit brings the wires that it needs: to a range or dryer two hots, a neutral and a ground.

    A circuit that was there before may keep three wires, with a neutral that is large enough; a bare one only from the service
    panel. NFPA 70 250.140 and its exception (2023: 250.140(A), (B)).
    """
    if load.type not in job.setting("wires-suit.four-wires"):
        return True
    circuit = load.circuit
    if all_hold(lambda: has_neutral(circuit, job), lambda: ground_path(circuit, job) != "none"):
        return True
    return all_hold(lambda: circuit.existing, lambda: _neutral_grounds_it(circuit, job))


def _neutral_grounds_it(circuit: Circuit, job: Job) -> bool:
    """Whether the neutral of an old circuit is one that may ground the frames at its end. NFPA 70 250.140, exception."""
    least = job.setting("wires-suit.old-neutral").by_metal
    return all_hold(
        lambda: has_neutral(circuit, job),
        lambda: neutral_size(circuit, job) >= least[neutral_size(circuit, job).metal],
        lambda: neutral_wires(circuit, job).insulation != "bare" or role(circuit.panel, job) == "service",
    )


@fact
def may_stay_ungrounded(run: Feeder | Circuit, job: Job) -> bool:
    """Whether it may do without a ground because it was there before: nothing new is fed from it, or it is an old range's.

    NFPA 70 250.130(C), 250.140, exception (2023: 250.140(B)). A feeder that stays has become one too often, by a new disconnect
    ahead of it, to be let off so.
    """
    if not isinstance(run, Circuit):
        return False
    types: tuple[str, ...] = job.setting("may-stay-ungrounded.by-its-neutral")
    appliances = job.graph.those(Load, "circuit", run)
    return all_hold(
        lambda: run.existing,
        lambda: any_holds(
            lambda: not run.extended,
            lambda: all_hold(
                lambda: appliances.some(lambda load: True),
                lambda: appliances.every(lambda load: load.type in types),
                lambda: job.graph.those(Lights, "circuit", run).every(lambda lights: False),
                lambda: job.graph.those(Receptacles, "circuit", run).every(lambda outlet: set(outlet.serves) <= {"appliance"}),
                lambda: _neutral_grounds_it(run, job),
            ),
        ),
    )


@fact
def voltage_suits(outlet: Load | Receptacles, job: Job) -> bool:
    """Whether its circuit gives an appliance the voltage of its plate, or receptacles that for which they are made.

    What takes 208 V or 240 V wants a breaker of two poles; what takes 120 V wants one pole, or a neutral beside two.
    NFPA 70 110.3(B), 110.4, 406.4(A).
    """
    most: Voltage = job.setting("voltage-suits.one-pole-up-to")
    circuit = outlet.circuit
    too_little = all_hold(lambda: circuit.poles == 1, lambda: _volts_taken(outlet, job) > most)
    return not too_little and not all_hold(
        lambda: circuit.poles == 2, lambda: not has_neutral(circuit, job), lambda: _volts_taken(outlet, job) <= most
    )


def _volts_taken(outlet: Load | Receptacles, job: Job) -> Voltage:
    return outlet.volts if isinstance(outlet, Load) else receptacle_volts(outlet, job)


@fact
def plate_breaker_fits(load: Load, job: Job) -> bool:
    """Whether its breaker is no larger than its plate allows. NFPA 70 110.3(B), 440.4(B), 440.22.

    Of what is no cooling unit only where the plan states what the plate says.
    """
    if not load.states("nameplate-breaker") and not is_cooling_unit(load, job):
        return True
    return load.circuit.breaker <= load.nameplate_breaker


@fact
def plate_breaker_carries(load: Load, job: Job) -> bool:
    """Whether the breaker of a cooling unit carries it: at least the minimum circuit ampacity, or what the unit draws."""
    breaker = load.circuit.breaker
    return not is_cooling_unit(load, job) or not all_hold(
        lambda: breaker < load.nameplate_ampacity * load.count,
        lambda: breaker < plate_current(load, job),
    )


@fact
def appliance_breaker_fits(load: Load, job: Job) -> bool:
    """Whether a water heater that has its circuit to itself has no larger breaker than it may: 150 % of it, the next size up.

    One that draws little may have 20 A; what its plate says goes before. NFPA 70 422.11(E).
    """
    if load.type not in job.setting("appliance-breaker-fits.types") or load.states("nameplate-breaker"):
        return True
    return load.circuit.breaker <= largest_appliance_breaker(load, job) or not has_own_circuit(load, job)


@fact
def heaters_may_share(load: Load, job: Job) -> bool:
    """Whether a heater has its circuit to itself, or a breaker that several heaters may share.

    Not stated of what may be infrared heaters outside a dwelling, which may have a larger one. NFPA 70 424.4(A) (2017: 424.3(A)).
    """
    if load.type not in job.setting("heaters-may-share.types"):
        return True
    breaker, most = load.circuit.breaker, job.setting("heaters-may-share.most")
    if breaker <= most or not _is_one_of_several(load, job):
        return True
    if breaker <= job.setting("heaters-may-share.most-infrared") and not is_dwelling(building_of(load, job), job):
        not_stated(load, "type", f"{load.name}: whether it is an infrared heater, several of which may have more than {most}")
    return False


def _is_one_of_several(load: Load, job: Job) -> bool:
    types: tuple[str, ...] = job.setting("heaters-may-share.types")
    others = loads_on(load.circuit, job).where(lambda one: one is not load and not one.planned)
    return any_holds(lambda: load.count > 1, lambda: others.some(lambda one: one.type in types), lambda: load.units > 1)


@fact
def largest_appliance_breaker(load: Load, job: Job) -> Current:
    """The largest breaker for a water heater by itself, where its plate names none. NFPA 70 422.11(E)(2), (3)."""
    if load.type not in job.setting("appliance-breaker-fits.types"):
        does_not_arise(load, f"{load.name}: a water heater")
    drawn, share = plate_current(load, job), job.setting("appliance-breaker-fits.most")
    if drawn <= job.setting("appliance-breaker-fits.small-up-to"):
        small: Current = job.setting("appliance-breaker-fits.small")
        return small
    fitting = [rating for rating in job.tables.standard_ratings(job.edition) if rating >= drawn * share]
    if not fitting:
        not_stated(load, "rating", f"{load.name}: a rating for whose {drawn * share} there is a standard breaker")
    job.step(f"{share} x {drawn} = {drawn * share}, the next standard rating", fitting[0], "NFPA 70 422.11(E)(3)")
    return fitting[0]
