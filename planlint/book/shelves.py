"""Where profiles are found: beside the plan, in folders that are given, in installed packages, and among planlint's own."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from planlint.book.profiles import read_profile
from planlint.book.records import ProfileRecord
from planlint.faults import Fault, Faults
from planlint.installed import offers
from planlint.nearest import proposal
from planlint.positions import Span

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

ENTRY_POINTS = "planlint.profiles"
# What is wrong with a name that was handed in stands in no file: whoever handed it in knows its place.
NOWHERE = Span("", 0, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class Shelf:
    """One folder of profiles, and how it is called in messages and in the report's list of files."""

    folder: "Path | Traversable"
    shown: str

    def names(self) -> list[str]:
        """The profiles in it, in order."""
        if not self.folder.is_dir():
            return []
        return sorted(path.name.removesuffix(".yaml") for path in self.folder.iterdir() if path.name.endswith(".yaml"))

    def file(self, name: str) -> str:
        """The path of one of its profiles, as it is shown."""
        return f"{self.shown}/{name}.yaml"


def shelves(own: Shelf, beside: Path | None = None, folders: Sequence[Path] = ()) -> list[Shelf]:
    """Every folder that is searched, each once: `beside` is the folder `profiles` beside the plan, whether it is there or not."""
    given = [] if beside is None else [beside]
    found = [*(Shelf(folder, shown_path(folder)) for folder in (*given, *folders)), *_package_shelves(), own]
    by_place: dict[str, Shelf] = {}
    for shelf in found:
        place = shelf.folder.resolve() if isinstance(shelf.folder, Path) else shelf.folder
        by_place.setdefault(str(place), shelf)
    return list(by_place.values())


def shown_path(path: Path) -> str:
    """A path as it is shown: relative to the working folder if it lies in it, with forward slashes."""
    whole = path.resolve()
    here = Path.cwd()
    return (whole.relative_to(here) if whole.is_relative_to(here) else path).as_posix()


def find_profile(name: str, where: Sequence[Shelf]) -> ProfileRecord:
    """The profile of that name, or the one that was called so before.

    Raises Faults where there is none (with the nearest and all there are), where it is found twice, and where its file is wrong.
    """
    found = [shelf for shelf in where if name in shelf.names()]
    if len(found) > 1:
        places = " and ".join(shelf.file(name) for shelf in found)
        raise Faults([Fault(NOWHERE, f"the profile '{name}' is found in several places: {places}; take away all but one")])
    if found:
        return read_profile(found[0].folder, name, found[0].file(name))
    renamed = _find_former(name, where)
    if renamed is not None:
        return renamed
    names = profile_names(where)
    message = f"there is no profile '{name}'.{proposal(name, names)} There are: {', '.join(names) or 'none'}."
    raise Faults([Fault(NOWHERE, message)])


def profile_names(where: Sequence[Shelf]) -> list[str]:
    """Every profile there is, in order."""
    return sorted({name for shelf in where for name in shelf.names()})


def every_profile(folders: Sequence[Path], own: bool = True) -> tuple[list[ProfileRecord], list[Fault]]:
    """Every profile that is found, in the order of the places searched, with what is wrong with those that can't be read.

    Without `own` those that come with planlint are left out.
    """
    from planlint.book.opening import own_volume  # it opens shelves itself

    ours = own_volume().profiles
    records: list[ProfileRecord] = []
    wrong: list[Fault] = []
    for shelf in shelves(ours, None, folders):
        if shelf is ours and not own:
            continue
        for name in shelf.names():
            try:
                records.append(read_profile(shelf.folder, name, shelf.file(name)))
            except Faults as found:
                wrong.extend(found.faults)
    return records, wrong


def _find_former(name: str, where: Sequence[Shelf]) -> ProfileRecord | None:
    for shelf in where:
        for other in shelf.names():
            try:
                record = read_profile(shelf.folder, other, shelf.file(other))
            except Faults:
                continue  # a profile that nobody asked for hides none that is
            if name in record.renamed:
                return record
    return None


def _package_shelves() -> Iterator[Shelf]:
    """The folders that installed packages offer under the entry-point group `planlint.profiles`.

    The value of such an entry point names a package; its folder is found, and nothing of it is run.
    """
    for offer in offers(ENTRY_POINTS):
        from importlib.util import find_spec

        top, *rest = offer.value.split(".")
        spec = find_spec(top)
        for place in (spec.submodule_search_locations or ()) if spec else ():
            yield Shelf(Path(place, *rest), offer.called)
