"""What a plan implies: one typed function for each worked value, kept with its steps and sources."""

from importlib import import_module

TOPICS: tuple[str, ...] = (
    "wires", "ways", "pulls", "fill", "surroundings", "buildings", "roles", "supplies", "disconnects", "surges", "entrance",
    "demand", "circuit_load", "building_load", "load", "drop", "fault", "ampacity", "dwelling_supply", "overcurrent",
    "equipment_ground", "bonding", "electrodes", "soil", "electrode_wires", "electrode_places", "burial", "framing", "space",
)  # fmt: skip


def load_facts() -> None:
    """Declare every fact (each topic's module does so on import)."""
    for topic in TOPICS:
        import_module(f"planlint.facts.{topic}")
