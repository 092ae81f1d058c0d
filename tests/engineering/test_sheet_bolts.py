"""Bolts in sheet."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.plate_bearing import single_lap_bearing_limit
from checker.engineering.sheet_bolts import (
    net_section_resistance,
    sheet_bolt_bearing_resistance,
    sheet_bolt_end_factor,
    sheet_bolt_minimum_end_distance,
    sheet_bolt_thickness_factor,
)


@given(st.floats(0.00075, 0.0028), st.floats(1.0, 1.05))
def test_thickness_factor_grows_to_one(sheet, times):
    low, high = sheet_bolt_thickness_factor(sheet), sheet_bolt_thickness_factor(sheet * times)
    assert 0.84 <= low <= high <= 1.0


@given(st.floats(0.006, 0.02), st.floats(1.0, 6.0))
def test_end_factor_grows_to_one(bolt, times):
    hole = 1.1 * bolt
    least = sheet_bolt_minimum_end_distance(hole)
    low, high = (
        sheet_bolt_end_factor(least, bolt, hole),
        sheet_bolt_end_factor(least * times, bolt, hole),
    )
    assert 0.0 < low <= high <= 1.0


def test_end_distance_on_the_limit_and_below():
    assert sheet_bolt_end_factor(0.0132, 0.010, 0.011) == pytest.approx(0.44)
    with pytest.raises(OutOfRange, match="end distance"):
        sheet_bolt_end_factor(0.0131, 0.010, 0.011)


def test_hole_below_the_bolt_is_refused():
    with pytest.raises(OutOfRange, match="wider than"):
        sheet_bolt_end_factor(0.02, 0.010, 0.010)


@pytest.mark.parametrize(("end_factor", "k_t"), [(0.0, 1.0), (1.1, 1.0), (1.0, 0.0), (1.0, 1.1)])
def test_factors_the_table_cannot_give(end_factor, k_t):
    with pytest.raises(OutOfRange, match="at most 1"):
        sheet_bolt_bearing_resistance(end_factor, k_t, 360e6, 0.010, 0.0015, 1.25)


# For one row of M10 in 1.5 mm the single-lap limit of EN 1993-1-8 (6.48 kN) is below Table 8.4's
# 7.20 kN: a rule that took Table 8.4 alone would be 11 % too kind.
def test_single_lap_limit_governs():
    found = sheet_bolt_bearing_resistance(2 / 3, 1.0, 360e6, 0.010, 0.0015, 1.25)
    assert single_lap_bearing_limit(360e6, 0.010, 0.0015, 1.25) < found


@given(st.floats(0.01, 1.0), st.floats(0.001, 0.03), st.floats(1.01, 20.0))
def test_net_section_never_beats_its_area(share, hole, times):
    found = net_section_resistance(share, hole, hole * times, 1e-4, 360e6, 1.25)
    assert 0.0 < found <= 1e-4 * 360e6 / 1.25 * (1 + 1e-12)


@pytest.mark.parametrize(
    ("share", "hole", "strip"), [(0.0, 0.011, 0.04), (1.1, 0.011, 0.04), (1.0, 0.011, 0.011)]
)
def test_impossible_net_sections(share, hole, strip):
    with pytest.raises(OutOfRange):
        net_section_resistance(share, hole, strip, 1e-4, 360e6, 1.25)


@pytest.mark.parametrize("bad", [math.nan, 0.0, -1.0])
def test_impossible_holes(bad):
    with pytest.raises(OutOfRange):
        sheet_bolt_minimum_end_distance(bad)


@pytest.mark.parametrize("thickness", [0.0007, 0.003, 0.005])
def test_bearing_of_a_sheet_outside_the_table_is_refused(thickness):
    assert sheet_bolt_bearing_resistance(1.0, 1.0, 360e6, 0.010, 0.0029, 1.25) > 0.0
    with pytest.raises(OutOfRange, match=r"from 0\.75 mm to below 3 mm"):
        sheet_bolt_bearing_resistance(1.0, 1.0, 360e6, 0.010, thickness, 1.25)
