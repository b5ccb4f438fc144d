"""What lands on a panel beside its feed: breakers that are fed backwards, and the neutrals on its bar."""

from collections.abc import Iterable

from planlint.facts.engine import Job, fact
from planlint.facts.wires import ground_wires, has_neutral
from planlint.plan.elements import not_stated
from planlint.plan.gear import Panel, Supply, TransferSwitch
from planlint.plan.members import Members, all_hold
from planlint.plan.runs import Circuit, Feeder, Service


@fact
def is_backfed(run: Feeder, job: Job) -> bool:
    """Whether it brings the power of another source than the utility to a breaker of a panel that the utility feeds too.

    What ends in a transfer switch or a disconnect lands on that one's own terminals; what comes out of a transfer switch is the
    panel's one feed, whichever source is chosen. NFPA 70 408.36(D).
    """
    end = run.to
    if isinstance(end, TransferSwitch) and end.type == "interlock":
        end = end.panel
    if not isinstance(end, Panel):
        return False
    others = job.graph.feeds_into(end).where(lambda one: one is not run)
    return all_hold(
        lambda: _is_from_another_source(run, job),
        lambda: others.some(lambda one: not _is_from_another_source(one, job)),
    )


def _is_from_another_source(run: Service | Feeder, job: Job) -> bool:
    """Whether all that lies ahead of it begins at sources other than the utility."""
    if isinstance(run, Service):
        return False
    start = run.from_
    if isinstance(start, Supply):
        return start.type != "utility"
    ahead = job.graph.feeds_into(start)
    if not ahead.known:
        not_stated(start, "fed-by", f"which service or feeder ends at {start.name}")
    return ahead.every(lambda one: _is_from_another_source(one, job))


@fact
def neutrals_landed(panel: Panel, job: Job) -> int:
    """How many neutrals of circuits and of feeders that start there land in it, a shared one once; not that of its own feed.

    NFPA 70 408.41.
    """
    landed = _landed(panel, job).whole()
    number = _on_bar(landed)
    job.step(f"neutrals of {', '.join(run.name for run in landed) or 'nothing'}, a shared one once", number, "NFPA 70 408.41")
    return number


@fact
def neutrals_have_screws(panel: Panel, job: Job) -> bool:
    """Whether its neutral bar has a screw for each. NFPA 70 408.41.

    A breaker with AFCI or GFCI takes the circuit's neutral and brings one of its own to the bar; in a panel made for it that one
    clips on and needs no screw.
    """
    screws, landed = panel.neutral_terminals, _landed(panel, job)
    bare = landed.where(lambda run: isinstance(run, Feeder) or not {"afci", "gfci"} & {*run.protection})
    if screws < _on_bar(bare.known):
        return False
    if screws >= _on_bar(landed.whole()):
        return True
    return all_hold(lambda: panel.plug_on_neutral, lambda: screws >= _on_bar(bare.whole()))


@fact
def grounds_land_apart(panel: Panel, job: Job) -> bool:
    """Whether its equipment grounds have a bar of their own; without any bar only where no ground wire comes. NFPA 70 408.40."""
    if panel.ground_bar != "none":
        return panel.ground_bar == "separate"
    runs: Members[Circuit | Feeder] = Members(job.graph.those(Circuit, "panel", panel).known)
    runs = runs.joined(job.graph.those(Circuit, "panel", panel), job.graph.those(Feeder, "from", panel))
    runs = runs.joined(job.graph.those(Feeder, "to", panel))
    return not runs.some(lambda run: ground_wires(run, job).count > 0)


def _landed(panel: Panel, job: Job) -> Members[Circuit | Feeder]:
    circuits, feeders = job.graph.those(Circuit, "panel", panel), job.graph.those(Feeder, "from", panel)
    found: Members[Circuit | Feeder] = Members(circuits.known, circuits.gaps)
    return found.joined(feeders).where(lambda run: has_neutral(run, job))


def _on_bar(runs: Iterable[Circuit | Feeder]) -> int:
    """Screws for these neutrals: one for each parallel set, one for all circuits on one neutral."""
    counted: list[Circuit | Feeder] = []
    for run in runs:
        if not any(_shares(run, other) or _shares(other, run) for other in counted):
            counted.append(run)
    return sum(run.sets for run in counted)


def _shares(run: Circuit | Feeder, other: Circuit | Feeder) -> bool:
    return isinstance(run, Circuit) and run.shares_neutral_with is other
