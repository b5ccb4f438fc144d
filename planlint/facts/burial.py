"""How deep what lies in a ditch must be: by what it is, what lies above it, and the circuits that are in it."""

from typing import Literal, cast

from planlint.book.pathtables import Location, Method
from planlint.facts.buildings import is_dwelling
from planlint.facts.engine import Job, fact
from planlint.facts.ways import contents, is_direct_buried
from planlint.facts.wires import Wired
from planlint.plan.elements import NotStated, not_stated
from planlint.plan.members import Members, all_hold, merged
from planlint.plan.routes import Raceway, Trench
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.plan.site import Building
from planlint.quantities import Current, Length, Voltage

Line = Raceway | Service | Feeder | Circuit
RIGID_METAL = ("RMC", "IMC")
# These are not made for the soil: NFPA 70 348.12, 362.12. Table 300.5 has no column for them, but for ENT that is cast in.
NOT_FOR_SOIL = ("ENT", "FMC")
NO_LENGTH = Length.of(0, "in")


@fact
def cover(line: Raceway | Service | Feeder | Circuit, job: Job) -> Length:
    """From the finished ground down to its top, in the one of its ditches where most is missing.

    NFPA 70 300.5, note 1 to the table.
    """
    return _worst_ditch(line, job).cover


@fact
def cover_needed(line: Raceway | Service | Feeder | Circuit, job: Job) -> Length:
    """The least cover by the table, in the one of its ditches where most is missing.

    NFPA 70 Table 300.5 (2023: 300.5(A)). The lesser cover of a small circuit with a GFCI, or of low voltage, is looked into only
    where the line lies too shallow without it; a pipe gets it only if all that is in it is known to have it.
    """
    ditch = _worst_ditch(line, job)
    needed = _needed_in(ditch, line, job)
    job.step(f"{line.name} under {ditch.under} in {ditch.name}", needed, job.from_table("burial-cover"))
    return needed


@fact
def dig_deeper(line: Raceway | Service | Feeder | Circuit, job: Job) -> Length:
    """What its cover lacks, with what the authority wants on top of the table; 0 in where it lies deep enough."""
    lacking = cover_needed(line, job) + _extra(job) - cover(line, job)
    return max(lacking, NO_LENGTH)


@fact
def shallowest_pipe(line: Raceway | Service | Feeder | Circuit, job: Job) -> Literal["PVC-40", "RMC", "none"]:
    """The pipe that may lie at this cover, whatever is in it; none where the line has to go deeper in any pipe.

    NFPA 70 Table 300.5 (2023: 300.5(A)).
    """
    ditch = _worst_ditch(line, job)
    if ditch.cover >= _by_table("nonmetallic", ditch, job) + _extra(job):
        return "PVC-40"
    return "RMC" if ditch.cover >= _by_table("rigid-metal", ditch, job) + _extra(job) else "none"


