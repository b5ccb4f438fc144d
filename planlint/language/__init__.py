"""From the text of a plan to its elements: grammar, typed reading, include, every message about the text.

`read_plan` reads a file and what it includes, `read_text` a text. Both give a `Reading`, or raise all faults in one go.
"""

import os
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from planlint.faults import Faults
from planlint.language.collecting import Collector, Enough, Names
from planlint.language.including import Gathering, Source
from planlint.language.joining import check_references, joined
from planlint.language.lines import FileReader, Include
from planlint.language.opening import Unopened, decoded, read_bytes, shown_path
from planlint.plan.elements import Draft, Element
from planlint.positions import Span

__all__ = ["Reading", "Source", "Unopened", "is_part", "parts_included_by", "read_plan", "read_text"]


@dataclass(frozen=True, slots=True)
class Reading:
    """A plan as it was read: its elements in source order, references joined, and the files they came from, as shown."""

    elements: tuple[Element, ...]
    files: tuple[str, ...]


def read_plan(
    path: str | os.PathLike[str], *, root: Path | None = None, part: bool = False, source: Source = read_bytes
) -> Reading:
    """Read a plan's file and what it includes.

    Includes stay below `root`, which is the file's own folder unless another is given. `source` gives the bytes of a file;
    an editor or a repository puts its own in place of the disk. With `part` a file without a plan statement passes.
    Raises Unopened if the file can't be opened or isn't text, and Faults with all that is wrong in all files.
    """
    file = Path(path)
    collector, names = Collector(), Names()
    gathering = Gathering(root or file.parent, source, collector, names)
    drafts: list[Draft] = []
    try:
        drafts = gathering.drafts(file)
        if not part:
            _require_plan(drafts, names, collector, shown_path(file))
        check_references(drafts, names, collector)
    except Enough:
        pass
    return _reading(drafts, collector, tuple(gathering.files))


def read_text(text: str, name: str = "plan", *, part: bool = False, example: bool = False) -> Reading:
    """Read the text of a plan; `name` stands for the file in positions. A text can't include a file.

    With `part` a text without a plan statement passes. An `example` has none, is given one named "example", and may begin
    with a line `complete ...` at the margin. Raises as read_plan does.
    """
    collector, names = Collector(), Names()
    drafts: list[Draft] = []
    try:
        reader = FileReader(name, collector, names, example=example)
        reader.read(*decoded(text.encode("utf-8", "surrogatepass"), name, collector))
        for item in reader.items:
            if isinstance(item, Include):
                collector.add(item.span, "A text that is no file can't include one")
                names.lost.add("any")
            else:
                drafts.append(item)
        if not (part or example):
            _require_plan(drafts, names, collector, name)
        check_references(drafts, names, collector)
    except Enough:
        pass
    return _reading(drafts, collector, (name,))


def is_part(path: str | os.PathLike[str]) -> bool:
    """Whether a file has no plan statement, so that it can only be a part of another plan. No for what can't be opened."""
    try:
        lines = read_bytes(Path(path)).removeprefix(b"\xef\xbb\xbf").split(b"\n")
    except Unopened:
        return False
    return not any(line.startswith(b"plan") and line[4:5] in (b"", b" ", b"\t", b'"', b"\r") for line in lines)


def parts_included_by(path: str | os.PathLike[str]) -> tuple[Path, ...]:
    """The files that a plan takes in, resolved; as many of them as can be found if the plan has faults."""
    gathering = Gathering(Path(path).parent, read_bytes, Collector(), Names())
    with suppress(Unopened, Enough):
        gathering.drafts(Path(path))
    return tuple(gathering.found[1:])


def _require_plan(drafts: Sequence[Draft], names: Names, collector: Collector, file: str) -> None:
    if names.plan is not None or names.unclear or names.lost:
        return
    if not drafts and not collector.faults:
        collector.add(
            Span.of(file, 1, 1, 0), 'Nothing stands in this file; a plan begins with a line like plan "Plover Lane cottage"'
        )
    elif drafts:
        collector.add(
            drafts[0].line,
            "No plan statement stands in this file, so it is a part of another plan: check the plan that includes it",
        )


def _reading(drafts: Sequence[Draft], collector: Collector, files: tuple[str, ...]) -> Reading:
    if collector.faults:
        raise Faults(collector.faults)
    return Reading(joined(drafts), files)
