"""Hot tubs: what keeps away from the water, the ground wire that goes out to them, the floor round them. NFPA 70 article 680."""

from planlint.facts.appliances import gfci_protected
from planlint.facts.buildings import stands_outdoors
from planlint.facts.circuit_faults import broken_parts
from planlint.facts.demand import plate_current
from planlint.facts.engine import Job, fact
from planlint.facts.equipment_ground import ground_in_use
from planlint.facts.outlet_volts import receptacle_volts
from planlint.facts.wires import cable_type, ground_wires
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.members import all_hold
from planlint.plan.outlets import Load, Receptacles
from planlint.plan.site import Place
from planlint.quantities import Current, Length
from planlint.trade import WireSize


def _is_tub(load: Load) -> None:
    if load.type != "hot-tub":
        does_not_arise(load, f"{load.name}: a hot tub")


@fact
def tub_disconnect_suits(load: Load, job: Job) -> bool:
    """Whether what shuts a hot tub off is out of a bather's reach and in sight of it; a plug is in sight.

    NFPA 70 680.13 (up to 2014: 680.12).
    """
    _is_tub(load)
    return all_hold(lambda: load.disconnect_distance >= _least_distance(job), lambda: _is_in_sight(load))


def _least_distance(job: Job) -> Length:
    least: Length = job.setting("tub-disconnect-suits.least")
    return least


def _is_in_sight(load: Load) -> bool:
    return not all_hold(lambda: load.disconnect != "cord", lambda: not load.disconnect_in_sight)


@fact
def tub_receptacle_suits(load: Load, job: Job) -> bool:
    """Whether the receptacle nearest to a hot tub is far enough from the water, and near enough that no cord is laid to it.

    NFPA 70 680.22(A) outdoors, 680.43(A) indoors.
    """
    _is_tub(load)
    nearest = load.receptacle_distance
    indoors, outdoors = job.setting("tub-receptacle-suits.most-indoors"), job.setting("tub-receptacle-suits.most-outdoors")
    if nearest < job.setting("tub-receptacle-suits.least") or nearest > outdoors:
        return False
    return nearest <= indoors or stands_outdoors(load, job)


@fact
def tub_receptacles_protected(load: Load, job: Job) -> bool:
    """Whether all usual receptacles near a hot tub indoors have a GFCI; outdoors all receptacles are held to that anyway.

    NFPA 70 680.43(A)(2).
    """
    _is_tub(load)
    if stands_outdoors(load, job):
        return True
    return not job.graph.those(Receptacles, "at", load.at).some(lambda one: _is_bare_near_water(one, job))


def _is_bare_near_water(one: Receptacles, job: Job) -> bool:
    limit: Length = job.setting("tub-receptacles-protected.within")
    return all_hold(
        lambda: not gfci_protected(one, job),
        lambda: one.distance_to_tub <= limit,
        lambda: receptacle_volts(one, job) <= job.setting("tub-receptacles-protected.most-volts"),
    )


def _range(load: Load, job: Job) -> str:
    least, indoors, outdoors = (
        job.setting(f"tub-receptacle-suits.{name}") for name in ("least", "most-indoors", "most-outdoors")
    )
    if load.receptacle_distance < least:
        return f"{least} or more"
    return f"no more than {outdoors} (indoors {indoors})" if load.receptacle_distance > outdoors else f"no more than {indoors}"


@fact
def tub_gfci_suits(load: Load, job: Job) -> bool:
    """Whether a GFCI protects a hot tub. Of one that was put together on site the code lets out what has a large heater.

    NFPA 70 680.44. Not stated for such a one without GFCI: a plan says what the whole tub draws, not what its heater does.
    """
    _is_tub(load)
    return not all_hold(lambda: not gfci_protected(load, job), lambda: not _may_do_without(load, job))


def _may_do_without(load: Load, job: Job) -> bool:
    most: Current = job.setting("tub-gfci-suits.heater-up-to")
    if not all_hold(lambda: not load.self_contained, lambda: plate_current(load, job) > most):
        return False
    not_stated(load, "rating", f"{load.name}: whether its heater alone draws more than {most}")


@fact
def tub_ground_suits(load: Load, job: Job) -> bool:
    """Whether a copper ground wire that is large enough comes to a hot tub outdoors, and is insulated on its way there.

    Inside a building it may lie bare in the sheath of a cable: that is all of the way where the tub has a cord. Not stated where
    the plan says nothing of what goes on outdoors. NFPA 70 680.21(A), 680.42(C).
    """
    _is_tub(load)
    size, least = ground_in_use(load.circuit, job), _least_ground(job)
    return size.metal == "copper" and size >= least and _is_covered(load, job)


def _least_ground(job: Job) -> WireSize:
    least: WireSize = job.setting("tub-ground-suits.least").by_metal["copper"]
    return least


def _is_covered(load: Load, job: Job) -> bool:
    circuit = load.circuit
    wires, cable = ground_wires(circuit, job), cable_type(circuit, job)
    if wires.count and wires.insulation not in ("", "bare"):
        return True
    if wires.insulation == "bare" and cable == "none":
        return False
    if cable == "NM-B" and load.connection == "cord":
        return True
    if wires.insulation == "bare" and cable != "NM-B" and load.connection == "hard-wired":
        return False
    not_stated(circuit, "ground", f"{circuit.name}: ground, the insulation of the wire that goes out to {load.name}")


@fact
def surround_suits(load: Load, job: Job) -> bool:
    """Whether the floor round a hot tub is bonded, or need not be: by its listing as one unit, and by its rim or its floor.

    Outdoors above ground, where the rim is high enough over all that one can stand on; indoors above a finished floor.
    NFPA 70 680.26(B)(2), 680.42(B), 680.43 exception 2.
    """
    _is_tub(load)
    return not all_hold(
        lambda: not load.surround_bonded,
        lambda: not all_hold(lambda: load.self_contained, lambda: _stands_high(load, job)),
    )


def _stands_high(load: Load, job: Job) -> bool:
    if stands_outdoors(load, job):
        least: Length = job.setting("surround-suits.least-rim")
        return load.rim_height >= least
    if isinstance(load.at, Place) and load.at.finished:
        return True
    not_stated(load, "surround-bonded", f"{load.name}: whether it stands above a finished floor")


@fact
def tub_fault(load: Load, job: Job) -> str:
    """What is wrong round a hot tub: its disconnect, its receptacle, its GFCI."""
    return broken_parts(
        load,
        (
            lambda: load.disconnect_distance >= _least_distance(job),
            lambda: f"its disconnect is {load.disconnect_distance} from the water, and must be {_least_distance(job)} or more",
        ),
        (lambda: _is_in_sight(load), lambda: "its disconnect is out of its sight"),
        (
            lambda: tub_receptacle_suits(load, job),
            lambda: f"its nearest receptacle is {load.receptacle_distance} from the water, and must be {_range(load, job)}",
        ),
        (lambda: tub_gfci_suits(load, job), lambda: "it has no GFCI"),
        (lambda: tub_receptacles_protected(load, job), lambda: "a receptacle near it has no GFCI"),
    )
