"""Natural frequency of a post: against the exact roots of the frequency equation."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from checker.engineering.beams import tip_stiffness, tip_stiffness_flexible_base
from checker.engineering.limits import OutOfRange
from checker.engineering.vibration import moving_mass, moving_mass_flexible_base, natural_frequency

E, SECOND_MOMENT, LINEAR_MASS = 210e9, 35.1e-8, 5.19


def exact_squared_root(mass_ratio, base_ratio=math.inf):
    """(β1 L)² of a uniform cantilever, tip mass over beam mass, base stiffness k_θ L/(E I).

    The shape a·cosh + b·sinh + c·cos + d·sin with four boundary conditions; the determinant is
    searched for its first root. Independent of Rayleigh's method.
    """

    def determinant(x):
        cosh, sinh, cos, sin = math.cosh(x), math.sinh(x), math.cos(x), math.sin(x)
        turning = [x, -base_ratio, -x, -base_ratio]
        base = [0.0, 1.0, 0.0, 1.0] if math.isinf(base_ratio) else turning
        return np.linalg.det(
            [
                [1.0, 0.0, 1.0, 0.0],
                base,
                [cosh, sinh, -cos, -sin],
                [
                    sinh + mass_ratio * x * cosh,
                    cosh + mass_ratio * x * sinh,
                    sin + mass_ratio * x * cos,
                    -cos + mass_ratio * x * sin,
                ],
            ]
        )

    grid = np.linspace(0.02, 2.5, 4000)
    signs = [math.copysign(1.0, determinant(x)) for x in grid]
    first = next(i for i in range(len(grid) - 1) if signs[i] != signs[i + 1])
    return brentq(determinant, grid[first], grid[first + 1], xtol=1e-13) ** 2


def rayleigh_squared_root(mass_ratio, base_ratio=math.inf):
    if math.isinf(base_ratio):
        stiffness, mass = tip_stiffness(1.0, 1.0, 1.0), moving_mass(mass_ratio, 1.0, 1.0)
    else:
        stiffness = tip_stiffness_flexible_base(1.0, 1.0, 1.0, base_ratio)
        mass = moving_mass_flexible_base(mass_ratio, 1.0, 1.0, 1.0, 1.0, base_ratio)
    return 2.0 * math.pi * natural_frequency(stiffness, mass)


# The root finder itself against print: Mathematical Problems in Engineering 2017, article 1568019,
# Table 1, equal masses, 1.557298; and β1 L = 1.8751 of a bare cantilever.
def test_the_exact_root_is_the_published_one():
    assert exact_squared_root(1.0) == pytest.approx(1.557298, abs=5e-7)
    assert math.sqrt(exact_squared_root(0.0)) == pytest.approx(1.8751, abs=5e-5)


@pytest.mark.parametrize(
    ("mass_ratio", "within"), [(0.0, 0.015), (0.1, 0.008), (1.0, 6e-4), (5.0, 4e-5), (10.0, 1e-5)]
)
def test_rigid_base_against_the_exact_root(mass_ratio, within):
    exact = exact_squared_root(mass_ratio)
    approximate = rayleigh_squared_root(mass_ratio)
    assert exact <= approximate <= exact * (1.0 + within)


@pytest.mark.parametrize("base_ratio", [0.05, 0.3, 1.0, 3.0, 10.0, 100.0])
@pytest.mark.parametrize("mass_ratio", [0.0, 0.5, 1.0, 5.0])
def test_flexible_base_against_the_exact_root(mass_ratio, base_ratio):
    exact = exact_squared_root(mass_ratio, base_ratio)
    approximate = rayleigh_squared_root(mass_ratio, base_ratio)
    # An upper bound, and a close one: nowhere worse than the bare post on a rigid base.
    assert exact * (1.0 - 1e-9) <= approximate <= exact * 1.015


def test_the_mass_of_a_turning_post_is_more_than_33_140():
    # With 33/140 kept for a soft base the frequency would come out too high by a fifth.
    soft = moving_mass_flexible_base(0.0, 1.0, 1.0, 1.0, 1.0, 1e-6)
    assert soft == pytest.approx(1.0 / 3.0, rel=1e-5)
    assert soft > 1.4 * moving_mass(0.0, 1.0, 1.0)


# Arithmetic of the formulas for one post: SHS 60 × 60 × 3, 2.0 m, head 57.18 kg.
@pytest.mark.parametrize(
    ("base_stiffness", "frequency"), [(1e12, 3.43), (50e3, 1.90), (20e3, 1.33)]
)
def test_one_post_on_three_bases(base_stiffness, frequency):
    stiffness = tip_stiffness_flexible_base(2.0, E, SECOND_MOMENT, base_stiffness)
    mass = moving_mass_flexible_base(57.18, LINEAR_MASS, 2.0, E, SECOND_MOMENT, base_stiffness)
    assert natural_frequency(stiffness, mass) == pytest.approx(frequency, abs=0.005)


def test_a_very_stiff_base_is_rigid():
    flexible = moving_mass_flexible_base(10.0, LINEAR_MASS, 2.0, E, SECOND_MOMENT, 1e15)
    assert flexible == pytest.approx(moving_mass(10.0, LINEAR_MASS, 2.0))


@given(head=st.floats(0.0, 500.0), more=st.floats(0.0, 100.0), base=st.floats(1e3, 1e7))
def test_a_heavier_head_never_swings_faster(head, more, base):
    stiffness = tip_stiffness_flexible_base(2.0, E, SECOND_MOMENT, base)
    light, heavy = (
        natural_frequency(
            stiffness, moving_mass_flexible_base(mass, LINEAR_MASS, 2.0, E, SECOND_MOMENT, base)
        )
        for mass in (head, head + more)
    )
    assert heavy <= light


@given(stiffness=st.floats(1.0, 1e7), mass=st.floats(0.1, 1e4), factor=st.floats(1.1, 10.0))
def test_frequency_follows_the_square_root(stiffness, mass, factor):
    assert natural_frequency(factor**2 * stiffness, mass) == pytest.approx(
        factor * natural_frequency(stiffness, mass)
    )
    assert natural_frequency(stiffness, factor**2 * mass) == pytest.approx(
        natural_frequency(stiffness, mass) / factor
    )


BAD = [0.0, -1.0, math.nan, math.inf]


@pytest.mark.parametrize("bad", BAD)
def test_impossible_values_are_refused(bad):
    with pytest.raises(OutOfRange, match="stiffness"):
        natural_frequency(bad, 10.0)
    with pytest.raises(OutOfRange, match="mass"):
        natural_frequency(1e4, bad)
    for place in (1, 2):
        arguments = [10.0, LINEAR_MASS, 2.0]
        arguments[place] = bad
        with pytest.raises(OutOfRange):
            moving_mass(*arguments)
    for place in range(1, 6):
        arguments = [10.0, LINEAR_MASS, 2.0, E, SECOND_MOMENT, 5e4]
        arguments[place] = bad
        with pytest.raises(OutOfRange):
            moving_mass_flexible_base(*arguments)


@pytest.mark.parametrize("bad", [-0.1, math.nan, math.inf])
def test_an_impossible_head_is_refused(bad):
    with pytest.raises(OutOfRange, match="mass at the top"):
        moving_mass(bad, LINEAR_MASS, 2.0)
