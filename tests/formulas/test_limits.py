"""Where the bounds of the language lie, and the column that is told where one is passed."""

from __future__ import annotations

import ast
import math
from typing import Any

import pytest

from checker.absent import OutOfReach
from checker.formulas.grammar import FormulaError, parse_again, parse_formula
from checker.formulas.running import surroundings

JUST = [
    ("600 characters", "a" * 600),
    ("600 characters with space around them", "  " + "a" * 600 + "  "),
    ("39 brackets", "(" * 39 + "a" + ")" * 39),
    ("a chain of 38 minus signs", "-" * 38 + "a"),
    ("38 times not", "not " * 38 + "a"),
    ("38 terms", "a" + "+1" * 38),
    ("300 parts", "f(" + ",".join(["a"] * 148) + ")"),
    ("a path of 38 steps", "a" + ".b" * 38),
    ("the largest number", "1000000000000000"),
    ("many brackets side by side", "+".join(["(a)"] * 30)),
    ("minus signs in many places", "+".join(["(-a)"] * 30)),
    ("a power of a power of a power", "a ** b ** c ** d"),
    ("numbers of every kind", "1 + 0.5 + 1e3 + 1.5E-3 + 2e+2 + 007.5 * 0"),
    ("two lines in brackets", "(a +\nb) * (c +\nd)"),
    ("an empty list", "x in []"),
    ("a name with a line in it", "a_b.c_"),
]  # fmt: skip


@pytest.mark.parametrize("text", [c[1] for c in JUST], ids=[c[0] for c in JUST])
def test_allowed_up_to_the_bound(text: str) -> None:
    parse_formula(text)


BEYOND = [
    ("601 characters", "a" * 601, "a formula of 601 characters; at most 600", "name its parts", 0),
    ("41 brackets", "(" * 41 + "a" + ")" * 41, "nested deeper than 40", "", 39),
    ("a chain of 39 minus signs", "-" * 39 + "a", "nested deeper than 40", "", 39),
    ("42 minus signs", "-" * 42 + "a", "nested deeper than 40", "", 40),
    ("42 times not", "not " * 42 + "a", "nested deeper than 40", "", 160),
    ("39 terms", "a" + "+1" * 39, "nested deeper than 40", "", None),
    ("more than 300 parts", "f(" + ",".join(["a"] * 149) + ")", "more than 300 parts", "name its parts", None),
    ("a larger number", "a + 1000000000000001", "a number that is too large", "", 4),
    ("a larger number with a point", "a + 1.1e15", "a number that is too large", "", 4),
    ("a hexadecimal number", "a + 0x1F", "0x1F is not part of a formula", "write numbers with digits and a point", 4),
    ("a grouped number", "1_000", "1_000 is not part of a formula", "write numbers with digits", 0),
    ("a long number that is none", "0x" + "f" * 40, "0x" + "f" * 18 + " is not part", "", 0),
    ("a number with nothing behind its point", "1.", "1. is not part of a formula", "", 0),
    ("a bracket too many", "a + b)", "a bracket closes that was never opened", "", 5),
    ("a bracket too many on the second line", "a +\nb) + (c", "a bracket closes that was never opened", "", 0),
    ("a bracket too many on the last line", "a +\nb)", "a bracket closes that was never opened", "", 0),
    ("two operators", "a + * b", "not a formula", "", 4),
    ("an unseen character", "kind == '\\x07'", "a character that cannot be seen", "delete it", 8),
    ("nothing by name behind a sum", "a + None", "None is not part of a formula", "", 4),
    ("two comparisons behind a sum", "a and b < c < d", "two comparisons in one", "write 'a < b and b < c'", 6),
    ("a dot that belongs to nothing", "a + f(x).y", "a dot that belongs to no field path", "", 4),
    ("a private name", "a + _b", "a name cannot start with '_': _b", "", 4),
    ("a private field", "a + b._c", "a name cannot start with '_': _c", "", 4),
    ("a call of a call", "a + f(x)(y)", "only a named function can be called", "", 4),
    ("two names in a loop", "sum(a for b, c in d)", "'for' takes one name", "", None),
    ("a loop that waits", "sum([a async for b in c])", "", "", None),
    ("two loops", "1 + sum([a for b in c for d in e])", "one 'for' at a time", "", 8),
    ("a list of names", "a in [b]", "a list holds fixed texts or numbers only", "", 5),
    ("a bracketed list of names", "a in ('x', b)", "a list holds fixed texts or numbers only", "", 5),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "what", "hint", "column"), [c[1:] for c in BEYOND], ids=[c[0] for c in BEYOND]
)
def test_refused_beyond_the_bound_and_where(
    text: str, what: str, hint: str, column: int | None
) -> None:
    with pytest.raises(FormulaError) as refused:
        parse_formula(text)
    assert what in refused.value.what
    assert hint in refused.value.hint
    assert column is None or refused.value.column == column


