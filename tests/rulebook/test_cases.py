"""A rule's own cases: a wrong one is found, whatever is wrong about it, and none crashes."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.output.rules import render_test
from checker.rulebook.cases import run_cases, what_cases_lack
from checker.rulebook.model import Rulebook

Load = Callable[[dict[str, str]], Rulebook]

RULE = """\
title: Shelf
protects: People below.
compare: {demand: shelf.mass, limit: shelf.capacity}
expect: {correct: demand <= limit}
says: {correct: c, met: m}
basis: [{source: statics, clause: c, confidence: checked}]
caution: Mind it.
example: {shelf: {mass: 20 kg, capacity: 50 kg}}
cases:
"""
EACH = """\
title: Box
protects: People below.
each: box in boxes
subject: box.name
expect: {correct: box.kind == "shut"}
says: {correct: c, met: m}
basis: [{source: statics, clause: c, confidence: checked}]
caution: Mind it.
example: {boxes: [{name: a, kind: shut}, {name: b, kind: open}]}
cases:
"""

CASES = [
    ("right", RULE, "grade: met, demand: 20 kg, limit: 50 kg", ""),
    ("right in other units", RULE, "grade: met, demand: 20000 g, limit: 0.050 t", ""),
    ("right in the unit of the line", RULE, "grade: met, demand: 20, limit: 50", ""),
    ("right inside a tolerance", RULE, "grade: met, demand: 21 kg ± 2 kg", ""),
    ("the wrong grade", RULE, "grade: correct", "the grade is met, not correct; demand 20.0, limit 50.0 in SI"),
    ("the wrong demand", RULE, "grade: met, demand: 21 kg", "the demand is 20 kg, not 21 kg"),
    ("a demand one digit too exact", RULE, "grade: met, demand: 20.1 kg", "the demand is 20 kg, not 20.1 kg"),
    ("the wrong limit", RULE, "grade: met, limit: 51 kg", "the limit is 50 kg, not 51 kg"),
    ("a demand in another dimension", RULE, "grade: met, demand: 20 m", "the demand is in kg, '20 m' is in another dimension"),
    ("a demand that is no value", RULE, "grade: met, demand: heavy", "'heavy' is no value of the demand"),
    ("a demand with a comma", RULE, "grade: met, demand: '20,0 kg'", "a decimal comma"),
    ("a demand where there is none", EACH, "grade: correct, demand: 20 kg", "there is no demand"),
    ("missing, and it is there", RULE, "grade: met, missing: [shelf.mass]", "missing are none, not shelf.mass"),
    ("missing, and it is", RULE, "grade: confirm, given: {shelf.mass: }, missing: [shelf.mass]", ""),
    ("missing, and more is", RULE, "grade: confirm, given: {shelf.mass: , shelf.capacity: }, missing: [shelf.mass]", "missing are shelf.capacity, shelf.mass, not shelf.mass"),
    ("missing, unnoticed", RULE, "grade: met, given: {shelf.mass: }", "the grade is confirm, not met (shelf.mass not stated)"),
    ("a whole section taken away", RULE, "grade: confirm, given: {shelf: }, missing: [shelf.mass, shelf.capacity]", ""),
    ("a section put in", RULE, "grade: met, given: {mount.bolts: '8.8'}", ""),
    ("on the boundary", RULE, "grade: met, given: {shelf.mass: 50 kg}, boundary: true", ""),
    ("not on the boundary", RULE, "grade: met, boundary: true", "the case does not stand on a boundary"),
    ("one per cent off the boundary", RULE, "grade: met, given: {shelf.mass: 49.5 kg}, boundary: true", "the case does not stand on a boundary"),
    ("half a per cent off the boundary", RULE, "grade: met, given: {shelf.mass: 49.8 kg}, boundary: true", ""),
    ("no boundary to stand on", EACH, "grade: correct, boundary: true", "the case does not stand on a boundary"),
    ("no boundary without a demand", RULE, "grade: confirm, given: {shelf.mass: }, boundary: true", "the case does not stand on a boundary"),
    ("a value that is refused", RULE, "grade: met, given: {shelf.mass: 20 m}", "'m' is a unit of length, not of mass"),
    ("an unknown field", RULE, "grade: met, given: {shelf.masss: 20 kg}", "unknown field 'masss' in shelf"),
    ("a path that is none", RULE, "grade: met, given: {'shelf..mass': 20 kg}", "'shelf..mass' is no field path"),
    ("a path in capitals", RULE, "grade: met, given: {Shelf.mass: 20 kg}", "'Shelf.mass' is no field path"),
    ("a path through a value", RULE, "grade: met, given: {shelf.mass.of.it: 20 kg}", "goes through what is no group of fields"),
    ("a path through a list", EACH, "grade: met, given: {boxes.name: c}", "goes through what is no group of fields"),
    ("a member that is not there", EACH, "grade: met, given: {'boxes[2].kind': shut}", "names a member that the example does not have"),
    ("a member of what is no list", RULE, "grade: met, given: {'shelf[0].mass': 20 kg}", "names a member that the example does not have"),
    ("the gravest of the members", EACH, "grade: correct", ""),
    ("a member by its name", EACH, "subject: a, grade: met", ""),
    ("another member by its name", EACH, "subject: b, grade: correct", ""),
    ("a member of no name", EACH, "subject: c, grade: met", "no member is called 'c'"),
    ("a member changed", EACH, "given: {'boxes[1].kind': shut}, grade: met", ""),
    ("a member replaced", EACH, "given: {'boxes[1]': {name: c, kind: shut}}, grade: met", ""),
    ("a member's field taken away", EACH, "given: {'boxes[0].kind': }, subject: a, grade: confirm, missing: ['boxes[0].kind']", ""),
    ("the list taken away", EACH, "given: {boxes: }, grade: confirm, missing: [boxes]", ""),
    ("the list emptied", EACH, "given: {boxes: []}, grade: not-applicable", ""),
    ("the stage", RULE, "stage: fitted, grade: met", ""),
    ("the job taken away", RULE, "given: {job: }, grade: met", ""),
    ("the mount taken away", RULE, "given: {mount: }, grade: met", ""),
    ("a word for the mount", RULE, "given: {mount: post}, grade: met", "goes through what is no group of fields"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("rule", "case", "complaint"), [c[1:] for c in CASES], ids=[c[0] for c in CASES]
)
def test_a_case_comes_out_or_says_why_not(load: Load, rule: str, case: str, complaint: str) -> None:
    book = load({"load/shelf.yaml": f"{rule}  - {{name: one, {case}}}\n"})
    (result,) = run_cases(book.rules[0], book)
    if complaint:
        assert complaint in result.complaint
    else:
        assert result.complaint == ""


def test_a_wrong_path_is_found_at_its_place(load: Load) -> None:
    book = load(
        {"load/shelf.yaml": RULE + "  - {name: one, grade: met, given: {shelf..mass: 2 kg}}\n"}
    )
    (result,) = run_cases(book.rules[0], book)
    assert result.complaint.startswith("rules/load/shelf.yaml:10:37:")


def test_what_cases_lack(load: Load) -> None:
    book = load({"load/shelf.yaml": RULE + "  - {name: one, grade: met}\n"})
    assert what_cases_lack(book.rules[0]) == [
        "no case for 'correct'", "no case with a missing value", "no case on the boundary",
    ]  # fmt: skip


def test_enough_cases(load: Load) -> None:
    text = RULE + (
        "  - {name: a, grade: met, given: {shelf.mass: 50 kg}, boundary: true}\n"
        "  - {name: b, grade: correct, given: {shelf.mass: 51 kg}}\n"
        "  - {name: c, grade: confirm, given: {shelf.mass: }, missing: [shelf.mass]}\n"
    )
    book = load({"load/shelf.yaml": text})
    assert what_cases_lack(book.rules[0]) == []
    assert render_test(book) == ("1 rules, 3 cases, 0 rules with complaints\n", 0)


def test_complaints_are_counted_by_rule(load: Load) -> None:
    book = load({"load/shelf.yaml": RULE + "  - {name: a, grade: correct}\n"})
    text, failed = render_test(book)
    assert failed == 1
    assert "rules/load/shelf.yaml:10:5: case 'a': the grade is met, not correct" in text
    assert "1 rules, 1 cases, 1 rules with complaints" in text


def test_the_cases_of_the_small_rulebook_come_out(small_rulebook: Rulebook) -> None:
    text, failed = render_test(small_rulebook)
    assert failed == 0, text
