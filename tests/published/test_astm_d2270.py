"""ASTM D2270, viscosity index from the viscosities at 40 and 100 degC, read in public code."""

from __future__ import annotations

import pytest

from checker.engineering.viscosity_index import viscosity_index


# Worked example of procedure A: 73.30 and 8.86 mm2/s, published 92. checked
def test_worked_example_a() -> None:
    assert viscosity_index(73.30e-6, 8.86e-6) == pytest.approx(92.0, abs=0.5)


# Worked example of procedure B: 22.83 and 5.05 mm2/s, published 156. from-memory
def test_worked_example_b() -> None:
    assert viscosity_index(22.83e-6, 5.05e-6) == pytest.approx(156.0, abs=0.5)


# Table 1, L: an oil with that viscosity at 40 degC has the index 0. checked
# Tolerance 1 unit: the parabolas of table X2.1 replace the table to about 0.3 per cent of L.
@pytest.mark.parametrize(
    ("at_100", "low"),
    [(3.0, 15.49), (4.0, 25.32), (6.0, 57.97), (6.5, 67.12), (7.5, 88.85), (8.0, 100.0)],
)
def test_table_1_low(at_100: float, low: float) -> None:
    assert viscosity_index(1e-6 * low, 1e-6 * at_100) == pytest.approx(0.0, abs=1.0)


# Table 1, L, thicker oils. checked; tolerance as above
@pytest.mark.parametrize(
    ("at_100", "low"),
    [(10.0, 147.7), (13.0, 231.9), (16.0, 331.9), (20.0, 493.2), (24.0, 683.9), (30.0, 1023.0)],
)
def test_table_1_low_of_thick_oils(at_100: float, low: float) -> None:
    assert viscosity_index(1e-6 * low, 1e-6 * at_100) == pytest.approx(0.0, abs=1.0)


# Table 1, H: an oil with that viscosity at 40 degC has the index 100. checked
# Tolerance 1 unit, as above.
@pytest.mark.parametrize(
    ("at_100", "high"),
    [(3.0, 12.15), (4.0, 19.56), (6.0, 38.19), (8.0, 59.60), (10.0, 82.87), (20.0, 229.5)],
)
def test_table_1_high(at_100: float, high: float) -> None:
    assert viscosity_index(1e-6 * high, 1e-6 * at_100) == pytest.approx(100.0, abs=1.0)
