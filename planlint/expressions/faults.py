"""What is wrong with an expression or a template, found before any plan is read."""


class ExpressionFault(Exception):
    """One thing in the text that can't stand, from offset `start` to `end`, and what belongs there."""

    def __init__(self, message: str, start: int, end: int) -> None:
        super().__init__(message)
        self.message = message
        self.start = start
        self.end = end
