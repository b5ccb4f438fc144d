"""Holes in the framing: what goes through them, and the largest that still leaves enough wood."""

from typing import cast

from planlint.facts.engine import Job, fact
from planlint.facts.ways import pipes_of
from planlint.facts.wires import Wired, is_cable
from planlint.plan.elements import not_stated
from planlint.plan.members import Members
from planlint.plan.routes import Holes, Raceway
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Length

# Pipe that a nail or a screw doesn't pierce, or that shows it. NFPA 70 300.4(A)(1) exception 1, (D) exception 1.
NAIL_PROOF = ("RMC", "IMC", "PVC-40", "PVC-80", "EMT")


@fact
def runs(holes: Holes, job: Job) -> Members[Service | Feeder | Circuit]:
    """The runs that pass through these holes: those that name them."""
    services, feeders, circuits = (job.graph.those(kind, "holes", holes) for kind in (Service, Feeder, Circuit))
    return cast("Members[Wired]", services.joined(feeders, circuits))


@fact
def carries_cable(holes: Holes, job: Job) -> bool:
    """Whether cable or flexible pipe passes through, which nails and screws pierce; rigid pipe and EMT they don't.

    NFPA 70 300.4(A)(1), (D). Not stated while no run names the holes.
    """
    passing = runs(holes, job)
    if not passing.known:
        not_stated(holes, "runs", f"which runs pass through {holes.name}")
    return passing.some(lambda run: _is_pierced(run, holes, job))


def _is_pierced(run: Wired, holes: Holes, job: Job) -> bool:
    """A cable; of loose wires, the pipes that may pass through framing decide, if they are alike.

    Not stated of a cable that lies in such a pipe on part of its way: there or elsewhere.
    """
    indoors = [pipe for pipe in pipes_of(run, job) if _may_pass_framing(pipe)]
    if is_cable(run, job):
        if any(pipe.type in NAIL_PROOF for pipe in indoors):
            not_stated(run, "raceway", f"whether {run.name} lies in its pipe where it passes through {holes.name}")
        return True
    soft = [pipe for pipe in indoors if pipe.type not in NAIL_PROOF]
    if not indoors or 0 < len(soft) < len(indoors):
        not_stated(run, "raceway", f"which pipe of {run.name} passes through {holes.name}")
    return bool(soft)


def _may_pass_framing(pipe: Raceway) -> bool:
    return not pipe.states("trench") and pipe.route in ("inside", "sleeve")


@fact
def edge_left(holes: Holes, job: Job) -> Length:
    """What is left of the wood to its nearest edge. Not stated where wood so deep can't have both that and such a hole.

    NFPA 70 300.4(A)(1); International Residential Code R502.8.1, R602.6.
    """
    if holes.states("diameter") and holes.states("member-depth"):
        most = (holes.member_depth - holes.diameter) * 0.5
        if holes.edge_distance > most:
            hole = f"a hole of {holes.diameter} in wood {holes.member_depth} deep"
            not_stated(holes, "edge-distance", f"{holes.name}: edge-distance, for {hole} leaves no more than {most}")
    return holes.edge_distance


@fact
def largest_hole(holes: Holes, job: Job) -> Length:
    """The largest hole that leaves enough wood on both sides when it is bored in the middle; 0 in where no hole does.

    NFPA 70 300.4(A)(1): the depth of the wood less twice the distance to its edge.
    """
    edge: Length = job.setting("hole-or-run-too-near-face.least-edge")
    left = holes.member_depth - edge * 2
    largest = max(left, Length.of(0, "in"))
    job.step(f"{holes.member_depth} - 2 x {edge}", largest, "NFPA 70 300.4(A)(1)")
    return largest
