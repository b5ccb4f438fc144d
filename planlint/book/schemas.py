"""The second look at a rule file or profile: the JSON Schemas in `schema/`, which other programs use too."""

from typing import Any, Literal

from planlint.book.editor_schemas import plain_schema
from planlint.book.source import Fields, Items, Node
from planlint.book.values import PLAIN_NUMBER, YES
from planlint.faults import Fault


def schema_faults(node: Node, kind: Literal["rule", "profile"]) -> list[Fault]:
    """What the schema of rule files or profiles has against a file that is read into nodes, each at its place."""
    from jsonschema import Draft202012Validator  # slow to import, and the loader does without it

    validator = Draft202012Validator(plain_schema(kind), format_checker=Draft202012Validator.FORMAT_CHECKER)
    return [Fault(_at(node, error.absolute_path).span, error.message) for error in validator.iter_errors(plain(node))]


def plain(node: Node) -> Any:
    """The node as JSON has it: keys are text, dates are text, and what a rule file has no use for is null."""
    if isinstance(node, Fields):
        return {name: plain(entry.value) for name, entry in node.entries.items()}
    if isinstance(node, Items):
        return [plain(member) for member in node.members]
    if node.tag in ("text", "date"):
        return node.text
    if node.tag == "yes-no":
        return node.text.lower() in YES
    if node.tag == "number" and PLAIN_NUMBER.fullmatch(node.text):
        return float(node.text) if "." in node.text else int(node.text)
    return None


def _at(node: Node, path: Any) -> Node:
    """The node that a schema's path leads to."""
    for step in path:
        if isinstance(node, Fields) and step in node.entries:
            node = node.entries[step].value
        elif isinstance(node, Items):
            node = node.members[step]
    return node
