"""What lies round a run's wires and takes from what they carry: heat, and other wires that carry current."""

from planlint.facts.engine import Job, fact
from planlint.facts.pulls import is_nipple
from planlint.facts.ways import contents, pipes_of, sets_inside
from planlint.facts.wires import Wired, cable_type, hot_wires, neutral_wires
from planlint.plan.elements import Need, NotStated, not_stated
from planlint.plan.gear import Supply
from planlint.plan.members import Members, merged
from planlint.plan.routes import Holes, Raceway, Trench
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.plan.site import Building, Place
from planlint.quantities import Length, Percent, Temperature, TemperatureDifference

UNCORRECTED = Percent.of(100, "%")


@fact
def insulation_temperature(run: Service | Feeder | Circuit, job: Job) -> Temperature:
    """What the insulation of its hot wires bears: the column from which its ampacity is corrected.

    NFPA 70 Table 310.4(A) (2017: 310.104(A)); NM-B 334.112, UF-B 340.80. Some insulations bear less where it is wet.
    """
    named = cable_type(run, job)
    if named in ("NM-B", "UF-B"):
        given: Temperature = job.setting(f"insulation-temperature.{named.lower()}")
        return given
    insulation = run.hot.insulation if run.states("hot") else ""
    if insulation in ("", "bare"):
        not_stated(run, "hot", f"{run.name}: hot, the insulation of its wires")
    found = job.tables.insulation(insulation)
    if found.wet is None or found.wet == found.dry:
        return found.dry
    return found.wet if _is_wet(run, job) else found.dry


def _is_wet(run: Wired, job: Job) -> bool:
    """Whether it lies in soil or passes a wet place. NFPA 70 300.5(B), 300.9."""
    pipes = pipes_of(run, job)
    if run.states("trench") or any(pipe.states("trench") for pipe in pipes):
        return True
    stops: tuple[Place | Building, ...] = tuple(pipe.at for pipe in pipes) or run.passes
    rooms = tuple(stop for stop in stops if isinstance(stop, Place))
    gaps = () if len(rooms) == len(stops) else (Need(run, "passes", note=f"{run.name}: the rooms that it passes"),)
    return Members(rooms, gaps).some(lambda room: room.moisture == "wet")


@fact
def hottest_place(run: Service | Feeder | Circuit, job: Job) -> Temperature:
    """The warmest it gets round the wires: what the run says, what its rooms and pipes say, and what a roof adds.

    NFPA 70 310.15(B). Soil counts with the temperature for which the table of ampacities is made. Not stated while a cable
    doesn't say what it passes, or one of its places doesn't say how warm it gets.
    """
    known, needs = known_heat(run, job)
    if needs:
        raise NotStated(*needs)
    return under_the_sun(run, known, job)


def known_heat(run: Wired, job: Job) -> tuple[Temperature, tuple[Need, ...]]:
    """The warmest place that the plan tells of, soil at the least, and what it would have to state to name the warmest of all."""
    stops = _stops(run, job)
    soil: Temperature = job.setting("hottest-place.in-soil")
    places = [stop for stop in stops if isinstance(stop, Place)]
    found = [place.ambient for place in places if place.states("ambient")]
    if run.states("ambient"):
        return max([run.ambient, *found], key=lambda each: each.amount), ()
    if found and not stops.gaps and len(found) == len(stops.known):
        return max(found, key=lambda each: each.amount), ()
    silent = [Need(place, "ambient") for place in places if not place.states("ambient")]
    return max([soil, *found], key=lambda each: each.amount), merged(stops.gaps, silent)


def _stops(run: Wired, job: Job) -> Members[Place | Trench]:
    """Where its wires pass: its rooms and ditches, those of its pipes, and the places of the gear at its ends."""
    known: list[Place | Trench] = list(run.trench) if run.states("trench") else []
    needs: list[Need] = []
    if run.states("passes"):
        known += [stop for stop in run.passes if isinstance(stop, Place)]
        needs += [Need(run, "ambient") for stop in run.passes if not isinstance(stop, Place)]
    elif run.states("cable") or not run.states("raceway"):
        needs.append(Need(run, "ambient"))
    for pipe in pipes_of(run, job):
        if pipe.states("trench"):
            known.append(pipe.trench)
        elif pipe.states("at"):
            known.append(pipe.at)
        else:
            needs.append(Need(run, "ambient"))
    for name in ("panel",) if isinstance(run, Circuit) else ("from", "to"):
        end = run.value(name) if run.states(name) else None
        if end is None or not (isinstance(end, Supply) or end.states("at")):
            needs.append(Need(end or run, "at" if end else name))
        elif not isinstance(end, Supply):
            known.append(end.at)
    return Members(tuple(known), tuple(needs))


def under_the_sun(run: Wired, warm: Temperature, job: Job) -> Temperature:
    """How warm that gets in a pipe that lies close above a roof. NFPA 70 310.15(B)(2) (2017: 310.15(B)(3)(c)).

    Raises NotStated while a pipe of it may lie on a roof.
    """
    on_roof = [pipe for pipe in pipes_of(run, job) if not pipe.states("trench") and pipe.route == "roof"]
    distance: Length = job.setting("hottest-place.roof-distance")
    if not any(pipe.above_roof < distance for pipe in on_roof) or run.hot.insulation == "XHHW-2":
        return warm
    adder: TemperatureDifference = job.setting("hottest-place.roof-adder")
    hot = Temperature.of(warm.within("F") + adder.within("F"), "F")
    job.step(f"{warm}, and {adder} more less than {distance} above a roof", hot, "NFPA 70 310.15(B)(2)")
    return hot


