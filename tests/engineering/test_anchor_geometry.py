"""Areas of the cones of anchor groups: ranges and properties."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.anchor_geometry import (
    cone_area_ratio,
    cone_characteristic_edge_distance,
    cone_characteristic_spacing,
    cone_projected_length,
    cone_reference_area,
    narrow_member_embedment,
)
from checker.engineering.limits import OutOfRange

FAR = 100.0  # m, no edge within reach
depths = st.floats(0.040, 0.500)
distances = st.floats(1e-3, 5.0)


@given(depths)
def test_one_anchor_without_edges_has_the_ratio_one(depth: float) -> None:
    side = cone_projected_length(depth, 1, 0.0, FAR, FAR)
    assert side == pytest.approx(cone_characteristic_spacing(depth))
    assert cone_area_ratio(side, side, depth) == pytest.approx(1.0)
    assert cone_reference_area(depth) == pytest.approx(side**2)


# CEN/TS 1992-4-2:2009, Figure 4 a: (c1 + 0.5 s_cr)·s_cr. Arithmetic of that formula.
@given(depths, st.floats(0.1, 1.0))
def test_one_anchor_at_an_edge(depth: float, share: float) -> None:
    spacing = cone_characteristic_spacing(depth)
    edge = share * cone_characteristic_edge_distance(depth)
    across = cone_projected_length(depth, 1, 0.0, edge, FAR)
    along = cone_projected_length(depth, 1, 0.0, FAR, FAR)
    expected = (edge + 0.5 * spacing) * spacing
    assert across * along == pytest.approx(expected)


# CEN/TS 1992-4-2:2009, Figure 4 b: (c1 + s1 + 0.5 s_cr)·s_cr. Arithmetic of that formula.
@given(depths, st.floats(0.1, 1.0), st.floats(0.1, 1.0))
def test_two_anchors_at_an_edge(depth: float, edge_share: float, spacing_share: float) -> None:
    critical = cone_characteristic_spacing(depth)
    edge, spacing = edge_share * critical / 2, spacing_share * critical
    across = cone_projected_length(depth, 2, spacing, edge, FAR)
    along = cone_projected_length(depth, 1, 0.0, FAR, FAR)
    assert across * along == pytest.approx((edge + spacing + 0.5 * critical) * critical)


# CEN/TS 1992-4-2:2009, Figure 4 c: (c1 + s1 + 0.5 s_cr)·(c2 + s2 + 0.5 s_cr), with h_ef 80 mm,
# edges 60 and 100 mm, spacings 120 and 200 mm. Arithmetic of that formula.
def test_four_anchors_in_a_corner() -> None:
    across = cone_projected_length(0.080, 2, 0.120, 0.060, FAR)
    along = cone_projected_length(0.080, 2, 0.200, 0.100, FAR)
    assert across == pytest.approx(0.060 + 0.120 + 0.120)
    assert along == pytest.approx(0.100 + 0.200 + 0.120)
    assert cone_area_ratio(across, along, 0.080) == pytest.approx(0.300 * 0.420 / 0.240**2)


@given(depths, st.integers(1, 5))
def test_anchors_too_far_apart_count_as_so_many_single_ones(depth: float, count: int) -> None:
    single = cone_projected_length(depth, 1, 0.0, FAR, FAR)
    row = cone_projected_length(depth, count, 4.0 * depth, FAR, FAR)
    assert row == pytest.approx(count * single)


@given(depths, st.integers(1, 4), distances, distances, distances, distances)
def test_an_edge_moved_away_never_costs_area(
    depth: float, count: int, spacing: float, a: float, b: float, other: float
) -> None:
    near, far = sorted((a, b))
    short = cone_projected_length(depth, count, spacing, near, other)
    assert short <= cone_projected_length(depth, count, spacing, far, other) * (1 + 1e-12)
    mirrored = cone_projected_length(depth, count, spacing, other, near)
    assert short == pytest.approx(mirrored)


@given(st.floats(1e-3, 0.3), st.floats(0.0, 0.6))
def test_narrow_member_brings_no_more_than_the_real_depth(edge: float, spacing: float) -> None:
    reduced = narrow_member_embedment(edge, spacing, 0.200)
    assert 0.0 < reduced <= 0.200 * (1 + 1e-9)
    # All near edges then reach to the cone's edge or not beyond, and neighbours' cones meet.
    assert edge <= cone_characteristic_edge_distance(reduced) * (1 + 1e-9)
    assert spacing <= cone_characteristic_spacing(reduced) * (1 + 1e-9)


def test_narrow_member_at_its_limits_is_no_narrow_member() -> None:
    assert narrow_member_embedment(0.300, 0.0, 0.200) == pytest.approx(0.200)
    assert narrow_member_embedment(0.100, 0.600, 0.200) == pytest.approx(0.200)


@pytest.mark.parametrize(
    ("edge", "spacing"), [(0.301, 0.1), (0.1, 0.601), (0.0, 0.1), (0.1, -0.1), (math.nan, 0.1)]
)
def test_refuses_what_is_no_narrow_member(edge: float, spacing: float) -> None:
    with pytest.raises(OutOfRange):
        narrow_member_embedment(edge, spacing, 0.200)


@pytest.mark.parametrize("count", [0, 0.5, 1.5, -2, math.nan, math.inf])
def test_refuses_impossible_counts(count: float) -> None:
    with pytest.raises(OutOfRange):
        cone_projected_length(0.1, count, 0.1, FAR, FAR)


@pytest.mark.parametrize("position", [0, 2, 3, 4])
@pytest.mark.parametrize("bad", [0.0, -0.1, math.nan])
def test_refuses_impossible_distances(position: int, bad: float) -> None:
    values = [0.1, 2, 0.1, 1.0, 1.0]
    values[position] = bad
    with pytest.raises(OutOfRange):
        cone_projected_length(*values)


@pytest.mark.parametrize("bad", [0.0, -0.1, math.nan])
def test_refuses_impossible_areas(bad: float) -> None:
    with pytest.raises(OutOfRange):
        cone_area_ratio(bad, 0.3, 0.1)
    with pytest.raises(OutOfRange):
        cone_area_ratio(0.3, bad, 0.1)
    with pytest.raises(OutOfRange):
        cone_reference_area(bad)
