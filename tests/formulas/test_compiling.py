"""What a compiled formula gives, against an evaluator that shares nothing with it."""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.absent import Absent, OutOfReach
from checker.formulas.compiling import compile_formula
from checker.formulas.grammar import FormulaError
from checker.formulas.lacking import evaluate
from checker.formulas.running import SLACK, surroundings
from checker.formulas.scope import Scope, look_up_name
from checker.formulas.types import PLAIN, Flag, Numeric
from checker.installation.binding import bind_node
from checker.installation.schema import layout_from
from checker.reading import read_yaml
from checker.units import need

pint = pytest.importorskip("pint")

Value = Callable[..., Any]


# --- single formulas, worked out by hand -----------------------------------------

SHELF = "shelf: {mass: 20 kg, capacity: 50 kg, reach: 0.5 m, pull: 300 N, friction: 0.25, bolts: 4, locked: true, warmth: 20 degC, rise: 5 K, shift: -3 mm}"
BOXES = "\nboxes: [{name: a, kind: open, mass: 2 kg}, {name: b, kind: shut, mass: 3 kg}, {name: c, kind: open, mass: 5 kg}]"

WORKED = [
    ("a sum", "shelf.mass + shelf.capacity", 70.0),
    ("products before sums", "shelf.mass + shelf.mass * 2", 60.0),
    ("from left to right", "shelf.capacity - shelf.mass - shelf.mass", 10.0),
    ("division from left to right", "shelf.capacity / 5 / 2", 5.0),
    ("powers from right to left", "2 ** 3 ** 0", 2.0),
    ("the minus binds weaker than the power", "-2 ** 2", -4.0),
    ("a power of one half", "shelf.friction ** 0.5", 0.5),
    ("a root", "sqrt(shelf.friction)", 0.5),
    ("a negative whole power", "2 ** -2", 0.25),
    ("a free power", "shelf.friction ** (1 + factor)", 0.25**2.5),
    ("a constant", "shelf.mass * standard_gravity", 196.133),
    ("a circle", "pi * shelf.reach ** 2", math.pi / 4),
    ("a parameter", "most * factor", 450.0),
    ("a temperature", "shelf.warmth + shelf.rise", 298.15),
    ("a difference of temperatures", "glue - shelf.warmth", 20.0),
    ("the smaller", "min(shelf.mass, shelf.capacity, most / standard_gravity)", 20.0),
    ("not below nought", "max(shelf.shift, 0)", 0.0),
    ("the absolute value", "abs(shelf.shift)", 0.003),
    ("up", "round_up(shelf.friction * 9)", 3),
    ("down", "round_down(shelf.friction * 9)", 2),
    ("up from a whole number that a float misses", "round_up(0.1 * 3 / 0.1)", 3),
    ("down from a whole number that a float misses", "round_down(0.7 / 0.1)", 7),
    ("the sine of half a turn", "sin(pi)", 0.0),
    ("a logarithm", "log10(1000)", 3.0),
    ("a natural logarithm undone", "ln(exp(2))", 2.0),
    ("an angle", "atan(1) * 4", math.pi),
    ("a sum over the boxes", "sum(box.mass for box in boxes)", 10.0),
    ("a sum over some boxes", "sum(box.mass for box in boxes if box.kind == 'open')", 7.0),
    ("a sum over none", "sum(box.mass for box in boxes if box.mass > shelf.mass)", 0),
    ("the heaviest", "max(box.mass for box in boxes)", 5.0),
    ("the lightest shut one", "min(box.mass for box in boxes if box.kind == 'shut')", 3.0),
    ("how many", "count(boxes)", 3),
    ("how many open ones", "count(box.name for box in boxes if box.kind == 'open')", 2),
    ("any", "any(box.mass > shelf.mass for box in boxes)", False),
    ("all", "all(box.mass < shelf.mass for box in boxes)", True),
    ("a choice", "shelf.mass if shelf.locked else shelf.capacity", 20.0),
    ("the other side", "shelf.mass if not shelf.locked else shelf.capacity", 50.0),
    ("one of", "mount.kind in ['side-post', 'floor-stand']", True),
    ("none of", "mount.kind not in ['side-post']", False),
    ("one of some numbers", "shelf.bolts in [2, 4, 6]", True),
    ("a text", "mount.kind == 'floor-stand'", False),
    ("not that text", "mount.kind != 'floor-stand'", True),
    ("true", "True", True),
    ("stated", "stated(shelf.mass)", True),
    ("a section that says something", "stated(shelf)", True),
    ("a look-up", "table.thread.pitch('M10')", 0.0015),
    ("or", "shelf.mass > shelf.capacity or shelf.locked", True),
    ("and", "shelf.mass > shelf.capacity and shelf.locked", False),
    ("three tenths", "0.1 + 0.2 == 0.3", True),
    ("not three tenths", "0.1 + 0.2 != 0.3", False),
    ("two lines", "shelf.mass +\n  shelf.capacity", 70.0),
    ("a remark behind it", "shelf.mass # of the shelf", 20.0),
]  # fmt: skip