@fact
def ambient_factor(run: Service | Feeder | Circuit, job: Job) -> Percent:
    """What the heat of the warmest place leaves of the ampacity of its insulation.

    NFPA 70 Table 310.15(B)(1) (2017: 310.15(B)(2)(a)).
    """
    warm, column = hottest_place(run, job), insulation_temperature(run, job)
    share = job.tables.ambient_factor(warm, column)
    job.step(f"{column} wire where it gets {warm}", share, job.from_table("ambient-correction"))
    return share


@fact
def current_carrying(subject: Raceway | Service | Feeder | Circuit, job: Job) -> int:
    """How many wires carry current: of a run its own, of a raceway those of all runs in it.

    Equipment grounds never count, nor does the neutral of a 3-wire 120/240 V run, which carries only the unbalance. What a
    raceway holds beside its runs counts unless bare, as spares do. NFPA 70 310.15(C)(1), (E) (2017: 310.15(B)(3)(a), (5)).
    """
    if not isinstance(subject, Raceway):
        return hot_wires(subject, job).count + _carrying_neutrals(subject, job)
    count = sum(current_carrying(run, job) * sets_inside(run) for run in contents(subject, job).whole())
    held = sum(wires.count for wires in subject.holds if wires.insulation != "bare")
    job.step(f"{count} of its runs and {held} it holds beside them" if held else "those of all runs in it", count + held)
    return count + held


def _carrying_neutrals(run: Wired, job: Job) -> int:
    hots, neutrals = hot_wires(run, job).count, neutral_wires(run, job).count
    if not neutrals or (isinstance(run, Circuit) and _shares_its_neutral(run, job)):
        return 0
    return neutrals if hots == 1 or (hots == 2 and is_wye(run, job)) else 0


def _shares_its_neutral(circuit: Circuit, job: Job) -> bool:
    return circuit.shares_neutral_with is not None or bool(job.graph.those(Circuit, "shares-neutral-with", circuit).known)


def is_wye(run: Wired, job: Job) -> bool:
    """Whether the utility gives two legs of three phases (120/208 V), whose neutral carries as much as the hots."""
    supplies = [supply for supply in job.graph.all(Supply) if supply.type == "utility"]
    if not supplies:
        not_stated(run, "neutral", f"{run.name}: whether its neutral carries current, for which the supply must be shown")
    return any(each.volts.to_neutral and each.volts.line != each.volts.to_neutral * 2 for each in supplies)


@fact
def count_factor(run: Service | Feeder | Circuit, job: Job) -> Percent:
    """What the company of other current-carrying wires leaves of its ampacity, where it is worst.

    In a raceway longer than a nipple, counting all pieces of one pull; and where many cables share a sealed hole.
    NFPA 70 Table 310.15(C)(1) (2017: 310.15(B)(3)(a)), 334.80.
    """
    shares = [_share_in_pipe(pipe, job) for pipe in pipes_of(run, job)]
    shares += [_share_in_holes(run, holes, job) for holes in (run.holes if run.states("holes") else ())]
    return min(shares, key=lambda share: share.amount, default=UNCORRECTED)


def _share_in_pipe(pipe: Raceway, job: Job) -> Percent:
    most = sum(_most_wires(run, job) for run in contents(pipe, job).whole())
    most += sum(wires.count for wires in pipe.holds)
    if not most or job.tables.count_factor(most) == UNCORRECTED:
        return UNCORRECTED
    if is_nipple(pipe, job.setting("count-factor.nipple-up-to"), job):
        job.step(f"{pipe.name} is no longer than {job.setting('count-factor.nipple-up-to')}", UNCORRECTED)
        return UNCORRECTED
    count = current_carrying(pipe, job)
    share = job.tables.count_factor(count)
    job.step(f"{count} current-carrying wires in {pipe.name}", share, job.from_table("conductor-count"))
    return share


def _most_wires(run: Wired, job: Job) -> int:
    """The most wires of it that could carry current, whatever its neutral does."""
    try:
        neutrals = neutral_wires(run, job).count
    except NotStated:
        neutrals = 1
    together = run.sets if run.sets == 1 or not run.states("kept-together") else sets_inside(run)
    return (hot_wires(run, job).count + neutrals) * together


def _share_in_holes(run: Wired, holes: Holes, job: Job) -> Percent:
    if holes.together <= job.setting("count-factor.cables-up-to") or not holes.sealed:
        return UNCORRECTED
    if cable_type(run, job) not in job.setting("count-factor.sealed-hole-cables"):
        return UNCORRECTED
    count = holes.together * current_carrying(run, job)
    share = job.tables.count_factor(count)
    job.step(
        f"{holes.together} cables in one sealed hole of {holes.name}, {count} wires", share, job.from_table("conductor-count")
    )
    return share
