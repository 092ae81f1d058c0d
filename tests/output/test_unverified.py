"""Whatever rests on a value from memory says so, in every form that a person reads."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from checker.findings import Finding
from checker.grades import Grade
from checker.installation.binding import bind
from checker.output import sheet as sheet_text
from checker.output.html import render as render_html
from checker.output.json_report import render as render_json
from checker.output.sheet_html import render as render_sheet_page
from checker.output.text import render as render_text
from checker.reporting.bases import NOT_VERIFIED
from checker.reporting.fitting_sheet import Sheet, sheet_for
from checker.reporting.reports import report_on
from checker.rulebook.cases import case_installation, only
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Recalled, Rule, Rulebook
from checker.rulebook.register import register

WORDS = "reference not verified"


@cache
def shipped() -> Rulebook:
    return load_rulebook()


@cache
def remembered() -> dict[str, set[str]]:
    """For each rule, the entries of the register from memory that every answer of it rests on."""
    found: dict[str, set[str]] = {}
    for entry in register(shipped()):
        if entry.confidence == "from-memory" and entry.kind in ("rule", "derived", "parameter"):
            for rule in entry.used_by:
                found.setdefault(rule, set()).add(entry.title)
    return found


@cache
def recalled() -> dict[str, set[Recalled]]:
    """For each rule, the functions from memory that an answer of it can rest on."""
    found = {}
    for rule in shipped().rules:
        owners = (rule, *(shipped().order[i] for i in rule.derived))
        if functions := {one for owner in owners for one in owner.recalled}:
            found[rule.name] = functions
    return found


def rules() -> list[Rule]:
    return [rule for rule in shipped().rules if rule.name in {*remembered(), *recalled()}]


def test_there_is_something_to_say() -> None:
    assert 10 < len(rules()) < len(shipped().rules) / 2


def _is_said(function: Recalled, remark: str) -> bool:
    """By its name, or by its text where something else from memory rests on that text too."""
    if f"function {function.name}" in remark:
        return function.source in remark
    return function.source.partition(",")[0] in remark.replace(f"({function.source})", "")


@pytest.mark.slow
@pytest.mark.parametrize("rule", rules(), ids=lambda rule: rule.name)
def test_finding_says_so(rule: Rule) -> None:
    book = only(rule, shipped())
    said = 0
    for case in rule.cases:
        if case.grade is Grade.NOT_APPLICABLE:
            continue
        installation = case_installation(case, shipped())
        report = report_on(book, installation)
        for finding in report.findings:
            if finding.rule != rule.name or finding.grade is Grade.NOT_APPLICABLE:
                continue
            said += 1
            remark = " ".join(r for r in finding.remarks if r.startswith(NOT_VERIFIED))
            for title in remembered().get(rule.name, ()):
                assert title in remark, case.name
            for function in recalled().get(rule.name, ()):
                assert _is_said(function, remark), (case.name, function.name)
        if said:
            break
    assert said, "no case shows the rule at work"
    whole = " ".join(render_text(report, width=100, detail="all").split())
    assert WORDS in whole.lower()
    usual = " ".join(render_text(report, width=100, detail="usual").split())
    assert WORDS in usual.lower() or "a reference that was not verified" in usual
    assert WORDS in json.dumps(json.loads(render_json(report))).lower()
    assert WORDS in render_html(report).lower()


def findings_of(name: str) -> Iterator[Finding]:
    """The finding of each of a rule's cases at which it is at work."""
    rule = shipped().named(name)
    for case in rule.cases:
        if case.grade is not Grade.NOT_APPLICABLE:
            report = report_on(only(rule, shipped()), case_installation(case, shipped()))
            yield from (
                f for f in report.findings if f.rule == name and f.grade is not Grade.NOT_APPLICABLE
            )


