"""One description against one rulebook: absent values, stages, lists, tolerances, estimates."""

from __future__ import annotations

import json
from collections.abc import Callable
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.absent import OutOfReach
from checker.checking.judging import judge
from checker.checking.outcomes import Outcome, Values, check
from checker.checking.tolerances import Tolerances, utilisation
from checker.findings import Finding, Report
from checker.grades import Grade, Verdict, verdict_of
from checker.installation.fields import Layout
from checker.installation.record import Installation
from checker.output.json_report import render as render_json
from checker.output.text import render as render_text
from checker.reporting.reports import report_on
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

Load = Callable[[dict[str, str]], Rulebook]
Describe = Callable[[str], Installation]
RuleText = Callable[[str], str]


@pytest.fixture
def ask(load: Load, rule_text: RuleText, describe: Describe) -> Callable[..., Finding]:
    """The one finding of a rule made of the parts given, on a description."""

    def finding(parts: str, description: str = "", **says: str) -> Finding:
        text = rule_text(parts)
        for grade, sentence in says.items():
            text = text.replace(
                f"{grade}: {grade[0] if grade != 'confirm' else 'f'}",
                f"{grade}: {json.dumps(sentence)}",
                1,
            )
        book = load({"load/shelf.yaml": text})
        report = report_on(book, describe(description))
        (found,) = (f for f in report.findings if f.rule == "load/shelf")
        judged = judge(book, describe(description))
        told = [] if found.grade is Grade.NOT_APPLICABLE else [found.grade]
        assert [a.grade for a in judged.answers if a.rule == "load/shelf"] == told
        return found

    return finding


COMPARE = "compare: {demand: shelf.mass, limit: shelf.capacity}\n"
GRADES = (
    COMPARE
    + "expect: {stop: demand <= limit, correct: demand <= 0.9 * limit, advise: demand <= 0.8 * limit}"
)


# --- grades ----------------------------------------------------------------------


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


# --- absent values ---------------------------------------------------------------


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


# --- stages ----------------------------------------------------------------------


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


# --- lists -----------------------------------------------------------------------

BOXES = "boxes:\n- {name: a, kind: open, mass: 10 kg}\n- {name: b, kind: open, mass: 30 kg}\n- {name: c, kind: shut}\n- {name: d, mass: 1 kg}\n"


def test_a_rule_speaks_of_each_member(small_rulebook: Rulebook, describe: Describe) -> None:
    found = [
        f for f in report_on(small_rulebook, describe(BOXES)).findings if f.rule == "load/box-mass"
    ]
    assert [(f.subject, f.grade) for f in found] == [
        ("a", Grade.MET), ("b", Grade.CORRECT), ("c", Grade.NOT_APPLICABLE), ("d", Grade.CONFIRM),
    ]  # fmt: skip
    assert found[1].sentence == "b has 30 kg, more than 25 kg; leave 20 mm beside it."
    assert found[2].sentence == "c is shut."
    assert [m.path for m in found[3].missing] == ["boxes[3].kind"]
    assert [f.path for f in found[0].fields] == [
        "boxes[0].name",
        "boxes[0].kind",
        "boxes[0].mass",
    ]


def test_an_empty_list_is_stated(small_rulebook: Rulebook, describe: Describe) -> None:
    (found,) = (
        f
        for f in report_on(small_rulebook, describe("boxes: []")).findings
        if f.rule == "load/box-mass"
    )
    assert (found.grade, found.sentence) == (Grade.NOT_APPLICABLE, "The list boxes is empty.")


def test_a_list_that_is_not_stated_is_missing(small_rulebook: Rulebook, describe: Describe) -> None:
    (found,) = (
        f for f in report_on(small_rulebook, describe("")).findings if f.rule == "load/box-mass"
    )
    assert found.grade is Grade.CONFIRM
    assert [m.path for m in found.missing] == ["boxes"]


@pytest.mark.parametrize(
    ("kind", "grade"), [("side-post", Grade.CONFIRM), ("floor-stand", Grade.NOT_APPLICABLE)]
)
def test_a_list_that_is_not_stated_may_not_be_needed(
    ask: Callable[..., Finding], kind: str, grade: Grade
) -> None:
    parts = 'each: box in boxes\napplies: mount.kind == "side-post" and box.kind == "open"\nexpect: {correct: box.mass <= shelf.capacity}'
    assert ask(parts, f"mount: {{kind: {kind}}}").grade is grade


