"""Threads: areas, engagement, drills."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.threads import (
    basic_internal_shear_area,
    basic_pitch_diameter,
    blind_hole_depth,
    engagement_against_external_stripping,
    engagement_against_internal_stripping,
    external_thread_shear_area,
    full_threads,
    internal_thread_shear_area,
    tapping_drill_diameter,
    tensile_stress_area,
    thread_shear_strength,
)

M8 = {"pitch": 0.00125, "least_major_diameter": 0.00776, "largest_pitch_diameter": 0.007348}
diameters = st.floats(0.003, 0.05)
shares = st.floats(0.05, 0.25)


@given(diameters, shares, st.floats(0.1, 10.0))
def test_stress_area_is_below_the_shank_and_scales(diameter, share, scale):
    area = tensile_stress_area(diameter, share * diameter)
    assert 0.0 < area < math.pi / 4 * diameter**2
    scaled = tensile_stress_area(diameter * scale, share * diameter * scale)
    assert scaled == pytest.approx(area * scale**2)


# The stress diameter is the mean of pitch diameter and root diameter d − 1.2269·P (ISO 898-1): an
# independent way to the same area.
@given(diameters, shares)
def test_stress_diameter_is_the_mean_of_pitch_and_root(diameter, share):
    pitch = share * diameter
    mean = (basic_pitch_diameter(diameter, pitch) + diameter - 1.22687 * pitch) / 2
    assert tensile_stress_area(diameter, pitch) == pytest.approx(math.pi / 4 * mean**2, rel=1e-4)


@pytest.mark.parametrize(
    ("diameter", "pitch"), [(0.0, 0.001), (0.008, 0.0), (0.008, 0.003), (math.nan, 0.001)]
)
def test_no_iso_thread(diameter, pitch):
    for function in (tensile_stress_area, basic_pitch_diameter, tapping_drill_diameter):
        with pytest.raises(OutOfRange):
            function(diameter, pitch)


# Engagement and area are each other's inverse.
@given(st.floats(100.0, 1e6), st.floats(5e7, 5e8))
def test_engagement_carries_just_the_load(load, shear_strength):
    engagement = engagement_against_internal_stripping(load, shear_strength, **M8)
    area = internal_thread_shear_area(**M8, engagement=engagement)
    assert area * shear_strength == pytest.approx(load)


# The largest major diameter flatters: the engagement it asks for is too short.
@given(st.floats(0.0, 0.0002))
def test_larger_major_diameter_asks_for_less(excess):
    least = engagement_against_internal_stripping(29280.0, 207.7e6, **M8)
    larger = {**M8, "least_major_diameter": M8["least_major_diameter"] + excess}
    assert engagement_against_internal_stripping(29280.0, 207.7e6, **larger) <= least


def test_external_engagement_gives_twice_the_stress_area():
    found = engagement_against_external_stripping(36.6e-6, 0.00125, 0.006912, 0.007042)
    area = external_thread_shear_area(0.00125, 0.006912, 0.007042, found)
    assert area == pytest.approx(2 * 36.6e-6)


def test_threads_that_do_not_mate_are_refused():
    with pytest.raises(OutOfRange, match="mating pair"):
        internal_thread_shear_area(0.00125, 0.006, 0.0078, 0.008)
    with pytest.raises(OutOfRange, match="mating pair"):
        external_thread_shear_area(0.00125, 0.006, 0.008, 0.008)


@pytest.mark.parametrize("bad", [0.0, -0.001, math.nan, math.inf])
def test_impossible_engagement(bad):
    with pytest.raises(OutOfRange):
        internal_thread_shear_area(**M8, engagement=bad)
    with pytest.raises(OutOfRange):
        basic_internal_shear_area(0.008, bad)
    with pytest.raises(OutOfRange):
        full_threads(bad, 0.00125)
    with pytest.raises(OutOfRange):
        engagement_against_internal_stripping(bad, 207.7e6, **M8)


# Arithmetic: M8 in 2.0 mm of f_u 360 MPa has 1.6 threads and strips at 9.1 kN by the area at basic
# size, at 7.0 kN by that of the slack pair.
def test_m8_in_two_millimetre_sheet():
    assert full_threads(0.002, 0.00125) == pytest.approx(1.6)
    slack = internal_thread_shear_area(**M8, engagement=0.002) * thread_shear_strength(360e6)
    basic = basic_internal_shear_area(0.008, 0.002) * thread_shear_strength(360e6)
    assert slack / 1e3 == pytest.approx(7.0, abs=0.05)
    assert basic / 1e3 == pytest.approx(9.1, abs=0.05)


def test_shear_strength_is_one_over_root_three():
    assert thread_shear_strength(1e6) / 1e6 == pytest.approx(1 / math.sqrt(3), abs=5e-4)


@pytest.mark.parametrize("size", [0.006, 0.010, 0.012])
def test_blind_hole(size):
    assert blind_hole_depth(0.010, size) == pytest.approx(0.012)


@pytest.mark.parametrize("size", [0.005, 0.0059, 0.0121, 0.016])
def test_blind_hole_rule_ends_at_m12(size):
    with pytest.raises(OutOfRange, match="blind-hole rule"):
        blind_hole_depth(0.010, size)
