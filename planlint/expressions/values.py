"""Values: names, numbers with units, sizes and arithmetic, compiled to closures that read them from an element."""

import operator
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

from planlint.expressions import tree
from planlint.expressions.check import RATIO, described, is_plain, is_size, numbers_agree, same_dimension
from planlint.expressions.paths import Reader, Resolved, Scope, fault, resolve
from planlint.plan.elements import Element, Need, NotStated
from planlint.plan.members import Members, merged
from planlint.quantities import DIMENSIONS, Unreadable, plain, read_number
from planlint.trade import NO_WIRE, Conductors, TradeSize, WireSize, WireSizes
from planlint.valuetypes import NUMBER, TRADE_SIZE, WIRE_SIZE, YES_NO, ValueType, quantity


@dataclass(frozen=True, slots=True)
class Value:
    """A compiled value: its type, and how it is read. `read` raises NotStated."""

    type: ValueType
    read: Reader


@dataclass(frozen=True, slots=True)
class AtLeast:
    """A count of a list that may be longer than the plan shows, and what would close it."""

    number: float
    needs: tuple[Need, ...]

    def __str__(self) -> str:
        return f"at least {self.number:g}"


def constant(type_: ValueType, value: object) -> Value:
    """A value that no element changes."""
    return Value(type_, lambda element, job: value)


def compile_value(node: tree.Node, scope: Scope, like: ValueType | None = None) -> Value:
    """Compile a value as it is printed. `like` is the type it is held against, for what is written out (`2 in`, `120 F`).

    Raises ExpressionFault.
    """
    if isinstance(node, tree.Path):
        found = resolve(node, scope)
        return Value(found.type, found.read)
    if isinstance(node, tree.Written):
        return compile_written(node, like)
    if isinstance(node, tree.YesNo):
        return constant(YES_NO, node.value)
    if isinstance(node, tree.Count):
        return _compile_count(node, scope)
    if isinstance(node, tree.Arithmetic):
        return _compile_arithmetic(node, scope, like)
    raise fault(node, f"'{scope.words(node)}' is a condition; a value belongs here")


def compile_operand(node: tree.Node, scope: Scope, like: ValueType | None = None) -> Value:
    """Compile a value as it is compared: wires by their size, and `none` as zero. Raises ExpressionFault."""
    if not isinstance(node, tree.Path):
        return compile_value(node, scope, like)
    found = resolve(node, scope)
    if is_size(found.type):
        return Value(WIRE_SIZE, _size_reader(found))
    if found.type.base == "quantity" and found.allows_none:
        read, zero = found.read, DIMENSIONS[found.type.dimension](0.0)
        return Value(found.type, lambda element, job: zero if (value := read(element, job)) is None else value)
    return Value(found.type, found.read)


def _size_reader(found: Resolved) -> Reader:
    def read(element: Element, job: Any) -> WireSize | WireSizes:
        owner = found.owner(element, job)
        value = found.name.read(owner, job)
        if isinstance(value, WireSizes):
            return value
        size: WireSize = value.size if isinstance(value, Conductors) else value or NO_WIRE
        if size.size and not size.metal:
            raise NotStated(Need(owner, found.name.attribute or found.word, note=f"{owner.name}: the metal of {found.word}"))
        return size

    return read


def compile_written(node: tree.Written, like: ValueType | None) -> Value:
    """A number, quantity or size that is written out. Raises ExpressionFault."""
    try:
        if node.sort == "number":
            return constant(NUMBER, read_number(node.text))
        if node.sort == "size":
            size = WireSize.read(node.text)
            if not size.metal:
                raise fault(
                    node, f"'{node.text}' has no metal, and sizes are compared within one; write it like {node.text} copper"
                )
            return constant(WIRE_SIZE, size)
        if like == TRADE_SIZE:
            return constant(TRADE_SIZE, TradeSize.read(node.text))
        return _quantity(node, like)
    except Unreadable as unreadable:
        end = node.end if unreadable.end is None else node.start + unreadable.end
        raise fault(tree.Node(node.start + unreadable.start, end), unreadable.message) from None


def _quantity(node: tree.Written, like: ValueType | None) -> Value:
    """Some units belong to two dimensions, as F to temperatures and to their differences: what it is held against decides."""
    unit = node.text.split(maxsplit=1)[1]
    fitting = [cls for cls in DIMENSIONS.values() if any(unit.startswith(known) for known in cls.units)]
    wanted = [cls for cls in fitting if like is not None and cls.dimension == like.dimension]
    *others, last = (*wanted, *fitting)
    for cls in others:
        with suppress(Unreadable):
            return constant(quantity(cls.dimension), cls.read(node.text))
    return constant(quantity(last.dimension), last.read(node.text))


