"""Behaviour of checker/engineering/overcurrent_devices.py."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.overcurrent_devices import (
    conventional_holding_current,
    conventional_operating_current,
    least_cable_capacity_for_device,
    magnetic_trip_highest_current,
    magnetic_trip_lowest_current,
)

DEVICES = ["IEC 60898-1", "IEC 60947-2", "gG"]
amperes = st.floats(0.5, 125.0)
devices = st.sampled_from(DEVICES)


@given(devices, amperes)
def test_holding_lies_between_rating_and_operating(device: str, rated: float) -> None:
    assert rated < conventional_holding_current(device, rated)
    assert conventional_holding_current(device, rated) < conventional_operating_current(
        device, rated
    )


@given(devices, amperes)
def test_cable_meets_both_conditions(device: str, rated: float) -> None:
    capacity = least_cable_capacity_for_device(device, rated)
    operating = conventional_operating_current(device, rated)
    assert capacity >= rated
    assert operating <= 1.45 * capacity * (1 + 1e-12)
    assert capacity == pytest.approx(rated) or operating == pytest.approx(1.45 * capacity)


# A breaker needs no more cable than its rating, a fuse does.
def test_breaker_and_fuse() -> None:
    assert least_cable_capacity_for_device("IEC 60898-1", 16.0) == pytest.approx(16.0)
    assert least_cable_capacity_for_device("IEC 60947-2", 16.0) == 16.0
    assert least_cable_capacity_for_device("gG", 16.0) > 17.0


# From-memory: 2.1 In up to 4 A.
@pytest.mark.parametrize(
    ("rated", "factor"), [(2.0, 2.1), (4.0, 2.1), (4.1, 1.9), (6.0, 1.9), (15.9, 1.9), (16.0, 1.6)]
)
def test_steps_of_the_fuse(rated: float, factor: float) -> None:
    assert conventional_operating_current("gG", rated) == pytest.approx(factor * rated)


# From-memory: gG fuses below 16 A hold 1.5 In.
@pytest.mark.parametrize("rated", [2.0, 4.0, 6.0, 15.9])
def test_small_fuse_holds(rated: float) -> None:
    assert conventional_holding_current("gG", rated) == pytest.approx(1.5 * rated)


@given(amperes)
def test_bands_follow_one_another(rated: float) -> None:
    assert magnetic_trip_highest_current("B", rated) == magnetic_trip_lowest_current("C", rated)
    assert magnetic_trip_highest_current("C", rated) == magnetic_trip_lowest_current("D", rated)


@pytest.mark.parametrize(
    "call",
    [
        lambda: conventional_holding_current("aM", 16.0),
        lambda: conventional_operating_current("gG", 0.0),
        lambda: least_cable_capacity_for_device("gg", 16.0),
        lambda: magnetic_trip_lowest_current("K", 16.0),
        lambda: magnetic_trip_highest_current("C", -16.0),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()
