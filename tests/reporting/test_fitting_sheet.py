"""The fitting sheet as it is held in the hand."""

from __future__ import annotations

import re

import pytest
from pytest_regressions.file_regression import FileRegressionFixture
from sheets import DATA, MAIN, TURNING, drawn, entries

from checker.output.sheet import render_markdown, render_text
from checker.reporting.fitting_sheet import PARTS


def test_the_turning_cell(file_regression: FileRegressionFixture) -> None:
    text = render_text(drawn(TURNING)[0])
    text = re.sub(r"mistwright \S+, rulebook \w+, description \w+", "mistwright", text)
    file_regression.check(
        text, extension=".txt", encoding="utf-8", fullpath=DATA / "turning-cell.sheet.txt"
    )


def test_two_printed_pages() -> None:
    # A page of 80 columns in eight points holds some hundred lines.
    assert len(render_text(drawn(TURNING)[0]).splitlines()) <= 200


@pytest.mark.parametrize("name", MAIN)
def test_eighty_columns(name: str) -> None:
    assert max(len(line) for line in render_text(drawn(name)[0]).splitlines()) <= 80


@pytest.mark.parametrize("name", MAIN)
def test_markdown_has_every_line_with_its_rule(name: str) -> None:
    sheet = drawn(name)[0]
    lines = [line for line in render_markdown(sheet).splitlines() if "[ ]" in line]
    shown = list(entries(sheet))
    assert len(lines) == len(shown)
    for line, (_, entry) in zip(lines, shown, strict=True):
        assert f"`{entry.rule}" in line


@pytest.mark.parametrize("name", MAIN)
def test_every_part_is_there(name: str) -> None:
    assert [part.name for part in drawn(name)[0].parts] == list(PARTS)


def test_the_rules_by_number() -> None:
    sheet = drawn(TURNING)[0]
    text = render_text(sheet)
    body, _, index = text.partition("RULES BEHIND THE LINES")
    joined = " ".join(index.split())
    families = dict(
        re.findall(r"([a-z-]+)/ (.*?)(?= [a-z-]+/ | \* Reference not| Figures are)", joined)
    )
    named = {
        int(number): f"{family}/{rule}"
        for family, rules in families.items()
        for number, rule in (one.split() for one in rules.split(", "))
    }
    assert set(named.values()) == {entry.rule for _, entry in entries(sheet)}
    flat = " ".join(body.split())
    for _, entry in entries(sheet):
        number = next(number for number, rule in named.items() if rule == entry.rule)
        assert f"{' '.join(entry.text.split())} ({number}" in flat


@pytest.mark.parametrize("name", MAIN)
def test_hold_points_in_the_order_of_work(name: str) -> None:
    sheet, _, rulebook = drawn(name)
    found = [entry for part, entry in entries(sheet) if part == "hold"]
    orders = [rulebook.rule(e.rule).sheet[e.line].order for e in found]  # type: ignore[union-attr]
    assert orders == sorted(orders)
    wanted = [
        "work-controls/isolation-locked",
        "work-controls/proved-dead",
        "work-controls/behind-the-panel",
        "work-controls/covers-before-cutting",
        "work-controls/swarf-removed",
        "load/tightening-torque",
        "handover/electrical-tests-recorded",
        "handover/drain-poured",
        "handover/fan-direction",
        "handover/smoke-proof",
    ]
    rules = [entry.rule for entry in found]
    places = [rules.index(rule) for rule in wanted]
    assert places == sorted(places)
