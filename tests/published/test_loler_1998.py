"""LOLER 1998, Great Britain: intervals of thorough examination of lifting gear."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


# LOLER 1998, regulation 9(3)(a): accessories every 6 months, other lifting equipment every 12. The
# months are printed, the days are arithmetic of the calendar. Confidence: checked.
@pytest.mark.parametrize(
    ("kind", "examined", "lifted", "grade"),
    [
        ("accessory", "2025-09-16", "2026-03-16", "met"),
        ("accessory", "2025-09-15", "2026-03-16", "stop"),
        ("accessory", "2025-08-31", "2026-02-28", "met"),
        ("accessory", "2025-08-31", "2026-03-01", "stop"),
        ("appliance", "2025-03-16", "2026-03-16", "met"),
        ("appliance", "2025-03-15", "2026-03-16", "stop"),
    ],
)
def test_intervals(
    ask: Callable[..., Finding], kind: str, examined: str, lifted: str, grade: str
) -> None:
    found = ask(
        "work-controls/lift-gear-examination",
        lifting="{method: hoist}",
        work=f"{{starts_on: {lifted}, lift_gear: [{{name: sling 12, kind: {kind}, "
        f"examined_on: {examined}, certificate: TE-901}}]}}",
    )
    assert found.grade.word == grade
