"""Conditions: what a rule's `when` and `must` say, compiled to closures that answer yes, no or unknown.

`not` is carried down to the comparisons while compiling, so that what came out no is known where it did, and so that a
comparison that can't be made is broken whichever way it is asked.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from planlint.expressions import tree
from planlint.expressions.asking import compile_in, compile_includes, compile_is, compile_is_same, compile_is_stated
from planlint.expressions.check import described, is_size, not_a_condition, unlike
from planlint.expressions.comparing import judged, ordering
from planlint.expressions.grammar import parse
from planlint.expressions.names import Names
from planlint.expressions.paths import Scope, fault, resolve
from planlint.expressions.values import compile_operand, compile_value, gathered
from planlint.expressions.verdict import NO, YES, Judge, Verdict, all_of, any_of, unknown
from planlint.nearest import nearest
from planlint.plan.elements import Element, NotStated
from planlint.plan.members import Members
from planlint.valuetypes import YES_NO


@dataclass(frozen=True, slots=True)
class Condition:
    """A compiled condition. `names_read`: the first word of every path in it."""

    text: str
    names_read: frozenset[str]
    _judge: Judge

    def judge(self, element: Element, job: Any) -> Verdict:
        """Hold it against one element. Reading what the plan leaves out makes it unknown; nothing is raised for that."""
        return self._judge(element, job)


def compile_condition(text: str, kinds: tuple[str, ...], names: Names) -> Condition:
    """Parse, check and compile a condition about elements of these kinds. Raises ExpressionFault."""
    scope = Scope(text, kinds, names)
    judge = _compile(parse(text, "condition"), scope, False)
    return Condition(text, frozenset(scope.read), judge)


def _compile(node: tree.Node, scope: Scope, negated: bool) -> Judge:
    compiler = _COMPILERS.get(type(node), _compile_value)
    return compiler(node, scope, negated)


def _compile_not(node: tree.Not, scope: Scope, negated: bool) -> Judge:
    return _compile(node.part, scope, not negated)


def _compile_joined(node: tree.Joined, scope: Scope, negated: bool) -> Judge:
    parts = tuple(_compile(part, scope, negated) for part in node.parts)
    every = (node.word == "and") != negated

    def judge(element: Element, job: Any) -> Verdict:
        verdicts = (part(element, job) for part in parts)
        return all_of(verdicts) if every else any_of(verdicts, sides=True)

    return judge


def _compile_quantified(node: tree.Quantified, scope: Scope, negated: bool) -> Judge:
    found = resolve(node.path, scope)
    member = found.type.of
    if found.type.base != "list" or member is None:
        raise fault(node.path, f"'{node.path}' is {described(found.type)}, not a list; 'has' is asked of the members of a list")
    if member.base != "element":
        raise fault(node.path, f"the members of '{node.path}' have no names of their own; write {node.path} includes ...")
    every = (node.word != "some") != negated  # that none has it is that every one has it not
    body = _compile(node.body, scope.inside(member.kinds), negated != (node.word == "no"))
    read = found.read

    def judge(element: Element, job: Any) -> Verdict:
        try:
            members = read(element, job)
        except NotStated as gap:
            return unknown(gap)
        gaps = members.gaps if isinstance(members, Members) else ()
        verdicts = (body(each, job) for each in members or ())
        return all_of(verdicts, gaps) if every else any_of(verdicts, gaps)

    return judge


def _compile_compare(node: tree.Compare, scope: Scope, negated: bool) -> Judge:
    left_node, right_node, *more = node.operands
    if more:
        raise fault(node, "a comparison has two sides; join two of them with and, like cover >= 18 in and cover <= 24 in")
    sign = node.operators[0]
    _refuse_words(node, scope)
    if isinstance(left_node, tree.Written):
        right = compile_operand(right_node, scope)
        left = compile_operand(left_node, scope, right.type)
    else:
        left = compile_operand(left_node, scope)
        right = compile_operand(right_node, scope, left.type)
    if sign == "=" and left.type == right.type and (is_size(left.type) or left.type.base == "trade-size"):
        raise fault(node, f"sizes are asked for with is, like {scope.words(left_node)} is {scope.words(right_node)}")
    test = ordering(sign, left.type, right.type)
    if test is None:
        raise unlike(scope, node, (left_node, left.type), (right_node, right.type))
    gather = gathered(left.read, right.read)

    def judge(element: Element, job: Any) -> Verdict:
        try:
            one, other = gather(element, job)
        except NotStated as gap:
            return unknown(gap)
        return judged(test, sign, negated, one, other)

    return judge


def _refuse_words(node: tree.Compare, scope: Scope) -> None:
    """Refuse a sign where words or yes and no are meant, before a word is taken for a name that doesn't exist."""
    left, right = node.operands
    if not isinstance(left, tree.Path):
        return
    type_ = resolve(left, scope).type
    if type_.words and isinstance(right, tree.Path) and not scope.names.lookup(scope.kinds, right.words[0]):
        raise fault(node, f"words are asked for with is, like {left} is {nearest(str(right), type_.words) or type_.words[0]}")
    if type_ == YES_NO:
        raise fault(node, f"'{left}' is yes or no by itself; write {left}, or not {left}")


def _compile_value(node: tree.Node, scope: Scope, negated: bool) -> Judge:
    value = compile_value(node, scope)
    if value.type != YES_NO:
        raise not_a_condition(scope, node, value.type)
    read = value.read

    def judge(element: Element, job: Any) -> Verdict:
        try:
            return YES if bool(read(element, job)) != negated else NO
        except NotStated as gap:
            return unknown(gap)

    return judge


_COMPILERS: dict[type[tree.Node], Callable[[Any, Scope, bool], Judge]] = {
    tree.Not: _compile_not, tree.Joined: _compile_joined, tree.Quantified: _compile_quantified, tree.Compare: _compile_compare,
    tree.Is: compile_is, tree.IsSame: compile_is_same, tree.IsStated: compile_is_stated, tree.In: compile_in,
    tree.Includes: compile_includes,
}  # fmt: skip
