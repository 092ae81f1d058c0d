"""Flow of Fluids through Valves, Fittings and Pipe, Technical Paper No. 410 (2009), chapter 7.

Solved problems with their printed answers, read in public documentation. Tolerance of
the friction problems 1.5 per cent: the paper reads its factors off a chart.
"""

from __future__ import annotations

import math

import pytest

from checker.engineering.airflow import duct_velocity, reynolds_number
from checker.engineering.fan_laws import scaled_fan_flow, scaled_fan_power, scaled_fan_pressure
from checker.engineering.friction import duct_friction_loss, friction_factor
from checker.engineering.junctions import converging_branch_coefficient, converging_run_coefficient
from checker.engineering.liquids import liquid_reynolds_number

BORE = 0.05248
US_GALLON = 3.785411784e-3
FOOT = 0.3048
RIGHT_ANGLE = math.radians(90.0)


# Example 7-1: water at 30 degC, 200 L/min, 52.48 mm, printed Re 100 600. checked
# The viscosity 0.7975e-3 Pa s and the density 995.7 kg/m3 are remembered, not printed with it.
def test_example_1_reynolds_number() -> None:
    reynolds = reynolds_number(duct_velocity(0.200 / 60.0, BORE), BORE, 995.7, 0.7975e-3)
    assert reynolds == pytest.approx(100_600.0, rel=0.015)


# Example 7-1: smooth pipe, printed f 0.0179. checked
def test_example_1_friction_factor() -> None:
    assert friction_factor(100_600.0, 0.0) == pytest.approx(0.0179, rel=0.015)


# Example 7-13: fuel oil of 2.7 mm2/s, 2 US gal/s, 52.48 mm, e 0.0457 mm, printed f 0.0230. checked
def test_example_13_friction_factor() -> None:
    reynolds = liquid_reynolds_number(duct_velocity(2.0 * US_GALLON, BORE), BORE, 2.7e-6)
    assert friction_factor(reynolds, 0.0457e-3 / BORE) == pytest.approx(0.0230, rel=0.015)


# Example 7-13: the same over 100 ft, specific gravity 0.815, printed 66 500 Pa. checked
def test_example_13_pressure_drop() -> None:
    loss = duct_friction_loss(2.0 * US_GALLON, BORE, 100.0 * FOOT, 0.0457e-3, 815.0, 2.7e-6 * 815.0)
    assert loss == pytest.approx(66_500.0, rel=0.015)


# Example 7-33: 400 gal/min at 3500 rpm, at 1700 rpm printed 194.3. checked
def test_example_33_flow() -> None:
    assert scaled_fan_flow(400.0, 1700.0 / 3500.0, 1.0) == pytest.approx(194.3, abs=0.05)


# Example 7-33: 126 ft at 3500 rpm, at 1700 rpm printed 29.73. checked
def test_example_33_head() -> None:
    head = scaled_fan_pressure(126.0, 1700.0 / 3500.0, 1.0, 1.0)
    assert head == pytest.approx(29.73, abs=0.005)


# Example 7-33: 17.5 hp at 3500 rpm, at 1700 rpm printed 2.005. checked
def test_example_33_power() -> None:
    power = scaled_fan_power(17.5, 1700.0 / 3500.0, 1.0, 1.0)
    assert power == pytest.approx(2.005, abs=0.0005)


# Example 7-35: converging 90 degree tee, 300 + 100 gal/min, printed branch K -0.042. checked
def test_example_35_branch() -> None:
    found = converging_branch_coefficient(0.1023, 0.1023, 300.0, 100.0, RIGHT_ANGLE)
    assert found == pytest.approx(-0.042, abs=0.0005)


# Example 7-35: the negative branch coefficient is not cut to zero. checked
def test_example_35_branch_stays_negative() -> None:
    assert converging_branch_coefficient(0.1023, 0.1023, 300.0, 100.0, RIGHT_ANGLE) < 0.0


# Example 7-35: the same tee, printed K 0.325 for the run. checked
def test_example_35_run() -> None:
    found = converging_run_coefficient(0.1023, 0.1023, 300.0, 100.0, RIGHT_ANGLE)
    assert found == pytest.approx(0.325, abs=0.0005)
