"""Slings and eyebolts: ranges and properties."""

from __future__ import annotations

import math
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.lifting import (
    eyebolt_pair_factor,
    sling_angle_from_vertical,
    sling_factor_from_horizontal,
    sling_factor_from_vertical,
    sling_leg_tension_from_horizontal,
    sling_leg_tension_from_vertical,
    sling_uniform_load_factor,
)
from checker.engineering.limits import OutOfRange

angles = st.floats(0.0, math.radians(60.0))
loads = st.floats(1.0, 1e5)
legs = st.integers(1, 4)


@given(angles)
def test_both_references_agree_on_the_complement(angle: float) -> None:
    from_vertical = sling_factor_from_vertical(angle)
    assert sling_factor_from_horizontal(math.pi / 2 - angle) == pytest.approx(from_vertical)
    assert 1.0 <= from_vertical <= 2.0 + 1e-9


@given(angles, angles)
def test_flatter_legs_never_pull_less(a: float, b: float) -> None:
    steep, flat = sorted((a, b))
    assert sling_factor_from_vertical(flat) >= sling_factor_from_vertical(steep)


@given(loads, legs, angles)
def test_legs_together_hold_the_load(load: float, count: int, angle: float) -> None:
    tension = sling_leg_tension_from_vertical(load, count, angle)
    assert count * tension * math.cos(angle) == pytest.approx(load)
    other = sling_leg_tension_from_horizontal(load, count, math.pi / 2 - angle)
    assert other == pytest.approx(tension)


# Arithmetic of the formula: 80 kg on two legs at 45°, in kilograms a leg.
def test_a_unit_on_two_eyebolts() -> None:
    g = 9.80665
    tension = sling_leg_tension_from_vertical(80.0 * g, 2, math.radians(45.0))
    assert tension / g == pytest.approx(56.6, abs=0.05)


@given(st.floats(0.1, 10.0), angles)
def test_angle_from_lengths(length: float, angle: float) -> None:
    spread = 2.0 * length * math.sin(angle)
    assert sling_angle_from_vertical(length, spread) == pytest.approx(angle, abs=1e-7)


@pytest.mark.parametrize(
    ("length", "spread"), [(1.0, 2.0), (1.0, 2.5), (0.0, 0.5), (1.0, -0.1), (math.nan, 0.5)]
)
def test_refuses_legs_that_do_not_reach(length: float, spread: float) -> None:
    with pytest.raises(OutOfRange):
        sling_angle_from_vertical(length, spread)


def test_refusal_says_how_far_the_legs_reach() -> None:
    with pytest.raises(OutOfRange, match=r"2\.5 m; two legs of 1 m reach less than 2 m\."):
        sling_angle_from_vertical(1.0, 2.5)


@pytest.mark.parametrize("degrees", [60.1, 89.0, 90.0, 180.0, -1.0, math.nan])
def test_refuses_flat_legs(degrees: float) -> None:
    angle = math.radians(degrees)
    with pytest.raises(OutOfRange, match="from the vertical"):
        sling_factor_from_vertical(angle)
    with pytest.raises(OutOfRange, match="from the vertical"):
        sling_leg_tension_from_vertical(1000.0, 2, angle)
    with pytest.raises(OutOfRange, match="from the vertical"):
        sling_uniform_load_factor("two", angle)


@pytest.mark.parametrize("degrees", [29.9, 0.0, -30.0, 91.0, math.nan])
def test_refuses_flat_legs_from_the_horizontal(degrees: float) -> None:
    angle = math.radians(degrees)
    with pytest.raises(OutOfRange, match="from the horizontal"):
        sling_factor_from_horizontal(angle)
    with pytest.raises(OutOfRange, match="from the horizontal"):
        sling_leg_tension_from_horizontal(1000.0, 2, angle)


@pytest.mark.parametrize(
    ("load", "count"), [(0.0, 2), (-1.0, 2), (1e3, 0), (1e3, 5), (1e3, 1.5), (1e3, math.nan)]
)
def test_refuses_impossible_loads_and_counts(load: float, count: float) -> None:
    with pytest.raises(OutOfRange):
        sling_leg_tension_from_vertical(load, count, 0.5)
    with pytest.raises(OutOfRange):
        sling_leg_tension_from_horizontal(load, count, 1.0)


def test_a_radian_is_not_a_degree() -> None:
    with pytest.raises(OutOfRange):
        sling_factor_from_vertical(45.0)


@pytest.mark.parametrize("kind", ["two", "three-or-four"])
@given(angle=angles)
def test_uniform_load_factor_never_overloads_a_leg(
    kind: Literal["two", "three-or-four"], angle: float
) -> None:
    counted = 2 if kind == "two" else 3
    rated = sling_uniform_load_factor(kind, angle)
    assert sling_leg_tension_from_vertical(rated, counted, angle) <= 1.0 + 1e-9


@given(st.floats(math.radians(1), math.radians(90)), st.floats(math.radians(1), math.radians(90)))
def test_pair_factor_never_grows_with_the_angle(a: float, b: float) -> None:
    narrow, wide = sorted((a, b))
    assert eyebolt_pair_factor(wide) <= eyebolt_pair_factor(narrow)


@pytest.mark.parametrize("degrees", [0.0, -1.0, 90.1, 120.0, math.nan])
def test_refuses_pairs_outside_the_table(degrees: float) -> None:
    with pytest.raises(OutOfRange, match="included angle"):
        eyebolt_pair_factor(math.radians(degrees))
