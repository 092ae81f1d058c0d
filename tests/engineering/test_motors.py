"""Behaviour of checker/engineering/motors.py: connections and full-load currents."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.motors import (
    plate_current_ratio_deviation,
    plate_voltage_ratio_deviation,
    single_phase_full_load_current,
    three_phase_full_load_current,
    winding_voltage,
    winding_voltage_deviation,
)

volts = st.floats(50.0, 1000.0)
watts = st.floats(50.0, 50e3)
shares = st.floats(0.05, 1.0)


# Arithmetic of Ua/Uw - 1, to the digits of the percentages.
@pytest.mark.parametrize(
    ("line", "connection", "lower", "percent"),
    [
        (400.0, "star", 230.0, 0.4),
        (400.0, "delta", 230.0, 73.9),
        (400.0, "star", 400.0, -42.3),
        (400.0, "delta", 400.0, 0.0),
        (460.0, "series", 230.0, 0.0),
        (230.0, "parallel", 230.0, 0.0),
        (460.0, "parallel", 230.0, 100.0),
        (230.0, "series", 230.0, -50.0),
    ],
)
def test_deviation_of_the_winding(
    line: float, connection: str, lower: float, percent: float
) -> None:
    found = 100 * winding_voltage_deviation(line, connection, lower)
    assert found == pytest.approx(percent, abs=0.05)


@given(volts)
def test_star_and_delta_differ_by_root_three(line: float) -> None:
    ratio = winding_voltage(line, "delta") / winding_voltage(line, "star")
    assert ratio == pytest.approx(math.sqrt(3.0))


@given(volts, shares)
def test_pairs_of_a_true_plate(lower: float, pf: float) -> None:
    higher = math.sqrt(3.0) * lower
    assert plate_voltage_ratio_deviation(lower, higher, "star-delta") == pytest.approx(0, abs=1e-9)
    assert plate_voltage_ratio_deviation(lower, 2 * lower, "series-parallel") == 0.0
    currents = [three_phase_full_load_current(1e3, u, pf, 0.8) for u in (lower, higher)]
    assert plate_current_ratio_deviation(*currents, "star-delta") == pytest.approx(0, abs=1e-9)


# 230/460 V read as star and delta is 15 % off, 230/400 V read as series and parallel -13 %.
def test_pair_of_the_wrong_marking() -> None:
    assert plate_voltage_ratio_deviation(230.0, 460.0, "star-delta") > 0.1
    assert plate_voltage_ratio_deviation(230.0, 400.0, "series-parallel") < -0.1


@given(watts, volts, shares, shares)
def test_current_carries_the_power(output: float, line: float, pf: float, eta: float) -> None:
    three = three_phase_full_load_current(output, line, pf, eta)
    assert math.sqrt(3.0) * line * three * pf * eta == pytest.approx(output)
    one = single_phase_full_load_current(output, line, pf, eta)
    assert one / three == pytest.approx(math.sqrt(3.0))


@pytest.mark.parametrize(
    "call",
    [
        lambda: winding_voltage(0.0, "star"),
        lambda: winding_voltage(400.0, "zigzag"),
        lambda: winding_voltage_deviation(400.0, "star", 0.0),
        lambda: plate_voltage_ratio_deviation(400.0, 230.0, "star-delta"),
        lambda: plate_voltage_ratio_deviation(230.0, math.inf, "star-delta"),
        lambda: plate_voltage_ratio_deviation(230.0, 400.0, "both"),
        lambda: plate_current_ratio_deviation(0.0, 1.0, "star-delta"),
        lambda: plate_current_ratio_deviation(1.0, 0.0, "star-delta"),
        lambda: three_phase_full_load_current(1e3, 400.0, 0.0, 0.8),
        lambda: three_phase_full_load_current(1e3, 400.0, 0.8, 1.01),
        lambda: three_phase_full_load_current(math.nan, 400.0, 0.8, 0.8),
        lambda: single_phase_full_load_current(1e3, -230.0, 0.8, 0.8),
        lambda: single_phase_full_load_current(1e3, 230.0, 80.0, 0.8),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()