def test_members_without_a_name_are_counted(
    load: Load, rule_text: RuleText, describe: Describe
) -> None:
    parts = "each: box in boxes\nexpect: {correct: box.mass <= shelf.capacity}"
    book = load({"load/shelf.yaml": rule_text(parts)})
    report = report_on(book, describe(BOXES + "shelf: {capacity: 20 kg}"))
    assert [f.subject for f in report.findings] == ["no. 1", "no. 2", "no. 3", "no. 4"]


def test_what_only_another_member_lacks_is_named(
    load: Load, rule_text: RuleText, describe: Describe
) -> None:
    parts = "each: box in boxes\nexpect: {correct: box.mass <= sum(b.mass for b in boxes)}"
    book = load({"load/shelf.yaml": rule_text(parts)})
    report = report_on(book, describe("boxes: [{name: a, mass: 2 kg}, {name: b}]"))
    assert [[m.path for m in f.missing] for f in report.findings] == [
        ["boxes[1].mass"],
        ["boxes[1].mass"],
    ]


def test_what_a_list_inside_a_list_lacks_is_named(
    load: Load, rule_text: RuleText, describe: Describe
) -> None:
    parts = (
        "each: box in boxes\nexpect: {correct: all(screw.length > 0 for screw in box.lid.screws)}"
    )
    book = load({"load/shelf.yaml": rule_text(parts)})
    report = report_on(
        book, describe("boxes: [{name: a, lid: {screws: [{length: 5 mm}, {}]}}, {name: b}]")
    )
    assert [[m.path for m in f.missing] for f in report.findings] == [
        ["boxes[0].lid.screws[1].length"], ["boxes[1].lid.screws"],
    ]  # fmt: skip


# --- tolerances ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("mass", "grade", "worst"),
    [
        ("70 kg", Grade.MET, None),
        ("70 kg ± 5 kg", Grade.MET, Grade.MET),
        ("75 kg ± 10 kg", Grade.ADVISE, Grade.ADVISE),
        ("75 kg ± 20 kg", Grade.CONFIRM, Grade.CORRECT),
        ("75 kg ± 30 kg", Grade.CONFIRM, Grade.STOP),
        ("85 kg ± 10 kg", Grade.CONFIRM, Grade.CORRECT),
        ("95 kg ± 10 kg", Grade.CORRECT, Grade.STOP),
        ("105 kg ± 10 kg", Grade.STOP, None),
        ("60..100 kg", Grade.CONFIRM, Grade.CORRECT),
    ],
)
def test_what_is_met_at_the_stated_value_only_is_not_met(
    ask: Callable[..., Finding], mass: str, grade: Grade, worst: Grade | None
) -> None:
    found = ask(GRADES, f"shelf: {{mass: {mass}, capacity: 100 kg}}")
    assert found.grade is grade
    assert (found.worst.grade if found.worst else None) is worst
    if worst is not None and worst < grade:
        assert "measure shelf.mass more closely" in found.sentence


def test_the_measurement_that_matters_most_is_the_one_to_tighten(
    ask: Callable[..., Finding],
) -> None:
    found = ask(GRADES, "shelf: {mass: 75 kg ± 0.1 kg, capacity: 100 kg ± 30 kg}")
    assert found.worst is not None
    assert found.worst.tighten == "shelf.capacity"
    assert found.worst.demand is not None
    assert (found.worst.demand.text, found.worst.limit.text) == ("75.1 kg", "70 kg")  # type: ignore[union-attr]


def test_a_tolerance_of_what_a_rule_does_not_read_is_nothing_to_it(
    ask: Callable[..., Finding],
) -> None:
    found = ask(GRADES, "shelf: {mass: 70 kg, capacity: 100 kg, reach: 1 m ± 0.5 m}")
    assert found.worst is None


