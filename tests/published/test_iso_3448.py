"""ISO 3448, viscosity grades of industrial liquid lubricants: limits at 40 degC, mm2/s."""

from __future__ import annotations

import pytest

from checker.engineering.viscosity_index import (
    viscosity_grade_lower_limit,
    viscosity_grade_upper_limit,
)

GRADES = [
    (22.0, 19.8, 24.2),
    (32.0, 28.8, 35.2),
    (46.0, 41.4, 50.6),
    (68.0, 61.2, 74.8),
    (100.0, 90.0, 110.0),
]


# Table of grades, lower limit. checked
@pytest.mark.parametrize(("grade", "lower", "_upper"), GRADES)
def test_lower_limit(grade: float, lower: float, _upper: float) -> None:
    assert 1e6 * viscosity_grade_lower_limit(1e-6 * grade) == pytest.approx(lower, abs=0.05)


# Table of grades, upper limit. checked
@pytest.mark.parametrize(("grade", "_lower", "upper"), GRADES)
def test_upper_limit(grade: float, _lower: float, upper: float) -> None:
    assert 1e6 * viscosity_grade_upper_limit(1e-6 * grade) == pytest.approx(upper, abs=0.05)
