"""Pipe to buy: by type and trade size with elbows, couplings, connectors, expansion fittings, bushings and straps."""

from functools import partial

from planlint.facts.equipment_ground import RIGID_METAL
from planlint.facts.expansion import expansion_fittings_needed
from planlint.facts.material import RIGID, couplings, elbows, pipe_to_buy, straps_needed
from planlint.facts.pulls import next_piece, piece_before
from planlint.facts.ways import contents, is_utility_owned
from planlint.facts.wires import hot_size
from planlint.papers.material.wanted import Collector
from planlint.plan.routes import Raceway, Trench
from planlint.quantities import Length
from planlint.trade import WireSize

PIPES, DITCH = "Pipe and fittings", "In the ditch"
LARGE = WireSize("4", "copper")
FLEXIBLE_IN_COILS = ("ENT", "FMC", "LFMC", "LFNC-A", "LFNC-B")


def add_pipes(to: Collector) -> None:
    """Of every raceway that isn't the utility's, and the ribbon of every ditch."""
    for raceway in to.docket.graph.all(Raceway).known:
        if to.docket.ask(raceway, partial(is_utility_owned, raceway, to.docket.job)) is not True:
            _raceway(raceway, to)
    for trench in to.docket.graph.all(Trench).known:
        _ditch(trench, to)


def _raceway(raceway: Raceway, to: Collector) -> None:
    job = to.docket.job
    sort = to.unless_unknown(PIPES, raceway, f"pipe of {raceway.name}", lambda: f"{raceway.size.name} in {raceway.type}")
    if sort is None:
        return
    thing = "rigid-pipe" if raceway.type in RIGID else "flexible-pipe" if raceway.type in FLEXIBLE_IN_COILS else "long-pipe"
    to.lengths(PIPES, raceway, f"{sort} pipe", lambda: pipe_to_buy(raceway, job), thing, joined=raceway.type in RIGID)
    to.pieces(PIPES, raceway, f"{sort} elbow", lambda: elbows(raceway, job))
    to.pieces(PIPES, raceway, f"{sort} coupling", lambda: couplings(raceway, job) + (1 if next_piece(raceway, job) else 0))
    to.pieces(PIPES, raceway, f"{sort} connector for a case or box", lambda: _ends(raceway, to))
    to.pieces(PIPES, raceway, f"bushing for {raceway.size.name} in pipe", lambda: _bushings(raceway, to))
    to.pieces(PIPES, raceway, f"{sort} expansion fitting", lambda: _expansion_fittings(raceway, to))
    to.pieces(PIPES, raceway, f"{sort} strap", lambda: straps_needed(raceway, job))
    if raceway.states("bonding") and raceway.bonding in ("bonding-bushing", "bonding-locknut", "threaded-hub"):
        to.pieces(PIPES, raceway, f"{raceway.bonding} for {raceway.size.name} in pipe", 2)


def _ends(raceway: Raceway, to: Collector) -> int:
    """The ends that go into a case or box: two, but those that lead into the next piece, and a sleeve's open ones."""
    if raceway.states("route") and raceway.route == "sleeve":
        return 0
    job = to.docket.job
    ends = 2 - (1 if next_piece(raceway, job) else 0) - (1 if piece_before(raceway, job) else 0)
    return ends - (1 if raceway.states("ends-in") and raceway.ends_in is None else 0)


def _bushings(raceway: Raceway, to: Collector) -> int:
    """One for each end in a case through which 4 AWG or larger passes. NFPA 70 300.4(G)."""
    inside = contents(raceway, to.docket.job).whole()
    if not any(hot_size(run, to.docket.job).area >= LARGE.area for run in inside):
        return 0
    return _ends(raceway, to)


def _expansion_fittings(raceway: Raceway, to: Collector) -> int:
    if not raceway.states("expansion-fitting") or not raceway.expansion_fitting:
        return 0
    return max(1, expansion_fittings_needed(raceway, to.docket.job)) if raceway.type not in RIGID_METAL else 1


def _ditch(trench: Trench, to: Collector) -> None:
    if trench.states("warning-ribbon") and trench.warning_ribbon:
        to.lengths(DITCH, trench, "warning ribbon", lambda: _ribbon(trench, to), "ribbon", joined=True)


def _ribbon(trench: Trench, to: Collector) -> Length:
    """As long as the ditch; where its length isn't stated, as the longest pipe that lies in it."""
    if trench.states("length"):
        return trench.length
    pipes = to.docket.graph.those(Raceway, "trench", trench).known
    if not pipes:
        return trench.length
    return max(pipe.length for pipe in pipes)
