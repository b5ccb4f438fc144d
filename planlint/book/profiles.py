"""Profiles: what a model edition or a local authority says about rules and settings, one file each, found by name."""

import re
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from planlint.book.reader import Reader
from planlint.book.records import (
    EDITIONS,
    INSPECTIONS,
    SEVERITIES,
    Case,
    ProfileRecord,
    RuleChange,
    SettingChange,
    TableRow,
)
from planlint.book.settings import FULL_NAME
from planlint.book.source import Fields, Node, Scalar, Sourced, read_source
from planlint.book.values import PLAIN_NUMBER, read_value
from planlint.nearest import proposal

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable
    from pathlib import Path

NEEDED = ("profile", "title")
OPTIONAL = (
    "edition", "based-on", "confirm-with", "preview", "checked", "in-force-from", "kept-by", "adopted-by", "renamed",
    "settings", "changes", "takes-up", "leaves-out", "adds", "tables", "cases",
)  # fmt: skip
_INSIDE = re.compile(r"(?!/)(?!(?:.*/)?\.\.(?:/|$))[^\\:]+")


def read_profile(folder: "Path | Traversable", stem: str, file: str) -> ProfileRecord:
    """The profile `stem` of a folder, checked for form; `file` is its path as it is shown.

    Whether the rules and settings that it names exist, only the resolved code can tell. Raises Faults with everything that is
    wrong with the file.
    """
    node, faults = read_source(folder / f"{stem}.yaml", file)
    reader = Reader(faults)
    parts = reader.fields(node, "a profile", NEEDED, OPTIONAL)
    name = reader.name(parts["profile"], "profile")
    if name.text and name.text != stem:
        reader.fault(name.span, f"the profile is called '{name}' and its file '{stem}'; they have one name")
    if "edition" in parts and "based-on" in parts:
        reader.fault(parts["edition"].span, "a profile is a model edition or based on another one, not both")
    if "edition" in parts and "confirm-with" not in parts:
        reader.fault(name.span, "a model edition says whom to confirm with: confirm-with is missing")
    if "preview" in parts and "based-on" not in parts:
        reader.fault(parts["preview"].span, "a preview carries the rest from another profile: based-on is missing")
    record = _record(name, folder, parts, reader)
    reader.close()
    return record


def _record(name: Sourced, folder: "Path | Traversable", parts: Mapping[str, Node], reader: Reader) -> ProfileRecord:
    office, note = _confirm(parts, reader)
    return ProfileRecord(
        name=name.text,
        title=reader.text(parts["title"], "title").text,
        file=name.span.file,
        folder=folder,
        edition=reader.edition(parts["edition"], EDITIONS) if "edition" in parts else None,
        based_on=reader.name(parts["based-on"], "based-on") if "based-on" in parts else None,
        office=office,
        note=note,
        checked=reader.date(parts["checked"], "checked") if "checked" in parts else None,
        preview=" ".join(reader.text(parts["preview"], "preview").text.split()) if "preview" in parts else "",
        in_force_from=reader.date(parts["in-force-from"], "in-force-from") if "in-force-from" in parts else None,
        kept_by=reader.text(parts["kept-by"], "kept-by").text if "kept-by" in parts else "",
        adopted_by=reader.text(parts["adopted-by"], "adopted-by").text if "adopted-by" in parts else "",
        takes_up=tuple(_reasons("takes-up", parts, reader)),
        leaves_out=tuple(_reasons("leaves-out", parts, reader)),
        changes=tuple(_changes(parts, reader)),
        settings=tuple(_settings(parts, reader)),
        adds=tuple(_path(one, "an added rule", ".yaml", reader) for one in _members("adds", parts, reader)),
        tables=tuple(_table_rows(name.text, parts, reader)),
        cases=tuple(_cases(parts, reader)),
        renamed=tuple(old.text for old in reader.names(parts["renamed"], "renamed")) if "renamed" in parts else (),
        span=name.span,
    )


def _confirm(parts: Mapping[str, Node], reader: Reader) -> tuple[str, str]:
    """The office, and the note or nothing. `confirm-with` may be the office alone."""
    node = parts.get("confirm-with")
    if node is None:
        return "", ""
    if not isinstance(node, Fields):
        return reader.text(node, "confirm-with").text, ""
    confirm = reader.fields(node, "confirm-with", ("office",), ("note",))
    note = reader.text(confirm["note"], "note").text if "note" in confirm else ""
    return reader.text(confirm["office"], "office").text, note