@pytest.mark.parametrize(("text", "result"), [c[1:] for c in WORKED], ids=[c[0] for c in WORKED])
def test_worked_by_hand(value: Value, text: str, result: Any) -> None:
    found = value(text, SHELF + BOXES)
    assert type(found) is type(result) or (
        isinstance(found, (int, float)) and not isinstance(result, bool)
    )
    assert found == pytest.approx(result, rel=1e-12, abs=1e-12)


# --- what has no value -----------------------------------------------------------

NO_VALUE = [
    ("one over nought", "1 / 0", "divided by it"),
    ("nought over nought", "0 / 0", "divided by it"),
    ("nought to a negative power", "(shelf.bolts - 4) ** -1", "divided by it"),
    ("a root of a negative", "sqrt(shelf.friction - 1)", "root of a negative"),
    ("a broken power of a negative", "(shelf.friction - 1) ** 0.5", "root of a negative"),
    ("a free power of a negative", "(shelf.friction - 1) ** factor", "root of a negative"),
    ("a logarithm of nought", "ln(shelf.bolts - 4)", "logarithm of nought"),
    ("a logarithm of a negative", "log10(-1)", "logarithm of nought"),
    ("too large a power", "(1e15 ** 20) ** 20", "leave the range"),
    ("too large an exponential", "exp(1e6)", "leave the range"),
    ("ten to the four hundredth", "10 ** (4 * 100) * 1.0", "leave the range"),
    ("the smallest of none", "min(box.mass for box in boxes if box.mass > shelf.mass)", "empty list"),
    ("the largest of none", "max(box.mass for box in boxes if box.mass > shelf.mass)", "empty list"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "said"), [c[1:] for c in NO_VALUE], ids=[c[0] for c in NO_VALUE])
def test_what_has_no_value_says_why(
    scope: Scope, look_ups: Callable[..., Any], describe: Callable[..., Any], text: str, said: str
) -> None:
    compiled = compile_formula(text, scope)
    names = surroundings(compiled.uses.functions, look_ups(scope))
    found = evaluate(
        compiled.source, {**names, "S": describe(SHELF + BOXES).record.values, "D": []}
    )
    assert isinstance(found, Absent)
    assert isinstance(found.why, OutOfReach)
    assert said in found.why.reason
    assert found.why.reason.endswith(".")


@pytest.mark.parametrize(
    "text",
    [
        "9**9**9",
        "9 ** 9 ** 9 ** 9",
        "(9**20)**20 ** 20",
        "2 ** 0.5 ** -20",
        "(2 ** 20) ** (2 ** 20)",
    ],
)
def test_towers_of_powers_cost_nothing(scope: Scope, text: str) -> None:
    """Whole numbers would grow without end; as floats they overflow at once."""
    start = time.perf_counter()
    try:
        compiled = compile_formula(text, scope)
        evaluate(compiled.source, surroundings(compiled.uses.functions, {}))
    except FormulaError:
        pass
    assert time.perf_counter() - start < 0.5


def test_a_power_of_whole_numbers_from_a_description_costs_nothing() -> None:
    start = time.perf_counter()
    with pytest.raises(OverflowError):
        surroundings((), {})["_power"](9, 10**12)
    assert time.perf_counter() - start < 0.5


def test_nothing_of_python_is_in_sight() -> None:
    names = surroundings((), {})
    assert names["__builtins__"] == {}
    assert not {"eval", "exec", "open", "getattr", "__import__", "globals", "vars"} & set(names)


def test_no_two_tables_share_a_look_up() -> None:
    assert look_up_name("bolt_a", "b") != look_up_name("bolt", "a_b")
    assert look_up_name("bolt", "a_b").isidentifier()


# --- comparisons -----------------------------------------------------------------


@given(st.floats(1e-6, 1e6), st.floats(-3e-9, 3e-9))
def test_two_values_this_close_are_the_same_measurement(limit: float, off: float) -> None:
    demand = limit * (1 + off)
    near = abs(demand - limit) <= SLACK * limit
    names = surroundings((), {})
    assert names["_le"](demand, limit) == (near or demand < limit)
    assert names["_ge"](demand, limit) == (near or demand > limit)
    assert names["_lt"](demand, limit) == (not near and demand < limit)
    assert names["_gt"](demand, limit) == (not near and demand > limit)
    assert names["_eq"](demand, limit) == near
    assert names["_ne"](demand, limit) != near


