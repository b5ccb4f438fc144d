"""The tree of an expression: what was written, with the place of each part as offsets into the text. No types yet."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Node:
    """Any part of an expression; `start` and `end` are offsets into its text."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Path(Node):
    """A name, or names joined by dots: `cover`, `at.room`."""

    words: tuple[str, ...]

    def __str__(self) -> str:
        return ".".join(self.words)


@dataclass(frozen=True, slots=True)
class Written(Node):
    """A value written out. What a bare word or `2 in` stands for is only known from what it is held against."""

    sort: Literal["quantity", "number", "size", "word"]
    text: str


@dataclass(frozen=True, slots=True)
class YesNo(Node):
    """`yes` or `no` written out."""

    value: bool


@dataclass(frozen=True, slots=True)
class Count(Node):
    """`count(list)`."""

    path: Path


@dataclass(frozen=True, slots=True)
class Arithmetic(Node):
    """`left + right` and its like."""

    operator: str
    left: Node
    right: Node


@dataclass(frozen=True, slots=True)
class Compare(Node):
    """`left <= right`; with more than one operator it is a chain, which the checker refuses."""

    operators: tuple[str, ...]
    operands: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Is(Node):
    """`left is right`, `left is not right`."""

    left: Node
    right: Written
    negated: bool


@dataclass(frozen=True, slots=True)
class IsSame(Node):
    """`left is same as right`."""

    left: Node
    right: Path
    negated: bool


@dataclass(frozen=True, slots=True)
class IsStated(Node):
    """`left is stated`."""

    left: Node
    negated: bool


@dataclass(frozen=True, slots=True)
class In(Node):
    """`left in [a, b]` or `left in list`."""

    left: Node
    right: Path | tuple[Written, ...]


@dataclass(frozen=True, slots=True)
class Includes(Node):
    """`list includes member`."""

    left: Node
    right: Written


@dataclass(frozen=True, slots=True)
class Not(Node):
    """`not part`."""

    part: Node


@dataclass(frozen=True, slots=True)
class Joined(Node):
    """Parts joined by `and` or by `or`."""

    word: Literal["and", "or"]
    parts: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Quantified(Node):
    """`some list has (body)`, and the same with `every` and `no`."""

    word: Literal["some", "every", "no"]
    path: Path
    body: Node
