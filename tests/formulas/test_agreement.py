"""When two values agree, and where a formula is refused because they do not."""

from __future__ import annotations

import ast
from typing import Any

import pytest

from checker.formulas.agreement import at, fixed_number, possible, unify, whole
from checker.formulas.compiling import compile_formula
from checker.formulas.grammar import FormulaError
from checker.formulas.scope import DerivedName, Scope
from checker.formulas.types import FLAG, PLAIN, ZERO, Members, Numeric, Text, Type
from checker.units import need

MASS = Numeric(need("kg").dimension)
LENGTH = Numeric(need("m").dimension)
WARM = Numeric(need("K").dimension, "temperature")
RISE = Numeric(need("K").dimension)

COMMON: list[tuple[Type, Type, Type | None]] = [
    (ZERO, ZERO, ZERO), (ZERO, MASS, MASS), (MASS, ZERO, MASS), (ZERO, WARM, None), (WARM, ZERO, None),
    (MASS, MASS, MASS), (MASS, LENGTH, None), (WARM, WARM, WARM), (WARM, RISE, None), (MASS, PLAIN, None),
    (FLAG, FLAG, FLAG), (FLAG, MASS, None), (Text(("a",)), Text(("b", "a")), Text(("a", "b"))),
    (Text(("a",)), Text(), Text()), (Text(), Text(("a",)), Text()), (Text(), MASS, None),
]  # fmt: skip


@pytest.mark.parametrize(("left", "right", "common"), COMMON)
def test_the_common_type_of_two_values(left: Type, right: Type, common: Type | None) -> None:
    if common is not None:
        assert unify(left, right, 3, "adds") == common
        return
    with pytest.raises(FormulaError, match="adds: ") as refused:
        unify(left, right, 3, "adds")
    assert refused.value.column == 3


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("2", 2.0), ("2.5", 2.5), ("-2", -2.0), ("1 / 3", 1 / 3), ("-(1 / 4)", -0.25), ("1 / -4", -0.25), ("(1 / 2) / 2", 0.25),
        ("0 / 3", 0.0), ("1 / 0", None), ("a", None), ("-a", None), ("1 / a", None), ("a / 2", None), ("1 * 2", None),
        ("True", None), ("'2'", None), ("not 1", None),
    ],
)  # fmt: skip
def test_a_fixed_number(text: str, number: float | None) -> None:
    assert fixed_number(ast.parse(text, mode="eval").body) == number


def test_a_column_counts_without_the_bracket_that_was_put_in_front() -> None:
    inner = ast.parse("(a + b)", mode="eval").body
    assert isinstance(inner, ast.BinOp)
    assert (at(inner), at(inner.right)) == (0, 4)
    assert at(ast.parse("a", mode="eval").body) == 0


def test_a_broken_dimension_is_refused() -> None:
    whole((2.0, -1, 0), LENGTH, 7)
    with pytest.raises(FormulaError) as refused:
        whole((1, 0.5, 0), LENGTH, 7)
    assert (refused.value.what, refused.value.column) == (
        "a root of length (m) has no dimension",
        7,
    )


@pytest.mark.parametrize(
    ("left", "right", "what", "hint"),
    [
        (("a", "b"), ("b", "c"), None, ""),
        (("side-post", "roof"), ("side-pots",), "it can never be 'side-pots'", "did you mean 'side-post'"),
        (("side-pots",), ("side-post", "roof"), "it can never be 'side-pots'", "did you mean 'side-post'"),
        (("red", "blue"), ("zzz",), "it can never be 'zzz'", "it is one of red, blue"),
        (("zzz",), ("red", "blue"), "it can never be 'zzz'", "it is one of red, blue"),
        (None, ("a",), None, ""),
        (("a",), None, None, ""),
    ],
)  # fmt: skip
def test_two_texts_that_can_never_be_equal(
    left: tuple[str, ...] | None, right: tuple[str, ...] | None, what: str | None, hint: str
) -> None:
    if what is None:
        possible(Text(left), Text(right), 5)
        return
    with pytest.raises(FormulaError) as refused:
        possible(Text(left), Text(right), 5)
    assert (refused.value.what, refused.value.column) == (what, 5)
    assert hint in refused.value.hint


# --- in whole formulas -----------------------------------------------------------