@pytest.mark.parametrize("name", ["_le", "_ge", "_lt", "_gt", "_eq"])
def test_what_is_no_number_meets_no_condition(name: str) -> None:
    names = surroundings((), {})
    nan = float("nan")
    assert names[name](nan, 1.0) is False
    assert names[name](1.0, nan) is False


@given(
    st.sampled_from(["0.3 m", "300 mm", "30 cm", "0.0003 km"]),
    st.sampled_from(["300 mm", "0.3 m", "30 cm"]),
)
def test_a_length_on_its_limit_is_on_it_in_every_unit(written: str, limit: str) -> None:
    quantity_scope = Scope(_LAYOUT)
    compiled = compile_formula("shelf.reach <= shelf.shift", quantity_scope)
    text = f"job: {{stage: plan}}\nmount: {{kind: side-post}}\nshelf: {{reach: {written}, shift: {limit}}}\n"
    slots = bind_node(read_yaml(text.encode(), "a"), _LAYOUT, "a").values
    assert eval(compiled.source, {**surroundings(compiled.uses.functions, {}), "S": slots}) is True


# --- against another evaluator ---------------------------------------------------

# Every value is a whole number over a power of two, every divisor a power of two, so that
# floats and fractions come to the very same number.
_LEAVES: dict[str, dict[str, tuple[str, Fraction]]] = {
    "kilogram": {
        "shelf.mass": ("3.5 kg", Fraction(7, 2)),
        "shelf.capacity": ("24 kg", Fraction(24)),
    },
    "meter": {"shelf.reach": ("0.5 m", Fraction(1, 2)), "arm": ("", Fraction(2))},
    "newton": {"shelf.pull": ("16 N", Fraction(16)), "most": ("", Fraction(3, 4))},
    "": {
        "shelf.friction": ("0.25", Fraction(1, 4)),
        "shelf.bolts": ("4", Fraction(4)),
        "factor": ("", Fraction(5, 2)),
    },
}
_DIVISORS = {
    "meter": ["shelf.reach", "arm"],
    "newton": ["shelf.pull"],
    "": ["shelf.friction", "shelf.bolts"],
}
_COMPOUND = {
    "newton * meter": ("newton", "meter"),
    "kilogram * meter": ("kilogram", "meter"),
    "meter * meter": ("meter", "meter"),
}
_TARGETS = [*_LEAVES, *_COMPOUND]


class _Other:
    """A tree of tuples, said as a formula of ours and worked out in fractions with pint's units."""

    def __init__(self, random: Random) -> None:
        self.random = random
        self.registry = _registry()

    def number(self, unit: str, depth: int) -> tuple[str, Any]:
        pick = self.random.random()
        if depth <= 0 or pick < 0.2:
            return self.leaf(unit)
        if pick < 0.45:
            sign = self.random.choice("+-")
            (a, x), (b, y) = self.number(unit, depth - 1), self.number(unit, depth - 1)
            return f"({a} {sign} {b})", x + y if sign == "+" else x - y
        if pick < 0.6:
            (a, x), (b, y) = self.number("", depth - 1), self.number(unit, depth - 1)
            return (f"{a} * {b}" if b[0] == "(" or " " not in b else f"{a} * ({b})"), x * y
        if pick < 0.7:
            divisor = self.random.choice(list(_DIVISORS))
            name = self.random.choice(_DIVISORS[divisor])
            (a, x), (b, y) = self.number(unit, depth - 1), self.known(name, divisor)
            c, z = self.known(self.random.choice(_DIVISORS[divisor]), divisor)
            return f"(({a}) * {c} / {b})", x * z / y
        if pick < 0.78:
            word = self.random.choice(["min", "max"])
            (a, x), (b, y) = self.number(unit, depth - 1), self.number(unit, depth - 1)
            return f"{word}({a}, {b})", (min if word == "min" else max)(x, y)
        if pick < 0.84:
            a, x = self.number(unit, depth - 1)
            return f"abs({a})", abs(x)
        if pick < 0.92:
            test, holds = self.condition(depth - 1)
            (a, x), (b, y) = self.number(unit, depth - 1), self.number(unit, depth - 1)
            return f"(({a}) if {test} else ({b}))", x if holds else y
        a, x = self.number(unit, depth - 1)
        return f"-({a})", -x

    def condition(self, depth: int) -> tuple[str, bool]:
        pick = self.random.random()
        if depth > 0 and pick < 0.4:
            (a, x), (b, y) = self.condition(depth - 1), self.condition(depth - 1)
            word = self.random.choice(["and", "or"])
            return f"({a} {word} {b})", (x and y) if word == "and" else (x or y)
        if depth > 0 and pick < 0.5:
            a, x = self.condition(depth - 1)
            return f"(not {a})", not x
        unit = self.random.choice(_TARGETS)
        (a, x), (b, y) = self.number(unit, depth - 1), self.number(unit, depth - 1)
        word = self.random.choice(["<", "<=", ">", ">="])
        holds = {"<": x < y, "<=": x <= y, ">": x > y, ">=": x >= y}[word]
        return f"(({a}) {word} ({b}))", bool(holds)

    def leaf(self, unit: str) -> tuple[str, Any]:
        if unit in _COMPOUND:
            left, right = _COMPOUND[unit]
            (a, x), (b, y) = self.leaf(left), self.leaf(right)
            if left == right and self.random.random() < 0.3:
                return f"({a} ** 2)", x**2
            return f"({a} * {b})", x * y
        if not unit and self.random.random() < 0.3:
            whole = self.random.randint(1, 8)
            return str(whole), self.registry.Quantity(Fraction(whole), "")
        return self.known(self.random.choice(list(_LEAVES[unit])), unit)

    def known(self, name: str, unit: str) -> tuple[str, Any]:
        if unit == "meter" and self.random.random() < 0.2:
            quantity = self.registry.Quantity(_LEAVES[unit][name][1], unit)
            return f"sqrt({name} * {name})", quantity
        return name, self.registry.Quantity(_LEAVES[unit][name][1], unit)


