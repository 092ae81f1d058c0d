"""Calls in a formula: what is refused with its column and a hint, and what a call uses."""

from __future__ import annotations

import ast
from collections.abc import Callable
from typing import Any

import pytest

from checker.formulas.calls import fits
from checker.formulas.compiling import Walker, compile_formula
from checker.formulas.grammar import FormulaError
from checker.formulas.scope import Scope
from checker.formulas.types import FLAG, PLAIN, ZERO, Items, Members, Numeric, Text, Type
from checker.units import need

MASS = Numeric(need("kg").dimension)
LENGTH = Numeric(need("m").dimension)
WARM = Numeric(need("K").dimension, "temperature")
RISE = Numeric(need("K").dimension)
DAY = Numeric(need("s").dimension, "date")

REFUSED = [
    ("an engineering function with too few", "1 + entry_coefficient()", "'entry_coefficient' takes 1 values, not 0", "entry_coefficient(entry)", 4),
    ("an engineering function with too many", "bending_stress(1, 2, 3)", "'bending_stress' takes 2 values, not 3", "bending_stress(moment, section_modulus)", 0),
    ("a function behind a sum", "1 + srqt(factor)", "there is no function 'srqt'", "sqrt", 4),
    ("a function of ours with a slip", "bending_stres(1, 2)", "there is no function 'bending_stres'", "bending_stress", 0),
    ("a question with a slip", "statd(shelf.mass)", "there is no function 'statd'", "stated", 0),
    ("a mass for a moment", "bending_stress(shelf.mass, arm ** 3)", "bending_stress: moment wants torque or energy", "", 15),
    ("a length for a volume", "bending_stress(shelf.pull * arm, arm)", "bending_stress: section_modulus wants volume", "", 33),
    ("a word that it does not take", "entry_coefficient('a' if shelf.locked else 'plain')", "entry_coefficient: entry cannot be 'a'", "it takes plain, flanged, bellmouth, flush", 18),
    ("a field's words that it does not take", "entry_coefficient(mount.kind)", "entry cannot be 'side-post'", "it takes plain", 18),
    ("any text", "entry_coefficient(job.title)", "entry wants a text (plain", "", 18),
    ("a number for a word", "entry_coefficient(factor)", "entry wants a text (plain", "", 18),
    ("a number for a list", "branch_imbalance(most)", "pressures wants a list of pressure", "", 17),
    ("a list of another thing", "branch_imbalance([box.mass for box in boxes])", "pressures wants a list of pressure or stress", "", None),
    ("two fields asked about", "arm if stated(shelf.mass, shelf.reach) else 2 * arm", "'stated' takes one field", "write: stated(mount.post.wall)", 7),
    ("a text asked about", "stated('shelf.mass')", "'stated' takes one field", "stated(", 0),
    ("a member's field with a slip asked about", "any(stated(box.mas) for box in boxes)", "unknown name 'box.mas'", "box.mass", None),
    ("a table behind a sum", "1 + table.thraed.pitch('M8')", "there is no table 'thraed'", "thread", 4),
    ("a table with nothing like it", "table.zzzzzz.pitch('M8')", "there is no table 'zzzzzz'", "write: table.NAME.COLUMN(key)", 0),
    ("a table without its column", "table.thread('M8')", "there is no table 'thread'", "", 0),
    ("a table with too many names", "table.thread.pitch.more('M8')", "there is no table 'thread'", "", 0),
    ("a column behind a sum", "arm + table.thread.pich('M8')", "the table 'thread' has no column 'pich'", "pitch", 6),
    ("a column with nothing like it", "table.thread.zzzz('M8')", "has no column 'zzzz'", "it has pitch", 0),
    ("too many keys", "arm + table.thread.pitch('M8', 'M10')", "the table 'thread' is looked up by size", "", 6),
    ("a number for a text key", "table.thread.pitch(factor)", "table.thread: size wants a text (M8 | M10), this is a plain number", "", 19),
    ("a text for a number key", "table.cable.area('M8')", "table.cable: current wants current (A), this is a text (M8)", "", 17),
    ("two lists", "1 + sum(boxes, boxes)", "'sum' takes one list", "write: sum(part.length for part in duct.parts)", 4),
    ("no list", "count()", "'count' takes one list", "write: count(", 0),
    ("a number for a list of numbers", "1 + sum(factor)", "'sum' takes a list, this is a plain number", "", 4),
    ("a member for a list", "any(sum(box) > 1 for box in boxes)", "'sum' takes a list, this is a member of boxes", "", 4),
    ("masses for conditions", "arm > 1 * arm and all(box.mass for box in boxes)", "'all' asks conditions, these are mass (kg)", "", 18),
    ("names added up", "1 + sum(box.name for box in boxes)", "'sum' adds numbers, these are a text", "", 4),
    ("temperatures added up", "sum(shelf.warmth for box in boxes)", "'sum' adds numbers, these are a temperature (degC)", "", 0),
    ("the largest name", "1 + max(box.name for box in boxes)", "'max' compares numbers, these are a text", "", 4),
    ("the smallest of nothing", "1 + min()", "'min' takes at least one value", "", 4),
    ("the largest of a mass and a text", "max(shelf.mass, mount.kind)", "a number is wanted, this is a text", "", 16),
    ("the smallest of a mass and a length", "1 + min(shelf.mass, arm)", "'min' compares two different dimensions: mass (kg) and length (m)", "", 20),
    ("the root of two", "1 + sqrt(arm, arm)", "'sqrt' takes one number", "", 4),
    ("the root of none", "sqrt()", "'sqrt' takes one number", "", 0),
    ("the root of a temperature", "1 + sqrt(shelf.warmth)", "'sqrt' of a temperature (degC)", "take a difference first", 4),
    ("the root of a length", "1 + sqrt(arm)", "a root of length (m) has no dimension", "must come out whole", 4),
    ("the sine of a length", "1 + sin(arm)", "'sin' takes a plain number or an angle, this is length (m)", "divide by a reference first", 4),
    ("the sine of a date", "sin(job.due_on)", "'sin' of a date", "take a difference first", 0),
    ("the logarithm of a text", "ln(mount.kind)", "a number is wanted, this is a text", "", 3),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "what", "hint", "column"), [c[1:] for c in REFUSED], ids=[c[0] for c in REFUSED]
)
def test_a_call_that_cannot_be_is_refused_where_it_stands(
    scope: Scope, text: str, what: str, hint: str, column: int | None
) -> None:
    with pytest.raises(FormulaError) as refused:
        compile_formula(text, scope)
    assert what in refused.value.what
    assert hint in refused.value.hint
    assert column is None or refused.value.column == column


