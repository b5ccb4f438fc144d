"""What goes into a cell of a table, so that no spreadsheet takes a name of a plan for a formula."""

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def cell(value: object) -> str:
    """The value as text. One that a spreadsheet would reckon with gets an apostrophe before it, as spreadsheets do it."""
    text = str(value)
    return f"'{text}" if text.startswith(_FORMULA) else text
