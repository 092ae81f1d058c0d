"""Work at Height Regulations 2005, Great Britain."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


# WAHR 2005, regulation 12, as a trade article summarises it: a working platform is inspected within
# the 7 days before use. Confidence: checked.
@pytest.mark.parametrize(
    ("inspected", "grade"),
    [("2026-03-16", "met"), ("2026-03-09", "met"), ("2026-03-08", "correct")],
)
def test_seven_days(ask: Callable[..., Finding], inspected: str, grade: str) -> None:
    found = ask(
        "work-controls/access-inspection",
        work="{starts_on: 2026-03-16, at_height: {needed: true, access: scaffold, "
        f"inspected_on: {inspected}}}}}",
    )
    assert found.grade.word == grade


# WAHR 2005, Schedule 6: a ladder only where the risk assessment shows that it will do.
# Confidence: checked.
@pytest.mark.parametrize(("allowed", "grade"), [("true", "met"), ("false", "correct")])
def test_ladder(ask: Callable[..., Finding], allowed: str, grade: str) -> None:
    found = ask(
        "work-controls/work-at-height",
        work="{at_height: {needed: true, access: ladder, reference: RA-218, on: 2026-03-02, "
        f"by: supervisor, assessment_allows_ladder: {allowed}}}}}",
    )
    assert found.grade.word == grade
