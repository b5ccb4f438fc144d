"""Where a word stands: file, line, column. A *place* is a room of the plan language, so a position is never called one."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """A stretch of text in one file, counted from 1 in code points; the end column is the one after the last character.

    `file` is the path as it is shown: relative to the working folder where it can be, with forward slashes.
    """

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    @classmethod
    def of(cls, file: str, line: int, column: int, length: int) -> "Span":
        """A stretch of `length` code points on one line."""
        return cls(file, line, column, line, column + length)

    def __str__(self) -> str:
        return f"{self.file}, line {self.line}, column {self.column}"