CALLS: list[tuple[str, str, Type, list[str], list[str]]] = [
    ("an engineering function", "entry_coefficient('plain')", PLAIN, ["entry_coefficient"], []),
    ("one of two words", "entry_coefficient('plain' if shelf.locked else 'flush')", PLAIN, ["entry_coefficient"], []),
    ("with nought for a force", "bending_stress(0, arm ** 3)", Numeric(need("Pa").dimension), ["bending_stress"], []),
    ("with a list", "branch_imbalance([box.mass / box.mass * shelf.stress for box in boxes])", PLAIN, ["branch_imbalance"], []),
    ("a look-up", "table.thread.pitch('M8')", LENGTH, [], ["thread.pitch"]),
    ("a look-up by a text that the table may not hold", "table.thread.pitch(mount.bolts)", LENGTH, [], ["thread.pitch"]),
    ("a look-up by nought", "table.cable.area(0)", LENGTH, [], ["cable.area"]),
    ("the hottest", "max(shelf.warmth, glue)", WARM, [], []),
    ("the last day", "max(job.due_on, job.checked_on)", DAY, [], []),
    ("the hottest of a list", "max([glue for box in boxes])", WARM, [], []),
    ("a sum of a list", "sum([box.mass for box in boxes])", MASS, [], []),
    ("a sum of noughts", "sum(0 for box in boxes)", PLAIN, [], []),
    ("the absolute value", "abs(shelf.warmth - glue)", RISE, [], []),
    ("a root", "sqrt(arm * arm)", LENGTH, [], []),
    ("an angle", "atan(arm / arm)", PLAIN, [], []),
    ("how many in a list", "count([box.mass for box in boxes])", PLAIN, [], []),
    ("a condition of each", "all([box.mass > shelf.mass for box in boxes])", FLAG, [], []),
    ("one number", "max(shelf.mass, 0, 0)", MASS, [], []),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "kind", "functions", "tables"), [c[1:] for c in CALLS], ids=[c[0] for c in CALLS]
)
def test_what_a_call_gives_and_uses(
    scope: Scope, text: str, kind: Type, functions: list[str], tables: list[str]
) -> None:
    compiled = compile_formula(text, scope)
    assert compiled.type == kind
    assert list(compiled.uses.functions) == functions
    assert list(compiled.uses.tables) == tables


