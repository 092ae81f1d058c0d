"""UK electrical contractor's page with a worked motor cable: 4.5 kW, 230 V, single-phase."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.cables import iec_least_tabulated_capacity
from checker.engineering.motors import single_phase_full_load_current
from checker.engineering.voltage_drop import voltage_drop_from_table


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# Power factor 0.7, efficiency 0.75: 37.3 A. Confidence: checked.
def test_full_load_current() -> None:
    assert single_phase_full_load_current(4500.0, 230.0, 0.7, 0.75) == printed("37.3")


# A 40 A fuse in conduit at 35 °C (0.94): 42.55 A to look for; 10 mm² has 57 A. Confidence: checked.
def test_tabulated_capacity_needed() -> None:
    found = iec_least_tabulated_capacity(40.0, 0.94, 1.0, 1.0)
    assert found == printed("42.55")
    assert found < 57.0


# 30 m of 10 mm² at 4.4 mV/A/m against the page's limit of 5 V. The 4.92 V are arithmetic.
def test_voltage_drop() -> None:
    found = voltage_drop_from_table(4.4e-3, 37.3, 30.0)
    assert found == printed("4.92")
    assert found < 5.0
