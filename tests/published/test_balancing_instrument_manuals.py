"""Balancing-instrument manuals on Pitot traverses (public copies)."""

from __future__ import annotations

import math

import pytest

from checker.engineering.airflow import (
    traverse_positions_symmetric,
    traverse_velocity,
    velocity_from_pressure,
)

INCH_OF_WATER = 249.089
FOOT_PER_MINUTE = 0.00508
DENSITY_4005 = 2.0 * INCH_OF_WATER / (4005.0 * FOOT_PER_MINUTE) ** 2
READINGS = [0.16 * INCH_OF_WATER, 0.25 * INCH_OF_WATER, 0.36 * INCH_OF_WATER]


# Worked reading: 0.16, 0.25, 0.36 in of water, mean velocity printed 2002.5 ft/min. checked
def test_mean_of_the_roots() -> None:
    velocity = traverse_velocity(READINGS, DENSITY_4005) / FOOT_PER_MINUTE
    assert velocity == pytest.approx(2002.5, abs=0.05)


# The same from the root of the mean is 2026 to 2029 ft/min, the wrong way. checked
def test_not_the_root_of_the_mean() -> None:
    velocity = traverse_velocity(READINGS, DENSITY_4005) / FOOT_PER_MINUTE
    wrong = velocity_from_pressure(math.fsum(READINGS) / 3.0, DENSITY_4005) / FOOT_PER_MINUTE
    assert 2026.0 <= wrong <= 2029.5
    assert velocity < 2026.0


# Ten points, log-linear. checked
def test_row_of_ten_points_is_symmetric() -> None:
    row = (0.019, 0.077, 0.153, 0.217, 0.361, 0.639, 0.783, 0.847, 0.923, 0.981)
    assert traverse_positions_symmetric(row, 0.001)
