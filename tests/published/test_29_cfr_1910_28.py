"""29 CFR 1910.28(b)(1)(i), unprotected sides and edges."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


# 29 CFR 1910.28(b)(1)(i): an unprotected side 4 ft (printed 1.2 m) or more above a lower level must
# be protected: at 1.19 m no duty, at 1.22 m the duty. Confidence: checked.
@pytest.mark.parametrize(
    ("height", "grade"),
    [("1.19 m", "met"), ("1.22 m", "stop"), ("4 ft", "stop"), ("3.9 ft", "met")],
)
def test_duty_height(ask: Callable[..., Finding], height: str, grade: str) -> None:
    found = ask(
        "clearance/unprotected-edge-us",
        job="{stage: plan, jurisdiction: US}",
        surroundings="{service_points: [{name: filter, access: fixed-platform, "
        f"edge_protected: false, standing_height: {height}}}]}}",
    )
    assert found.grade.word == grade
