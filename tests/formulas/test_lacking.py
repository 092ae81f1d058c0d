"""Values that nobody stated: which formulas need them, and which fields are named."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from checker.absent import Absent, OutOfReach, Unstated
from checker.formulas.compiling import compile_formula
from checker.formulas.lacking import evaluate, why_not
from checker.formulas.running import surroundings
from checker.formulas.scope import Scope

NEEDED = [
    ("one field", "shelf.mass * 2", "", ["shelf.mass"]),
    ("both fields", "shelf.mass + shelf.capacity", "", ["shelf.mass", "shelf.capacity"]),
    ("each field once", "shelf.mass + shelf.mass", "", ["shelf.mass"]),
    ("the field that lacks", "shelf.mass + shelf.capacity", "shelf: {mass: 5 kg}", ["shelf.capacity"]),
    ("a field in a comparison", "shelf.mass <= shelf.capacity", "shelf: {capacity: 5 kg}", ["shelf.mass"]),
    ("a field in a call", "sqrt(shelf.friction)", "", ["shelf.friction"]),
    ("fields in two brackets", "max(shelf.mass, shelf.capacity)", "", ["shelf.mass", "shelf.capacity"]),
    ("a text", "mount.bolts == '8.8'", "", ["mount.bolts"]),
    ("a text in a list", "mount.bolts in ['8.8']", "", ["mount.bolts"]),
    ("a flag", "not shelf.locked", "", ["shelf.locked"]),
    ("the condition first", "shelf.mass if shelf.locked else shelf.capacity", "", ["shelf.locked"]),
    ("the side taken", "shelf.mass + 0 if shelf.locked else shelf.capacity", "shelf: {locked: true}", ["shelf.mass"]),
    ("the other side taken", "shelf.mass if shelf.locked else shelf.capacity + 0", "shelf: {locked: false}", ["shelf.capacity"]),
    ("what 'and' meets first", "shelf.locked and shelf.mass > shelf.capacity", "", ["shelf.locked"]),
    ("what 'and' meets next", "shelf.locked and shelf.mass > shelf.capacity", "shelf: {locked: true}", ["shelf.mass", "shelf.capacity"]),
    ("what 'or' meets next", "shelf.locked or shelf.friction > 1", "shelf: {locked: false}", ["shelf.friction"]),
    ("a list", "sum(box.mass for box in boxes)", "", ["boxes"]),
    ("a list and a field", "shelf.mass + sum(box.mass for box in boxes)", "", ["shelf.mass", "boxes"]),
    ("a field of a member", "sum(box.mass for box in boxes)", "boxes: [{name: a}, {name: b, mass: 2 kg}]", ["boxes[0].mass"]),
    ("a field of several members", "sum(box.mass for box in boxes if box.kind == 'open')", "boxes: [{name: a, kind: open}, {name: b, kind: shut}, {name: c, kind: open, mass: 1 kg}, {name: d, kind: open}]", ["boxes[0].mass", "boxes[3].mass"]),
    ("a member before any is found", "any(box.mass > shelf.mass for box in boxes)", "shelf: {mass: 1 kg}\nboxes: [{name: a}, {name: b, mass: 2 kg}]", ["boxes[0].mass"]),
    ("a field in the loop's condition", "sum(box.mass for box in boxes if box.kind == 'open')", "boxes: [{name: a, mass: 2 kg}]", ["boxes[0].kind"]),
    ("a list to count", "count(boxes)", "", ["boxes"]),
    ("the only one in a list", "max(box.mass for box in boxes) * 2", "boxes: [{name: a}]", ["boxes[0].mass"]),
    ("behind a quotient that has no value", "shelf.mass * 2 * (1 / (shelf.bolts - 4) if shelf.locked else 1)", "shelf: {bolts: 4, locked: true}", ["shelf.mass"]),
    ("beside a condition that has no value", "shelf.pull > most * factor or sqrt(shelf.friction - 1) > 0", "shelf: {friction: 0.5}", ["shelf.pull"]),
    ("beside a test that has no value", "shelf.mass * 2 * (1 if (ln(shelf.friction - 1) > 0 and shelf.locked) else 2)", "shelf: {friction: 0.5}", ["shelf.mass"]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "stated", "missing"), [c[1:] for c in NEEDED], ids=[c[0] for c in NEEDED]
)
def test_every_missing_field_is_named(
    scope: Scope, describe: Callable[..., Any], text: str, stated: str, missing: list[str]
) -> None:
    found = _worked_out(text, scope, describe(stated))
    assert isinstance(found, Absent)
    assert isinstance(found.why, Unstated)
    assert list(found.why.paths) == missing


NOT_NEEDED = [
    ("the side not taken", "shelf.capacity if shelf.locked else 0", "shelf: {locked: false}", 0),
    ("behind 'and'", "shelf.locked and shelf.mass > shelf.capacity", "shelf: {locked: false}", False),
    ("behind 'or'", "shelf.locked or shelf.mass > shelf.capacity", "shelf: {locked: true}", True),
    ("asked about only", "stated(shelf.mass)", "", False),
    ("asked about before it is used", "shelf.mass if stated(shelf.mass) else 0", "", 0),
    ("a section with nothing in it", "stated(shelf)", "", False),
    ("a member left out", "sum(box.mass for box in boxes if box.kind == 'shut')", "boxes: [{name: a, kind: open}]", 0),
    ("any is found before it", "any(box.kind == 'open' for box in boxes)", "boxes: [{name: a, kind: open}, {name: b}]", True),
    ("members are counted whatever they lack", "count(boxes)", "boxes: [{name: a}, {name: b}]", 2),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "stated", "result"), [c[1:] for c in NOT_NEEDED], ids=[c[0] for c in NOT_NEEDED]
)
def test_what_is_not_needed_is_not_missed(
    scope: Scope, describe: Callable[..., Any], text: str, stated: str, result: Any
) -> None:
    assert _worked_out(text, scope, describe(stated)) == result


def _worked_out(text: str, scope: Scope, installation: Any) -> Any:
    compiled = compile_formula(text, scope)
    names = surroundings(compiled.uses.functions, {})
    return evaluate(compiled.source, {**names, "S": installation.record.values, "D": []})


USES: list[Callable[[Any], Any]] = [
    lambda a: a + 1, lambda a: 1 + a, lambda a: a - 1, lambda a: 1 - a, lambda a: a * 2, lambda a: 2 * a,
    lambda a: a / 2, lambda a: 2 / a, lambda a: a**2, lambda a: 2**a, lambda a: -a, lambda a: +a, abs, round,
    lambda a: a < 1, lambda a: a <= 1, lambda a: a > 1, lambda a: a >= 1,
    lambda a: a == 1, lambda a: a != 1, lambda a: a == "x",
    lambda a: a in ("x", "y"), lambda a: "x" in a, bool, float, int, len, list, str, hash, lambda a: a[0],
    lambda a: not a, lambda a: sum([a]), lambda a: max(a, 1.0), lambda a: {a: 1}, lambda a: a // 2, lambda a: a % 2,
]  # fmt: skip


@pytest.mark.parametrize("use", USES, ids=range(len(USES)))
def test_an_absent_value_can_only_be_passed_about(use: Callable[[Any], Any]) -> None:
    with pytest.raises(Unstated) as raised:
        use(Absent(Unstated("shelf.mass")))
    assert raised.value.paths == ("shelf.mass",)


def test_an_absent_value_raises_a_new_exception_each_time() -> None:
    absent = Absent(OutOfReach("Too far."))
    seen = []
    for _ in range(2):
        with pytest.raises(OutOfReach) as raised:
            absent + 1
        seen.append(raised.value)
    assert seen[0] is not seen[1]
    assert seen[0].reason == "Too far."


def test_a_fault_of_ours_is_not_taken_for_a_value_that_cannot_be_told() -> None:
    with pytest.raises(TypeError):
        why_not(TypeError("ours"))
