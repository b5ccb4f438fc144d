"""Wire sizes by metal, as settings list them."""

import pytest

from planlint.quantities import Unreadable
from planlint.trade import WireSize, WireSizes


def test_each_metal_has_its_size() -> None:
    sizes = WireSizes.read("6 AWG copper,  4 AWG aluminum")
    assert sizes.by_metal == {"copper": WireSize.read("6 AWG copper"), "aluminum": WireSize.read("4 AWG aluminum")}
    assert str(sizes) == "6 AWG copper, 4 AWG aluminum"
    assert str(WireSizes.of(WireSize("6", "copper"))) == "6 AWG copper"


@pytest.mark.parametrize("text", ["6 AWG", "6 AWG copper, 4 AWG copper", "6 AWG copper, 4 AWG"])
def test_a_size_without_metal_or_a_metal_twice(text: str) -> None:
    with pytest.raises(Unreadable, match="each size names its metal"):
        WireSizes.read(text)


def test_a_fault_in_one_size_has_its_place_in_the_whole() -> None:
    text = "6 AWG copper, 5 AWG aluminum"
    with pytest.raises(Unreadable) as found:
        WireSizes.read(text)
    assert text[found.value.start : found.value.end] == "5"
