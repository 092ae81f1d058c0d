"""NUREG-0700 Rev. 3, section 11.2 and table 11.4: heights of eyes, shoulder and reach."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


# NUREG-0700 Rev. 3, table 11.4, standing without shoes: eye height 150.1 cm (5th percentile woman)
# and 175.6 cm (95th percentile man); a display face at least 45 degrees to the line of sight. An
# upright dial 0.5 m off is then read up to 1.501 + 0.5 m, printed here to 2.00 m; within 0.01 m
# because the eye height is rounded. Confidence: checked, the sum is arithmetic.
def test_highest_gauge(ask: Callable[..., Finding]) -> None:
    found = ask("clearance/gauge-height", gauge="{height: 1.5 m, standoff: 0.5 m}")
    assert found.limit is not None
    assert (found.limit.unit, found.grade.word) == ("m", "met")
    assert found.limit.value == pytest.approx(2.00, abs=0.01)


# The same figures: grades on both sides of the highest and of the lowest place (1.756 - 0.5 m).
@pytest.mark.parametrize(
    ("height_m", "grade"), [(2.0, "met"), (2.01, "advise"), (1.26, "met"), (1.25, "advise")]
)
def test_gauge(ask: Callable[..., Finding], height_m: float, grade: str) -> None:
    found = ask("clearance/gauge-height", gauge=f"{{height: {height_m} m, standoff: 0.5 m}}")
    assert found.grade.word == grade


# NUREG-0700 Rev. 3, table 11.4, 5th percentile woman: shoulder 123.0 cm, functional reach 67.7 cm;
# together 190.7 cm. Confidence: checked, the sum is arithmetic.
@pytest.mark.parametrize(("hand_cm", "grade"), [(190.7, "advise"), (190.8, "correct")])
def test_reach(ask: Callable[..., Finding], hand_cm: float, grade: str) -> None:
    point = f"{{service_points: [{{name: filter, access: floor, hand_height: {hand_cm} cm}}]}}"
    found = ask("clearance/service-height", surroundings=point)
    assert found.grade.word == grade
    assert found.limit is not None
    assert found.limit.value == pytest.approx(1.907, abs=0.0005)
