"""Tube sections: a second opinion by integration, limits, and what must be refused."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from checker.engineering.limits import OutOfRange
from checker.engineering.sections import (
    tube_area,
    tube_corner_radius,
    tube_elastic_section_modulus,
    tube_linear_mass,
    tube_plastic_section_modulus,
    tube_radius_of_gyration,
    tube_second_moment,
)

FINISHES = ["cold-formed", "hot-finished"]
TUBES = [
    ("square", "cold-formed", 0.060, 0.060, 0.003),
    ("square", "hot-finished", 0.080, 0.080, 0.004),
    ("rectangular", "cold-formed", 0.040, 0.060, 0.003),
    ("rectangular", "cold-formed", 0.120, 0.080, 0.008),
    ("rectangular", "hot-finished", 0.100, 0.200, 0.016),
    ("square", "cold-formed", 0.150, 0.150, 0.012),
    ("round", "hot-finished", 0.0603, 0.0603, 0.0032),
    ("round", "cold-formed", 0.0424, 0.0424, 0.008),
]
SECTION_FUNCTIONS = [
    tube_second_moment,
    tube_elastic_section_modulus,
    tube_plastic_section_modulus,
    tube_radius_of_gyration,
]


def chord(distance, across, along, radius):
    """Width at a distance from the axis of a rectangle with rounded corners."""
    if distance >= along / 2.0:
        return 0.0
    into_corner = max(distance - (along / 2.0 - radius), 0.0)
    return across - 2.0 * radius + 2.0 * math.sqrt(radius**2 - into_corner**2)


def integrated(tube, axis, weight):
    """Twice the integral over the upper half of width × weight, kinks given to the integrator."""
    shape, finish, width, depth, wall = tube
    along, across = max(width, depth), min(width, depth)
    if axis == "minor":
        along, across = across, along
    outside = inside = along / 2.0
    if shape == "round":
        inside = outside - wall
    else:
        outside = tube_corner_radius(finish, wall, "outside")
        inside = tube_corner_radius(finish, wall, "inside")

    def wall_width(z):
        hollow = chord(z, across - 2.0 * wall, along - 2.0 * wall, inside)
        return chord(z, across, along, outside) - hollow

    kinks = sorted({along / 2.0 - outside, along / 2.0 - wall - inside, along / 2.0 - wall})
    kinks = [0.0, *(kink for kink in kinks if 0.0 < kink < along / 2.0), along / 2.0]
    # Moments of some 1e-8 m⁴: without epsabs=0 the integrator would be content with nothing.
    return 2.0 * sum(
        quad(lambda z: wall_width(z) * weight(z), low, high, epsabs=0.0, epsrel=1e-10)[0]
        for low, high in pairwise(kinks)
    )


# An independent result of numerical integration (scipy), no published value.
@pytest.mark.parametrize("tube", TUBES)
def test_area_by_integration(tube):
    assert tube_area(*tube) == pytest.approx(integrated(tube, "major", lambda z: 1.0), rel=1e-9)


@pytest.mark.parametrize("axis", ["major", "minor"])
@pytest.mark.parametrize("tube", TUBES)
def test_second_moment_by_integration(tube, axis):
    expected = integrated(tube, axis, lambda z: z**2)
    assert tube_second_moment(*tube, axis) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("axis", ["major", "minor"])
@pytest.mark.parametrize("tube", TUBES)
def test_plastic_modulus_by_integration(tube, axis):
    expected = integrated(tube, axis, lambda z: z)
    assert tube_plastic_section_modulus(*tube, axis) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("axis", ["major", "minor"])
@pytest.mark.parametrize("tube", TUBES)
def test_derived_properties_agree(tube, axis):
    larger, smaller = max(tube[2:4]), min(tube[2:4])
    distance = (larger if axis == "major" else smaller) / 2.0
    second_moment = tube_second_moment(*tube, axis)
    assert tube_elastic_section_modulus(*tube, axis) * distance == pytest.approx(second_moment)
    assert tube_radius_of_gyration(*tube, axis) ** 2 * tube_area(*tube) == pytest.approx(
        second_moment
    )


def test_width_and_depth_may_be_swapped():
    for function in SECTION_FUNCTIONS:
        for axis in ("major", "minor"):
            assert function("rectangular", "cold-formed", 0.04, 0.06, 0.003, axis) == function(
                "rectangular", "cold-formed", 0.06, 0.04, 0.003, axis
            )


def test_equal_sides_make_a_rectangle_a_square():
    for function in SECTION_FUNCTIONS:
        for axis in ("major", "minor"):
            assert function("rectangular", "cold-formed", 0.06, 0.06, 0.003, axis) == function(
                "square", "cold-formed", 0.06, 0.06, 0.003, axis
            )


def test_finish_is_idle_for_round_tubes():
    for function in SECTION_FUNCTIONS:
        cold = function("round", "cold-formed", 0.06, 0.06, 0.003, "major")
        assert cold == function("round", "hot-finished", 0.06, 0.06, 0.003, "minor")


@given(
    side=st.floats(0.03, 0.4),
    ratio=st.floats(0.01, 0.15),
    stretch=st.floats(1.0, 3.0),
    finish=st.sampled_from(FINISHES),
)
def test_properties_of_any_tube(side, ratio, stretch, finish):
    tube = ("rectangular", finish, side, side * stretch, side * ratio)
    major, minor = (tube_second_moment(*tube, axis) for axis in ("major", "minor"))
    assert 0.0 < minor <= major * (1.0 + 1e-12)
    for axis in ("major", "minor"):
        shape_factor = tube_plastic_section_modulus(*tube, axis) / tube_elastic_section_modulus(
            *tube, axis
        )
        # A hollow rectangle lies between thin flanges (1) and a solid bar (1.5).
        assert 1.0 < shape_factor < 1.5
    # Sharp corners bound the area from above.
    assert tube_area(*tube) < 2.0 * side * ratio * side * (1.0 + stretch - 2.0 * ratio)


@given(side=st.floats(0.03, 0.4), ratio=st.floats(0.01, 0.14), finish=st.sampled_from(FINISHES))
def test_hot_finished_is_never_weaker(side, ratio, finish):
    size = (side, side, side * ratio)
    cold = tube_second_moment("square", "cold-formed", *size, "major")
    assert tube_second_moment("square", finish, *size, "major") >= cold


@given(diameter=st.floats(0.01, 0.5), ratio=st.floats(0.01, 0.45), scale=st.floats(0.1, 10.0))
def test_round_tubes_scale(diameter, ratio, scale):
    small = ("round", "cold-formed", diameter, diameter, diameter * ratio)
    large = ("round", "cold-formed", *(scale * size for size in small[2:]))
    assert tube_area(*large) == pytest.approx(scale**2 * tube_area(*small))
    for function, power in zip(SECTION_FUNCTIONS, (4, 3, 3, 1), strict=True):
        assert function(*large, "major") == pytest.approx(scale**power * function(*small, "major"))


def test_thick_round_tube_tends_to_the_solid_bar():
    tube = ("round", "hot-finished", 0.05, 0.05, 0.025 - 1e-7)
    assert tube_area(*tube) == pytest.approx(math.pi * 0.05**2 / 4.0, rel=1e-5)
    assert tube_second_moment(*tube, "major") == pytest.approx(math.pi * 0.05**4 / 64.0, rel=1e-5)
    assert tube_plastic_section_modulus(*tube, "major") == pytest.approx(0.05**3 / 6.0, rel=1e-5)


def test_mass_is_area_times_density():
    tube = TUBES[0]
    assert tube_linear_mass(*tube, 2700.0) == pytest.approx(2700.0 * tube_area(*tube))


@pytest.mark.parametrize("wall", [0.25 * 25.4e-3 * 6.0 / 6.35, 0.0060000000000000001])
def test_a_wall_of_six_millimetres_by_any_route_keeps_its_corner(wall):
    assert tube_corner_radius("cold-formed", wall, "outside") == pytest.approx(0.012, rel=1e-9)


@pytest.mark.parametrize(
    ("tube", "says"),
    [
        (("square", "cold-formed", 0.06, 0.05, 0.003), "must be equal"),
        (("round", "cold-formed", 0.06, 0.05, 0.003), "must be equal"),
        (("square", "cold-formed", 0.06, 0.06, 0.03), "hollow"),
        (("square", "cold-formed", 0.06, 0.06, 0.016), "corner radii"),
        (("square", "hot-finished", 0.06, 0.06, 0.021), "corner radii"),
        (("round", "hot-finished", 0.06, 0.06, 0.031), "hollow"),
        (("square", "cold-formed", 0.06, 0.06, 0.0), "greater than 0"),
        (("square", "cold-formed", -0.06, 0.06, 0.003), "greater than 0"),
        (("square", "cold-formed", math.nan, 0.06, 0.003), "greater than 0"),
        (("square", "cold-formed", 0.06, math.inf, 0.003), "greater than 0"),
        (("hexagonal", "cold-formed", 0.06, 0.06, 0.003), "shape"),
        (("square", "cast", 0.06, 0.06, 0.003), "finish"),
    ],
)
def test_impossible_tubes_are_refused(tube, says):
    with pytest.raises(OutOfRange, match=says):
        tube_area(*tube)
    for function in SECTION_FUNCTIONS:
        with pytest.raises(OutOfRange, match=says):
            function(*tube, "major")


@pytest.mark.parametrize("shape", ["square", "round"])
@pytest.mark.parametrize("function", SECTION_FUNCTIONS)
def test_an_unknown_axis_is_refused(function, shape):
    with pytest.raises(OutOfRange, match="axis"):
        function(shape, "cold-formed", 0.06, 0.06, 0.003, "y")


@pytest.mark.parametrize("density", [0.0, -7850.0, math.nan, math.inf])
def test_impossible_densities_are_refused(density):
    with pytest.raises(OutOfRange, match="density"):
        tube_linear_mass(*TUBES[0], density)


@pytest.mark.parametrize("wall", [0.0, -0.003, math.nan])
def test_corner_of_no_wall_is_refused(wall):
    with pytest.raises(OutOfRange, match="wall"):
        tube_corner_radius("cold-formed", wall, "outside")


def test_an_unknown_face_of_a_corner_is_refused():
    with pytest.raises(OutOfRange, match="face"):
        tube_corner_radius("cold-formed", 0.003, "middle")
