"""Least and greatest distances of bolt holes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.hole_spacing import (
    maximum_edge_distance,
    maximum_inner_tension_pitch,
    maximum_pitch,
    minimum_edge_distance,
    minimum_gauge,
    minimum_pitch,
)
from checker.engineering.limits import OutOfRange


# Arithmetic of EN 1993-1-8 Table 3.3: M10 in an 11 mm hole, 1.5 mm sheet.
def test_m10_on_sheet():
    assert minimum_edge_distance("round", 0.011) * 1e3 == pytest.approx(13.2)
    assert minimum_edge_distance("slotted", 0.011) * 1e3 == pytest.approx(16.5)
    assert minimum_pitch(0.011) * 1e3 == pytest.approx(24.2)
    assert minimum_gauge(0.011) * 1e3 == pytest.approx(26.4)
    assert maximum_edge_distance("exposed", 0.0015) * 1e3 == pytest.approx(46.0)
    assert maximum_pitch(0.0015) * 1e3 == pytest.approx(21.0)


@given(st.floats(0.001, 0.1))
def test_order_of_the_least_distances(hole):
    edge, slot = minimum_edge_distance("round", hole), minimum_edge_distance("slotted", hole)
    assert hole < edge < slot < minimum_pitch(hole) < minimum_gauge(hole)


@given(st.floats(1e-4, 0.1), st.floats(1.0, 10.0))
def test_thicker_parts_may_be_bolted_wider_up_to_the_cap(thickness, times):
    assert maximum_pitch(thickness) <= maximum_pitch(thickness * times) <= 0.2
    inner = maximum_inner_tension_pitch(thickness)
    assert maximum_pitch(thickness) < inner <= 0.4
    assert maximum_edge_distance("exposed", thickness * times) >= 0.04


@pytest.mark.parametrize("bad", [0.0, -0.01, math.nan, math.inf])
def test_impossible_sizes_are_refused(bad):
    for function in (minimum_pitch, minimum_gauge, maximum_pitch, maximum_inner_tension_pitch):
        with pytest.raises(OutOfRange):
            function(bad)
    with pytest.raises(OutOfRange):
        minimum_edge_distance("round", bad)
    with pytest.raises(OutOfRange):
        maximum_edge_distance("exposed", bad)


def test_unknown_words_are_refused():
    with pytest.raises(OutOfRange, match="round and slotted"):
        minimum_edge_distance("square", 0.011)
    with pytest.raises(OutOfRange, match="exposed steel"):
        maximum_edge_distance("dry", 0.005)