REFUSED = [
    ("a derived value with a slip", "1 + derived.totl", "there is no derived value 'totl'", "total", 4),
    ("a parameter behind a sum", "1 + factr", "unknown name 'factr'", "factor", 4),
    ("a line with a slip", "1 + amr", "unknown name 'amr'", "arm", 4),
    ("a constant with a slip", "standard_gravty", "unknown name 'standard_gravty'", "standard_gravity", 0),
    ("a parameter with a field", "factor.x", "unknown name 'factor.x'", "", 0),
    ("a group behind a sum", "1 + shelf", "'shelf' is a group of fields, not a value", "ask with stated(...), or name one of: mass, capacity, reach, pull, stress, shift", 4),
    ("a group of a member", "sum(box.lid for box in boxes)", "'box.lid' is a group of fields", "name one of: screws", 4),
    ("a member's field with a slip", "1 + sum(box.mas for box in boxes)", "unknown name 'box.mas'", "box.mass", 8),
    ("a temperature times something", "shelf.warmth * factor", "a temperature (degC) cannot be multiplied or divided", "take a difference first", 15),
    ("something by a temperature", "factor / shelf.warmth", "a temperature (degC) cannot be multiplied or divided", "take a difference first", 9),
    ("a date less a temperature", "job.due_on - shelf.warmth", "cannot subtract a date and a temperature (degC)", "a difference may be added", 13),
    ("a difference and a temperature", "shelf.rise + shelf.warmth", "cannot add temperature (K) and a temperature (degC)", "a difference may be added", 13),
    ("a temperature and a mass", "shelf.warmth + shelf.mass", "cannot add a temperature (degC) and mass (kg)", "", 15),
    ("a mass and a length", "shelf.mass + arm", "adds two different dimensions: mass (kg) and length (m)", "", 13),
    ("a mass less a length", "shelf.mass - arm", "subtracts two different dimensions: mass (kg) and length (m)", "", 13),
    ("a power of a temperature behind a sum", "1 + shelf.warmth ** 2", "a temperature (degC) cannot be raised to a power", "", 4),
    ("a length to a free power", "1 + arm ** factor", "needs plain numbers: length (m) to the power of a plain number", "", 11),
    ("a number to a length", "1 + factor ** arm", "needs plain numbers: a plain number to the power of length (m)", "", 14),
    ("just too large an exponent", "1 + factor ** 20.5", "an exponent beyond 20", "no formula needs it", 14),
    ("just too small an exponent", "factor ** -21", "an exponent beyond 20", "no formula needs it", 10),
    ("a root of a length", "1 + arm ** 0.5", "a root of length (m) has no dimension", "", 4),
    ("the negative of a date", "arm > 0 and -job.due_on > 0", "a date has no negative", "", 12),
    ("a number for a condition", "1 * arm if factor else arm", "a condition is wanted, this is a plain number", "", 11),
    ("a condition for a number", "1 + shelf.locked", "a number is wanted, this is true or false", "", 4),
    ("sides that differ", "arm if shelf.locked else shelf.mass", "the two sides of 'if' differ: length (m) and mass (kg)", "", 25),
    ("texts in an order", "arm > 0 and mount.kind < 'roof'", "texts have no order", "compare with == or !=", 25),
    ("conditions in an order", "shelf.locked >= True", "true and false have no order", "", 16),
    ("a text and a number", "mount.kind == 1", "compares two different things: a text (side-post | floor-stand) and a plain number", "", 14),
    ("a list and a list", "boxes == boxes", "compares two different things: the list boxes and the list boxes", "", 9),
    ("two measured values", "factor > 1 and arm == shelf.reach", "two measured values are never equal", "compare with <= or >=", 22),
    ("a measured value and nought", "arm != 0", "two measured values are never equal", "", 7),
    ("nought and a measured value", "0 == arm", "two measured values are never equal", "", 5),
    ("in no list", "mount.kind in factor", "'in' wants a list", "write: kind in ['a', 'b']", 14),
    ("numbers among texts", "mount.kind in [1, 2]", "'in' compares two different things: a text (side-post | floor-stand) and a plain number", "", 14),
    ("texts among numbers", "factor in ['a', 'b']", "'in' compares two different things: a plain number and a text (a | b)", "", 10),
    ("a mixed list", "mount.kind in ['side-post', 1]", "'in' compares two different things", "", 14),
    ("a mass among numbers", "shelf.mass in [1, 2]", "'in' compares two different things: mass (kg) and a plain number", "", 14),
    ("a text among masses", "mount.kind in [box.mass for box in boxes]", "'in' compares two different things", "", 14),
    ("a loop over a value", "1 + sum(x for x in factor)", "'for' runs over a list of the description, this is a plain number", "", 19),
    ("a loop over a member", "sum(sum(1 for x in box) for box in boxes)", "'for' runs over a list of the description, this is a member of boxes", "", 19),
    ("a loop's name that is a line", "sum(1 for arm in boxes)", "the name 'arm' is taken", "choose another", 10),
    ("a loop's name that is a parameter", "sum(1 for most in boxes)", "the name 'most' is taken", "choose another", 10),
    ("a loop's name that is a section", "sum(1 for mount in boxes)", "the name 'mount' is taken", "choose another", 10),
    ("a loop's name that is a loop's", "sum(sum(1 for box in box.lid.screws) for box in boxes)", "the name 'box' is taken", "choose another", 14),
    ("a loop's name behind the loop", "sum(box.mass for box in boxes) + box.mass", "unknown name 'box.mass'", "", 33),
    ("a number for a loop's condition", "sum(box.mass for box in boxes if box.mass)", "a condition is wanted, this is mass (kg)", "", 33),
    ("a list of members by itself", "arm if [box for box in boxes] else arm", "a list of lists is not part of a formula", "", 7),
    ("a loop by itself", "arm + (box.mass for box in boxes)", "'for' stands only inside sum, min, max, any, all or count", "", 6),
    ("a list by itself", "arm + ['a', 'b']", "a fixed list stands only behind 'in'", "", 6),
    ("a bracketed list by itself", "arm + (1, 2)", "a fixed list stands only behind 'in'", "", 6),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "what", "hint", "column"),
    [c[1:] for c in REFUSED],
    ids=[c[0] for c in REFUSED],
)
def test_refused_where_it_stands(
    scope: Scope, text: str, what: str, hint: str, column: int | None
) -> None:
    scope.derived["total"] = DerivedName(0, MASS)
    with pytest.raises(FormulaError) as refused:
        compile_formula(text, scope)
    assert what in refused.value.what
    assert hint in refused.value.hint
    assert column is None or refused.value.column == column


