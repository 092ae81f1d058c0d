"""ASTM D341, viscosity-temperature charts: worked sheet with 32 mm2/s at 40, 5.4 at 100 degC.

The sheet takes the kelvin temperature as t + 273.
"""

from __future__ import annotations

import pytest

from checker.engineering.liquids import (
    liquid_viscosity,
    viscosity_temperature_constant,
    viscosity_temperature_slope,
)

POINTS = (32e-6, 40.0 + 273.0, 5.4e-6, 100.0 + 273.0)


# Worked sheet, constant A printed 9.5259. checked
def test_constant() -> None:
    assert viscosity_temperature_constant(*POINTS) == pytest.approx(9.5259, abs=0.00005)


# Worked sheet, constant B printed 3.7449. checked
def test_slope() -> None:
    assert viscosity_temperature_slope(*POINTS) == pytest.approx(3.7449, abs=0.00005)


# Worked sheet, viscosity at 80 degC printed 8.5 mm2/s. checked
def test_viscosity() -> None:
    assert 1e6 * liquid_viscosity(*POINTS, 80.0 + 273.0) == pytest.approx(8.5, abs=0.05)


# Arithmetic of the same formula with t + 273.15, mm2/s. formula checked
@pytest.mark.parametrize(
    ("at_40", "at_100", "celsius", "expected", "half_digit"),
    [
        (32.0, 5.4, 80.0, 8.5332, 0.00005),
        (32.0, 5.4, 10.0, 161.0, 0.05),
        (32.0, 5.4, 20.0, 86.28, 0.005),
        (46.0, 6.8, 5.0, 382.5, 0.05),
        (46.0, 6.8, 10.0, 261.9, 0.05),
        (46.0, 6.8, 20.0, 133.84, 0.005),
        (46.0, 6.8, 60.0, 20.6, 0.05),
        (68.0, 8.7, 20.0, 214.8, 0.05),
    ],
)
def test_arithmetic(
    at_40: float, at_100: float, celsius: float, expected: float, half_digit: float
) -> None:
    found = liquid_viscosity(1e-6 * at_40, 313.15, 1e-6 * at_100, 373.15, celsius + 273.15)
    assert 1e6 * found == pytest.approx(expected, abs=half_digit)
