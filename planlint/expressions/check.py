"""What may be held against what: types in words for messages, and the faults that are found before any plan is read."""

from planlint.expressions import tree
from planlint.expressions.faults import ExpressionFault
from planlint.expressions.paths import Scope, fault
from planlint.nearest import proposal
from planlint.plan.types import with_article
from planlint.quantities import DIMENSIONS
from planlint.valuetypes import NUMBER, ValueType, quantity

RATIO = ValueType("ratio")  # an amount divided by another of its dimension: a number that a percent can be held against
PERCENT = quantity("percent")
_PLAIN = (NUMBER, RATIO, PERCENT)
_SIZES = ("wire-size", "conductors")
_IN_WORDS = {
    "number": "a number", "yes-no": "yes or no", "choice": "a word", "wire-size": "a wire size",
    "conductors": "a wire or several", "cable": "a cable", "trade-size": "a trade size", "dimensions": "a box size",
    "voltage-system": "a supply's voltage", "slope": "a slope", "text": "a text", "date": "a date", "list": "a list",
    "ratio": "a ratio",
}  # fmt: skip


def described(type_: ValueType) -> str:
    """A type in a sentence: `a length`, `a panel or disconnect`."""
    if type_.base == "quantity":
        return f"{DIMENSIONS[type_.dimension].article} {type_.dimension}"
    if type_.base == "element":
        return with_article(*type_.kinds)
    if type_.base == "either":
        return " or ".join(("a quantity", *type_.words)) if type_.words else "one of two quantities"
    return _IN_WORDS[type_.base]


def is_plain(type_: ValueType) -> bool:
    """Whether it counts as a plain number in multiplying and dividing."""
    return type_ in _PLAIN


def is_size(type_: ValueType) -> bool:
    """Whether it is held against wire sizes."""
    return type_.base in _SIZES


def is_worded(type_: ValueType) -> bool:
    """Whether its value is or may be a word."""
    return type_.base in ("choice", "text") or bool(type_.words)


def numbers_agree(left: ValueType, right: ValueType) -> bool:
    """Whether two plain numbers can be held against each other or added: a count is no percent, a ratio is either."""
    return is_plain(left) and is_plain(right) and (left == right or RATIO in (left, right))


def fits(one: ValueType, other: ValueType) -> bool:
    """Whether two values can be the same one: what `is`, `in` and `includes` ask."""
    if one.base == other.base == "element":
        return bool(set(one.kinds) & set(other.kinds))
    if is_worded(one):
        return other.base in ("choice", "text")
    alike = one.base == other.base in ("trade-size", "date") or (is_size(one) and is_size(other))
    return alike or same_dimension(one, other) or numbers_agree(one, other)


def same_dimension(left: ValueType, right: ValueType) -> bool:
    """Whether both are quantities of one dimension."""
    return left.base == right.base == "quantity" and left.dimension == right.dimension


Side = tuple[tree.Node, ValueType]


def unlike(scope: Scope, node: tree.Node, left: Side, right: Side) -> ExpressionFault:
    """The fault that says why two values can't be held against each other."""
    for (one, one_type), (other, other_type) in ((left, right), (right, left)):
        if isinstance(one, tree.Written) and one.sort == "number" and other_type.base == "quantity":
            dimension = DIMENSIONS[other_type.dimension]
            meant = f"'{scope.words(other)}' is {described(other_type)}, like {dimension.example}"
            return fault(one, f"'{one.text}' has no unit; {meant}")
        if is_worded(one_type) or one_type.base == "list":
            name = scope.words(one)
            return fault(node, f"'{name}' is {described(one_type)}; {_asked_instead(name, one_type, other_type)}")
    sides = [f"'{scope.words(one)}' is {described(one_type)}" for one, one_type in (left, right)]
    return fault(node, f"{', '.join(sides)}: they can't be held against each other")


def _asked_instead(name: str, type_: ValueType, other: ValueType) -> str:
    if type_.base == "list":
        return f"write {name} includes ..., count({name}), or some {name} has (...)"
    if is_worded(other):
        return f"two names with words are compared like {name} is same as ..."
    if type_.base == "either":
        return "name a fact that is a quantity alone"
    return f"words are asked for like {name} is {type_.words[0]}" if type_.words else "it can't be held against a value"


def check_words(node: tree.Node, name: str, type_: ValueType, others: tuple[str, ...]) -> None:
    """Raise ExpressionFault for a word that isn't among a type's words, with the nearest that is."""
    for word in others:
        if type_.words and word not in type_.words:
            listed = ", ".join(type_.words)
            raise fault(node, f"'{word}' is no word of '{name}'; they are {listed}.{proposal(word, type_.words)}")


def not_a_condition(scope: Scope, node: tree.Node, type_: ValueType) -> ExpressionFault:
    """The fault that says what a condition would ask about this value."""
    name = scope.words(node)
    asked = {"list": f"count({name}) > 0", "choice": f"{name} is {(*type_.words, '')[0]}"}.get(type_.base, f"{name} is stated")
    if type_.base == "quantity":
        asked = f"{name} >= {DIMENSIONS[type_.dimension].example}"
    elif type_.base in ("number", "ratio"):
        asked = f"{name} > 0"
    return fault(node, f"'{name}' is {described(type_)}, which is neither yes nor no; ask something about it, like {asked}")
