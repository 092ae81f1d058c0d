"""Screws in sheet."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.sheet import (
    bolt_head_pull_through_resistance,
    screw_bearing_factor,
    screw_bearing_resistance,
    screw_minimum_edge_distance,
    screw_minimum_end_distance,
    screw_minimum_spacing,
    screw_pull_out_resistance,
    screw_pull_through_resistance,
)

screws = st.floats(0.003, 0.008)
sheets = st.floats(0.0005, 0.0015)


@given(st.floats(0.008, 0.03), screws, sheets)
def test_repeated_load_is_half(washer, screw, sheet):
    static = screw_pull_through_resistance(washer, screw, sheet, 360e6, "static", 1.25)
    repeated = screw_pull_through_resistance(washer, screw, sheet, 360e6, "repeated", 1.25)
    assert repeated == pytest.approx(static / 2)
    assert bolt_head_pull_through_resistance(washer, sheet, 360e6, "repeated", 1.25) == repeated


def test_an_m10_is_no_screw():
    with pytest.raises(OutOfRange, match="screw is 10 mm"):
        screw_pull_through_resistance(0.020, 0.010, 0.0015, 360e6, "repeated", 1.25)


@pytest.mark.parametrize("sheet", [0.00049, 0.00151, 0.0, -0.001, math.nan])
def test_sheet_outside_the_range_in_tension(sheet):
    with pytest.raises(OutOfRange, match="sheet"):
        bolt_head_pull_through_resistance(0.020, sheet, 360e6, "static", 1.25)


def test_unknown_loading_is_refused():
    with pytest.raises(OutOfRange, match="loading"):
        bolt_head_pull_through_resistance(0.020, 0.001, 360e6, "fatigue", 1.25)


# At the pitch itself the support counts as thick; just below it does not.
def test_pull_out_steps_at_the_pitch():
    thick = screw_pull_out_resistance(0.0063, 0.0018, 0.0018, 360e6, 1.25)
    thin = screw_pull_out_resistance(0.0063, 0.00179, 0.0018, 360e6, 1.25)
    assert thick / thin == pytest.approx(0.65 / 0.45 * 1.8 / 1.79)


@given(screws, st.floats(0.0009, 0.006), st.floats(1.0, 3.0))
def test_pull_out_grows_with_the_support(screw, support, times):
    thin = screw_pull_out_resistance(screw, support, 0.0018, 360e6, 1.25)
    assert screw_pull_out_resistance(screw, support * times, 0.0018, 360e6, 1.25) >= thin


@given(screws, st.floats(0.0005, 0.003), st.floats(1.0, 2.5), st.floats(1.0, 2.0))
def test_bearing_factor_never_falls_on_a_thicker_support(screw, sheet, ratio, more):
    low = screw_bearing_factor(screw, sheet, sheet * ratio)
    high = screw_bearing_factor(screw, sheet, sheet * ratio * more)
    assert 0.0 < low <= high * (1 + 1e-12)
    # Whatever the factor function gives, the resistance takes.
    assert screw_bearing_resistance(high, 360e6, screw, sheet, 1.25) > 0.0


@given(screws, st.floats(0.001, 0.003))
def test_bearing_factor_is_continuous_at_both_ends(screw, sheet):
    alike = screw_bearing_factor(screw, sheet, sheet)
    assert screw_bearing_factor(screw, sheet, sheet * 1.000001) == pytest.approx(alike, rel=1e-4)
    thick = screw_bearing_factor(screw, sheet, sheet * 2.499999)
    assert thick == pytest.approx(2.1, rel=1e-4)


def test_thick_part_under_the_head_is_refused():
    with pytest.raises(OutOfRange, match="thinner one under the head"):
        screw_bearing_factor(0.0063, 0.002, 0.001)


@pytest.mark.parametrize("alpha", [0.0, 2.11, math.nan])
def test_factor_the_table_cannot_give(alpha):
    with pytest.raises(OutOfRange, match=r"at most 2\.1"):
        screw_bearing_resistance(alpha, 360e6, 0.0063, 0.001, 1.25)


@pytest.mark.parametrize("screw", [0.0029, 0.0081, 0.0, math.nan])
def test_no_screw_distance_outside_the_range(screw):
    functions = (screw_minimum_end_distance, screw_minimum_edge_distance, screw_minimum_spacing)
    for function in functions:
        with pytest.raises(OutOfRange, match="screw"):
            function(screw)
