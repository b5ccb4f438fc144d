"""A one-line diagram told in sentences, for those who can't see it."""

from collections.abc import Iterator, Sequence

from planlint.papers.one_line.records import Branch, Gear, Load, Loose


def in_words(plan: str, roots: Sequence[Gear], loose: Sequence[Loose]) -> str:
    """What feeds what, from each supply to the last panel and its larger loads."""
    sentences = [f"The power's way in {plan}."]
    for root in roots:
        sentences += _gear(root)
    if loose:
        sentences.append(f"Joined to nothing in the plan: {', '.join(one.part.name for one in loose)}.")
    if not roots and not loose:
        sentences.append("The plan states no supply, gear, service or feeder.")
    return " ".join(sentences)


def _gear(start: Gear) -> Iterator[str]:
    todo = [start]
    while todo:
        gear = todo.pop(0)
        ways = [_way(branch) for branch in (*gear.sources, *gear.branches)]
        grounds = [ground.end.name for ground in gear.grounds if ground.end]
        told = [*ways, *([f"its grounding side: {', '.join(grounds)}"] if grounds else [])]
        place = f" ({gear.area.title})"
        yield f"{gear.part.name}{place}: {'; '.join(told) if told else 'nothing hangs from it in the plan'}."
        todo += [branch.end for branch in (*gear.sources, *gear.branches) if isinstance(branch.end, Gear)]


def _way(branch: Branch) -> str:
    if isinstance(branch.end, Load):
        loads = ", ".join(part.name for part in branch.end.parts)
        return f"{branch.run.name} to {loads}" if loads else branch.run.name
    if branch.end is None:
        return f"{branch.run.name} {branch.beyond}"
    if branch.inward:
        return f"{branch.run.name} brings power from {branch.end.part.name}"
    return f"{branch.run.name} to {branch.end.part.name}"