def test_the_tolerance_of_one_member_is_nothing_to_another(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    text = "boxes: [{name: a, kind: open, mass: 20 kg ± 9 kg}, {name: b, kind: open, mass: 20 kg}]"
    found = [
        f for f in report_on(small_rulebook, describe(text)).findings if f.rule == "load/box-mass"
    ]
    assert [f.grade for f in found] == [Grade.CONFIRM, Grade.MET]
    assert [f.worst is None for f in found] == [False, True]


def test_what_would_apply_inside_the_tolerances_is_not_passed_over(
    ask: Callable[..., Finding],
) -> None:
    parts = (
        "parameters:\n  far: {value: 1 m, why: w, basis: {source: statics, clause: c, confidence: checked}}\n"
        f"applies: shelf.reach > far\n{GRADES}"
    )
    heavy = "mass: 120 kg, capacity: 100 kg"
    assert ask(parts, f"shelf: {{reach: 0.9 m, {heavy}}}").grade is Grade.NOT_APPLICABLE
    found = ask(parts, f"shelf: {{reach: 0.9 m ± 0.2 m, {heavy}}}")
    assert found.grade is Grade.CONFIRM
    assert found.sentence.startswith("At the stated values this does not apply")
    assert ask(parts, f"shelf: {{reach: 0.9 m ± 0.05 m, {heavy}}}").grade is Grade.NOT_APPLICABLE
    light = "mass: 10 kg, capacity: 100 kg"
    assert ask(parts, f"shelf: {{reach: 0.9 m ± 0.2 m, {light}}}").grade is Grade.NOT_APPLICABLE


def test_what_cannot_be_computed_inside_the_tolerances_is_not_met(
    ask: Callable[..., Finding],
) -> None:
    parts = "working:\n  x: {formula: shelf.pull / shelf.reach, unit: N/m}\ncompare: {demand: x * 0, limit: x, unit: N/m}\nexpect: {correct: demand <= limit}"
    found = ask(parts, "shelf: {pull: 5 N, reach: 0.5 m ± 0.5 m}")
    assert found.grade is Grade.CONFIRM
    assert "cannot be computed" in found.sentence


# A rule that adds and takes away four toleranced fields; every one pulls in one direction.
SIGNED = """\
title: T
protects: P
parameters:
  most: {value: 60 kg, why: w, basis: {source: statics, clause: c, confidence: checked}}
working:
  pulled: {formula: shelf.pull / standard_gravity, unit: kg}
  x: {formula: shelf.mass - shelf.capacity + sum(b.mass for b in boxes) - pulled, unit: kg}
compare: {demand: x, limit: most}
expect: {correct: demand <= limit}
says: {correct: c, met: m}
basis: [{source: statics, clause: c, confidence: checked}]
caution: c
cases: [{name: a, grade: met}]
"""


@pytest.fixture(scope="session")
def signed(tmp_path_factory: pytest.TempPathFactory, small_layout: Layout) -> Rulebook:
    root = tmp_path_factory.mktemp("signed")
    for name, text in (
        ("sources/s.yaml", "statics: {title: S, publisher: P}\n"),
        ("load/x.yaml", SIGNED),
    ):
        (root / name).parent.mkdir()
        (root / name).write_text(text)
    return load_rulebook([root], shipped=False, layout=small_layout)


spreads = st.tuples(st.integers(30, 60), st.integers(0, 30))


@given(st.tuples(spreads, spreads, spreads, spreads))
def test_the_worst_corner_is_found(
    signed: Rulebook, describe: Describe, stated: tuple[tuple[int, int], ...]
) -> None:
    """For a rule that is monotone in each field the corners decide, whatever the directions."""
    mass, capacity, box, pull = (f"{value} kg ± {spread} kg" for value, spread in stated)
    pull = f"{stated[3][0] * 9.80665} N ± {stated[3][1] * 9.80665} N"
    installation = describe(
        f"shelf: {{mass: {mass}, capacity: {capacity}, pull: {pull}}}\nboxes: [{{name: a, mass: {box}}}]"
    )
    (outcome,) = check(signed, installation)
    values = Values(signed, installation.record.values)
    found = Tolerances(installation, values).worst_case(outcome)
    corners = [
        sum(
            sign * (value + end * spread)
            for sign, (value, spread), end in zip((1, -1, 1, -1), stated, ends, strict=True)
        )
        for ends in product((-1, 1), repeat=4)
    ]
    if found is None:
        assert all(spread == 0 for _, spread in stated)
    else:
        assert found.outcome.demand == pytest.approx(max(corners), abs=1e-9)
        assert (found.outcome.grade is Grade.MET) == (max(corners) <= 60)
    # Everything is put back as it was.
    (again,) = check(signed, installation)
    assert again.demand == outcome.demand


# --- estimates -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("stage", "mass", "parts", "grade"),
    [
        ("fitted", "{is: 10 kg, origin: estimated}", GRADES, Grade.CONFIRM),
        ("fitted", "{is: 85 kg, origin: estimated}", GRADES, Grade.CONFIRM),
        ("fitted", "{is: 95 kg, origin: estimated}", GRADES, Grade.CORRECT),
        ("fitted", "{is: 105 kg, origin: estimated}", GRADES, Grade.STOP),
        ("fitted", "{is: 10 kg, origin: measured}", GRADES, Grade.MET),
        ("fitted", "10 kg", GRADES, Grade.MET),
        ("plan", "{is: 10 kg, origin: estimated}", GRADES, Grade.MET),
        (
            "fitted",
            "{is: 10 kg, origin: estimated}",
            COMPARE + "expect: {correct: demand <= limit}",
            Grade.MET,
        ),
    ],
)
def test_an_estimate_under_a_stop_is_confirmed_once_fitted(
    ask: Callable[..., Finding], stage: str, mass: str, parts: str, grade: Grade
) -> None:
    found = ask(parts, f"job: {{stage: {stage}}}\nshelf: {{mass: {mass}, capacity: 100 kg}}")
    assert found.grade is grade
    if grade is Grade.CONFIRM:
        assert "rests on an estimate (shelf.mass)" in found.sentence


