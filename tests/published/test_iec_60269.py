"""IEC 60269, gG fuses, with IEC 60364-4-43, 433.1: the cable a fuse protects."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.overcurrent_devices import (
    conventional_holding_current,
    conventional_operating_current,
    least_cable_capacity_for_device,
)


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# Public course notes and a reviewed examination bank quoting IEC 60269: multiples of In at which a
# fuse holds and melts. Confidence: checked.
def test_conventional_currents() -> None:
    assert conventional_holding_current("gG", 16.0) / 16.0 == printed("1.25")
    assert conventional_operating_current("gG", 16.0) / 16.0 == printed("1.6")
    assert conventional_operating_current("gG", 10.0) / 10.0 == printed("1.9")


# The same notes, NF C 15-100, 433.1: In at most Iz/1.10 from 16 A and Iz/1.31 below.
# Confidence: checked.
@pytest.mark.parametrize(("rated", "factor"), [(16.0, "1.10"), (50.0, "1.10"), (10.0, "1.31")])
def test_factor_on_the_rating(rated: float, factor: str) -> None:
    assert least_cable_capacity_for_device("gG", rated) / rated == printed(factor)


# Factors read, products arithmetic: 16 A needs 17.66 A, 10 A needs 13.10 A of cable.
@pytest.mark.parametrize(("rated", "capacity"), [(16.0, "17.66"), (10.0, "13.10")])
def test_least_capacity(rated: float, capacity: str) -> None:
    assert least_cable_capacity_for_device("gG", rated) == printed(capacity)
