"""ASHRAE Handbook - Fundamentals (SI) 2005, page 35.52, fitting CR3-1: elbow angle factors."""

from __future__ import annotations

import math

import pytest

from checker.engineering.elbows import elbow_angle_factor


# Page 35.52, CR3-1, factor on the coefficient of 90 degrees. checked
@pytest.mark.parametrize(
    ("degrees", "printed"),
    [
        (20.0, 0.31),
        (30.0, 0.45),
        (45.0, 0.60),
        (60.0, 0.78),
        (75.0, 0.90),
        (110.0, 1.13),
        (130.0, 1.20),
        (180.0, 1.40),
    ],
)
def test_angle_factor(degrees: float, printed: float) -> None:
    assert elbow_angle_factor(math.radians(degrees)) == pytest.approx(printed, abs=0.005)
