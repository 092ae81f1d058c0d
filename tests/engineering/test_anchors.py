"""Concrete cone of anchors: ranges and properties."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.anchors import (
    AnchorKind,
    cone_eccentricity_factor,
    cone_edge_factor,
    cone_group_resistance,
    cone_partial_factor,
    cone_resistance,
    cone_shell_spalling_factor,
    cone_strength_factor,
    surface_reinforcement,
)
from checker.engineering.limits import OutOfRange

depths = st.floats(0.040, 0.500)
strengths = st.floats(12e6, 90e6)
kinds = st.sampled_from(["post-installed", "cast-in"])
distances = st.floats(1e-3, 5.0)


@given(kinds, st.booleans(), strengths, depths)
def test_resistance_grows_with_depth_to_the_three_halves(
    kind: AnchorKind, cracked: bool, strength: float, depth: float
) -> None:
    one = cone_resistance(kind, cracked, strength, depth)
    assert cone_resistance(kind, cracked, strength, 4 * depth) == pytest.approx(8 * one)


@given(kinds, st.booleans(), depths)
def test_resistance_grows_with_the_root_of_the_strength(
    kind: AnchorKind, cracked: bool, depth: float
) -> None:
    one = cone_resistance(kind, cracked, 16e6, depth)
    assert cone_resistance(kind, cracked, 64e6, depth) == pytest.approx(2 * one)


@given(kinds, strengths, depths)
def test_cracks_cost_resistance(kind: AnchorKind, strength: float, depth: float) -> None:
    whole = cone_resistance(kind, False, strength, depth)
    assert cone_resistance(kind, True, strength, depth) < whole


@pytest.mark.parametrize("cracked", [True, False])
def test_drilled_anchors_have_the_smaller_factor(cracked: bool) -> None:
    assert cone_strength_factor("post-installed", cracked) < cone_strength_factor(
        "cast-in", cracked
    )


# EN 1992-4:2018, 7.2.1.4, arithmetic of the formulas.
def test_group_of_two_at_an_edge() -> None:
    single = cone_resistance("post-installed", True, 20e6, 0.060)
    edge = cone_edge_factor(0.060, 0.060)
    shell = cone_shell_spalling_factor(0.060, "dense")
    centre = cone_eccentricity_factor(0.045, 0.060)
    assert (edge, shell, centre) == pytest.approx((0.90, 0.80, 2 / 3))
    group = cone_group_resistance(single, 1.25, edge, shell, centre)
    assert group == pytest.approx(single * 1.25 * 0.9 * 0.8 * 2 / 3)


@given(distances, distances, depths)
def test_edge_factor_never_falls_with_distance(a: float, b: float, depth: float) -> None:
    near, far = sorted((a, b))
    assert 0.7 < cone_edge_factor(near, depth) <= cone_edge_factor(far, depth) <= 1.0


@given(depths)
def test_edge_factor_is_one_from_the_characteristic_distance(depth: float) -> None:
    assert cone_edge_factor(1.5 * depth, depth) == pytest.approx(1.0)
    assert cone_edge_factor(1.4 * depth, depth) < 1.0


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0), depths)
def test_eccentricity_factor_falls(a: float, b: float, depth: float) -> None:
    small, large = sorted((a, b))
    assert cone_eccentricity_factor(large, depth) <= cone_eccentricity_factor(small, depth) <= 1.0


def test_central_tension_costs_nothing() -> None:
    assert cone_eccentricity_factor(0.0, 0.080) == 1.0


@given(st.floats(0.001, 0.5))
def test_open_reinforcement_costs_nothing(depth: float) -> None:
    assert cone_shell_spalling_factor(depth, "open") == 1.0
    assert 0.5 < cone_shell_spalling_factor(depth, "dense") <= 1.0


@pytest.mark.parametrize(
    ("spacing", "diameter", "expected"),
    [
        (0.150, 0.025, "open"),
        (0.149, 0.025, "dense"),
        (0.100, 0.010, "open"),
        (0.099, 0.010, "dense"),
        (0.100, 0.0101, "dense"),
        (3 * 0.05, 0.025, "open"),
        (10 * 0.01, 10 * 0.001, "open"),
    ],
)
def test_surface_reinforcement(spacing: float, diameter: float, expected: str) -> None:
    assert surface_reinforcement(spacing, diameter) == expected


@given(st.floats(1.0, 2.0), st.floats(1.0, 1.4))
def test_partial_factor_is_never_below_that_of_concrete(concrete: float, installed: float) -> None:
    assert cone_partial_factor(concrete, installed) >= concrete


@pytest.mark.parametrize("strength", [11e6, 91e6, 0.0, -20e6, math.nan, math.inf])
def test_refuses_strengths_outside_the_formula(strength: float) -> None:
    with pytest.raises(OutOfRange, match="cylinder strength"):
        cone_resistance("cast-in", True, strength, 0.100)


@pytest.mark.parametrize("depth", [0.039, 0.0, -0.1, math.nan, math.inf])
def test_refuses_shallow_anchors(depth: float) -> None:
    with pytest.raises(OutOfRange, match="effective embedment"):
        cone_resistance("cast-in", True, 20e6, depth)


@pytest.mark.parametrize("bad", [0.0, -0.1, math.nan])
def test_refuses_impossible_dimensions(bad: float) -> None:
    with pytest.raises(OutOfRange):
        cone_edge_factor(bad, 0.1)
    with pytest.raises(OutOfRange):
        cone_edge_factor(0.1, bad)
    with pytest.raises(OutOfRange):
        cone_shell_spalling_factor(bad, "dense")
    with pytest.raises(OutOfRange):
        surface_reinforcement(bad, 0.01)
    with pytest.raises(OutOfRange):
        surface_reinforcement(0.1, bad)
    with pytest.raises(OutOfRange):
        cone_eccentricity_factor(0.01, bad)


@pytest.mark.parametrize("position", range(5))
@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan])
def test_refuses_impossible_factors(position: int, bad: float) -> None:
    values = [16e3, 1.5, 1.0, 1.0, 1.0]
    values[position] = bad
    with pytest.raises(OutOfRange):
        cone_group_resistance(*values)


@pytest.mark.parametrize("position", [2, 3, 4])
def test_refuses_factors_that_help(position: int) -> None:
    values = [16e3, 1.5, 1.0, 1.0, 1.0]
    values[position] = 1.01
    with pytest.raises(OutOfRange):
        cone_group_resistance(*values)


@pytest.mark.parametrize(
    ("concrete", "installed"), [(0.9, 1.0), (1.5, 0.9), (1.5, 1.5), (math.nan, 1.0)]
)
def test_refuses_partial_factors_outside_the_table(concrete: float, installed: float) -> None:
    with pytest.raises(OutOfRange):
        cone_partial_factor(concrete, installed)


def test_refuses_a_negative_eccentricity() -> None:
    with pytest.raises(OutOfRange, match="eccentricity"):
        cone_eccentricity_factor(-0.01, 0.1)
