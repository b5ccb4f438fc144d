"""Rows that a profile puts in the place of the book's, by hand or out of its files."""

import pytest

from planlint.book.csvfile import read_rows
from planlint.book.tables import Tables
from planlint.quantities import Length


def test_a_profile_replaces_the_rows_it_names_and_no_others() -> None:
    deeper = Tables({"burial-cover": [{"location": "yard", "nonmetallic": "24"}]})
    assert deeper.cover("nonmetallic", "yard") == Length.read("24 in")
    assert deeper.cover("direct-burial", "yard") == Length.read("24 in")
    assert deeper.cover("rigid-metal", "yard") == Length.read("6 in")
    assert Tables().cover("nonmetallic", "yard") == Length.read("18 in")


def test_the_last_of_two_rows_wins() -> None:
    rows = [{"location": "yard", "nonmetallic": "24"}, {"location": "yard", "nonmetallic": "30"}]
    assert Tables({"burial-cover": rows}).cover("nonmetallic", "yard") == Length.read("30 in")


def test_a_row_whose_key_is_empty_can_be_replaced() -> None:
    assert str(Tables({"working-space": [{"item": "width", "value": "36 in"}]}).working_width()) == "36 in"


@pytest.mark.parametrize(
    ("table", "row", "said"),
    [
        ("burial-covers", {}, "there is no table 'burial-covers'. Did you mean 'burial-cover'?"),
        ("burial-cover", {"location": "yard", "nonmetalic": "24"}, "has no column 'nonmetalic'; it has location, "),
        ("burial-cover", {"location": "yard", "nonmetalic": "24"}, "Did you mean 'nonmetallic'?"),
        ("burial-cover", {"location": "yards", "nonmetallic": "24"}, "with location 'yards'. Did you mean 'yard'?"),
        ("burial-cover", {"nonmetallic": "24"}, "is named by location; this one leaves out 'location'"),
        ("burial-cover", {"location": "yard", "nonmetallic": "24 in"}, "column 'nonmetallic': '24 in' is not a number"),
        ("ampacity", {"size": "14", "metal": "aluminum", "column": "60", "amperes": "1"}, "size 14, metal aluminum, column 60"),
        ("ampacity", {"size": "14", "metal": "coper", "column": "60", "amperes": "1"}, "Did you mean 'copper'?"),
        ("equipment-ground", {"rating": "20", "copper": "11"}, "column 'copper': '11' is no wire size"),
        ("electrode-conductor", {"copper-to": "2", "aluminum-to": "5/0"}, "column 'aluminum-to': '5/0' is no wire size"),
        ("small-conductors", {"size": "14", "metal": "copper", "from-edition": "20"}, "'20' is no edition"),
        ("demand-limits", {"item": "range-increase", "value": "5"}, "column 'value': '5' has no unit"),
        ("working-space", {"item": "width", "value": "36"}, "column 'value': '36' has no unit"),
    ],
)
def test_what_does_not_fit_is_refused_with_the_right_word(table: str, row: dict[str, str], said: str) -> None:
    with pytest.raises(ValueError) as caught:
        Tables({table: [row]})
    assert said in str(caught.value)


def test_a_row_of_the_wrong_length_is_named() -> None:
    with pytest.raises(ValueError, match=r"cover\.csv, line 3: 1 cells where there are 2 columns"):
        read_rows("# head\na,b\n1\n", "cover.csv")
