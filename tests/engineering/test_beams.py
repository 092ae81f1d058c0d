"""Cantilever posts: a second opinion by integration, proportions, and refused values."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from checker.engineering.beams import (
    base_rotation,
    bending_stress,
    combined_normal_stress,
    duct_linear_mass,
    tip_deflection_base_rotation,
    tip_deflection_end_moment,
    tip_deflection_side_force,
    tip_rotation_end_moment,
    tip_rotation_side_force,
    tip_stiffness,
    tip_stiffness_flexible_base,
)
from checker.engineering.limits import OutOfRange
from checker.engineering.sections import tube_elastic_section_modulus, tube_second_moment

E = 210e9
POST = ("square", "cold-formed", 0.060, 0.060, 0.003)
SECOND_MOMENT = tube_second_moment(*POST, "major")
POSITIVE = st.floats(0.1, 10.0)


def integrated_tip(moment_at, length, stiffness):
    """Deflection and slope at the top, by integrating the curvature M/(E I) from the foot."""
    solution = solve_ivp(
        lambda x, state: [state[1], moment_at(x) / stiffness],
        (0.0, length),
        [0.0, 0.0],
        rtol=1e-10,
        atol=1e-14,
    )
    return solution.y[0, -1], solution.y[1, -1]


# Independent results of integrating the curvature (scipy), no published values.
@pytest.mark.parametrize("length", [0.5, 2.0, 3.2])
def test_side_force_by_integration(length):
    deflection, slope = integrated_tip(lambda x: 300.0 * (length - x), length, E * SECOND_MOMENT)
    arguments = (300.0, length, E, SECOND_MOMENT)
    assert tip_deflection_side_force(*arguments) == pytest.approx(deflection, rel=1e-7)
    assert tip_rotation_side_force(*arguments) == pytest.approx(slope, rel=1e-7)


@pytest.mark.parametrize("length", [0.5, 2.0, 3.2])
def test_end_moment_by_integration(length):
    deflection, slope = integrated_tip(lambda x: 140.2, length, E * SECOND_MOMENT)
    arguments = (140.2, length, E, SECOND_MOMENT)
    assert tip_deflection_end_moment(*arguments) == pytest.approx(deflection, rel=1e-7)
    assert tip_rotation_end_moment(*arguments) == pytest.approx(slope, rel=1e-7)


# Arithmetic of the formulas for one post: SHS 60 × 60 × 3 with the printed 35.1 cm⁴, 2.0 m.
def test_one_post_from_end_to_end():
    modulus = tube_elastic_section_modulus(*POST, "major")
    assert bending_stress(1089.3, modulus) / 1e6 == pytest.approx(93.1, abs=0.1)
    pull = tip_deflection_side_force(100.0, 2.0, E, 35.1e-8)
    assert pull * 1e3 == pytest.approx(3.62, abs=0.005)
    assert tip_stiffness(2.0, E, 35.1e-8) / 1e3 == pytest.approx(27.6, abs=0.05)
    lean = tip_deflection_end_moment(140.2, 2.0, E, 35.1e-8)
    assert lean * 1e3 == pytest.approx(3.80, abs=0.005)


@given(force=st.floats(-1e4, 1e4), length=POSITIVE)
def test_stiffness_is_force_over_deflection(force, length):
    deflection = tip_deflection_side_force(force, length, E, SECOND_MOMENT)
    assert tip_stiffness(length, E, SECOND_MOMENT) * deflection == pytest.approx(force, abs=1e-9)


@given(force=st.floats(-500.0, 500.0), length=POSITIVE, base=st.floats(2e5, 1e9))
def test_flexible_base_adds_its_own_lean(force, length, base):
    turned = tip_deflection_base_rotation(base_rotation(force * length, base), length)
    whole = tip_deflection_side_force(force, length, E, SECOND_MOMENT) + turned
    stiffness = tip_stiffness_flexible_base(length, E, SECOND_MOMENT, base)
    assert stiffness * whole == pytest.approx(force, rel=1e-9, abs=1e-9)
    assert stiffness < tip_stiffness(length, E, SECOND_MOMENT)


def test_a_very_stiff_base_is_rigid():
    rigid = tip_stiffness(2.0, E, SECOND_MOMENT)
    assert tip_stiffness_flexible_base(2.0, E, SECOND_MOMENT, 1e15) == pytest.approx(rigid)


# Maxwell's reciprocal theorem: the rotation from a unit force is the deflection from a unit moment.
@given(length=POSITIVE)
def test_reciprocity(length):
    assert tip_rotation_side_force(1.0, length, E, SECOND_MOMENT) == pytest.approx(
        tip_deflection_end_moment(1.0, length, E, SECOND_MOMENT)
    )


# The worst corner of a rectangular section, found by looking at all four.
@given(axial=st.floats(-1e4, 1e4), major=st.floats(-1e3, 1e3), minor=st.floats(-1e3, 1e3))
def test_combined_stress_is_the_worst_corner(axial, major, minor):
    area, w_major, w_minor = 9.01e-4, 24.1e-6, 18.2e-6
    corners = [
        abs(axial / area + sign_1 * major / w_major + sign_2 * minor / w_minor)
        for sign_1 in (-1.0, 1.0)
        for sign_2 in (-1.0, 1.0)
    ]
    combined = combined_normal_stress(axial, area, major, w_major, minor, w_minor)
    assert combined == pytest.approx(max(corners), rel=1e-12, abs=1e-6)


def test_thin_wall_ends_at_a_twentieth_of_the_diameter():
    assert duct_linear_mass(0.060, 0.003, 7850.0) > 0.0
    with pytest.raises(OutOfRange, match="thin-wall"):
        duct_linear_mass(0.060, 0.00301, 7850.0)


def test_duct_mass_by_integration():
    # Independent result: exact annulus about the mean diameter.
    exact = 7850.0 * quad(lambda r: 2.0 * math.pi * r, 0.07975, 0.08025)[0]
    assert duct_linear_mass(0.160, 0.0005, 7850.0) == pytest.approx(exact, rel=1e-9)


BAD = [0.0, -1.0, math.nan, math.inf]


@pytest.mark.parametrize("bad", BAD)
@pytest.mark.parametrize(
    "function",
    [
        tip_deflection_side_force,
        tip_rotation_side_force,
        tip_deflection_end_moment,
        tip_rotation_end_moment,
    ],
)
def test_impossible_posts_are_refused(function, bad):
    for place in (1, 2, 3):
        arguments = [100.0, 2.0, E, SECOND_MOMENT]
        arguments[place] = bad
        with pytest.raises(OutOfRange):
            function(*arguments)


@pytest.mark.parametrize("bad", BAD)
def test_impossible_stiffnesses_are_refused(bad):
    for place in range(4):
        arguments = [2.0, E, SECOND_MOMENT, 5e4]
        arguments[place] = bad
        with pytest.raises(OutOfRange):
            tip_stiffness_flexible_base(*arguments)
    with pytest.raises(OutOfRange, match="stiffness of the base"):
        base_rotation(100.0, bad)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
def test_unknown_loads_are_refused(bad):
    with pytest.raises(OutOfRange, match="finite"):
        bending_stress(bad, 1e-5)
    with pytest.raises(OutOfRange, match="finite"):
        combined_normal_stress(bad, 1e-3, 0.0, 1e-5, 0.0, 1e-5)
    with pytest.raises(OutOfRange, match="finite"):
        tip_deflection_side_force(bad, 2.0, E, SECOND_MOMENT)
    with pytest.raises(OutOfRange, match="finite"):
        base_rotation(bad, 1e4)


@pytest.mark.parametrize("bad", [0.11, -0.11, math.nan])
def test_large_turns_are_refused(bad):
    with pytest.raises(OutOfRange, match="small-angle"):
        tip_deflection_base_rotation(bad, 2.0)


@pytest.mark.parametrize(
    "arguments",
    [(0.0, 0.0005, 7850.0), (0.16, 0.0, 7850.0), (0.16, 0.0005, 0.0), (0.05, 0.003, 1.0)],
)
def test_impossible_ducts_are_refused(arguments):
    with pytest.raises(OutOfRange):
        duct_linear_mass(*arguments)
