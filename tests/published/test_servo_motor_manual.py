"""Servo-motor manual, table of derating for ambient and altitude (self-cooled motors of 60 K)."""

from __future__ import annotations

import pytest

from checker.rulebook.model import Rulebook

# Altitude at 40 °C: m, factor. Confidence: checked.
ALTITUDE = [(1000, 1.00), (1500, 0.97), (2000, 0.94), (2500, 0.90), (3000, 0.86)]
# Ambient at up to 1000 m, lower of two columns: °C, factor. Confidence: checked.
AMBIENT = [(40, 1.00), (45, 0.94), (50, 0.88), (55, 0.83), (60, 0.78)]


@pytest.mark.parametrize(("metres", "factor"), ALTITUDE)
def test_altitude(shipped: Rulebook, metres: float, factor: float) -> None:
    found = shipped.tables["motor_output_altitude"].columns["factor"].look_up(float(metres))
    assert found == pytest.approx(factor)


@pytest.mark.parametrize(("degrees", "factor"), AMBIENT)
def test_ambient(shipped: Rulebook, degrees: float, factor: float) -> None:
    found = shipped.tables["motor_output_ambient"].columns["cautious"].look_up(degrees + 273.15)
    assert found == pytest.approx(factor)


# 50 °C and 2000 m: printed 0.83, the product of the two. Confidence: checked.
def test_product(shipped: Rulebook) -> None:
    ambient = shipped.tables["motor_output_ambient"].columns["cautious"].look_up(323.15)
    altitude = shipped.tables["motor_output_altitude"].columns["factor"].look_up(2000.0)
    assert ambient * altitude == pytest.approx(0.83, abs=0.005)
