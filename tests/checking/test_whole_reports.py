"""The report: units, dates, sources, order, the same again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from checker.absent import OutOfReach
from checker.checking.outcomes import Outcome, check
from checker.findings import Report
from checker.grades import Grade
from checker.installation.record import Installation
from checker.output.json_report import render as render_json
from checker.output.text import render as render_text
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


BOXES = "boxes:\n- {name: a, kind: open, mass: 10 kg}\n- {name: b, kind: open, mass: 30 kg}\n- {name: c, kind: shut}\n- {name: d, mass: 1 kg}\n"


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
