"""Rules over the members of a list: each is spoken of, and what it lacks is named."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade
from checker.installation.record import Installation
from checker.reporting.reports import report_on
from checker.rulebook.model import Rulebook

Load = Callable[[dict[str, str]], Rulebook]
Describe = Callable[[str], Installation]
RuleText = Callable[[str], str]


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
