"""Filter gauges and their tubes: behaviour and refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.pressure_tappings import (
    differential_at_flow,
    filter_differential,
    gauge_reading,
    hood_tapping_distance,
    trapped_liquid_pressure,
)

pressures = st.floats(-3000.0, 3000.0)


@pytest.mark.parametrize(
    ("before", "after"),
    [(-350.0, -500.0), (400.0, 250.0), (-50.0, -200.0)],
)
def test_either_side_of_the_fan_reads_alike(before: float, after: float) -> None:
    assert filter_differential(before, after) == pytest.approx(150.0)
    assert gauge_reading("before-filter", "after-filter", before, after) == pytest.approx(150.0)


@given(pressures, pressures)
def test_crossed_tubes_turn_the_sign(before: float, after: float) -> None:
    right = gauge_reading("before-filter", "after-filter", before, after)
    assert gauge_reading("after-filter", "before-filter", before, after) == -right


def test_a_tube_left_open_reads_the_duct_and_not_the_filter() -> None:
    # On the suction side the reading is positive and looks like a loaded filter.
    assert gauge_reading("room", "after-filter", -350.0, -500.0) == pytest.approx(500.0)
    assert gauge_reading("before-filter", "room", -350.0, -500.0) == pytest.approx(-350.0)


@given(st.floats(0.0, 1000.0), st.floats(0.01, 2.0), st.floats(0.01, 2.0))
def test_flow_there_and_back(differential: float, flow: float, other: float) -> None:
    carried = differential_at_flow(differential, flow, other)
    assert differential_at_flow(carried, other, flow) == pytest.approx(differential)


# Arithmetic of ρgL sin α.
@pytest.mark.parametrize(("degrees", "pascals"), [(90.0, 255.95), (30.0, 127.98), (0.0, 0.0)])
def test_liquid_in_a_tube(degrees: float, pascals: float) -> None:
    pressure = trapped_liquid_pressure(870.0, 0.030, math.radians(degrees))
    assert pressure == pytest.approx(pascals, abs=0.01)


@given(st.floats(0.05, 1.0))
def test_a_tapered_hood_is_tapped_nearest(bore: float) -> None:
    assert hood_tapping_distance("tapered", bore) < hood_tapping_distance("plain", bore)


def test_refusals_name_the_value() -> None:
    with pytest.raises(OutOfRange, match="hood is 'slot'"):
        hood_tapping_distance("slot", 0.15)  # type: ignore[arg-type]
    with pytest.raises(OutOfRange, match="bore is 0 m"):
        hood_tapping_distance("plain", 0.0)
    with pytest.raises(OutOfRange, match="Both tubes end at 'room'"):
        gauge_reading("room", "room", -1.0, -2.0)
    with pytest.raises(OutOfRange, match="A tube ends at 'fan'"):
        gauge_reading("fan", "room", -1.0, -2.0)  # type: ignore[arg-type]
    with pytest.raises(OutOfRange, match="flow during the reading is 0"):
        differential_at_flow(100.0, 0.0, 1.0)
    with pytest.raises(OutOfRange, match="flow to compare at is -1"):
        differential_at_flow(100.0, 1.0, -1.0)
    with pytest.raises(OutOfRange, match="slope is 100 degrees"):
        trapped_liquid_pressure(870.0, 0.03, math.radians(100.0))
    with pytest.raises(OutOfRange, match="density is 0"):
        trapped_liquid_pressure(0.0, 0.03, 1.0)
