"""A public engineering reference site: pages on sound indoors, outdoors and noise exposure."""

from __future__ import annotations

import pytest

from checker.engineering.acoustics import (
    free_field_level,
    pressure_level_from_power_level,
    room_constant,
    room_pressure_level,
)
from checker.engineering.noise_exposure import permitted_duration


# Page "Noise exposure - NIOSH permissible levels and duration": 100 dB(A), 15 minutes.
# Confidence: checked.
def test_longest_exposure_to_100_db() -> None:
    assert permitted_duration(100.0, 85.0, 3.0) / 60.0 == pytest.approx(15.0, abs=0.5)


# Page "Outdoor propagation of sound": K' = -11 for a single source in all directions. Printed
# whole. Confidence: checked.
def test_constant_of_the_sphere() -> None:
    assert pressure_level_from_power_level(100.0, 1.0, 1) - 100.0 == pytest.approx(-11.0, abs=0.5)


# Same page: 6 dB less for each doubling of the distance. Printed whole. Confidence: checked.
def test_doubling_the_distance() -> None:
    assert free_field_level(80.0, 1.0, 2.0) == pytest.approx(74.0, abs=0.5)


# Page "Propagation of sound indoors": 12.2 m² of absorption, mean coefficient 0.2: room constant
# 15.3 m². 12.2/0.8 is 15.25, on the edge of the rounding. Confidence: checked.
def test_room_constant() -> None:
    assert room_constant(12.2 / 0.2, 0.2) == pytest.approx(15.3, abs=0.051)


# Same page: 90 dB, 2 m, directivity 1, room constant 15.3 m²: printed 84.8 dB. Its own formula,
# 90 + 10 lg(1/(4π 2²) + 4/15.3), gives 84.5 dB. Confidence: checked.
def test_printed_room_level_is_not_followed() -> None:
    level = room_pressure_level(90.0, 2.0, 1, 15.3)
    assert level != pytest.approx(84.8, abs=0.05)
    assert level == pytest.approx(84.5, abs=0.05)
