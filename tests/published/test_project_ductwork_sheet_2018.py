"""A project's ductwork pressure-loss sheet, 2018 (public document), density 1.2 kg/m3."""

from __future__ import annotations

import pytest

from checker.engineering.airflow import velocity_pressure, velocity_through
from checker.engineering.elbows import fitting_loss

# flow m3/h, width m, height m, zeta; printed velocity m/s and loss Pa
ROWS = [(2375.0, 0.400, 0.300, 0.96, 5.50, 17.41), (11_875.0, 0.700, 0.600, 0.96, 7.85, 35.53)]


# Sheet, velocity column. checked
@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row[0]:.0f}")
def test_velocity(row: tuple[float, ...]) -> None:
    velocity = velocity_through(row[0] / 3600.0, row[1] * row[2])
    assert velocity == pytest.approx(row[4], abs=0.005)


# Sheet, loss column. checked
@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row[0]:.0f}")
def test_loss(row: tuple[float, ...]) -> None:
    velocity = velocity_through(row[0] / 3600.0, row[1] * row[2])
    loss = fitting_loss(row[3], velocity_pressure(velocity, 1.2))
    assert loss == pytest.approx(row[5], abs=0.005)
