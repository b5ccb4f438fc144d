"""What is asked in words: `is`, `is same as`, `is stated`, `in` and `includes`, compiled to closures."""

from collections.abc import Callable
from typing import Any

from planlint.expressions import tree
from planlint.expressions.check import check_words, described, fits, is_worded
from planlint.expressions.comparing import Test, Unlike, equality
from planlint.expressions.faults import ExpressionFault
from planlint.expressions.paths import Reader, Resolved, Scope, fault, resolve
from planlint.expressions.values import Value, compile_operand, compile_written, constant, gathered
from planlint.expressions.verdict import NO, YES, Judge, Verdict, unknown
from planlint.nearest import proposal
from planlint.plan.elements import Element, NotStated
from planlint.plan.members import Members
from planlint.trade import Conductors, WireSize
from planlint.valuetypes import ValueType

_ASKED_FOR = ("choice", "either", "wire-size", "conductors", "trade-size")


def compile_is(node: tree.Is, scope: Scope, negated: bool) -> Judge:
    """`neutral is isolated`, `size is not 6 AWG copper`, `ground is none`."""
    left = _name(node.left, scope)
    found = resolve(left, scope)
    negated = negated != node.negated
    if node.right.text == "none" and (found.allows_none or not found.type.words) and "none" not in found.type.words:
        return _compile_none(node.right, found, negated)
    if found.type.base not in _ASKED_FOR or (found.type.base == "either" and not found.type.words):
        raise fault(node, _not_with_is(left, found.type, node.right.text))
    right = _member(node.right, left, found.type, scope)
    value = compile_operand(left, scope)
    return _is_among(value.read, _all_of([right.read]), equality(value.type), negated)


def _name(node: tree.Node, scope: Scope) -> tree.Path:
    if isinstance(node, tree.Path):
        return node
    raise fault(node, f"words are asked about a name, like neutral is isolated; '{scope.words(node)}' is none")


def _not_with_is(left: tree.Path, type_: ValueType, right: str) -> str:
    said = f"'{left}' is {described(type_)}"
    if type_.base == "yes-no":
        return f"'{left}' is yes or no by itself; write {left}, or not {left}"
    if type_.base in ("quantity", "number"):
        return f"{said}; values are compared with signs, like {left} = {right}"
    if type_.base == "list":
        return f"{said}; write {left} includes {right}"
    if type_.base == "element":
        return f"{said}, not a word; ask about one of its own names after a dot, like {left}.name"
    return f"{said}, not one of a few words, so no word can be asked for"


def _member(node: tree.Written, left: tree.Path, type_: ValueType, scope: Scope) -> Value:
    """What stands on the right: a word of the type, a value written out, or the name of a setting or fact of such words."""
    if node.text in type_.words:
        return constant(type_, node.text)
    if node.sort != "word":
        value = compile_written(node, type_)
    else:
        if scope.names.lookup(scope.kinds, node.text) is None:
            raise _unknown_word(node, left, type_, scope)
        value = compile_operand(tree.Path(node.start, node.end, (node.text,)), scope)
    if not fits(type_, value.type):
        raise fault(node, f"'{node.text}' is {described(value.type)}, '{left}' {described(type_)}")
    check_words(node, str(left), type_, value.type.words)
    return value


def _unknown_word(node: tree.Written, left: tree.Path, type_: ValueType, scope: Scope) -> ExpressionFault:
    if type_.words:
        check_words(node, str(left), type_, (node.text,))
    meant = proposal(node.text, scope.names.known(scope.kinds))
    return fault(node, f"'{left}' is {described(type_)}; '{node.text}' is no such value and no setting.{meant}")


def _compile_none(node: tree.Written, found: Resolved, negated: bool) -> Judge:
    if not found.allows_none:
        raise fault(node, f"'{found.word}' is never none")
    read = found.read

    def judge(element: Element, job: Any) -> Verdict:
        try:
            value = read(element, job)
        except NotStated as gap:
            return unknown(gap)
        if isinstance(value, Members) and not value.known and value.gaps:
            return unknown(NotStated(*value.gaps))
        return YES if _is_none(value) != negated else NO

    return judge


def _is_none(value: Any) -> bool:
    if isinstance(value, Conductors):
        return value.count == 0
    if isinstance(value, WireSize):
        return not value.size
    if isinstance(value, Members):
        return not value.known
    return value is None or value == ()


