"""Generators: what keeps their power apart from the utility's, whether it is enough, and where their neutral is grounded."""

from typing import Literal

from planlint.facts.circuit_faults import broken_parts
from planlint.facts.demand import amperes, total
from planlint.facts.engine import Job, fact
from planlint.facts.load import load_served
from planlint.facts.parts_served import line_volts
from planlint.facts.wires import has_neutral
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.gear import AnyGear, Disconnect, Panel, Supply, TransferSwitch
from planlint.plan.members import Members, all_hold, any_holds
from planlint.plan.runs import Feeder, Service
from planlint.quantities import Current

Run = Service | Feeder
Neutral = Literal["bonded", "floating"]


def _ways(supply: Supply, job: Job) -> Members[Run]:
    """The runs that start at it; at least one, or it isn't stated how its power gets to the gear."""
    ways: Members[Run] = job.graph.feeds_from(supply)
    if not ways.known and not ways.gaps:
        not_stated(supply, "feeds", f"the feeder that starts at {supply.name}")
    return ways


def _interlocks(gear: Panel, job: Job) -> Members[TransferSwitch]:
    return job.graph.those(TransferSwitch, "panel", gear).where(lambda switch: switch.type == "interlock")


@fact
def transfer_switches(supply: Supply, job: Job) -> Members[TransferSwitch]:
    """The transfer switches and interlocks to which its power comes first. NFPA 70 702.5."""
    ways = _ways(supply, job)
    found: Members[TransferSwitch] = Members((), ways.gaps)
    return found.joined(*(_first_switches(run, job) for run in ways))


def _first_switches(run: Run, job: Job) -> Members[TransferSwitch]:
    end = run.to
    if isinstance(end, TransferSwitch):
        return Members((end,))
    here: Members[TransferSwitch] = _interlocks(end, job) if isinstance(end, Panel) else Members(())
    if here.known:
        return here
    onward = job.graph.feeds_from(end)
    return Members(here.known, (*here.gaps, *onward.gaps)).joined(*(_first_switches(one, job) for one in onward))


@fact
def has_transfer(supply: Supply, job: Job) -> bool:
    """Whether its power nowhere comes together with the utility's but at a transfer switch or an interlock. NFPA 70 702.5."""
    return _ways(supply, job).every(lambda run: _is_kept_apart(run, job))


def _is_kept_apart(run: Run, job: Job) -> bool:
    end = run.to
    if isinstance(end, TransferSwitch):
        return True
    others = job.graph.feeds_into(end).where(lambda one: one is not run)
    return not all_hold(
        lambda: not isinstance(end, Panel) or not _interlocks(end, job).some(lambda switch: True),
        lambda: (
            not all_hold(
                lambda: not others.some(lambda one: _brings_utility(one, job)),
                lambda: job.graph.feeds_from(end).every(lambda one: _is_kept_apart(one, job)),
            )
        ),
    )


def _brings_utility(run: Run, job: Job) -> bool:
    start = run.from_
    if isinstance(start, Supply):
        return start.type == "utility"
    ahead = job.graph.feeds_into(start)
    if not ahead.known:
        not_stated(start, "fed-by", f"which service or feeder ends at {start.name}")
    return ahead.some(lambda one: _brings_utility(one, job))


def _takes_over_whole(switch: TransferSwitch) -> bool:
    return all_hold(lambda: switch.type == "automatic", lambda: not switch.sheds_load)


@fact
def carries_all_by_itself(supply: Supply, job: Job) -> bool:
    """Whether a switch that works by itself gives it all that the switch feeds, and drops nothing. NFPA 70 702.4."""
    return transfer_switches(supply, job).some(_takes_over_whole)


@fact
def load_taken_over(supply: Supply, job: Job) -> Current:
    """Calculated load behind the switches that give it all they feed. NFPA 70 702.4 (full load), 220."""
    whole = transfer_switches(supply, job).where(_takes_over_whole).whole()
    if not whole:
        does_not_arise(supply, f"{supply.name}: an automatic transfer switch that drops no load")
    load, volts = total(load_served(switch, job) for switch in whole), line_volts(supply)
    job.step(f"{' + '.join(switch.name for switch in whole)}: {load} / {volts}", amperes(load, volts, supply), "NFPA 70 702.4")
    return amperes(load, volts, supply)