def _compile_count(node: tree.Count, scope: Scope) -> Value:
    found = resolve(node.path, scope)
    if found.type.base != "list":
        raise fault(node.path, f"'{node.path}' is {described(found.type)}, not a list; only lists are counted")
    read = found.read

    def count(element: Element, job: Any) -> int | AtLeast:
        value = read(element, job)
        if isinstance(value, Members):
            return AtLeast(len(value.known), value.gaps) if value.gaps else len(value.known)
        return len(value or ())

    return Value(NUMBER, count)


def gathered(left: Reader, right: Reader) -> Callable[[Element, Any], tuple[Any, Any]]:
    """Read two values. Where one isn't stated the other is still read, so that NotStated carries the needs of both."""

    def gather(element: Element, job: Any) -> tuple[Any, Any]:
        try:
            one = left(element, job)
        except NotStated as gap:
            needs = gap.needs
        else:
            return one, right(element, job)
        try:
            right(element, job)
        except NotStated as gap:
            needs = merged(needs, gap.needs)
        raise NotStated(*needs)

    return gather


def _compile_arithmetic(node: tree.Arithmetic, scope: Scope, like: ValueType | None) -> Value:
    if isinstance(node.left, tree.Written):
        right = compile_operand(node.right, scope, like)
        left = compile_operand(node.left, scope, right.type)
    else:
        left = compile_operand(node.left, scope, like)
        right = compile_operand(node.right, scope, left.type)
    worked = _added if node.operator in "+-" else _multiplied if node.operator == "*" else _divided
    found = worked(node.operator, left.type, right.type)
    if found is None:
        raise fault(node, _refused(node.operator, left.type, right.type))
    type_, work = found
    gather = gathered(left.read, right.read)

    def arithmetic(element: Element, job: Any) -> Any:
        one, other = gather(element, job)
        if isinstance(one, AtLeast) or isinstance(other, AtLeast):
            return _bounded(node.operator, one, other)
        try:
            return work(one, other)
        except ZeroDivisionError:
            none = f"{element.name}: {scope.words(node.right)} is zero, so nothing can be divided by it"
            raise NotStated(Need(element, scope.words(node.right), note=none)) from None

    return Value(type_, arithmetic)


_Work = tuple[ValueType, Callable[[Any, Any], Any]]


def _added(sign: str, left: ValueType, right: ValueType) -> _Work | None:
    work = operator.add if sign == "+" else operator.sub
    if same_dimension(left, right) and left.dimension != "temperature":
        return left, work
    if numbers_agree(left, right):
        return (RATIO if RATIO in (left, right) else NUMBER), lambda a, b: work(plain(a), plain(b))
    return None


def _multiplied(sign: str, left: ValueType, right: ValueType) -> _Work | None:
    if "temperature" in (left.dimension, right.dimension):
        return None
    if is_plain(left) and is_plain(right):
        return (left if left == right else RATIO), operator.mul
    if left.base == "quantity" and is_plain(right):
        return left, operator.mul
    if right.base == "quantity" and is_plain(left):
        return right, lambda a, b: b * a
    return None


def _divided(sign: str, left: ValueType, right: ValueType) -> _Work | None:
    if "temperature" in (left.dimension, right.dimension):
        return None
    if same_dimension(left, right):
        return RATIO, lambda a, b: a.over(b)
    if is_plain(left) and is_plain(right):
        return RATIO, lambda a, b: plain(a) / plain(b)
    if left.base == "quantity" and is_plain(right):
        return left, lambda a, b: a * (1 / plain(b))
    return None


def _refused(sign: str, left: ValueType, right: ValueType) -> str:
    sides = f"{described(left)} and {described(right)}"
    if "temperature" in (left.dimension, right.dimension):
        return "degrees of temperature can't be added or multiplied like amounts; name a fact that works it out"
    if sign in "+-":
        return f"{sides} can't be put together with '{sign}'; both sides are of one dimension"
    if sign == "*":
        return f"{sides} can't be multiplied; one side is a plain number or a percent"
    return f"{sides} can't be divided; the right side is a plain number, a percent, or of the same dimension"


def _bounded(sign: str, left: Any, right: Any) -> AtLeast:
    """Arithmetic with a count that may be larger: a sum has a lower bound, anything else waits for the list to be closed."""
    needs = merged(*(side.needs for side in (left, right) if isinstance(side, AtLeast)))
    if sign != "+":
        raise NotStated(*needs)
    one, other = (side.number if isinstance(side, AtLeast) else plain(side) for side in (left, right))
    return AtLeast(one + other, needs)
