"""Which circuits and loads are large enough to be drawn by themselves. Common practice, no source."""

from planlint.papers.docket import Docket
from planlint.plan import Circuit, Load
from planlint.quantities import Power, Voltage

_LARGE_POWER, _LARGE_VOLTS = Power.of(1.5, "kW"), Voltage.of(200, "V")
_LARGE_KINDS = (
    "range", "oven", "cooktop", "dryer", "water-heater", "furnace", "boiler", "air-handler", "heat-pump", "air-conditioner",
    "supplementary-heat", "space-heat", "baseboard-heat", "storage-heat", "well-pump", "kiln", "welder", "car-charger", "hot-tub",
)  # fmt: skip
MOTORS = ("well-pump", "sump-pump", "motor", "fan", "hood", "disposal", "heat-pump", "air-conditioner", "air-handler")
HEATERS = (
    "range", "oven", "cooktop", "dryer", "water-heater", "supplementary-heat", "space-heat", "baseboard-heat", "storage-heat",
    "kiln", "hot-tub", "boiler",
)  # fmt: skip


def is_large(load: Load) -> bool:
    """Whether an appliance is drawn by itself: fixed wiring, 240 V, 1.5 kW and more, or of a kind that is always large."""
    return (
        (load.states("connection") and load.connection == "hard-wired")
        or (load.states("volts") and load.volts >= _LARGE_VOLTS)
        or (load.states("rating") and load.rating >= _LARGE_POWER)
        or (load.states("type") and load.type in _LARGE_KINDS)
    )


def has_own_line(circuit: Circuit, docket: Docket) -> bool:
    """Whether a circuit is drawn by itself: two poles or more, or a large load on it."""
    if circuit.states("poles") and circuit.poles > 1:
        return True
    return any(is_large(load) for load in docket.graph.those(Load, "circuit", circuit))
