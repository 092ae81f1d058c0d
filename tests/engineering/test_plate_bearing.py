"""Bearing of plates at bolt holes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.plate_bearing import (
    bearing_factor_edge,
    bearing_factor_end,
    bearing_factor_gauge,
    bearing_factor_pitch,
    bearing_hole_reduction,
    bearing_resistance,
    single_lap_bearing_limit,
)

holes = st.floats(0.005, 0.035)
multiples = st.floats(2.4, 12.0)


@given(holes, multiples, st.floats(1.0, 2.0))
def test_factors_grow_with_distance_up_to_their_caps(hole, multiple, more):
    near, far = multiple * hole, multiple * more * hole
    for factor in (bearing_factor_edge, bearing_factor_gauge):
        assert 0.0 < factor(near, hole) <= factor(far, hole) <= 2.5
    for factor in (bearing_factor_end, bearing_factor_pitch):
        least = factor(near, hole, 800e6, 360e6)
        assert 0.0 < least <= factor(far, hole, 800e6, 360e6) <= 1.0


@given(holes, multiples, st.floats(0.2, 5.0))
def test_factors_have_no_scale(hole, multiple, scale):
    near, far = multiple * hole, multiple * hole * scale
    assert bearing_factor_edge(far, hole * scale) == pytest.approx(bearing_factor_edge(near, hole))
    assert bearing_factor_end(far, hole * scale, 800e6, 360e6) == pytest.approx(
        bearing_factor_end(near, hole, 800e6, 360e6)
    )


@pytest.mark.parametrize(
    ("factor", "multiple"),
    [
        (lambda x, d: bearing_factor_end(x, d, 800e6, 360e6), 1.2),
        (lambda x, d: bearing_factor_pitch(x, d, 800e6, 360e6), 2.2),
        (bearing_factor_edge, 1.2),
        (bearing_factor_gauge, 2.4),
    ],
    ids=["end", "pitch", "edge", "gauge"],
)
def test_least_distance_is_in_and_less_is_refused(factor, multiple):
    assert factor(multiple * 0.022, 0.022) > 0.0
    with pytest.raises(OutOfRange, match="holds from"):
        factor(multiple * 0.022 - 1e-5, 0.022)
    with pytest.raises(OutOfRange):
        factor(math.nan, 0.022)
    with pytest.raises(OutOfRange):
        factor(0.05, 0.0)


@given(st.floats(0.1, 2.5), st.floats(0.1, 1.0), st.floats(0.0005, 0.02), st.floats(1.0, 3.0))
def test_resistance_is_proportional_to_thickness(k1, alpha_b, thickness, times):
    thin = bearing_resistance(k1, alpha_b, 360e6, 0.010, thickness, 1.25)
    thick = bearing_resistance(k1, alpha_b, 360e6, 0.010, thickness * times, 1.25)
    assert thick == pytest.approx(times * thin)


@pytest.mark.parametrize(("k1", "alpha_b"), [(2.6, 0.5), (0.0, 0.5), (2.5, 1.01), (2.5, 0.0)])
def test_factors_the_table_cannot_give(k1, alpha_b):
    with pytest.raises(OutOfRange, match="at most"):
        bearing_resistance(k1, alpha_b, 360e6, 0.010, 0.005, 1.25)


# Arithmetic of EN 1993-1-8 Table 3.4: M10, d0 11 mm, e1 = e2 = 20 mm, 1.5 mm of S235. The limit for
# a single lap governs.
def test_bracket_foot_on_sheet():
    alpha_b = bearing_factor_end(0.020, 0.011, 800e6, 360e6)
    found = bearing_resistance(
        bearing_factor_edge(0.020, 0.011), alpha_b, 360e6, 0.010, 0.0015, 1.25
    )
    limit = single_lap_bearing_limit(360e6, 0.010, 0.0015, 1.25)
    assert alpha_b == pytest.approx(0.606, abs=0.0005)
    assert found / 1e3 == pytest.approx(6.55, abs=0.005)
    assert limit / 1e3 == pytest.approx(6.48, abs=0.005)


def test_unknown_hole_is_refused():
    with pytest.raises(OutOfRange, match="hole"):
        bearing_hole_reduction("slot")