@pytest.mark.parametrize(
    ("kind", "wanted", "stands"),
    [
        (ZERO, MASS, True), (ZERO, WARM, False), (MASS, MASS, True), (MASS, LENGTH, False), (PLAIN, MASS, False),
        (WARM, WARM, True), (WARM, RISE, False), (RISE, WARM, False),
        (Text(("a",)), Text(("a", "b")), True), (Text(("a", "c")), Text(("a", "b")), False), (Text(("a",)), Text(), True),
        (Text(), Text(), True), (Text(), Text(("a",)), False), (Text(("a",)), MASS, False), (FLAG, FLAG, True), (FLAG, MASS, False), (MASS, FLAG, False),
        (Items(MASS), Items(MASS), True), (Items(MASS), Items(LENGTH), False), (Items(MASS), MASS, False), (MASS, Items(MASS), False),
    ],
)  # fmt: skip
def test_what_may_stand_for_what(kind: Type, wanted: Type, stands: bool) -> None:
    assert fits(kind, wanted) is stands


def test_a_list_of_the_description_stands_for_no_value(scope: Scope) -> None:
    assert not fits(Members(scope.layout, "boxes", many=True), Items(MASS))


def test_an_argument_with_a_name_is_refused_by_the_walk_as_well(scope: Scope) -> None:
    """The grammar refuses it first; a tree that did not pass it must not lose the argument."""
    node = ast.parse("(max(shelf.mass, key=1))", mode="eval").body
    with pytest.raises(FormulaError, match="an argument with a name"):
        Walker(scope).visit(node)


def test_a_section_that_is_asked_about(scope: Scope, value: Callable[..., Any]) -> None:
    assert value("stated(shelf)", "shelf: {locked: false}") is True
    assert value("stated(shelf)", "") is False
    assert value("any(stated(box.lid) for box in boxes)", "boxes: [{name: a}]") is False
    lidded = "boxes: [{name: a}, {name: b, lid: {screws: [{length: 5 mm}]}}]"
    assert value("any(stated(box.lid) for box in boxes)", lidded) is True
    assert value("any(stated(box.mass) for box in boxes)", lidded) is False
    assert value("any(stated(box.mass) for box in boxes)", "boxes: [{name: a, mass: 1 kg}]") is True
    assert list(compile_formula("stated(shelf.mass)", scope).uses.fields) == ["shelf.mass"]


def test_a_section_without_fields_cannot_be_asked_about(scope: Scope) -> None:
    shelf = scope.layout.by_path["shelf"]
    empty = type(shelf)(**{name: getattr(shelf, name) for name in shelf.__slots__})
    empty.last = empty.first  # type: ignore[union-attr]
    scope.layout = type(scope.layout)(
        scope.layout.root,
        scope.layout.fields,
        {**scope.layout.by_path, "shelf": empty},
        scope.layout.template,
    )
    with pytest.raises(FormulaError) as refused:
        compile_formula("arm > arm or stated(shelf)", scope)
    assert refused.value.what == "'shelf' has no fields yet"
    assert refused.value.column == 13
