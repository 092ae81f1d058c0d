"""Drive maker's page on altitude: 5001 ft to 6600 ft, factor 0.94."""

from __future__ import annotations

import pytest

from checker.engineering.motor_duty import derated_power
from checker.rulebook.model import Rulebook


# Page on altitude: 50 hp at 6000 ft gives 47 hp. Tolerance: none, the product is exact to the
# last bits. Confidence: checked.
def test_fifty_horsepower_at_6000_ft() -> None:
    assert abs(derated_power(50.0, 0.94) - 47.0) < 1e-9


# The page's steps in feet, 3300-5000 ft 0.97, 5001-6600 ft 0.94, 6601-8300 ft 0.90, 8301-9900 ft 0.86:
# at the upper end of each step the shipped table, which is in metres and straight between its
# rows, gives the same within half a unit of the last printed digit and 1 % for the rounded feet.
# Confidence: checked.
@pytest.mark.parametrize(
    ("feet", "factor"), [(5000, 0.97), (6600, 0.94), (8300, 0.90), (9900, 0.86)]
)
def test_steps_in_feet(shipped: Rulebook, feet: float, factor: float) -> None:
    found = shipped.tables["motor_output_altitude"].columns["factor"].look_up(feet * 0.3048)
    assert found == pytest.approx(factor, abs=0.005)
