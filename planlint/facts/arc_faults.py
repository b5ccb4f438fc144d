"""Which circuits want an AFCI: 120 V, of the small breakers, into the rooms where people live."""

from planlint.facts.buildings import Outlet, building_at, is_dwelling, outlets_on, stands_at
from planlint.facts.engine import Job, fact
from planlint.facts.outlet_volts import is_usual
from planlint.facts.wall_spaces import is_in_dwelling, room_lived_in
from planlint.facts.wires import has_neutral
from planlint.plan.elements import not_stated
from planlint.plan.members import all_hold, any_holds
from planlint.plan.outlets import Lights, Load
from planlint.plan.runs import Circuit
from planlint.plan.site import Building, Place
from planlint.quantities import Current, Voltage


@fact
def afci_needed(circuit: Circuit, job: Job) -> bool:
    """Whether it wants an AFCI: a new 120 V circuit of 15 or 20 A (2023: 10 A too) with an outlet or switch in a room.

    NFPA 70 210.12(A) (2023: 210.12(B)).
    """
    least: Current = job.setting("afci-needed.least-breaker")
    most: Current = job.setting("afci-needed.most-breaker")
    return all_hold(
        lambda: not circuit.existing,
        lambda: least <= circuit.breaker <= most,
        lambda: _gives_120(circuit, job),
        lambda: outlets_on(circuit, job).some(
            lambda outlet: any_holds(lambda: is_in_afci_room(outlet, job), lambda: is_switched_from_one(outlet, job))
        ),
    )


def _gives_120(circuit: Circuit, job: Job) -> bool:
    """120 V from one pole; from two of a shared neutral, if anything on it takes 120 V."""
    usual: Voltage = job.setting("receptacle-volts.usual")
    if circuit.states("volts") or "volts" in circuit.unknown:
        return circuit.volts == usual
    return any_holds(
        lambda: is_usual(circuit, usual),
        lambda: all_hold(
            lambda: has_neutral(circuit, job),
            lambda: outlets_on(circuit, job).some(lambda outlet: _takes(outlet, usual)),
        ),
    )


def _takes(outlet: Outlet, volts: Voltage) -> bool:
    return isinstance(outlet, Lights) or outlet.volts == volts


def is_in_afci_room(outlet: Outlet, job: Job) -> bool:
    """Whether an outlet is in one of the dwelling's rooms of the list. What is planned only doesn't count yet."""
    place = outlet.at
    if isinstance(outlet, Load) and outlet.planned:
        return False
    if isinstance(place, Building):
        if not is_dwelling(place, job):
            return False
        not_stated(outlet, "at", f"{outlet.name}: at, the room that it is in")
    return _is_afci_room(place, job)


def _is_afci_room(place: Place, job: Job) -> bool:
    return all_hold(
        lambda: room_lived_in(place, job) in job.setting("afci-needed.rooms"),
        lambda: is_in_dwelling(place, job),
    )


def is_switched_from_one(outlet: Outlet, job: Job) -> bool:
    """Whether a light's wall switch is in one of those rooms, wherever the light is: a switch is a device of the circuit.

    Not asked of an outbuilding's lights on its own panel.
    """
    if not isinstance(outlet, Lights):
        return False
    return all_hold(
        lambda: outlet.switched_from > 0,
        lambda: not _is_on_its_outbuildings_panel(outlet, job),
        lambda: any(_is_afci_room(place, job) for place in outlet.switch_at),
    )


def _is_on_its_outbuildings_panel(lights: Lights, job: Job) -> bool:
    home = building_at(lights.at)
    return home is not None and not is_dwelling(home, job) and stands_at(lights.circuit.panel, job) is home


@fact
def afci_rooms(circuit: Circuit, job: Job) -> str:
    """The rooms for whose outlets or switches it wants an AFCI, by name. NFPA 70 210.12(A) (2023: 210.12(B))."""
    outlets = outlets_on(circuit, job)
    names = [outlet.at.name for outlet in outlets.where(lambda outlet: is_in_afci_room(outlet, job))]
    for lights in outlets.where(lambda outlet: is_switched_from_one(outlet, job)):
        names += [place.name for place in lights.value("switch-at") if _is_afci_room(place, job)]
    return ", ".join(dict.fromkeys(names)) or "none"