def test_a_formula_is_read_again_as_it_was() -> None:
    text = " a +\n b * (c - d) "
    first, again = parse_formula(text), parse_again(text)
    assert ast.dump(first, include_attributes=True) == ast.dump(again, include_attributes=True)
    assert first is not again


# --- the comparisons and the rounding at their slack -----------------------------

SAME, OTHER = 1.0 + 0.9e-9, 1.0 + 1.1e-9


@pytest.mark.parametrize(
    ("name", "near", "far", "equal", "far_below"),
    [
        ("_le", True, False, True, True), ("_ge", True, True, True, False), ("_lt", False, False, False, True),
        ("_gt", False, True, False, False), ("_eq", True, False, True, False), ("_ne", False, True, False, True),
    ],
)  # fmt: skip
def test_a_billionth_part_decides(
    name: str, near: bool, far: bool, equal: bool, far_below: bool
) -> None:
    compare = surroundings((), {})[name]
    for scale in (1e-6, 1.0, 1e6):
        assert compare(SAME * scale, scale) is near
        assert compare(OTHER * scale, scale) is far
        assert compare(scale, scale) is equal
        assert compare((2.0 - OTHER) * scale, scale) is far_below
        assert compare((2.0 - SAME) * scale, scale) is near


def test_what_has_no_end_is_on_a_limit_without_end() -> None:
    names, endless = surroundings((), {}), math.inf
    for name in ("_le", "_ge", "_eq"):
        assert names[name](endless, endless)
    for name in ("_lt", "_gt", "_ne"):
        assert not names[name](endless, endless)


def test_a_billionth_part_of_a_negative_limit() -> None:
    names = surroundings((), {})
    assert names["_le"](-5.0 + 4e-9, -5.0)
    assert not names["_le"](-5.0 + 6e-9, -5.0)
    assert names["_ge"](-5.0 - 4e-9, -5.0)
    assert not names["_gt"](-5.0 + 4e-9, -5.0)
    assert not names["_lt"](-5.0 - 4e-9, -5.0)


@pytest.mark.parametrize(
    ("name", "value", "rounded"),
    [
        ("_round_up", 3.0, 3), ("_round_up", 3.000000002, 3), ("_round_up", 3.00000001, 4), ("_round_up", 2.1, 3), ("_round_up", -2.5, -2), ("_round_up", -2.0000000001, -2),
        ("_round_down", 3.0, 3), ("_round_down", 2.999999998, 3), ("_round_down", 2.99999999, 2), ("_round_down", 2.9, 2), ("_round_down", -2.5, -3), ("_round_down", -2.0000000001, -2),
    ],
)  # fmt: skip
def test_rounding_passes_over_the_last_bits(name: str, value: float, rounded: int) -> None:
    assert surroundings((), {})[name](value) == rounded


@pytest.mark.parametrize(
    ("name", "arguments", "result"),
    [
        ("_power", (0.0, 0.5), 0.0), ("_power", (4.0, 0.5), 2.0), ("_sqrt", (9.0,), 3.0), ("_sqrt", (0.0,), 0.0),
        ("_ln", (math.e,), 1.0), ("_log10", (1e-3,), -3.0), ("_min_of", ([3.0, 1.0, 2.0],), 1.0), ("_max_of", ([3.0, 1.0, 2.0],), 3.0),
        ("_power", (-4.0, 0.5), "root of a negative"), ("_sqrt", (-1e-12,), "root of a negative"), ("_ln", (0.0,), "nought or less"), ("_log10", (-1.0,), "nought or less"),
        ("_min_of", ([],), "The smallest of an empty list"), ("_max_of", ([],), "The largest of an empty list"),
    ],
)  # fmt: skip
def test_what_the_functions_give(
    name: str, arguments: tuple[Any, ...], result: float | str
) -> None:
    call = surroundings((), {})[name]
    if isinstance(result, str):
        with pytest.raises(OutOfReach, match=result):
            call(*arguments)
    else:
        assert call(*arguments) == pytest.approx(result, abs=1e-12)


def test_a_function_takes_its_own_place_when_it_is_called() -> None:
    names = surroundings(["bending_stress"], {}, {"bending_stress": "beams"})
    late = names["F_bending_stress"]
    assert late(6.0, 2.0) == 3.0
    assert names["F_bending_stress"] is not late
    assert names["F_bending_stress"](6.0, 2.0) == 3.0
    found = surroundings(["bending_stress"], {})
    assert found["F_bending_stress"](6.0, 2.0) == 3.0
    assert "F_bending_stress" not in surroundings((), {})
