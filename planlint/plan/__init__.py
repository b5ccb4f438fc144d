"""The vocabulary: one class for each kind of statement, and the graph that joins the elements of a plan.

The classes are the one place where the project declares what a plan may say; the reader, the messages, the rule
language and the reference page all take it from here.
"""

from planlint.plan.elements import Draft, Element, Need, NotStated, Stated, does_not_arise, not_stated
from planlint.plan.gear import Disconnect, Gear, Meter, Panel, Supply, TransferSwitch, WorkingSpace
from planlint.plan.grounding import Bond, Electrode, ElectrodeConductor, Piping
from planlint.plan.outlets import Box, Lights, Load, Receptacles
from planlint.plan.routes import Holes, OverheadSpan, Raceway, Trench
from planlint.plan.runs import Circuit, Feeder, Run, Service
from planlint.plan.site import Building, Permission, Place, Plan
from planlint.plan.spaces import Counter, WallSpace

KINDS: dict[str, type[Element]] = {
    cls.kind: cls
    for cls in (
        Plan, Building, Place, Supply, Meter, Disconnect, Panel, TransferSwitch, Service, Feeder, Circuit, Receptacles,
        Lights, Load, WallSpace, Counter, Raceway, Trench, OverheadSpan, Holes, Box, Electrode, ElectrodeConductor, Bond,
        Piping, Permission,
    )
}  # fmt: skip

__all__ = [
    "KINDS", "Bond", "Box", "Building", "Circuit", "Counter", "Disconnect", "Draft", "Electrode", "ElectrodeConductor",
    "Element", "Feeder", "Gear", "Holes", "Lights", "Load", "Meter", "Need", "NotStated", "OverheadSpan", "Panel",
    "Permission", "Piping", "Place", "Plan", "Raceway", "Receptacles", "Run", "Service", "Stated", "Supply",
    "TransferSwitch", "Trench", "WallSpace", "WorkingSpace", "does_not_arise", "not_stated",
]  # fmt: skip