GIVES: list[tuple[str, Type]] = [
    ("derived.total * 2", MASS), ("0 * shelf.mass + arm * 0", ZERO), ("shelf.mass + 0", MASS), ("0 - shelf.mass", MASS), ("0.0 + arm", LENGTH),
    ("shelf.warmth - glue", RISE), ("glue - shelf.rise", WARM), ("glue + shelf.rise", WARM), ("arm ** 20 / arm ** 19", LENGTH), ("factor ** -20", PLAIN),
    ("arm / arm", PLAIN), ("-arm", LENGTH), ("arm ** 1", LENGTH), ("arm ** 2 / arm", LENGTH), ("factor ** 0.5", PLAIN), ("(arm ** 2) ** 0.5", LENGTH),
    ("'a' if shelf.locked else job.title", Text()), ("shelf.locked == True", FLAG), ("shelf.locked != stated(shelf.mass)", FLAG), ("factor == 2", FLAG), ("0 == 0", FLAG),
    ("shelf.warmth <= glue", FLAG), ("job.title in ['a']", FLAG), ("'red' in [b.name for b in boxes]", FLAG), ("factor not in [1, 2.5]", FLAG),
    ("box.mass", MASS), ("box", Members(None, "boxes", many=False)),  # type: ignore[arg-type]
]  # fmt: skip


@pytest.mark.parametrize(("text", "kind"), GIVES, ids=[c[0] for c in GIVES])
def test_the_type_of_a_formula(scope: Scope, text: str, kind: Any) -> None:
    scope.derived["total"] = DerivedName(0, MASS)
    boxes = scope.layout.leaf("boxes")
    assert boxes is not None
    assert boxes.item is not None
    scope.members["box"] = (boxes.item, "boxes")
    found = compile_formula(text, scope).type
    if isinstance(kind, Members):
        assert isinstance(found, Members)
        assert (found.path, found.many, found.layout) == ("boxes", False, boxes.item)
        return
    assert found == kind


def test_what_a_formula_uses(scope: Scope) -> None:
    scope.derived["total"] = DerivedName(3, MASS)
    text = "  derived.total + most / standard_gravity * factor +\n shelf.mass * arm / arm * count(boxes) "
    compiled = compile_formula(text, scope)
    uses = compiled.uses
    assert compiled.text == (
        "derived.total + most / standard_gravity * factor + shelf.mass * arm / arm * count(boxes)"
    )
    assert [list(part) for part in (uses.derived, uses.parameters, uses.lines, uses.fields)] == [
        ["total"], ["most", "factor"], ["arm"], ["shelf.mass", "boxes"],
    ]  # fmt: skip
    assert "D[3]" in compiled.source
    assert "v_arm" in compiled.source
