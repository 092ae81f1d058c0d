"""What one rule gives on one set of values: what is kept, what is missing, what is worked out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from checker.absent import Absent, OutOfReach, Unstated
from checker.checking.outcomes import (
    Outcome,
    Values,
    derived_names,
    outcome_of,
    outcomes_of,
    working_of,
)
from checker.grades import Grade
from checker.installation.record import Installation
from checker.rulebook.model import Rule, Rulebook

Load = Callable[[dict[str, str]], Rulebook]
Describe = Callable[[str], Installation]
RuleText = Callable[[str], str]
One = Callable[..., tuple[Rule, Values]]

DERIVED = """\
title: D
working:
  half: {{formula: "{half}", unit: {unit}}}
result: {{formula: half * 2, unit: {unit}}}
basis: [{{source: statics, clause: c, confidence: checked}}]
"""
TWO = {
    "derived/span.yaml": DERIVED.format(half="shelf.reach / 2", unit="m"),
    "derived/weight.yaml": DERIVED.format(half="(shelf.mass + shelf.capacity) / 2", unit="kg"),
}
NEEDS_BOTH = "compare: {demand: derived.weight, limit: derived.weight * (derived.span / derived.span), unit: kg}\nexpect: {correct: demand <= limit}"
COMPARE = "compare: {demand: shelf.mass, limit: shelf.capacity}\nexpect: {correct: demand <= limit}"


@pytest.fixture
def one(load: Load, rule_text: RuleText, describe: Describe) -> One:
    """A rule of the parts given, and the values of a description."""

    def made(
        parts: str,
        description: str = "",
        files: dict[str, str] | None = None,
        *,
        brief: bool = False,
    ) -> tuple[Rule, Values]:
        book = load({"load/shelf.yaml": rule_text(parts), **(files or {})})
        values = Values(book, describe(description).record.values, brief=brief)
        return book.named("load/shelf"), values

    return made


def slot(values: Values, path: str) -> int:
    (field,) = (f for f in values.rulebook.layout.fields if f.path == path)
    return field.slot


def missing(outcome: Outcome) -> list[str]:
    assert isinstance(outcome.why, Unstated)
    return sorted(outcome.why.paths)


# --- derived values --------------------------------------------------------------


def test_a_derived_value_is_worked_out_once(one: One) -> None:
    rule, values = one(NEEDS_BOTH, "shelf: {reach: 2 m, mass: 5 kg, capacity: 3 kg}", TWO)
    assert outcome_of(rule, values, None).demand == 8.0
    values.S[slot(values, "shelf.mass")] = 50.0
    assert outcome_of(rule, values, None).demand == 8.0


def test_only_the_derived_values_named_are_worked_out_again(one: One) -> None:
    rule, values = one(NEEDS_BOTH, "shelf: {reach: 2 m, mass: 5 kg, capacity: 3 kg}", TWO)
    values.work_out(rule.derived)
    span, weight = (values.rulebook.derived[name].index for name in ("span", "weight"))
    other = values.without(frozenset({weight}), brief=True)
    assert other.brief
    assert not values.without(frozenset(), brief=False).brief
    assert (other.D[span], other.D[weight]) == (2.0, None)
    values.S[slot(values, "shelf.mass")] = 50.0
    values.S[slot(values, "shelf.reach")] = 9.0
    other.work_out(rule.derived)
    assert (other.D[span], other.D[weight]) == (2.0, 53.0)
    assert (values.D[span], values.D[weight]) == (2.0, 8.0)


@pytest.mark.parametrize(
    ("brief", "paths"), [(False, ["shelf.capacity", "shelf.mass"]), (True, ["shelf.mass"])]
)
def test_in_brief_the_first_field_that_a_derived_value_lacks_will_do(
    one: One, brief: bool, paths: list[str]
) -> None:
    rule, values = one(NEEDS_BOTH, "shelf: {reach: 2 m}", TWO, brief=brief)
    assert missing(outcome_of(rule, values, None)) == paths


@pytest.mark.parametrize(
    ("brief", "paths"), [(False, ["shelf.capacity", "shelf.mass"]), (True, ["shelf.mass"])]
)
def test_in_brief_the_first_field_that_a_rule_lacks_will_do(
    one: One, brief: bool, paths: list[str]
) -> None:
    rule, values = one(COMPARE, brief=brief)
    assert missing(outcome_of(rule, values, None)) == paths


def test_a_derived_value_shows_its_lines(one: One) -> None:
    _, values = one(NEEDS_BOTH, "shelf: {reach: 3 m}", TWO)
    assert derived_names(values.rulebook.derived["span"], values)["v_half"] == 1.5
    half = derived_names(values.rulebook.derived["weight"], values)["v_half"]
    assert isinstance(half.why, Unstated)


def test_the_names_of_one_working_are_in_nobodys_way(one: One) -> None:
    _, values = one(COMPARE, "shelf: {mass: 5 kg}")
    assert values.names() is not values.names()
    assert values.scratch() is values.scratch()
    values.scratch()["v_demand"] = 1.0
    assert "v_demand" not in values.names()


# --- switched off, stages, lists -------------------------------------------------


@pytest.mark.parametrize("stage", ["plan", "fitted"])
def test_a_rule_that_is_switched_off_says_why(one: One, stage: str) -> None:
    rule, values = one(COMPARE, "shelf: {mass: 5 kg, capacity: 3 kg}")
    (outcome,) = outcomes_of(replace(rule, switched_off="Another one holds here."), values, stage)
    assert (outcome.grade, outcome.reason) == (Grade.NOT_APPLICABLE, "Another one holds here.")
    (asked,) = outcomes_of(rule, values, stage)
    assert asked.grade is Grade.CORRECT


def test_each_member_has_its_place(one: One) -> None:
    parts = "each: box in boxes\nexpect: {correct: box.mass <= shelf.capacity}"
    rule, values = one(
        parts,
        "shelf: {capacity: 3 kg}\nboxes: [{name: a, mass: 2 kg}, {name: b, mass: 4 kg}, {name: c}]",
    )
    assert [(o.member, o.grade) for o in outcomes_of(rule, values, "plan")] == [
        (0, Grade.MET), (1, Grade.CORRECT), (2, Grade.CONFIRM),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("shelf", "grade", "paths"),
    [
        ("mass: 5 kg, capacity: 3 kg", Grade.NOT_APPLICABLE, None),
        ("mass: 5 kg, capacity: 6 kg", Grade.CONFIRM, ["boxes"]),
        ("mass: 5 kg", Grade.CONFIRM, ["shelf.capacity"]),
    ],
)
def test_a_derived_value_tells_whether_a_list_is_needed(
    one: One, shelf: str, grade: Grade, paths: list[str] | None
) -> None:
    parts = (
        "parameters:\n  little: {value: 10 kg, why: w, basis: {source: statics, clause: c, confidence: checked}}\n"
        "each: box in boxes\napplies: derived.weight > little\nexpect: {correct: box.mass <= shelf.capacity}"
    )
    rule, values = one(parts, f"shelf: {{{shelf}}}", TWO)
    (outcome,) = outcomes_of(rule, values, "plan")
    assert outcome.grade is grade
    assert (missing(outcome) if outcome.why else None) == paths


def test_a_list_that_is_not_stated_is_missing_where_nothing_else_decides(one: One) -> None:
    rule, values = one("each: box in boxes\nexpect: {correct: box.mass <= shelf.capacity}")
    (outcome,) = outcomes_of(rule, values, "plan")
    assert (outcome.grade, outcome.member, missing(outcome)) == (Grade.CONFIRM, None, ["boxes"])


# --- why there is no answer ------------------------------------------------------


@pytest.mark.parametrize(
    "compare",
    [
        "{demand: shelf.mass ** 20 / shelf.capacity ** 19, limit: shelf.capacity, unit: kg}",
        "{demand: shelf.capacity, limit: shelf.mass ** 20 / shelf.capacity ** 19, unit: kg}",
    ],
)
def test_a_side_without_end_is_no_answer(one: One, compare: str) -> None:
    """Products overflow without a word: 1e240 times itself is infinite."""
    squared = compare.replace("shelf.mass ** 20 / shelf.capacity ** 19", "x * (x / shelf.capacity)")
    parts = f"working: {{x: {{formula: shelf.mass ** 20 / shelf.capacity ** 19, unit: kg}}}}\ncompare: {squared}\nexpect: {{correct: demand <= limit}}"
    rule, values = one(parts, "shelf: {mass: 1e12 kg, capacity: 1 kg}")
    outcome = outcome_of(rule, values, None)
    assert outcome.grade is Grade.CONFIRM
    assert isinstance(outcome.why, OutOfReach)


def test_of_two_lines_without_a_value_the_first_says_why(one: One) -> None:
    parts = (
        "working:\n  x: {formula: shelf.pull / shelf.reach, unit: N/m}\n"
        "  y: {formula: sqrt(shelf.friction - 1), unit: '1'}\n"
        "expect: {correct: shelf.mass <= shelf.capacity}"
    )
    rule, values = one(
        parts, "shelf: {pull: 1 N, reach: 0 m, friction: 0.5, mass: 1 kg, capacity: 2 kg}"
    )
    why = outcome_of(rule, values, None).why
    assert isinstance(why, OutOfReach)
    assert "nought" in why.reason


def test_a_field_that_is_missing_comes_before_a_line_that_cannot_be_computed(one: One) -> None:
    parts = (
        "working:\n  x: {formula: shelf.pull / shelf.reach, unit: N/m}\n"
        "  y: {formula: shelf.mass * 2, unit: kg}\n"
        "expect: {correct: shelf.mass <= shelf.capacity}"
    )
    rule, values = one(parts, "shelf: {pull: 1 N, reach: 0 m, capacity: 2 kg}")
    assert missing(outcome_of(rule, values, None)) == ["shelf.mass"]


def test_a_condition_that_cannot_be_computed_says_why(one: One) -> None:
    parts = "expect: {correct: shelf.pull / shelf.reach <= shelf.pull / shelf.reach}"
    rule, values = one(parts, "shelf: {pull: 1 N, reach: 0 m}")
    why = outcome_of(rule, values, None).why
    assert isinstance(why, OutOfReach)
    assert "nought" in why.reason


@pytest.mark.parametrize(
    ("capacity", "paths"),
    [("3 kg", ["shelf.reach"]), ("8 kg", ["shelf.pull", "shelf.reach"])],
)
def test_what_stands_behind_a_condition_that_decides_is_not_asked_for(
    one: One, capacity: str, paths: list[str]
) -> None:
    parts = (
        "working: {x: {formula: shelf.reach * 2, unit: m}}\n"
        "expect:\n  stop: shelf.mass <= shelf.capacity\n  correct: shelf.pull <= 2 * shelf.pull"
    )
    rule, values = one(parts, f"shelf: {{mass: 5 kg, capacity: {capacity}}}")
    assert missing(outcome_of(rule, values, None)) == paths


def test_a_condition_behind_one_that_has_no_answer_is_not_asked_for(one: One) -> None:
    parts = "expect:\n  stop: shelf.mass <= shelf.capacity\n  correct: shelf.pull <= 2 * shelf.pull"
    rule, values = one(parts)
    assert missing(outcome_of(rule, values, None)) == ["shelf.capacity", "shelf.mass"]


@pytest.mark.parametrize("member", [None, 0])
def test_a_fault_of_the_code_is_no_answer_about_an_installation(
    one: One, member: int | None
) -> None:
    """What no value can cause is never told as something to confirm."""

    def broken(*_: Any) -> Any:
        raise KeyError("v_x")

    each = "" if member is None else "each: box in boxes\n"
    rule, values = one(each + COMPARE, "boxes: [{name: a}]")
    with pytest.raises(KeyError):
        outcome_of(replace(rule, run=broken), values, member)
    with pytest.raises(KeyError):
        working_of(replace(rule, lines_of=broken), values, member)


# --- the working -----------------------------------------------------------------

WORKING = "working: {x: {formula: shelf.reach * 2, unit: m}, y: {formula: derived.weight / 2, unit: kg}}\n"


def test_every_line_of_a_working_has_its_value(one: One) -> None:
    rule, values = one(WORKING + COMPARE, "shelf: {reach: 2 m, mass: 5 kg, capacity: 3 kg}", TWO)
    names = working_of(rule, values, None)
    assert [names[f"v_{name}"] for name in ("x", "y", "demand", "limit")] == [4.0, 4.0, 5.0, 3.0]


def test_a_line_without_a_value_says_what_it_lacks_and_the_others_stay(one: One) -> None:
    rule, values = one(WORKING + COMPARE, "shelf: {reach: 2 m, mass: 5 kg}", TWO)
    names = working_of(rule, values, None)
    assert (names["v_x"], names["v_demand"]) == (4.0, 5.0)
    for name in ("y", "limit"):
        found = names[f"v_{name}"]
        assert type(found) is Absent
        assert isinstance(found.why, Unstated)
        assert found.why.paths == ("shelf.capacity",)


def test_the_working_of_one_member(one: One) -> None:
    parts = "each: box in boxes\nworking: {x: {formula: box.mass * 2, unit: kg}}\nexpect: {correct: x <= shelf.capacity}"
    rule, values = one(parts, "boxes: [{name: a, mass: 1 kg}, {name: b, mass: 4 kg}, {name: c}]")
    members = values.S[slot(values, "boxes")]
    for member, expected in ((0, 2.0), (1, 8.0)):
        names = working_of(rule, values, member)
        assert names["v_x"] == expected
        assert names["m_box"] is members[member]
    found = working_of(rule, values, 2)["v_x"]
    assert type(found) is Absent


def test_the_working_of_a_list_that_is_not_stated_lacks_the_list(one: One) -> None:
    parts = "each: box in boxes\nworking: {x: {formula: box.mass * 2, unit: kg}}\nexpect: {correct: x <= shelf.capacity}"
    rule, values = one(parts)
    names = working_of(rule, values, None)
    assert type(names["m_box"]) is Absent
    assert names["v_x"].why.paths == ("boxes",)