def _registry() -> Any:
    if not _REGISTRY:
        _REGISTRY.append(pint.UnitRegistry(non_int_type=Fraction))
    return _REGISTRY[0]


_REGISTRY: list[Any] = []
_LAYOUT = layout_from(
    Path(__file__).parents[1] / "data" / "small" / "schemas" / "installation.schema.json"
)


def _slots() -> list[Any]:
    fields = ", ".join(
        f"{name.removeprefix('shelf.')}: {text}"
        for leaves in _LEAVES.values()
        for name, (text, _) in leaves.items()
        if text
    )
    text = f"job: {{stage: plan}}\nmount: {{kind: side-post}}\nshelf: {{{fields}}}\n"
    return bind_node(read_yaml(text.encode(), "a"), _LAYOUT, "a").values


def _scope() -> Scope:
    return Scope(
        _LAYOUT,
        parameters={"factor": (PLAIN, 2.5), "most": (Numeric(need("N").dimension), 0.75)},
        lines={"arm": Numeric(need("m").dimension)},
    )


@given(st.randoms(use_true_random=False), st.sampled_from(_TARGETS), st.integers(0, 4))
def test_numbers_agree_with_another_evaluator(random: Random, unit: str, depth: int) -> None:
    text, wanted = _Other(random).number(unit, depth)
    if len(text) > 590:
        return
    try:
        compiled = compile_formula(text, _scope())
    except FormulaError as refused:
        assert "deeper" in refused.what or "more than" in refused.what, (text, refused)  # noqa: PT017
        return
    found = eval(
        compiled.source, {**surroundings(compiled.uses.functions, {}), "S": _slots(), "v_arm": 2.0}
    )
    base = wanted.to_base_units()
    assert isinstance(compiled.type, Numeric)
    assert _exponents(base) == tuple(compiled.type.dimension)[:3]
    assert found == pytest.approx(float(base.magnitude), rel=1e-12, abs=1e-12), text


@given(st.randoms(use_true_random=False), st.integers(0, 3))
def test_conditions_agree_with_another_evaluator(random: Random, depth: int) -> None:
    text, wanted = _Other(random).condition(depth)
    if len(text) > 590:
        return
    try:
        compiled = compile_formula(text, _scope())
    except FormulaError as refused:
        assert "deeper" in refused.what or "more than" in refused.what, (text, refused)  # noqa: PT017
        return
    found = eval(
        compiled.source, {**surroundings(compiled.uses.functions, {}), "S": _slots(), "v_arm": 2.0}
    )
    assert isinstance(compiled.type, Flag)
    assert found is wanted, text


def _exponents(quantity: Any) -> tuple[Any, ...]:
    units = dict(quantity.unit_items())
    return tuple(units.get(name, 0) for name in ("meter", "kilogram", "second"))