@fact
def has_enough_power(supply: Supply, job: Job) -> bool:
    """Whether it gives at least the calculated load that an automatic switch puts on it. NFPA 70 702.4 (2017: 702.4(B)(2)(a))."""
    return load_taken_over(supply, job) <= _most_given(supply, job)


def _most_given(supply: Supply, job: Job) -> Current:
    if isinstance(supply.rating, Current):
        return supply.rating
    most = amperes(supply.rating, line_volts(supply), supply)
    job.step(f"{supply.name} gives {supply.rating} / {line_volts(supply)}", most)
    return most


@fact
def transfer_fault(supply: Supply, job: Job) -> str:
    """What is wrong with how a generator is joined to the house."""
    return broken_parts(
        supply,
        (
            lambda: has_transfer(supply, job),
            lambda: "its power meets the utility's where no transfer switch or interlock keeps them apart",
        ),
        (
            lambda: not carries_all_by_itself(supply, job) or has_enough_power(supply, job),
            lambda: f"an automatic switch puts {load_taken_over(supply, job)} on it, and it gives {_most_given(supply, job)}",
        ),
    )


@fact
def neutral_is_switched(supply: Supply, job: Job) -> bool:
    """Whether its neutral is never joined to the utility's: every switch to which it comes opens the neutral too.

    Where its power meets the utility's without a switch, the neutrals are joined. A way without a neutral joins none. NFPA 70
    article 100 (separately derived system), 250.30.
    """

    def stands_alone(run: Run) -> bool:
        return all_hold(lambda: _is_kept_apart(run, job), lambda: _first_switches(run, job).every(_opens_neutral))

    return _ways(supply, job).every(lambda run: any_holds(lambda: stands_alone(run), lambda: not has_neutral(run, job)))


def _opens_neutral(switch: TransferSwitch) -> bool:
    """Whether it opens the neutral too; the slide plate between two breakers of a panel leaves it joined."""
    if switch.states("type") and switch.type == "interlock":
        if switch.states("switches-neutral") and switch.switches_neutral:
            not_stated(
                switch, "switches-neutral", f"{switch.name}: type interlock or switches-neutral yes; a plate opens no neutral"
            )
        return False
    return switch.switches_neutral


@fact
def neutral_wavers(supply: Supply, job: Job) -> bool:
    """Whether its neutral is joined to the utility's in one position of its switches and parted from it in another.

    So it is where a switch that opens the neutral lies between the utility and all gear where another way joins the two. No bond
    is right then: in one position it would be the second, in the other there would be none. NFPA 70 250.24(A), 250.30(A).
    """
    opening = transfer_switches(supply, job).where(_opens_neutral)
    if not opening.known and not opening.gaps:
        return False
    none: Members[AnyGear] = Members(())
    joints = none.joined(*(_joints(run, job) for run in _ways(supply, job)))
    return all_hold(
        lambda: not neutral_is_switched(supply, job),
        lambda: joints.some(lambda gear: True),
        lambda: joints.every(lambda gear: opening.some(lambda switch: _lies_behind(gear, switch, job))),
    )


def _joints(run: Run, job: Job) -> Members[AnyGear]:
    """The gear where a way joins its neutral to the one that comes with the utility's power."""
    end = run.to
    if any_holds(lambda: isinstance(end, TransferSwitch) and _opens_neutral(end), lambda: not has_neutral(run, job)):
        return Members(())
    others = job.graph.feeds_into(end).where(lambda one: one is not run)
    if others.some(lambda one: _brings_utility(one, job)):
        return Members((end,))
    onward = job.graph.feeds_from(end)
    found: Members[AnyGear] = Members((), onward.gaps)
    return found.joined(*(_joints(one, job) for one in onward))


