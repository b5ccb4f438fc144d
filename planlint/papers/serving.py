"""What a breaker feeds, in the words of a panel's door."""

from collections.abc import Iterable, Iterator

from planlint.facts.buildings import building_at
from planlint.papers.docket import Docket, Unknown
from planlint.plan import Element
from planlint.plan.gear import Panel
from planlint.plan.outlets import Lights, Load, Receptacles
from planlint.plan.runs import Circuit, Feeder


def words_served(run: Circuit | Feeder, docket: Docket) -> tuple[str, bool]:
    """Words for the panel's door, and whether the plan itself says them: its label, or what is shown on the run."""
    if isinstance(run, Circuit) and run.states("label"):
        return run.label, True
    if isinstance(run, Feeder):
        return _fed(run, docket), run.states("to")
    return "; ".join(_on_circuit(run, docket)) or _nothing_known(run), False


def _nothing_known(run: Circuit | Feeder) -> str:
    return f"{run.name}: what it feeds is not stated"


def _fed(feeder: Feeder, docket: Docket) -> str:
    if not feeder.states("to"):
        return _nothing_known(feeder)
    end = feeder.to
    building = docket.ask(end, lambda: building_at(end.at)) if isinstance(end, Panel) else None
    where = "" if building is None or isinstance(building, Unknown) else f" ({building.name})"
    return f"Feeds {end.name}{where}"


def _on_circuit(circuit: Circuit, docket: Docket) -> Iterator[str]:
    graph = docket.graph
    loads = graph.those(Load, "circuit", circuit).known
    yield from (load.name for load in loads)
    receptacles = [one for one in graph.those(Receptacles, "circuit", circuit).known if not _is_for(one, loads)]
    yield from _by_place("Receptacles", receptacles)
    yield from _by_place("Lights", graph.those(Lights, "circuit", circuit).known)


def _is_for(receptacles: Receptacles, loads: Iterable[Load]) -> bool:
    """Whether a receptacle of a circuit with appliances is only where one of them plugs in."""
    return receptacles.states("single") and receptacles.single and any(True for _ in loads)


def _by_place(word: str, outlets: Iterable[Element]) -> Iterator[str]:
    places = list(dict.fromkeys(one.value("at").name for one in outlets if one.states("at")))
    if places:
        yield f"{word}: {', '.join(places)}"
    elif any(True for _ in outlets):
        yield word
