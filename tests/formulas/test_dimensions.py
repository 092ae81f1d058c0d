"""Units checked before any description is read: what fits, what does not, and what is said."""

from __future__ import annotations

import pytest

from checker.formulas.compiling import compile_formula
from checker.formulas.functions import engineering_names, signature
from checker.formulas.grammar import FormulaError
from checker.formulas.scope import Scope
from checker.formulas.types import Flag, Items, Numeric, Text
from checker.units import need
from checker.units.dimensions import NONE

FITS = [
    ("a mass", "shelf.mass", "kg"),
    ("masses added", "shelf.mass + shelf.capacity", "kg"),
    ("a weight", "shelf.mass * standard_gravity", "N"),
    ("a moment", "shelf.pull * shelf.reach", "N*m"),
    ("a stress times an area", "shelf.stress * shelf.reach ** 2", "N"),
    ("a ratio", "shelf.mass / shelf.capacity", "1"),
    ("nothing added", "shelf.mass + 0", "kg"),
    ("nothing first", "0 + shelf.mass", "kg"),
    ("the negative", "-shelf.mass", "kg"),
    ("the root of an area", "sqrt(shelf.reach ** 2)", "m"),
    ("the root of a product", "sqrt(shelf.reach * arm)", "m"),
    ("a power of one half", "(shelf.reach ** 2) ** 0.5", "m"),
    ("a power of a third", "(shelf.reach ** 3) ** (1/3)", "m"),
    ("a negative power", "shelf.reach ** -2 * shelf.pull", "Pa"),
    ("the larger of two", "max(shelf.mass, shelf.capacity)", "kg"),
    ("the larger of one and nought", "max(shelf.mass, 0)", "kg"),
    ("the absolute value", "abs(shelf.shift)", "m"),
    ("a sum over a list", "sum(box.mass for box in boxes)", "kg"),
    ("the largest of a list", "max(box.mass for box in boxes)", "kg"),
    ("the number of members", "count(boxes)", "1"),
    ("a choice", "shelf.mass if shelf.locked else shelf.capacity", "kg"),
    ("a choice with nought", "shelf.mass if shelf.locked else 0", "kg"),
    ("a look-up", "table.thread.pitch('M8')", "m"),
    ("a parameter", "most / standard_gravity", "kg"),
    ("a line above", "arm * shelf.pull", "N*m"),
    ("a difference of temperatures", "glue - shelf.warmth", "K"),
    ("a temperature and a difference", "shelf.warmth + shelf.rise", "degC"),
    ("a temperature less a difference", "shelf.warmth - shelf.rise", "degC"),
    ("a time between two dates", "job.due_on - job.checked_on", "s"),
    ("levels added by hand", "shelf.noise + shelf.noise", "dB"),
    ("a plain number to a free power", "shelf.friction ** factor", "1"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "unit"), [c[1:] for c in FITS], ids=[c[0] for c in FITS])
def test_the_dimension_follows_from_the_formula(scope: Scope, text: str, unit: str) -> None:
    kind = compile_formula(text, scope).type
    assert isinstance(kind, Numeric)
    assert kind.dimension == need(unit).dimension
    assert (kind.point == "temperature") == (need(unit).kind == "temperature")


