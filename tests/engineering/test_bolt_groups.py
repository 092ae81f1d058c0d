"""Sharing of a load among bolts."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.bolt_groups import (
    base_plate_bolt_tension,
    bolt_group_polar_moment,
    bracket_couple_force,
    bracket_resultant_force,
    bracket_vertical_force,
    eccentric_bolt_force,
    largest_eccentric_bolt_force,
    pivoting_plate_bolt_tension,
    prying_factor,
    shear_per_bolt,
)
from checker.engineering.limits import OutOfRange

lengths = st.floats(0.01, 1.0)
positions = st.floats(-1.0, 1.0)
patterns = st.lists(st.tuples(positions, positions), min_size=2, max_size=8).filter(
    lambda bolts: max(abs(x - bolts[0][0]) + abs(y - bolts[0][1]) for x, y in bolts) > 0.01
)


# The moment of all bolt forces about the edge is the moment of the load: an independent check.
@given(st.floats(0.0, 1e5), st.lists(lengths, min_size=1, max_size=6), st.integers(1, 4))
def test_rows_balance_the_moment(moment, heights, bolts_per_row):
    farthest = pivoting_plate_bolt_tension(moment, heights, float(bolts_per_row))
    forces = [farthest * height / max(heights) for height in heights]
    balance = bolts_per_row * sum(f * y for f, y in zip(forces, heights, strict=True))
    assert balance == pytest.approx(moment, abs=1e-9)


# Arithmetic of M·y/Σy²: 60 kg × 1.35 at 0.35 m, two rows of two bolts at 40 and 160 mm.
def test_bracket_plate():
    found = pivoting_plate_bolt_tension(278.1, [0.040, 0.160], 2.0)
    assert found == pytest.approx(818.0, abs=0.5)
    assert found * 0.040 / 0.160 == pytest.approx(204.5, abs=0.1)


def test_single_row_takes_all():
    assert pivoting_plate_bolt_tension(100.0, [0.1], 2.0) == pytest.approx(500.0)


@pytest.mark.parametrize(
    ("moment", "heights", "bolts"),
    [
        (-1.0, [0.1], 1.0),
        (1.0, [], 1.0),
        (1.0, [0.1, 0.0], 1.0),
        (1.0, [0.1], 0.0),
        (1.0, [0.1], 1.5),
        (math.nan, [0.1], 1.0),
    ],
)
def test_impossible_bracket_plates(moment, heights, bolts):
    with pytest.raises(OutOfRange):
        pivoting_plate_bolt_tension(moment, heights, bolts)


@given(st.floats(0.0, 1e6), st.integers(1, 40))
def test_shear_shares_add_up(shear, bolts):
    assert shear_per_bolt(shear, float(bolts)) * bolts == pytest.approx(shear)


@given(patterns, positions, positions)
def test_polar_moment_does_not_care_where_the_origin_is(bolts, shift_along, shift_across):
    along, across = [x for x, _ in bolts], [y for _, y in bolts]
    moved = bolt_group_polar_moment(
        [x + shift_along for x in along], [y + shift_across for y in across]
    )
    assert moved == pytest.approx(bolt_group_polar_moment(along, across), rel=1e-6)


@given(patterns, st.floats(1.0, 1e5), st.floats(0.0, 2.0))
def test_largest_force_is_at_least_the_direct_share(bolts, load, arm):
    along, across = [x for x, _ in bolts], [y for _, y in bolts]
    found = largest_eccentric_bolt_force(load, arm, along, across)
    assert found >= load / len(bolts) * (1 - 1e-9)


@given(patterns, st.floats(1.0, 1e5), st.floats(0.1, 2.0), st.floats(0.1, 10.0))
def test_forces_have_no_scale(bolts, load, arm, scale):
    along, across = [x for x, _ in bolts], [y for _, y in bolts]
    base = largest_eccentric_bolt_force(load, arm, along, across)
    larger = largest_eccentric_bolt_force(
        load, arm * scale, [x * scale for x in along], [y * scale for y in across]
    )
    assert larger == pytest.approx(base, rel=1e-6)


# Force and moment equilibrium of two bolts on the line of the arm, by hand: V/2 ± V·e/s.
def test_two_bolts_by_hand():
    near = eccentric_bolt_force(1000.0, 0.5, 2.0, 2 * 0.1**2, 0.1, 0.0)
    far = eccentric_bolt_force(1000.0, 0.5, 2.0, 2 * 0.1**2, -0.1, 0.0)
    assert near == pytest.approx(500.0 + 2500.0)
    assert far == pytest.approx(2500.0 - 500.0)


def test_impossible_groups():
    with pytest.raises(OutOfRange, match="positions"):
        bolt_group_polar_moment([], [])
    with pytest.raises(OutOfRange, match="positions"):
        bolt_group_polar_moment([0.0, 0.1], [0.0])
    with pytest.raises(OutOfRange, match="finite"):
        bolt_group_polar_moment([0.0, math.nan], [0.0, 0.1])
    with pytest.raises(OutOfRange, match="finite"):
        eccentric_bolt_force(1.0, 0.1, 2.0, 0.01, math.inf, 0.0)
    with pytest.raises(OutOfRange, match="polar moment"):
        largest_eccentric_bolt_force(1.0, 0.1, [0.2, 0.2], [0.3, 0.3])
    with pytest.raises(OutOfRange):
        eccentric_bolt_force(-1.0, 0.1, 2.0, 0.01, 0.1, 0.0)


# Arithmetic of statics: 60 kg at 0.35 m on two brackets 0.60 m apart.
def test_two_brackets():
    weight = 60 * 9.80665
    pull = bracket_couple_force(weight, 0.35, 0.60)
    vertical = bracket_vertical_force(weight, "both")
    assert pull == pytest.approx(343.0, abs=0.5)
    assert vertical == pytest.approx(294.0, abs=0.5)
    assert bracket_resultant_force(pull, vertical) == pytest.approx(452.0, abs=0.5)
    assert bracket_vertical_force(weight, "one") == weight


@given(st.floats(0.0, 1e5), st.floats(0.0, 2.0), lengths)
def test_halving_the_spacing_doubles_the_pull(weight, arm, spacing):
    wide = bracket_couple_force(weight, arm, spacing)
    assert bracket_couple_force(weight, arm, spacing / 2) == pytest.approx(2 * wide)


def test_impossible_brackets():
    with pytest.raises(OutOfRange, match="spacing"):
        bracket_couple_force(100.0, 0.3, 0.0)
    with pytest.raises(OutOfRange, match="sharing"):
        bracket_vertical_force(100.0, "none")
    with pytest.raises(OutOfRange):
        bracket_resultant_force(-1.0, 0.0)


# Arithmetic of (M/z − N/2)/n: M 1089.3 N·m, N 894.7 N, rows 160 mm apart, two bolts a side.
def test_base_plate():
    found = base_plate_bolt_tension(1089.3, 894.7, 0.160, 2.0)
    assert found == pytest.approx(3180.0, abs=1.0)


def test_base_plate_held_down_by_its_weight():
    assert base_plate_bolt_tension(10.0, 1000.0, 0.160, 2.0) == 0.0


@pytest.mark.parametrize(("plate", "factor"), [(0.0099, 1.3), (0.010, 1.0), (0.020, 1.0)])
def test_prying_stops_at_the_bolt_diameter(plate, factor):
    assert prying_factor(plate, 0.010) == factor