def test_an_estimate_behind_a_derived_value_counts(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    text = "job: {stage: fitted}\nshelf: {mass: 20 kg, capacity: 100 kg}\nboxes: [{name: a, kind: shut, mass: {is: 10 kg, origin: estimated}}]"
    (found,) = (
        f for f in report_on(small_rulebook, describe(text)).findings if f.rule == "load/capacity"
    )
    assert found.grade is Grade.CONFIRM
    assert "boxes[0].mass" in found.sentence


# --- unusual values --------------------------------------------------------------


@pytest.mark.parametrize(
    ("shelf", "asked"),
    [
        ("mass: 2800 kg", "shelf.mass"),
        ("mass: 0.5 kg", "shelf.mass"),
        ("mass: 150 kg ± 60 kg", "shelf.mass"),
        ("friction: 14", "shelf.friction"),
        ("friction: 1 %", "shelf.friction"),
        ("warmth: 80 degC", "shelf.warmth"),
        ("mass: 200 kg", None),
        ("pull: 1e15 N", None),
    ],
)
def test_an_unusual_value_is_asked_about_and_not_refused(
    small_rulebook: Rulebook, describe: Describe, shelf: str, asked: str | None
) -> None:
    report = report_on(small_rulebook, describe(f"shelf: {{{shelf}}}"))
    found = [f for f in report.findings if f.rule == "description/plausible-values"]
    assert [f.subject for f in found] == ([asked] if asked else [])
    assert all(f.grade is Grade.CONFIRM for f in found)
    assert all("usually lies between" in f.sentence for f in found)


# --- the report ------------------------------------------------------------------


def test_a_rule_in_inches_is_told_in_inches(small_rulebook: Rulebook, describe: Describe) -> None:
    text = "shelf: {mass: 60 lb, capacity: 200 lb, reach: 20 in}\nboxes: []\n"
    (found,) = (
        f for f in report_on(small_rulebook, describe(text)).findings if f.rule == "load/capacity"
    )
    assert found.demand is not None
    assert (found.demand.text, found.demand.unit) == ("60 lb", "lb")


def test_the_unit_a_value_is_written_in_changes_no_finding(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    one = report_on(
        small_rulebook,
        describe(
            "shelf: {mass: 20 kg, capacity: 25 kg, warmth: 40 degC}\nboxes: [{name: a, kind: open, mass: 5 kg}]"
        ),
    )
    other = report_on(
        small_rulebook,
        describe(
            "shelf: {mass: 20000 g, capacity: 0.025 t, warmth: 104 degF}\nboxes: [{name: a, kind: open, mass: 5000 g}]"
        ),
    )
    assert [(f.rule, f.grade, f.sentence) for f in one.findings] == [
        (f.rule, f.grade, f.sentence) for f in other.findings
    ]
    assert [f.grade for f in one.findings if f.rule == "load/capacity"] == [Grade.ADVISE]


def test_a_date_is_told_as_a_date(small_rulebook: Rulebook, describe: Describe) -> None:
    text = "job: {stage: fitted, checked_on: 2026-01-31, due_on: 2027-03-01}"
    (found,) = (
        f
        for f in report_on(small_rulebook, describe(text)).findings
        if f.rule == "timing/check-interval"
    )
    assert found.sentence == "From 2026-01-31 to 2027-03-01 are 394 d; at most 364 d."
    assert found.working[0].numbers == "2027-03-01 - 2026-01-31"


def test_a_temperature_has_no_utilisation(small_rulebook: Rulebook, describe: Describe) -> None:
    (found,) = (
        f
        for f in report_on(small_rulebook, describe("shelf: {warmth: 30 degC}")).findings
        if f.rule == "load/warmth"
    )
    assert found.utilisation is None
    assert found.sentence == "30 °C beside it leave 10 K."


def test_doubtful_cells_and_sources_are_told(small_rulebook: Rulebook, describe: Describe) -> None:
    findings = report_on(
        small_rulebook, describe(BOXES + "shelf: {warmth: 30 degC, mass: 1 kg, capacity: 100 kg}")
    ).findings
    box = next(f for f in findings if f.subject == "a")
    assert (
        "Reference not verified: least_gap for 'open' in the table 'Classes of boxes'."
        in box.remarks
    )
    warmth = next(f for f in findings if f.rule == "load/warmth")
    assert any(r.startswith("Reference not verified: the rule") for r in warmth.remarks)
    capacity = next(f for f in findings if f.rule == "load/capacity")
    assert any("comfortable = 0.8" in r for r in capacity.remarks)


def test_the_basis_of_a_table_behind_a_derived_value_is_told(
    load: Load, rule_text: RuleText, describe: Describe
) -> None:
    files = {
        "tables/t.yaml": "title: T\nbasis: {source: memory, clause: p, confidence: from-memory}\nkeys: {kind: {}}\ncolumns: {m: {unit: kg}}\nrows: [[side-post, 5], [floor-stand, 7]]\n",
        "derived/d.yaml": "title: D\nresult: {formula: table.t.m(mount.kind), unit: kg}\nbasis: [{source: statics, clause: c, confidence: checked}]\n",
        "load/shelf.yaml": rule_text(
            "compare: {demand: shelf.mass, limit: derived.d, unit: kg}\nexpect: {correct: demand <= limit}"
        ),
    }
    (found,) = report_on(load(files), describe("shelf: {mass: 3 kg}")).findings
    assert ("table t", "memory") in [(b.of, b.source) for b in found.basis]
    assert any("table t" in r for r in found.remarks)


def test_the_report_knows_what_it_was_made_from(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    report = report_on(
        small_rulebook, describe("job: {stage: plan, reference: J-1, title: A shelf}")
    )
    assert (report.reference, report.title, report.stage) == ("J-1", "A shelf", "plan")
    assert report.rulebook == small_rulebook.digest
    assert report.counts == {
        "stop": 0,
        "correct": 0,
        "confirm": 3,
        "advise": 0,
        "met": 0,
        "not-applicable": 1,
    }


def test_nothing_says_safe_or_compliant(small_rulebook: Rulebook, describe: Describe) -> None:
    report = report_on(small_rulebook, describe(BOXES))
    for text in (render_text(report), render_json(report)):
        assert "safe" not in text.lower().replace("safety", "")
        assert "complian" not in text.lower()


def test_no_line_of_the_text_is_wider_than_asked(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    report = report_on(small_rulebook, describe(BOXES + "shelf: {mass: 20 kg, capacity: 40 kg}"))
    for width in (40, 60, 80):
        assert max(len(line) for line in render_text(report, width=width).splitlines()) <= width


def test_order_of_the_file_changes_no_finding(small_rulebook: Rulebook, describe: Describe) -> None:
    one = report_on(
        small_rulebook, describe("shelf: {mass: 20 kg, capacity: 50 kg}\nboxes: []\n# a remark\n")
    )
    other = report_on(
        small_rulebook, describe("boxes: []\nshelf:\n  capacity: 50 kg\n  mass: 20 kg\n")
    )

    def said(report: Report) -> list[tuple[Any, ...]]:
        return [
            (f.rule, f.subject, f.grade, f.sentence, f.demand, f.limit) for f in report.findings
        ]

    assert said(one) == said(other)


def test_the_same_description_gives_the_same_report(
    small_rulebook: Rulebook, describe: Describe
) -> None:
    one, other = (report_on(small_rulebook, describe(BOXES)) for _ in range(2))
    assert one == other


def test_an_outcome_says_what_stood_in_the_way(
    load: Load, rule_text: RuleText, describe: Describe
) -> None:
    book = load(
        {
            "load/shelf.yaml": rule_text(
                COMPARE.replace("shelf.mass", "shelf.mass / (shelf.bolts - 4)").replace(
                    "}", ", unit: kg}"
                )
                + "expect: {correct: demand <= limit}"
            )
        }
    )
    (outcome,) = check(book, describe("shelf: {mass: 5 kg, bolts: 4, capacity: 9 kg}"))
    assert isinstance(outcome, Outcome)
    assert isinstance(outcome.why, OutOfReach)