CLASHES = [
    # The four unit errors that are planted in a rulebook to see whether it is refused.
    ("kilograms and metres added", "shelf.mass + shelf.reach", ["mass (kg)", "length (m)"], 13),
    ("pascals compared with newtons", "shelf.stress <= shelf.pull", ["pressure or stress", "force"], 16),
    ("the root of an odd power", "sqrt(shelf.reach)", ["a root of length (m) has no dimension"], 0),
    # And the rest.
    ("the fourth one, declared and not the formula's, is refused where the line is read", "shelf.mass - shelf.pull", ["mass (kg)", "force"], 13),
    ("a length and a plain number", "shelf.reach + 1", ["length (m)", "a plain number"], 14),
    ("a mass compared with a plain number", "shelf.mass > 5", ["mass (kg)", "a plain number"], 13),
    ("a length less a length squared", "shelf.reach - arm ** 2", ["length (m)", "area (m2)"], 14),
    ("a power of one half of a length", "shelf.reach ** 0.5", ["a root of length"], 0),
    ("a third of a square", "(shelf.reach ** 2) ** (1/3)", ["a root of area"], None),
    ("a free power of a length", "shelf.reach ** factor", ["needs plain numbers", "length (m)"], 15),
    ("a power with a unit", "factor ** shelf.reach", ["needs plain numbers", "length (m)"], 10),
    ("an exponent that nobody needs", "factor ** 99999999", ["an exponent beyond 20"], 10),
    ("an exponent far below nought", "factor ** -99999999", ["an exponent beyond 20"], 10),
    ("the larger of a mass and a length", "max(shelf.mass, shelf.reach)", ["mass (kg)", "length (m)"], 16),
    ("two sides of a choice", "shelf.mass if shelf.locked else shelf.reach", ["the two sides of 'if' differ"], 32),
    ("a mass for a condition", "shelf.mass and shelf.locked", ["a condition is wanted, this is mass"], 0),
    ("a number for a condition", "shelf.reach if factor else arm", ["a condition is wanted"], 15),
    ("a condition for a number", "shelf.locked + 1", ["a number is wanted, this is true or false"], 0),
    ("a text for a number", "mount.kind * 2", ["a number is wanted, this is a text"], 0),
    ("ten million letters", "'a' * 10 ** 7", ["a number is wanted, this is a text"], 0),
    ("a list for a number", "boxes + 1", ["the list boxes"], 0),
    ("a section for a value", "shelf + 1", ["'shelf' is a group of fields"], 0),
    ("a text compared with a number", "'3' < 4", ["a text (3)", "a plain number"], 6),
    ("one compared with true", "1 == True", ["a plain number", "true or false"], 5),
    ("texts in an order", "mount.kind < 'x'", ["texts have no order"], None),
    ("true and false in an order", "shelf.locked < True", ["have no order"], None),
    ("a choice that can never be", "mount.kind == 'side-pots'", ["it can never be 'side-pots'", "did you mean 'side-post'"], 14),
    ("one of choices that can never be", "mount.kind in ['side-post', 'roof']", ["it can never be 'roof'"], None),
    ("equal measurements", "shelf.reach == arm", ["two measured values are never equal"], 15),
    ("unequal measurements", "shelf.reach != arm", ["two measured values are never equal"], 15),
    ("twice a temperature", "2 * shelf.warmth", ["a temperature (degC) cannot be multiplied"], 4),
    ("two temperatures added", "shelf.warmth + glue", ["cannot add a temperature (degC)"], 15),
    ("a difference less a temperature", "shelf.rise - shelf.warmth", ["cannot subtract"], 13),
    ("a temperature and a plain number", "shelf.warmth + 1", ["cannot add"], 15),
    ("a temperature compared with a difference", "shelf.warmth < shelf.rise", ["a temperature (degC)"], 15),
    ("a temperature compared with nought", "shelf.warmth > 0", ["a temperature (degC)", "a plain number"], 15),
    ("the negative of a temperature", "-shelf.warmth", ["has no negative"], 0),
    ("the square of a temperature", "shelf.warmth ** 2", ["cannot be raised to a power"], 0),
    ("the absolute value of a temperature", "abs(shelf.warmth)", ["take a difference first"], 0),
    ("two dates added", "job.due_on + job.checked_on", ["cannot add a date"], 13),
    ("a date and a mass", "job.due_on - shelf.mass", ["cannot subtract a date"], 13),
    ("the sine of a length", "sin(shelf.reach)", ["a plain number or an angle"], 0),
    ("the exponential of a mass", "exp(shelf.mass)", ["a plain number or an angle"], 0),
    ("a level as a plain number", "10 ** (shelf.noise / 10)", ["needs plain numbers", "sound level"], None),
    ("a sum of temperatures", "sum(box.name for box in boxes)", ["'sum' adds numbers"], 0),
    ("any of masses", "any(box.mass for box in boxes)", ["'any' asks conditions"], 0),
    ("a list where a value is asked", "[box.mass for box in boxes] + 1", ["a list of mass"], 0),
    ("a look-up by another thing", "table.cable.area(shelf.mass)", ["current wants current (A), this is mass (kg)"], 17),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "said", "column"), [c[1:] for c in CLASHES], ids=[c[0] for c in CLASHES]
)
def test_a_clash_names_both_and_the_column(
    scope: Scope, text: str, said: list[str], column: int | None
) -> None:
    with pytest.raises(FormulaError) as refused:
        compile_formula(text, scope)
    words = f"{refused.value.what} {refused.value.hint}"
    for part in said:
        assert part in words
    assert column is None or refused.value.column == column


