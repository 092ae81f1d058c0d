"""Fan laws on a textbook's companion page and two HVAC handbook pages."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.supply_deviation import (
    fan_flow_at_frequency,
    fan_power_at_frequency,
    fan_pressure_at_frequency,
)


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# Fan laws, speed 10 % up: pressure +21 %, power +33 %. Confidence: checked.
def test_ten_percent_more_speed() -> None:
    assert fan_flow_at_frequency(1.0, 55.0, 50.0) == printed("1.10")
    assert fan_pressure_at_frequency(1.0, 55.0, 50.0) == printed("1.21")
    assert fan_power_at_frequency(1.0, 55.0, 50.0) == printed("1.33")


# Fan laws, 80 % of speed: 51 % of power. Confidence: checked.
def test_four_fifths_of_speed() -> None:
    assert fan_power_at_frequency(1.0, 40.0, 50.0) == printed("0.51")
