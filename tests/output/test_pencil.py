"""An inspector's pencil: the arithmetic that a worksheet's steps show is done again from their words alone.

Whatever reads as sums, products and quotients of printed numbers is reckoned with the printed numbers, and must come out as the
step says, within the rounding of what is printed.
"""

import ast
import math
import operator
import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

import pytest

import planlint
from planlint.report import WorkingStep

FIXTURES = Path(__file__).parents[2] / "fixtures"
NUMBER = r"\d+(?:-\d+/\d+|/\d+|\.\d+)?(?:e-?\d+)?"
OPERAND = re.compile(rf"(?<![\w./-])({NUMBER})(?:\s*(%|[A-Za-z]+))?(?![\w-])")
SCALES: list[dict[str, float]] = [
    {},  # as printed
    {"kA": 1000, "kVA": 1000, "kW": 1000},
    {"kA": 1000, "kVA": 1000, "kW": 1000, "ft": 12},
]
ROUNDING = 2e-3  # four figures of each of a few numbers
DONE: dict[type, Callable[[float, float], float]] = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv,
}  # fmt: skip


def steps(path: Path) -> Iterator[WorkingStep]:
    for _, _, entry in planlint.worksheet(path).entries():
        yield from (
            step for step in entry.steps if step.value and re.search(r" [x/+-] ", step.text) and " box of " not in step.text
        )


def number(text: str, scale: dict[str, float]) -> float | None:
    """The one number of an operand, its unit told apart; None where there is none, or more than one."""
    found = OPERAND.findall(text)
    if len(found) != 1:
        return None
    digits, unit = found[0]
    whole, _, part = digits.partition("-") if "/" in digits else (digits, "", "")
    value = float(Fraction(whole) + Fraction(part)) if part else float(Fraction(digits)) if "/" in digits else float(digits)
    return value / 100 if unit == "%" else value * scale.get(unit, 1)


def sum_of(text: str, scale: dict[str, float]) -> float | None:
    """What the words come to; None where they aren't plain arithmetic."""
    plain = re.sub(r"\([^()]*\b(?:AWG|kcmil)\b[^()]*\)", "", text)  # a size in brackets explains a number
    plain = re.sub(r"(?:^|(?<= ))(?:[^:;]*: |f = )", "", plain).split(" = ")[0].split(", rounded")[0]
    plain = re.sub(r"(sin|cos) (\d+) deg", lambda found: f"{getattr(math, found[1])(math.radians(int(found[2]))):.9f}", plain)
    plain = re.sub(r"([\d.]+)\^2", r"(\1 x \1)", re.sub(r"\bpi\^2", f"{math.pi**2:.9f}", plain))
    plain = re.sub(r"(\d) (?=9\.8696|pi\b)", r"\1 x ", plain).replace(" pi", f" {math.pi:.9f}")
    tokens = []
    for part in re.split(r"(\s[x/+-]\s|\(|\))", plain):
        word = part.strip()
        if word in ("+", "-", "(", ")", "/"):
            tokens.append(word)
        elif word == "x":
            tokens.append("*")
        elif word == "ln":
            tokens.append(word)
        elif word and word not in ("ohm", "ft", "in", "V", "A", "VA"):
            value = number(word, scale)
            if value is None:
                return None
            tokens.append(repr(value))
    try:
        return worked(ast.parse("".join(tokens), mode="eval").body)
    except (SyntaxError, KeyError, ZeroDivisionError):
        return None


def worked(node: ast.expr) -> float:
    if isinstance(node, ast.Constant):
        return float(node.value)
    if isinstance(node, ast.BinOp):
        return DONE[type(node.op)](worked(node.left), worked(node.right))
    if isinstance(node, ast.Call):
        return math.log(worked(node.args[0]))
    raise KeyError(type(node))


def outcome(step: WorkingStep) -> bool | None:
    """Whether the pencil gets what the step says; None where the step is no plain arithmetic."""
    said = step.text.split(" = ")[1] if " = " in step.text and "f = " not in step.text else step.value
    tried = []
    for scale in SCALES:
        reckoned, printed = sum_of(step.text, scale), number(said, scale)
        if reckoned is not None and printed is not None:
            size = [abs(printed), abs(reckoned)]
            if " - " in step.text:  # what is left over is as coarse as what it is taken from
                size += [float(digits) / 2 for digits in re.findall(r"\d+\.?\d*", step.text.partition(" - ")[0])]
            close = abs(reckoned - printed) <= ROUNDING * max(size)
            tried.append(close or ("rounded up" in step.text and 0 <= printed - reckoned < 1))
    return any(tried) if tried else None


@pytest.mark.parametrize("name", ["cottage.plan", "cottage-faults.plan"])
def test_the_pencil_gets_what_the_cottages_steps_say(name: str) -> None:
    found = [(step, outcome(step)) for step in steps(FIXTURES / name)]
    assert [(step.fact, step.text, step.value) for step, right in found if right is False] == []
    assert sum(right is True for _, right in found) > 0.8 * len(found) > 200


def test_the_pencil_gets_what_the_fixtures_steps_say() -> None:
    wrong = []
    for path in sorted((FIXTURES / "rules").glob("*.plan")):
        wrong += [(path.stem, step.fact, step.text, step.value) for step in steps(path) if outcome(step) is False]
    assert wrong == []


@pytest.mark.parametrize(
    ("text", "value", "right"),
    [
        ("2 x 140 ft x 53 A x 0.253 ohm / 1000 ft", "3.755 V", True),
        ("2 x 140 ft x 53 A x 0.253 ohm / 1000 ft", "3.85 V", False),
        ("long: f = 2 x 38 ft x 10 kA / (11174 x 1 x 240 V)", "0.283", True),
        ("115 A (1 AWG aluminum, 90 C) x 96 %", "110.4 A", True),
        ("11-1/4 in - 2 x 1-1/4 in", "8.75 in", True),
        ("4950 VA / 120 V / 15 A, rounded up", "3", True),
        ("4950 VA / 120 V / 15 A, rounded up", "4", False),
        ("one rod: 100 ohm-m / (2 pi x 2.438 m) x (ln(4 x 2.438 / 0.007938) - 1)", "39.9 ohm", True),
        ("one rod: 100 ohm-m / (2 pi x 2.438 m) x (ln(4 x 2.438 / 0.007938) - 1)", "39.5 ohm", False),
        ("2 x 1 / 2^2 x 5.389 ohm", "2.694 ohm", True),
        ("100 ohm-m / (2 pi^2 x 9.7 m)", "0.5223 ohm", True),
        ("house + studio", "12 A", None),
    ],
)
def test_the_pencil_itself(text: str, value: str, right: bool | None) -> None:
    from planlint.report import Subject

    assert outcome(WorkingStep("drop", Subject("feeder", "long"), text, value)) is right