UNKNOWN = [
    ("a field with a slip", "shelf.masss", "unknown name 'shelf.masss'", "did you mean 'shelf.mass'", 0),
    ("a field behind a sum", "1 + shelf.masss", "unknown name 'shelf.masss'", "shelf.mass", 4),
    ("a parameter with a slip", "factr", "unknown name 'factr'", "factor", 0),
    ("a member's field with a slip", "sum(box.mas for box in boxes)", "unknown name 'box.mas'", "box.mass", 4),
    ("a derived value", "derived.nothing", "there is no derived value 'nothing'", "", 0),
    ("a function", "srqt(factor)", "there is no function 'srqt'", "sqrt", 0),
    ("a function of Python", "open('x')", "there is no function 'open'", "", 0),
    ("evaluation", "eval('x')", "there is no function 'eval'", "", 0),
    ("a range", "sum(i for i in range(10))", "there is no function 'range'", "", None),
    ("a table", "table.thraed.pitch('M8')", "there is no table 'thraed'", "thread", 0),
    ("a column", "table.thread.pich('M8')", "has no column 'pich'", "pitch", 0),
    ("a table without a column", "table.thread('M8')", "there is no table", "", 0),
    ("a table that is not called", "table.thread.pitch", "unknown name 'table.thread.pitch'", "", 0),
    ("too few keys", "table.thread.pitch()", "is looked up by size", "", 0),
    ("too many values", "sqrt(factor, factor)", "'sqrt' takes one number", "", 0),
    ("no value", "max()", "'max' takes at least one value", "", 0),
    ("a loop over no list", "sum(x.mass for x in shelf.mass)", "'for' runs over a list", "", None),
    ("a loop over a text", "sum(x for x in 'abc')", "'for' runs over a list", "", None),
    ("a loop's name that is taken", "sum(shelf.mass for shelf in boxes)", "the name 'shelf' is taken", "", None),
    ("a loop's name that is a parameter", "sum(factor.mass for factor in boxes)", "the name 'factor' is taken", "", None),
    ("a generator by itself", "(box.mass for box in boxes)", "'for' stands only inside", "", None),
    ("a list by itself", "['a', 'b']", "a fixed list stands only behind 'in'", "", 0),
    ("stated of nothing", "stated()", "'stated' takes one field", "", 0),
    ("stated of a sum", "stated(shelf.mass + shelf.reach)", "'stated' takes one field", "", 0),
    ("stated of an unknown field", "stated(shelf.masss)", "unknown name 'shelf.masss'", "shelf.mass", None),
    ("in what is no list", "mount.kind in mount.bolts", "'in' wants a list", "", None),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "what", "hint", "column"), [c[1:] for c in UNKNOWN], ids=[c[0] for c in UNKNOWN]
)
def test_what_is_unknown_is_refused_with_the_nearest(
    scope: Scope, text: str, what: str, hint: str, column: int | None
) -> None:
    with pytest.raises(FormulaError) as refused:
        compile_formula(text, scope)
    assert what in refused.value.what
    assert hint in refused.value.hint
    assert column is None or refused.value.column == column


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("mount.kind == 'side-post'", Flag),
        ("shelf.mass <= shelf.capacity", Flag),
        ("not shelf.locked", Flag),
        ("stated(shelf.mass)", Flag),
        ("stated(shelf)", Flag),
        ("any(box.kind == 'open' for box in boxes)", Flag),
        ("mount.kind", Text),
        ("'a' if shelf.locked else 'b'", Text),
        ("0", Numeric),
        ("[box.mass for box in boxes]", Items),
    ],
)
def test_other_kinds_of_value(scope: Scope, text: str, kind: type) -> None:
    assert isinstance(compile_formula(text, scope).type, kind)


def test_a_choice_of_texts_keeps_what_it_can_be(scope: Scope) -> None:
    assert compile_formula("'a' if shelf.locked else 'b'", scope).type == Text(("a", "b"))


@pytest.mark.parametrize("name", sorted(engineering_names()))
def test_every_engineering_function_says_what_it_takes_and_gives(name: str) -> None:
    found = signature(name)
    assert found is not None
    assert isinstance(found.returns, (Numeric, Flag, Text))
    for parameter, kind in found.parameters:
        assert isinstance(kind, (Numeric, Flag, Text, Items)), parameter


def test_a_plain_number_has_no_dimension(scope: Scope) -> None:
    kind = compile_formula("shelf.friction * 2", scope).type
    assert kind == Numeric(NONE)
