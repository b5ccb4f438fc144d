"""What no wiring can be, however it is completed: loops, two feeds to one panel, roles that contradict each other."""

from collections.abc import Callable, Iterator

from planlint.faults import Fault
from planlint.plan.elements import Element
from planlint.plan.gear import Disconnect, Meter, Panel, Supply, TransferSwitch
from planlint.plan.graph import Feed, Graph
from planlint.plan.routes import Raceway
from planlint.plan.runs import Circuit, Feeder, Service

LONGEST_CHAIN = 40


def wiring_faults(graph: Graph) -> list[Fault]:
    """All of them, with the names involved. A plan that has any gives no findings."""
    loops = [*_chains(graph, _gear(graph), _gear_behind), *_chains(graph, list(graph.all(Raceway)), _pipe_behind)]
    if loops:
        return loops
    return [*_double_feeds(graph), *_contradicting_roles(graph)]


def _gear(graph: Graph) -> list[Element]:
    return [element for element in graph.elements if isinstance(element, Supply | Meter | Disconnect | Panel | TransferSwitch)]


def _gear_behind(graph: Graph, gear: Element) -> list[Element]:
    return [run.to for run in graph.feeds_from(gear).known if run.states("to")]


def _pipe_behind(graph: Graph, pipe: Element) -> list[Element]:
    assert isinstance(pipe, Raceway)
    following = pipe.continues if pipe.states("continues") else None
    return [following] if following is not None else []


def _chains(graph: Graph, starts: list[Element], behind: Callable[[Graph, Element], list[Element]]) -> Iterator[Fault]:
    """Loops, each once with its names, and chains longer than any house has (deeper ones would not be worked out)."""
    depth: dict[int, int] = {}
    looped: set[int] = set()
    for start in starts:
        if id(start) in depth:
            continue
        path: list[Element] = [start]
        todo = [iter(behind(graph, start))]
        on_path = {id(start)}
        while path:
            following = next(todo[-1], None)
            if following is None:
                done = path.pop()
                todo.pop()
                on_path.discard(id(done))
                depth[id(done)] = 1 + max((depth.get(id(next_), 0) for next_ in behind(graph, done)), default=0)
            elif id(following) in on_path:
                circle = path[next(i for i, element in enumerate(path) if element is following) :]
                if not looped & {id(element) for element in circle}:
                    looped.update(id(element) for element in circle)
                    names = ", ".join(element.name for element in [*circle, following])
                    yield Fault(
                        following.line, f"a loop: {names} feed each other in a circle; one of these runs ends at the wrong place"
                    )
            elif id(following) not in depth:
                path.append(following)
                todo.append(iter(behind(graph, following)))
                on_path.add(id(following))
        if depth.get(id(start), 0) > LONGEST_CHAIN:
            count = depth[id(start)]
            yield Fault(
                start.line,
                f"{count} pieces follow one another from {start.name} on; more than {LONGEST_CHAIN} are not worked out",
            )


def _sources(graph: Graph, gear: Element) -> set[int]:
    """The supplies that reach this gear, by identity."""
    seen, todo, found = {id(gear)}, [gear], set()
    while todo:
        here = todo.pop()
        if isinstance(here, Supply):
            found.add(id(here))
        for run in graph.feeds_into(here).known:
            if run.states("from") and id(run.from_) not in seen:
                seen.add(id(run.from_))
                todo.append(run.from_)
    return found


def _double_feeds(graph: Graph) -> Iterator[Fault]:
    utilities = {id(supply) for supply in graph.all(Supply) if supply.states("type") and supply.type == "utility"}
    for gear in _gear(graph):
        runs = [run for run in graph.feeds_into(gear).known if run.states("from")]
        if len(runs) < 2 or isinstance(gear, TransferSwitch) or graph.those(TransferSwitch, "panel", gear).known:
            continue
        twice = [run for run in runs if _sources(graph, run.from_) & utilities] or _from_one_place(runs)
        if len(twice) > 1:
            first, second = twice[:2]
            yield Fault(
                second.position("to"),
                f"{gear.name} has two feeds from the utility's side, {first.name} and {second.name}, "
                "and no transfer switch between them",
            )


def _from_one_place(runs: list[Feed]) -> list[Feed]:
    return [run for run in runs if sum(run.from_ is other.from_ for other in runs) > 1]


def _has_overcurrent_device(gear: Element) -> bool:
    if isinstance(gear, Disconnect):
        return gear.states("breaker") or gear.states("fuses")
    return isinstance(gear, Panel) and gear.states("main") and gear.main != "lugs"


def _contradicting_roles(graph: Graph) -> Iterator[Fault]:
    """The first overcurrent device is the service disconnect: service wires end there, feeders and circuits start no earlier."""
    for gear in _gear(graph):
        if isinstance(gear, Disconnect | Panel) and gear.states("marking") and "not-service-equipment" in gear.marking:
            yield from _feeds_ahead_of_the_service(graph, gear)
            continue
        if not isinstance(gear, Disconnect | Panel) or not _has_overcurrent_device(gear) or "marking" in gear.unknown:
            continue
        onward = [run for run in graph.those(Service, "from", gear).known if run.states("to")]
        if onward:
            run = onward[0]
            yield Fault(
                gear.position("marking"),
                f"{gear.name} has the first breaker or fuses, which makes it the service disconnect, yet the service {run.name} "
                f"goes on from it to {run.to.name}. Mark {gear.name} not-service-equipment, or make {run.name} a feeder.",
            )


def _feeds_ahead_of_the_service(graph: Graph, gear: Disconnect | Panel) -> Iterator[Fault]:
    """What starts at gear at which a service ends and that isn't the service disconnect is a service too."""
    arriving = graph.those(Service, "to", gear).known
    starting = [*graph.those(Feeder, "from", gear), *graph.those(Circuit, "panel", gear)]
    if arriving and starting:
        run = starting[0]
        yield Fault(
            run.line,
            f"the {run.kind} {run.name} starts at {gear.name}, where the service {arriving[0].name} ends and which is marked "
            "not-service-equipment. Wires ahead of the service disconnect are a service: "
            f"make {run.name} one, or take the marking off {gear.name}.",
        )
