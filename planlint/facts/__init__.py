"""What a plan implies: one typed function for each worked value, kept with its steps and sources."""

from functools import cache
from importlib import import_module

from planlint.book import NOWHERE
from planlint.faults import Fault, Faults
from planlint.installed import Offer, offers

ENTRY_POINTS = "planlint.facts"

# The files of this room by the topics of a worksheet, in its order.
TOPICS: dict[str, tuple[str, ...]] = {
    "Load": (
        "floor_areas", "demand", "circuit_load", "circuit_needs", "standard_load", "optional_load", "building_load",
        "parts_served", "load", "continuous_load", "neutral", "legs", "load_checks",
    ),
    "Conductors": ("wires", "surroundings", "ampacity", "dwelling_supply", "overcurrent", "wires_for_load"),
    "Circuits": ("shared_neutral", "receptacle_ratings", "circuit_total", "own_circuits", "required_circuits", "breaker_spaces"),
    "Motors and appliances": ("motors", "motor_breakers", "overloads", "appliances", "circuit_faults", "hot_tubs"),
    "Other sources": ("other_sources", "generators", "shutdown"),
    "Protection and outlets": (
        "outlet_volts", "ground_fault_places", "ground_faults", "arc_faults", "temporary", "receptacle_types", "light_places",
    ),
    "Voltage drop": ("wire_ohms", "drop", "starting"),
    "Fault current": ("fault", "series_ratings"),
    "Grounding and bonding": (
        "equipment_ground", "bonding", "line_side", "electrodes", "electrode_wires", "electrode_places", "electrode_routes",
        "piping", "soil",
    ),
    "Raceways": (
        "ways", "pulls", "fill", "wet_places", "supports", "expansion", "pull_limits", "pulling", "pull_path", "raceway_ends",
        "together",
    ),
    "Boxes": ("boxes", "pull_boxes"),
    "Underground": ("burial", "risers", "trenches"),
    "Buildings and gear": (
        "buildings", "roles", "supplies", "disconnects", "disconnect_ratings", "meters", "surges", "entrance",
        "service_lines", "spans", "sight", "panel_terminals", "labels",
    ),
    "Rooms and outlets": ("wall_spaces", "counters", "room_receptacles", "lighting"),
    "Framing and working space": ("framing", "sealed_holes", "wood", "open_cables", "space"),
    "Material": ("material",),
}  # fmt: skip


def topic_word(topic: str) -> str:
    """A topic as a command is given it: `voltage-drop`."""
    return topic.lower().replace(" ", "-")


def topics() -> dict[str, tuple[str, ...]]:
    """Every topic of a worksheet with the modules that declare its facts, those of installed packages last."""
    found = {title: tuple(f"planlint.facts.{module}" for module in modules) for title, modules in TOPICS.items()}
    foreign = tuple(offer.value for offer in installed_facts())
    return found | {"From installed packages": foreign} if foreign else found


@cache
def installed_facts() -> tuple[Offer, ...]:
    """The modules that installed packages offer under the entry-point group `planlint.facts`."""
    return tuple(offers(ENTRY_POINTS))


def load_facts() -> None:
    """Declare every fact (each module does so on import), then those of installed packages.

    Raises planlint.faults.Faults where such a package can't be imported or declares a fact that there is already.
    """
    for modules in TOPICS.values():
        for module in modules:
            import_module(f"planlint.facts.{module}")
    for offer in installed_facts():
        try:
            import_module(offer.value)
        except Exception as fault:  # whatever a foreign package does, a person should read which one it is
            message = f"the facts of the installed package {offer.called} can't be taken: {type(fault).__name__}: {fault}"
            raise Faults([Fault(NOWHERE, message)]) from None