def _lies_behind(gear: AnyGear, switch: TransferSwitch, job: Job) -> bool:
    """Whether what feeds the gear, from wherever, comes through the switch."""

    def comes_through(run: Run) -> bool:
        start = run.from_
        return start is switch or (not isinstance(start, Supply) and _lies_behind(start, switch, job))

    return job.graph.feeds_into(gear).some(comes_through)


@fact
def neutral_wanted(supply: Supply, job: Job) -> Neutral:
    """Bonded to its frame where its neutral is switched, so that it stands alone; otherwise floating, for the service bonds it.

    NFPA 70 250.24(A), 250.30(A), 250.34(C).
    """
    if neutral_wavers(supply, job):
        does_not_arise(supply, f"{supply.name}: one place to ground its neutral in every position of its switches")
    return "bonded" if neutral_is_switched(supply, job) else "floating"


@fact
def neutral_suits(supply: Supply, job: Job) -> bool:
    """Whether its neutral is grounded in one place only, whichever source runs.

    A source that stands alone is bonded at its frame or at its first disconnect, not at both. Open where no neutral leaves it.
    NFPA 70 250.24(A), 250.30(A)(1), 250.34(C).
    """
    ways = _ways(supply, job)
    if not ways.some(lambda run: has_neutral(run, job)):
        not_stated(ways.known[0], "neutral", f"{ways.known[0].name}: neutral, without which nothing is said of its bonding")
    return all_hold(lambda: not neutral_wavers(supply, job), lambda: _is_grounded_once(supply, job))


def _is_grounded_once(supply: Supply, job: Job) -> bool:
    bonded = supply.neutral == "bonded"
    if neutral_wanted(supply, job) == "floating":
        return not bonded
    ties = _first_ties(supply, job)
    if bonded or len(ties.known) > 1:
        return not ties.some(lambda gear: True)
    return len(ties.whole()) == 1


def _first_ties(supply: Supply, job: Job) -> Members[Disconnect | Panel]:
    """The gear at the ends of its ways that ties the neutral to ground; a transfer switch does that for the utility's side."""

    def ties(run: Run) -> bool:
        end = run.to
        return isinstance(end, Disconnect | Panel) and all_hold(lambda: end.neutral == "bonded", lambda: has_neutral(run, job))

    ways = _ways(supply, job).where(ties)
    found: Members[Disconnect | Panel] = Members((), ways.gaps)
    return found.joined(Members(tuple(run.to for run in ways if isinstance(run.to, Disconnect | Panel))))


@fact
def neutral_fault(supply: Supply, job: Job) -> str:
    """What is wrong with where a generator's neutral is grounded. NFPA 70 250.24(A), 250.30(A)(1)."""
    return broken_parts(supply, (lambda: neutral_suits(supply, job), lambda: _neutral_words(supply, job)))


def _neutral_words(supply: Supply, job: Job) -> str:
    if neutral_wavers(supply, job):
        return "it is joined to the utility's in one position of its switches and parted from it in another; no bond suits both"
    if neutral_wanted(supply, job) == "floating":
        return "it is tied to the frame, and to the utility's neutral as well, which the service grounds; let it float"
    first = [gear.name for gear in _first_ties(supply, job)]
    if supply.neutral == "floating" and not first:
        return "it is tied to ground nowhere, for what it comes to parts it from the utility's neutral; bond it"
    once = "the frame" if supply.neutral == "bonded" else f"ground in {first.pop(0)}"
    return f"it is tied to {once}, and again in {' and '.join(first)}"


@fact
def grounds_its_own_source(gear: Disconnect | Panel | TransferSwitch, job: Job) -> bool:
    """Whether it is the first gear of a source that stands alone and floats at its frame, so that the one bond belongs in it.

    NFPA 70 250.30(A)(1), 250.142(A)(3).
    """
    if isinstance(gear, TransferSwitch) or not job.graph.feeds_into(gear).some(lambda run: True):
        return False
    start = job.graph.feed(gear).from_
    if not isinstance(start, Supply):
        return False
    return all_hold(lambda: start.type != "utility", lambda: start.neutral == "floating", lambda: neutral_is_switched(start, job))