@fact
def wants_riser(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether it lies in the soil without pipe and has to be protected where it comes up: all but low-voltage circuits do.

    NFPA 70 300.5(D)(1), which speaks of columns 1 and 4 of the table.
    """
    return is_direct_buried(run, job) and not is_yard_circuit(run, job)


def is_yard_circuit(run: Wired, job: Job) -> bool:
    """Whether it is of the column for low-voltage irrigation and yard lights."""
    return isinstance(run, Circuit) and _is_low_voltage(run, job)


@fact
def comes_up_in_riser(run: Service | Feeder | Circuit, job: Job) -> bool:
    """Whether one of its pipes is a riser. NFPA 70 300.5(D)(1)."""
    pipes = Members(run.raceway if run.states("raceway") or "raceway" in run.unknown else ())
    return pipes.some(lambda pipe: not pipe.states("trench") and pipe.route == "riser")


def _worst_ditch(line: Line, job: Job) -> Trench:
    """The ditch where most is missing. One that is known to be too shallow decides, whatever the others leave open."""
    ditches = (line.trench,) if isinstance(line, Raceway) else line.trench
    found: list[tuple[float, int, Trench]] = []
    gaps: list[NotStated] = []
    for number, ditch in enumerate(ditches):
        try:
            found.append(((ditch.cover - _needed_in(ditch, line, job)).within("in"), number, ditch))
        except NotStated as gap:
            gaps.append(gap)
    worst = min(found, default=None)
    if gaps and (worst is None or worst[2].cover >= _needed_in(worst[2], line, job) + _extra(job)):
        raise NotStated(*merged(*(gap.needs for gap in gaps)))
    if worst is None:
        not_stated(line, "trench")
    return worst[2]


def least_cover(line: Line, ditch: Trench, job: Job) -> Length:
    """The least cover that the table lets it have in that ditch, however deep it lies now.

    Of a run that of its column for small circuits, if it fits one; of a pipe that for whatever may be in it.
    """
    plain = _plain(line, ditch, job)
    return plain if isinstance(line, Raceway) else min(plain, _relief(line, ditch, job) or plain)


def _extra(job: Job) -> Length:
    extra: Length = job.setting("trench-too-shallow.extra-cover")
    return extra


def _needed_in(ditch: Trench, line: Line, job: Job) -> Length:
    """The least cover in one ditch. Without its circuits' relief, where the line lies deep enough for that."""
    plain = _plain(line, ditch, job)
    if ditch.cover >= plain + _extra(job):
        return plain
    if not isinstance(line, Raceway):
        if line.states("raceway") and any(pipe.states("trench") and pipe.trench is ditch for pipe in line.raceway):
            not_stated(line, "trench", f"{line.name}: whether it leaves its pipe in {ditch.name}")
        return min(plain, _relief(line, ditch, job) or plain)
    inside = contents(line, job)
    if inside.some(lambda run: (_relief(run, ditch, job) or plain) >= plain):
        return plain
    if line.holds:
        return plain
    if not inside.known:
        if gap := job.graph.gap("circuits"):
            raise NotStated(*gap)
        return plain
    return max(_relief(run, ditch, job) or plain for run in inside.known)


def _plain(line: Line, ditch: Trench, job: Job) -> Length:
    """The table's cover for what it is made of; for pipe under concrete that reaches down to rock, that of the note."""
    plain = _by_table(_method(line, ditch, job), ditch, job)
    if isinstance(line, Raceway) and ditch.rock and ditch.concrete_over >= job.tables.concrete("rock"):
        return min(plain, job.tables.concrete("rock"))
    return plain


def _method(line: Line, ditch: Trench, job: Job) -> Method:
    """The column of the table: a pipe by its type; cable and wires that lie in the soil."""
    if isinstance(line, Raceway):
        if line.type in NOT_FOR_SOIL and not _is_cast_in(line, ditch, job):
            not_stated(line, "type", f"{line.name}: a pipe made for the soil; {line.type} is not")
        return "rigid-metal" if line.type in RIGID_METAL else "nonmetallic"
    if ditch.under == "building":
        not_stated(line, "raceway", f"{line.name}: the pipe that takes it out past the walls, for it lies below a building")
    return "direct-burial"


def _is_cast_in(pipe: Raceway, ditch: Trench, job: Job) -> bool:
    """Whether concrete lets it lie in the ground: ENT with enough of it all round. NFPA 70 Table 300.5, note 2; 362.10(6)."""
    return pipe.type == "ENT" and ditch.encased and pipe.concrete_cover >= job.tables.concrete("concrete-in-trench")


def _by_table(method: Method, ditch: Trench, job: Job) -> Length:
    """One cell of the table. Concrete in the ditch counts where nothing but a yard lies above: other rows stay as they are."""
    row = cast(Location, ditch.under)
    if row == "yard" and ditch.concrete_over >= job.tables.concrete("concrete-in-trench"):
        row = "concrete-in-trench"
    return job.tables.cover(method, row)


def _relief(run: Wired, ditch: Trench, job: Job) -> Length | None:
    """The cover of the column for small circuits that it fits; None where it fits none."""
    if not isinstance(run, Circuit):
        return None
    if _is_low_voltage(run, job):
        return _by_table("low-voltage", ditch, job)
    return _by_table("gfci-branch", ditch, job) if _is_gfci_branch(run, job) else None


def _is_low_voltage(circuit: Circuit, job: Job) -> bool:
    """Whether it is made for low voltage: circuits of the yard's lights. Others may be for irrigation, which a plan can't say."""
    limit: Voltage = job.setting("cover-needed.low-voltage")
    if not (circuit.states("volts") or "volts" in circuit.unknown) or circuit.volts > limit:
        return False
    if circuit.use != "lighting":
        not_stated(circuit, "use", f"{circuit.name}: whether it is for irrigation or lights in the yard only")
    return True


def _is_gfci_branch(circuit: Circuit, job: Job) -> bool:
    """Whether it is a residential circuit of low enough voltage and breaker, protected by a GFCI from its start."""
    volts: Voltage = job.setting("cover-needed.gfci-volts")
    breaker: Current = job.setting("cover-needed.gfci-breaker")
    return all_hold(
        lambda: circuit.breaker <= breaker,
        lambda: "gfci" in circuit.protection,
        lambda: circuit.volts <= volts if circuit.states("volts") or "volts" in circuit.unknown else circuit.poles == 1,
        lambda: circuit.shares_neutral_with is None and not job.graph.those(Circuit, "shares-neutral-with", circuit).known,
        lambda: _is_residential(circuit, job),
    )


def _is_residential(circuit: Circuit, job: Job) -> bool:
    """Whether a dwelling is on the plan: its outbuildings belong to it. Not stated while none is shown."""
    if not job.graph.all(Building).some(lambda building: is_dwelling(building, job)):
        not_stated(circuit, "panel", f"{circuit.name}: the dwelling that it belongs to")
    return True
