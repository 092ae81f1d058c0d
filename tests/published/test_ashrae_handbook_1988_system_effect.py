"""ASHRAE Handbook 1988, system-effect table: elbow at the inlet of a fan, without vanes."""

from __future__ import annotations

import pytest

from checker.engineering.fan_inlet import rectangular_inlet_elbow_coefficient


# Table of inlet elbows, r/H by straight length of 0, 2 and 5 diameters. checked
@pytest.mark.parametrize(
    ("radius", "length", "printed"),
    [
        (0.5, 0.0, 2.5),
        (0.5, 2.0, 1.6),
        (0.5, 5.0, 0.8),
        (1.0, 0.0, 1.2),
        (1.0, 2.0, 0.66),
        (1.0, 5.0, 0.33),
        (2.0, 0.0, 0.8),
        (2.0, 2.0, 0.47),
        (2.0, 5.0, 0.26),
    ],
)
def test_rectangular_fan_inlet_table(radius: float, length: float, printed: float) -> None:
    found = rectangular_inlet_elbow_coefficient(radius, length)
    assert found == pytest.approx(printed, abs=0.005)