@pytest.mark.parametrize(
    ("rule", "function", "text"),
    [
        # Called by the rule itself, by a derived value, and two of one text by a derived value.
        ("load/transit", "bending_stress", "Shigley's Mechanical Engineering Design, 9th ed."),
        ("load/post-buckling", "critical_force_flexible_base", "Föppl–Papkovich theorem"),
        ("load/bolt-tension", "upright_plate_bolt_tension", "statics of a rigid plate that pivots"),
    ],
)
def test_a_function_from_memory_is_named_at_every_grade(
    rule: str, function: str, text: str
) -> None:
    grades = set()
    for finding in findings_of(rule):
        (remark,) = [r for r in finding.remarks if r.startswith(NOT_VERIFIED)]
        # A short form, which counts what is met, says no more than that.
        assert remark == f"{NOT_VERIFIED}." or (
            f"function {function} (" in remark and text in remark
        )
        grades.add(finding.grade)
    assert len(grades) > 2


def test_a_text_from_memory_is_said_once() -> None:
    # The rule and four functions that it calls rest on the same guideline.
    assert {f.name for f in recalled()["load/tightening-torque"]} >= {"tightening_torque", "permissible_preload"}  # fmt: skip
    for finding in findings_of("load/tightening-torque"):
        said = " ".join(r for r in finding.remarks if r.startswith(NOT_VERIFIED))
        assert said.count("VDI 2230") == 1
        assert "function" not in said
    root = Path(__file__).parents[2]
    plan = root / "fixtures" / "turning-cell-side-post.yaml"
    for finding in report_on(shipped(), bind(plan.read_bytes(), plan.name)).findings:
        assert len(set(finding.remarks)) == len(finding.remarks)
        for remark in finding.remarks:
            named = re.findall(r"function [a-z0-9_]+", remark)
            assert len(set(named)) == len(named), finding.rule


def with_a_whole_line() -> dict[str, Sheet]:
    """For each rule of ``rules`` that puts a line on the sheet, the first case that completes one."""
    found = {}
    for rule in rules():
        for case in rule.cases if rule.sheet else ():
            sheet = sheet_for(only(rule, shipped()), case_installation(case, shipped()))
            if any(entry.complete for part in sheet.parts for entry in part.entries):
                found[rule.name] = sheet
                break
    return found


def test_sheet_says_so() -> None:
    sheets = with_a_whole_line()
    assert len(sheets) >= 2
    for name, sheet in sheets.items():
        mine = [e for part in sheet.parts for e in part.entries if e.complete]
        assert all(e.unverified for e in mine), name
        pages = [
            sheet_text.render_text(sheet),
            sheet_text.render_markdown(sheet),
            render_sheet_page(sheet),
        ]
        assert all(WORDS in page.lower() for page in pages), name
        assert re.search(rf"\(\d+\{sheet_text.STAR}", pages[0]), name
        assert all(f"{name}{sheet_text.STAR}" in page for page in pages[1:]), name


def test_nothing_is_said_where_all_was_read() -> None:
    # The other way round: a star that stands everywhere says nothing.
    rule = shipped().named("load/host-capacity")
    book = only(rule, shipped())
    installation = case_installation(rule.cases[0], shipped())
    (finding,) = [f for f in report_on(book, installation).findings if f.rule == rule.name]
    assert not any(r.startswith(NOT_VERIFIED) for r in finding.remarks)
    sheet = sheet_for(book, installation)
    assert not sheet_text.has_unverified(sheet)
    for page in (sheet_text.render_text(sheet), render_sheet_page(sheet)):
        assert WORDS not in page.lower()


def test_a_doubtful_cell_is_named_only_where_it_was_read() -> None:
    # The largest minor diameter of M8x1 is from memory, that of M10 was read.
    rule = shipped().named("load/thread-stripping")
    book = only(rule, shipped())
    case = next(c for c in rule.cases if c.grade is Grade.MET)
    installation = case_installation(case, shipped())
    table = shipped().tables["metric_thread"]
    columns = {path.split(".")[1] for path in rule.uses.tables if path.startswith("metric_thread.")}
    (finding, *_) = [f for f in report_on(book, installation).findings if f.rule == rule.name]
    thread = next(f.text for f in finding.fields if f.path.endswith(".thread"))
    doubtful = {d.column for d in table.doubtful if d.row == (thread,)} & columns
    named = {
        r.split(": ")[1].split(" for ")[0]
        for r in finding.remarks
        if f"'{thread}' in the table" in r
    }
    assert named <= doubtful
