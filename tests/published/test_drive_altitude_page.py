"""Drive maker's page on altitude: 5001 ft to 6600 ft, factor 0.94."""

from __future__ import annotations

from checker.engineering.motor_duty import derated_power


# Page on altitude: 50 hp at 6000 ft gives 47 hp. Tolerance: none, the product is exact to the
# last bits. Confidence: checked.
def test_fifty_horsepower_at_6000_ft() -> None:
    assert abs(derated_power(50.0, 0.94) - 47.0) < 1e-9
