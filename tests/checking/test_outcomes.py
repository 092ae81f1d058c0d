"""Grades, what is missing, stages: one rule, one outcome."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from checker.checking.tolerances import utilisation
from checker.findings import Finding
from checker.grades import Grade, Verdict, verdict_of
from checker.installation.record import Installation
from checker.output.json_report import render as render_json
from checker.reporting.reports import report_on
from checker.rulebook.model import Rulebook

Load = Callable[[dict[str, str]], Rulebook]
Describe = Callable[[str], Installation]
RuleText = Callable[[str], str]


COMPARE = "compare: {demand: shelf.mass, limit: shelf.capacity}\n"
GRADES = (
    COMPARE
    + "expect: {stop: demand <= limit, correct: demand <= 0.9 * limit, advise: demand <= 0.8 * limit}"
)


@pytest.mark.parametrize(
    ("mass", "grade"),
    [
        ("10 kg", Grade.MET), ("80 kg", Grade.MET), ("80.01 kg", Grade.ADVISE), ("90 kg", Grade.ADVISE),
        ("90.01 kg", Grade.CORRECT), ("100 kg", Grade.CORRECT), ("100.01 kg", Grade.STOP), ("0 kg", Grade.MET),
    ],
)  # fmt: skip
def test_the_gravest_condition_that_does_not_hold_is_the_grade(
    ask: Callable[..., Finding], mass: str, grade: Grade
) -> None:
    found = ask(GRADES, f"shelf: {{mass: {mass}, capacity: 100 kg}}")
    assert found.grade is grade


def test_demand_limit_and_ratio_are_told(ask: Callable[..., Finding]) -> None:
    found = ask(
        GRADES, "shelf: {mass: 45 kg, capacity: 100 kg}", met="{demand} of {limit}, {utilisation}."
    )
    assert found.sentence == "45 kg of 100 kg, 45 %."
    assert found.demand is not None
    assert (found.demand.value, found.demand.unit, found.demand.text) == (45.0, "kg", "45 kg")
    assert found.utilisation == 0.45


def test_demand_and_limit_that_differ_are_told_apart(ask: Callable[..., Finding]) -> None:
    found = ask(GRADES, "shelf: {mass: 100.01 kg, capacity: 100 kg}", stop="{demand} over {limit}.")
    assert found.sentence == "100.01 kg over 100 kg."


@pytest.mark.parametrize(
    ("demand", "limit", "ratio"),
    [
        (1.0, 2.0, 0.5),
        (1.0, 0.0, float("inf")),
        (0.0, 0.0, 0.0),
        (-1.0, 0.0, 0.0),
        (None, 1.0, 0.0),
        (1.0, None, 0.0),
    ],
)
def test_utilisation(demand: Any, limit: Any, ratio: float) -> None:
    assert utilisation(demand, limit) == ratio


@pytest.mark.parametrize(
    ("grades", "verdict"),
    [
        ([], Verdict.READY), ([Grade.NOT_APPLICABLE], Verdict.READY), ([Grade.MET, Grade.ADVISE], Verdict.READY),
        ([Grade.MET, Grade.CONFIRM], Verdict.CONFIRM), ([Grade.CONFIRM, Grade.CORRECT], Verdict.REWORK),
        ([Grade.CORRECT, Grade.STOP, Grade.MET], Verdict.HOLD),
    ],
)  # fmt: skip
def test_the_verdict_follows_from_the_gravest(grades: list[Grade], verdict: Verdict) -> None:
    assert verdict_of(grades) is verdict


@pytest.mark.parametrize("grade", Grade)
def test_a_grade_is_found_by_its_word(grade: Grade) -> None:
    assert Grade.of(grade.word) is grade


def test_a_missing_value_is_named_with_where_to_get_it(ask: Callable[..., Finding]) -> None:
    found = ask(GRADES, "job: {stage: plan}\nshelf: {mass: 5 kg}\n")
    assert found.grade is Grade.CONFIRM
    (missing,) = found.missing
    assert (missing.path, missing.unit, missing.where) == ("shelf.capacity", "kg", "Its plate.")
    assert (missing.file, missing.line, missing.column) == ("shelf.yaml", 2, 15)
    assert found.sentence == "Not stated: mass that it may carry (shelf.capacity)."
    assert found.demand is found.limit is found.utilisation is None


def test_every_missing_value_is_named_at_once(ask: Callable[..., Finding]) -> None:
    parts = "working:\n  x: {formula: shelf.pull * shelf.reach, unit: N*m}\n" + GRADES
    found = ask(parts, "")
    assert {m.path for m in found.missing} == {
        "shelf.pull",
        "shelf.reach",
        "shelf.mass",
        "shelf.capacity",
    }
    assert found.sentence.endswith("; and 1 more.")


def test_silence_is_never_a_pass(small_rulebook: Rulebook, describe: Describe) -> None:
    report = report_on(small_rulebook, describe(""))
    assert {f.rule: f.grade for f in report.findings} == {
        "load/box-mass": Grade.CONFIRM, "load/capacity": Grade.CONFIRM,
        "load/warmth": Grade.CONFIRM, "timing/check-interval": Grade.NOT_APPLICABLE,
    }  # fmt: skip
    assert all(f.missing for f in report.findings if f.grade is Grade.CONFIRM)


def test_a_rule_that_may_not_apply_asks_what_decides_that(ask: Callable[..., Finding]) -> None:
    found = ask("applies: shelf.locked\n" + GRADES, "")
    assert [m.path for m in found.missing] == ["shelf.locked"]


def test_a_rule_that_does_not_apply_misses_nothing(ask: Callable[..., Finding]) -> None:
    found = ask("applies: shelf.locked\n" + GRADES, "shelf: {locked: false}")
    assert found.grade is Grade.NOT_APPLICABLE
    assert found.missing == ()


def test_a_value_behind_a_derived_value_is_named(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    report = report_on(
        small_rulebook,
        describe(
            "shelf: {capacity: 5 kg}\nboxes: [{name: a, kind: shut, mass: 2 kg}, {name: b, kind: shut}]"
        ),
    )
    (found,) = (f for f in report.findings if f.rule == "load/capacity")
    assert [m.path for m in found.missing] == ["shelf.mass", "boxes[1].mass"]
    assert [(m.line, m.column) for m in found.missing] == [(1, 19), (2, 44)]


def test_removing_any_field_never_makes_a_grade_better(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    """Without a value there is no pass: confirm, or the rule does not apply."""
    whole = {
        "shelf.mass": "20 kg", "shelf.capacity": "100 kg", "shelf.warmth": "20 degC",
        "boxes": "[{name: a, kind: open, mass: 2 kg}]",
    }  # fmt: skip
    for left_out in whole:
        stated = {k: v for k, v in whole.items() if k != left_out}
        shelf = ", ".join(f"{k[6:]}: {v}" for k, v in stated.items() if k.startswith("shelf."))
        text = f"shelf: {{{shelf}}}\n" + (
            f"boxes: {stated['boxes']}\n" if "boxes" in stated else ""
        )
        grades = {f.grade for f in report_on(small_rulebook, describe(text)).findings}
        assert Grade.CONFIRM in grades, left_out


def test_what_cannot_be_computed_says_why(ask: Callable[..., Finding]) -> None:
    parts = "working:\n  x: {formula: shelf.pull / shelf.reach, unit: N/m}\ncompare: {demand: x, limit: x}\nexpect: {correct: demand <= limit}"
    found = ask(parts, "shelf: {pull: 5 N, reach: 0 m}")
    assert found.grade is Grade.CONFIRM
    assert found.sentence == "A value of nought stands where something is divided by it."


@pytest.mark.parametrize("grade", ["stop", "correct", "advise"])
def test_what_overflows_is_no_grade(
    load: Load, rule_text: RuleText, describe: Describe, grade: str
) -> None:
    """Each value is of a size that can be written; their product is not of one that can be told."""
    square = "shelf.mass ** 20 / shelf.capacity ** 19"
    parts = f"working: {{x: {{formula: {square}, unit: kg}}}}\ncompare: {{demand: x, limit: x * {' * '.join(['(x / shelf.mass)'] * 8)}, unit: kg}}\nexpect: {{{grade}: demand <= limit}}"
    book = load({"load/shelf.yaml": rule_text(parts)})
    report = report_on(book, describe("shelf: {mass: 1e15 kg, capacity: 1 kg}"))
    (found,) = (f for f in report.findings if f.rule == "load/shelf")
    assert found.grade is Grade.CONFIRM
    assert "leave the range" in found.sentence
    render_json(report)


@pytest.mark.parametrize(
    ("stages", "stage", "sentence"),
    [
        ("[fitted]", "plan", "Checked once fitted."),
        ("[plan]", "fitted", "Checked at the planning stage."),
        ("[plan]", "plan", None),
        ("[plan, fitted]", "fitted", None),
    ],
)
def test_a_rule_is_asked_at_its_stages_only(
    ask: Callable[..., Finding], stages: str, stage: str, sentence: str | None
) -> None:
    found = ask(
        f"stages: {stages}\n{GRADES}",
        f"job: {{stage: {stage}}}\nshelf: {{mass: 5 kg, capacity: 9 kg}}",
    )
    if sentence is None:
        assert found.grade is Grade.MET
    else:
        assert (found.grade, found.sentence) == (Grade.NOT_APPLICABLE, sentence)
