"""Comparisons: which test belongs to two types, and the three answers it gives where a list may be longer than is shown."""

import operator
from collections.abc import Callable
from typing import Any

from planlint.expressions.check import is_size, numbers_agree, same_dimension
from planlint.expressions.values import AtLeast
from planlint.expressions.verdict import YES, Verdict
from planlint.plan.members import merged
from planlint.quantities import alike, plain
from planlint.trade import WireSize, WireSizes
from planlint.valuetypes import DATE, TRADE_SIZE, ValueType

Test = Callable[[Any, Any], bool]


class Unlike(Exception):
    """Two values that nothing can hold against each other: sizes of two metals. Says so in a sentence."""


_OPERATORS: dict[str, Test] = {"=": operator.eq, "<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge}
_MIRRORED = {"=": "=", "<": ">", "<=": ">=", ">": "<", ">=": "<="}


def ordering(sign: str, left: ValueType, right: ValueType) -> Test | None:
    """The test that a sign stands for between two types, or None where they can't be held against each other.

    It raises Unlike at run time for sizes of two metals.
    """
    test = _OPERATORS[sign]
    if numbers_agree(left, right) and not same_dimension(left, right):
        return _numbers(sign)
    if same_dimension(left, right) or left == right == DATE:
        return test
    if sign != "=" and left == right == TRADE_SIZE:
        return test
    if sign != "=" and is_size(left) and is_size(right):
        return lambda a, b: test(*of_one_metal(a, b))
    return None


def _numbers(sign: str) -> Test:
    test = _OPERATORS[sign]
    with_equal = sign in ("=", "<=", ">=")

    def compare(a: Any, b: Any) -> bool:
        one, other = plain(a), plain(b)
        return with_equal if alike(one, other) else test(one, other)

    return compare


def equality(type_: ValueType) -> Test:
    """The test of `is`, `in` and `includes` for values of a type. Raises Unlike where a setting lists no size for the metal."""
    if is_size(type_):
        return _same_size
    return _numbers("=") if type_.base in ("number", "ratio") else operator.eq


def _same_size(a: Any, b: Any) -> bool:
    if isinstance(a, WireSizes) or isinstance(b, WireSizes):
        a, b = of_one_metal(a, b)
    return bool(a == b)


def of_one_metal(a: WireSize | WireSizes, b: WireSize | WireSizes) -> tuple[WireSize, WireSize]:
    """Two sizes as they can be compared: a setting's figure is that of the other's metal. No wire at all has no metal.

    Raises Unlike where the setting lists none for it, and for two metals.
    """
    one = _figure(a, b) if isinstance(a, WireSizes) else a
    other = _figure(b, one) if isinstance(b, WireSizes) else b
    if one.size and other.size and one.metal != other.metal:
        raise Unlike(f"{one} and {other} are of two metals, so their sizes can't be held against each other.")
    return one, other


def _figure(sizes: WireSizes, against: WireSize | WireSizes) -> WireSize:
    """The size that a setting gives for the metal of what it is held against; its first one where that has no metal."""
    metals = tuple(against.by_metal) if isinstance(against, WireSizes) else (against.metal,) if against.size else ()
    for size in sizes.by_metal.values():
        if not metals or size.metal in metals:
            return size
    raise Unlike(f"No size of {' or '.join(metals)} is allowed here, only {sizes}.")


def judged(test: Test, sign: str, negated: bool, left: Any, right: Any) -> Verdict:
    """What a comparison of two values comes to. Values that can't be compared are broken, whichever way it is asked."""
    if isinstance(left, AtLeast) or isinstance(right, AtLeast):
        return _at_least(test, sign, negated, left, right)
    try:
        holds = test(left, right)
    except Unlike as unlike:
        return Verdict("no", broken=((left, right),), notes=(str(unlike),))
    return YES if holds != negated else Verdict("no", broken=((left, right),))


def _at_least(test: Test, sign: str, negated: bool, left: Any, right: Any) -> Verdict:
    """A count that may still grow decides only what no larger one would undo."""
    needs = merged(*(side.needs for side in (left, right) if isinstance(side, AtLeast)))
    if isinstance(left, AtLeast) and isinstance(right, AtLeast):
        return Verdict("unknown", needs)
    if isinstance(right, AtLeast):
        return _at_least(_numbers(_MIRRORED[sign]), _MIRRORED[sign], negated, right, left)
    if sign == "=":
        stays, holds = plain(right) < left.number and not test(left.number, right), False
    else:
        holds = test(left.number, right)
        stays = holds == (sign in (">", ">="))
    if not stays:
        return Verdict("unknown", needs)
    return YES if holds != negated else Verdict("no", broken=((left.number, right),))