def _reasons(key: str, parts: Mapping[str, Node], reader: Reader) -> Iterator[tuple[Sourced, str]]:
    for entry in reader.entries(parts[key], key) if key in parts else ():
        yield reader.name(entry.key, "a rule"), reader.text(entry.value, f"the clause and reason of {entry.key.text}").text


def _changes(parts: Mapping[str, Node], reader: Reader) -> Iterator[RuleChange]:
    for entry in reader.entries(parts["changes"], "changes") if "changes" in parts else ():
        change = reader.fields(entry.value, "a change", (), ("severity", "inspection", "because"))
        if isinstance(entry.value, Fields) and not change:
            reader.fault(entry.value.span, "a change sets severity, inspection or because")
        yield RuleChange(
            rule=reader.name(entry.key, "a rule"),
            severity=reader.word(change["severity"], "severity", SEVERITIES) if "severity" in change else None,
            inspection=reader.word(change["inspection"], "inspection", INSPECTIONS) if "inspection" in change else None,
            because=reader.text(change["because"], "because").text if "because" in change else "",
        )


def _settings(parts: Mapping[str, Node], reader: Reader) -> Iterator[SettingChange]:
    for entry in reader.entries(parts["settings"], "settings") if "settings" in parts else ():
        name = reader.text(entry.key, "the name of a setting")
        if name.text and not FULL_NAME.fullmatch(name.text):
            reader.fault(name.span, f"'{name}' is not the name of a setting, which is written like rule.setting or fact.setting")
        node, because = entry.value, ""
        if isinstance(node, Fields):
            long = reader.fields(node, "a setting", ("value", "because"))
            node, because = long["value"], reader.text(long["because"], "because").text
        read_value(node, reader)  # its form; its type is known only with all settings
        yield SettingChange(name, node, because)


def _members(key: str, parts: Mapping[str, Node], reader: Reader) -> tuple[Node, ...]:
    return reader.members(parts[key], key) if key in parts else ()


def _path(node: Node, what: str, ending: str, reader: Reader) -> Sourced:
    """A path relative to the profile's file, inside its folder."""
    path = reader.text(node, what)
    written = node.text if isinstance(node, Scalar) else ""
    if path.text and not _INSIDE.fullmatch(written):
        reader.fault(path.span, f"{what} lies in the profile's own folder: write its path from there, with forward slashes")
    elif path.text and not re.search(rf"\S{re.escape(ending)}$", written):
        reader.fault(path.span, f"{what} is a file whose name ends in {ending}")
    return path


def near_file(profile: ProfileRecord, relative: str) -> str:
    """A sentence that proposes the nearest file of that ending in the profile's folder, or nothing."""
    ending = relative[relative.rfind(".") :]
    here = relative.rpartition("/")[0]
    folders = dict.fromkeys((here, "", "rules", "cases"))
    known = [
        f"{folder}/{path.name}".removeprefix("/")
        for folder in folders
        if (place := profile.folder.joinpath(*folder.split("/"))).is_dir()
        for path in place.iterdir()
        if path.name.endswith(ending)
    ]
    return proposal(relative, sorted(known))


def _table_rows(profile: str, parts: Mapping[str, Node], reader: Reader) -> Iterator[TableRow]:
    for entry in reader.entries(parts["tables"], "tables") if "tables" in parts else ():
        table = reader.name(entry.key, "a table")
        for row in reader.members(entry.value, f"the rows for {table}"):
            cells = {cell.key.text: cell for cell in reader.entries(row, "a row of a table")}
            because = cells.pop("because", None)
            for cell in cells.values():
                if not _is_cell(cell.value):
                    reader.fault(cell.value.span, f"{cell.key.text} is one figure or word of a table")
            yield TableRow(
                table=table,
                profile=profile,
                columns={column: cell.key.sourced for column, cell in cells.items()},
                cells={column: cell.value.sourced for column, cell in cells.items() if isinstance(cell.value, Scalar)},
                because=reader.text(because.value, "because").text if because else "",
                span=row.span,
            )


def _is_cell(node: Node) -> bool:
    """Whether it is a text, a plain number, yes or no."""
    if not isinstance(node, Scalar) or not node.text.strip():
        return False
    return node.tag in ("text", "date", "yes-no") or (node.tag == "number" and bool(PLAIN_NUMBER.fullmatch(node.text)))


def _cases(parts: Mapping[str, Node], reader: Reader) -> Iterator[Case]:
    for member in _members("cases", parts, reader):
        case = reader.fields(member, "a case", ("plan", "expect"))
        yield Case(_path(case["plan"], "the plan of a case", ".plan", reader), reader.names(case["expect"], "expect"))