def compile_is_same(node: tree.IsSame, scope: Scope, negated: bool) -> Judge:
    """`neutral is same as neutral-wanted`."""
    left, right = resolve(_name(node.left, scope), scope), resolve(node.right, scope)
    for side in (left, right):
        if side.type.base not in ("choice", "text"):
            asked = f"'is same as' stands between two names with words; '{side.word}' is {described(side.type)}"
            raise fault(node, f"{asked}; values are compared with signs, like {scope.words(node.left)} = {node.right}")
    if left.type.words and right.type.words and not set(left.type.words) & set(right.type.words):
        raise fault(node, f"'{left.word}' and '{right.word}' have no word in common, so they are never the same")
    return _is_among(left.read, _all_of([right.read]), equality(left.type), negated != node.negated)


def compile_is_stated(node: tree.IsStated, scope: Scope, negated: bool) -> Judge:
    """`bend-radius is stated`: yes for `none`, no for `unknown` and for a default."""
    found = resolve(_name(node.left, scope), scope)
    attribute, owner = found.name.attribute, found.owner
    if not attribute:
        raise fault(node, f"'{found.word}' is worked out or set, not stated in a plan; ask about the attributes that it rests on")
    negated = negated != node.negated

    def judge(element: Element, job: Any) -> Verdict:
        try:
            return YES if owner(element, job).states(attribute) != negated else NO
        except NotStated as gap:
            return unknown(gap)

    return judge


def compile_in(node: tree.In, scope: Scope, negated: bool) -> Judge:
    """`type in [rod, pipe]`, `at.room in banned-places`."""
    left = _name(node.left, scope)
    value = compile_operand(left, scope)
    if value.type.base in ("yes-no", "list"):
        raise fault(node, f"'{left}' is {described(value.type)}; 'in' asks whether one value is in a list")
    if isinstance(node.right, tree.Path):
        members = _list(node.right, left, value.type, scope)
    else:
        members = _all_of([_member(each, left, value.type, scope).read for each in node.right])
    return _is_among(value.read, members, equality(value.type), negated)


def _all_of(readers: list[Reader]) -> Reader:
    return lambda element, job: tuple(read(element, job) for read in readers)


def _list(node: tree.Path, left: tree.Path, type_: ValueType, scope: Scope) -> Reader:
    found = resolve(node, scope)
    member = found.type.of
    if found.type.base != "list" or member is None:
        raise fault(node, f"'{node}' is {described(found.type)}, not a list; a list in brackets is written like [rod, pipe]")
    if not fits(type_, member) or member.base == "conductors":
        raise fault(node, f"'{left}' is {described(type_)}, and each of '{node}' {described(member)}")
    check_words(node, str(left), type_, member.words)
    return found.read


def compile_includes(node: tree.Includes, scope: Scope, negated: bool) -> Judge:
    """`serves includes laundry`."""
    left = _name(node.left, scope)
    found = resolve(left, scope)
    member = found.type.of
    if found.type.base != "list" or member is None:
        instead = f"write {left} is {node.right.text}" if is_worded(found.type) else "'includes' is asked of a list"
        raise fault(node, f"'{left}' is {described(found.type)}, not a list; {instead}")
    if member.base == "conductors":
        raise fault(node, f"'{left}' is a list of wires, which are more than their size; name a fact that asks about them")
    right = _member(node.right, left, member, scope)
    return _is_among(right.read, found.read, equality(member), negated)


def _is_among(value_read: Reader, list_read: Callable[[Element, Any], Any], test: Test, negated: bool) -> Judge:
    """Whether a value is among some: a hit decides; otherwise a list that may be longer leaves it open."""
    gather = gathered(value_read, list_read)

    def judge(element: Element, job: Any) -> Verdict:
        try:
            value, others = gather(element, job)
        except NotStated as gap:
            return unknown(gap)
        notes = []
        for other in others or ():
            try:
                if test(value, other):
                    return NO if negated else YES
            except Unlike as unlike:
                notes.append(str(unlike))
        if isinstance(others, Members) and others.gaps:
            return unknown(NotStated(*others.gaps))
        if notes:
            return Verdict("no", notes=tuple(notes))
        return YES if negated else NO

    return judge
