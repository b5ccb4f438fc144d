"""The plan text of a drawn wiring. Every attribute has a line of its own."""

from drawn_wiring import BUILDINGS, POSTS, Gear, Run, Wiring

COMPLETE = "complete service, feeders, grounding, circuits, receptacles, lights, loads, raceways"


def statements(made: Wiring) -> list[list[str]]:
    """The plan's statements, each a list of its head and its attributes, without the plan's own."""
    said = [[f"building {name}", f"use {BUILDINGS[name]}"] for name in made.buildings]
    said += [[f"place {name}-{spot}", f"building {name}"] for name in made.buildings for spot in ("room", "loft")]
    said += [[f"place {name}", "outdoors yes"] for name in POSTS]
    for source in made.sources:
        said.append([f"supply {source.name}", f"type {'utility' if source.utility else 'generator'}", "volts 120/240 V"])
        if not source.utility:
            connection = "cords-only" if source.cords else "inlet"
            said[-1] += [f"connection {connection}", f"neutral {'bonded' if source.bonded else 'floating'}"]
    for gear in made.gear:
        said += _of_gear(gear)
    for run in made.runs:
        said += _of_run(run)
    said += [[f"trench {name}", "cover 24 in", "under yard"] for name in made.ditches]
    for pipe in made.pipes:
        said.append([f"raceway {pipe.name}", f"type {pipe.type}", f"size {pipe.size}", f"length {pipe.feet} ft"])
        said[-1] += [f"bonding {pipe.fitting}", f"ring-knockouts {yes(pipe.rings)}"]
        said[-1] += [f"trench {pipe.ditch}"] if pipe.ditch else ["route inside" if "room" in pipe.place else "route above-grade"]
        said[-1] += [f"at {pipe.place}"] * bool(pipe.place) + [f"continues {pipe.continues.name if pipe.continues else 'none'}"]
    said += [[f"electrode {rod.name}", "type rod", f"building {rod.building}"] for rod in made.rods]
    for wire in made.rod_wires:
        said.append(
            [f"electrode-conductor {wire.name}", f"from {wire.start.name}", f"to {wire.end.name}", f"lands-on {wire.bar}"]
        )
    return said


def yes(value: bool) -> str:
    return "yes" if value else "no"


def _of_gear(gear: Gear) -> list[list[str]]:
    wall = "none" if gear.home in POSTS else gear.home
    said = [f"{gear.kind} {gear.name}", f"at {gear.place}", f"mounted-on {wall}"]
    if gear.place.endswith(("room", "loft")):
        said.pop()
    if gear.kind == "meter":
        return [[*said, f"bonding {gear.can}"]]
    said += [f"neutral {'bonded' if gear.bonded else 'isolated'}", f"readily-accessible {yes(gear.reached)}"]
    if gear.part == "ahead":
        said.append("marking not-service-equipment")
    if gear.kind == "disconnect":
        said.append("switch-rating 200 A" if gear.part == "switch" or not gear.opens else "breaker 200 A")
        said.append("shares-enclosure-with none")
    if gear.kind == "panel":
        said += ["main 200 A" if gear.opens else "main lugs", f"ground-bar {'shared' if gear.shared_bar else 'separate'}"]
    if gear.kind == "transfer-switch":
        said += ["type manual", f"switches-neutral {yes(gear.switches_neutral)}"]
    found = [said]
    if gear.plate:
        found.append([f"transfer-switch plate-{gear.name}", "type interlock", f"panel {gear.name}", "switches-neutral no"])
    if gear.screw is not None:
        found.append([f"bond screw-{gear.name}", "type main", f"from {gear.name}", f"to {gear.name}"])
        found[-1].append(f"listed-screw {yes(gear.screw)}")
    return found


def _of_run(run: Run) -> list[list[str]]:
    said = [f"{run.kind} {run.name}"]
    if run.kind == "circuit":
        said += [f"panel {run.start.name}", "poles 1"]
    else:
        assert run.end is not None
        said += [f"from {run.start.name}", f"to {run.end.name}"]
    count = "" if run.kind == "circuit" else "2 x "
    said += [f"hot {count}{run.hot} THWN-2"]
    said += [
        f"{name} {size + ' THWN-2' if size else 'none'}" for name, size in (("neutral", run.neutral), ("ground", run.ground))
    ]
    said += [f"cable {run.cable}"] * bool(run.cable)
    said += [f"raceway {', '.join(pipe.name for pipe in run.pipes)}"] * bool(run.pipes)
    if run.kind == "service":
        said.append(f"owner {'utility' if run.utility_owned else 'customer'}")
    else:
        said += [f"breaker {run.breaker} A", f"existing {yes(run.existing)}"]
        said += ["extended yes"] * (run.kind == "circuit")  # so that an old one wants its ground
    said += [f"sets {run.sets}"] * (run.kind != "circuit")
    said += [f"kept-together {yes(run.kept)}"] if run.kept is not None else []
    found = [said]
    for outlet in run.outlets:
        found.append([f"{outlet.kind} {outlet.name}", f"at {outlet.place}", f"circuit {run.name}"])
        found[-1] += ["type kiln", f"own-rod {yes(outlet.own_rod)}"] if outlet.kind == "load" else []
    return found


def text_of(said: list[list[str]], complete: str = COMPLETE) -> str:
    """The plan of these statements; `complete` may be empty."""
    plan = ['plan "Plover Lane by lot"', "edition 2020", *([complete] if complete else [])]
    return "".join(head + "\n" + "".join(f"  {line}\n" for line in lines) for head, *lines in [plan, *said])
