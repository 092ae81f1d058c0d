"""Friction-chart examples of an engineering reference site, metric and inch-pound.

Chart: 1.2041 kg/m3, roughness 0.15 mm. Tolerance 15 per cent: they are readings off a
logarithmic chart, rounded to one or two figures.
"""

from __future__ import annotations

import pytest

from checker.engineering.airflow import duct_velocity
from checker.engineering.friction import duct_friction_loss

INCH = 0.0254
CUBIC_FOOT_PER_MINUTE = 4.71947e-4
FOOT_PER_MINUTE = 0.00508
INCH_OF_WATER_PER_100_FEET = 249.089 / 30.48
AIR = (0.15e-3, 1.2041, 18.205e-6)


# Metric chart: 500 mm, 1 m3/s, read 0.55 Pa/m. checked
def test_metric_chart() -> None:
    assert duct_friction_loss(1.0, 0.500, 1.0, *AIR) == pytest.approx(0.55, rel=0.15)


# Inch-pound chart: 20 in, 4000 ft3/min, read 0.23 in of water per 100 ft. checked
def test_chart_of_20_inches() -> None:
    loss = duct_friction_loss(4000.0 * CUBIC_FOOT_PER_MINUTE, 20.0 * INCH, 1.0, *AIR)
    assert loss / INCH_OF_WATER_PER_100_FEET == pytest.approx(0.23, rel=0.15)


# Inch-pound chart: 60 in, 100 000 ft3/min, read 0.4 in of water per 100 ft. checked
def test_chart_of_60_inches() -> None:
    loss = duct_friction_loss(100_000.0 * CUBIC_FOOT_PER_MINUTE, 60.0 * INCH, 1.0, *AIR)
    assert loss / INCH_OF_WATER_PER_100_FEET == pytest.approx(0.4, rel=0.15)


# Inch-pound chart: velocities read 1850 and 5000 ft/min. checked
# Tolerance 2 per cent: velocity lines are read closer than friction lines.
@pytest.mark.parametrize(
    ("flow", "bore", "read"), [(4000.0, 20.0, 1850.0), (100_000.0, 60.0, 5000.0)]
)
def test_velocities(flow: float, bore: float, read: float) -> None:
    velocity = duct_velocity(flow * CUBIC_FOOT_PER_MINUTE, bore * INCH) / FOOT_PER_MINUTE
    assert velocity == pytest.approx(read, rel=0.02)
