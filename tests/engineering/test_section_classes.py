"""Section classes: order of the limits and refused values."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.section_classes import (
    section_class,
    wall_slenderness,
    yield_strength_coefficient,
)

STRENGTHS = st.floats(215e6, 460e6)


@given(
    shape=st.sampled_from(["square", "rectangular", "round"]),
    slender=st.floats(0.0, 200.0),
    more=st.floats(0.0, 50.0),
    strength=STRENGTHS,
)
def test_class_never_improves_with_a_thinner_wall(shape, slender, more, strength):
    assert section_class(shape, slender, strength) <= section_class(shape, slender + more, strength)


@given(slender=st.floats(0.0, 120.0), weaker=STRENGTHS, stronger=STRENGTHS)
def test_class_never_improves_with_strength(slender, weaker, stronger):
    weaker, stronger = sorted((weaker, stronger))
    for shape in ("square", "round"):
        assert section_class(shape, slender, weaker) <= section_class(shape, slender, stronger)


def test_a_tube_drawn_on_the_limit_is_in_the_better_class():
    # c = 36 t − 3 t = 33 t, in numbers that do not divide evenly.
    assert section_class("square", wall_slenderness("square", 0.1188, 0.1188, 0.0033), 235e6) == 1.0


def test_the_widest_wall_counts():
    assert wall_slenderness("rectangular", 0.04, 0.10, 0.002) == pytest.approx(47.0)
    assert wall_slenderness("rectangular", 0.10, 0.04, 0.002) == pytest.approx(47.0)


def test_a_wall_that_is_all_corner_is_not_slender():
    assert wall_slenderness("square", 0.025, 0.025, 0.010) == 0.0


def test_epsilon_is_one_for_s235():
    assert yield_strength_coefficient(235e6) == 1.0


# 160 MPa is a plain aluminium alloy, 690 MPa a quenched steel; EN 1993-1-1 covers neither.
@pytest.mark.parametrize("strength", [0.0, -235e6, 160e6, 214e6, 461e6, 690e6, math.nan, math.inf])
def test_strengths_of_other_materials_are_refused(strength):
    with pytest.raises(OutOfRange, match="yield strength"):
        yield_strength_coefficient(strength)
    with pytest.raises(OutOfRange, match="yield strength"):
        section_class("square", 20.0, strength)


@pytest.mark.parametrize("slender", [-1.0, math.nan, math.inf])
def test_impossible_slenderness_is_refused(slender):
    with pytest.raises(OutOfRange, match="slenderness"):
        section_class("round", slender, 235e6)


@pytest.mark.parametrize(
    ("width", "depth", "wall"),
    [(0.0, 0.06, 0.003), (0.06, -0.06, 0.003), (0.06, 0.06, 0.0), (0.06, 0.06, 0.03)],
)
def test_impossible_tubes_are_refused(width, depth, wall):
    with pytest.raises(OutOfRange):
        wall_slenderness("square", width, depth, wall)


def test_unknown_shapes_are_refused():
    with pytest.raises(OutOfRange, match="shape"):
        section_class("angle", 20.0, 235e6)
    with pytest.raises(OutOfRange, match="shape"):
        wall_slenderness("angle", 0.06, 0.06, 0.003)
