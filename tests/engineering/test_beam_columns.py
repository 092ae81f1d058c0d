"""Compression with bending: limits of the interaction factors and refused values."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.beam_columns import (
    axial_utilisation,
    beam_column_utilisation,
    cantilever_post_utilisation,
    cross_interaction_factor_major,
    cross_interaction_factor_minor,
    cross_interaction_factor_torsion,
    equivalent_moment_factor,
    interaction_factor,
    interaction_factor_minor_i_section,
    moment_resistance,
)
from checker.engineering.limits import OutOfRange

FACTORS = [
    interaction_factor,
    interaction_factor_minor_i_section,
    cross_interaction_factor_torsion,
]
classes = st.sampled_from([1.0, 2.0, 3.0])
moment_factors = st.floats(0.4, 1.0)
slendernesses = st.floats(0.0, 5.0)
shares = st.floats(0.0, 1.0)


# Arithmetic of the formulas for one post: SHS 60 × 60 × 3, 2.0 m, S235, N 894.7 N, M 1089.3 N·m.
def test_one_post_from_end_to_end():
    share = axial_utilisation(894.7, 34.85e3)
    assert share == pytest.approx(0.0257, abs=0.0001)
    factor = interaction_factor(1.0, equivalent_moment_factor("sway", 0.0), 1.848, share)
    assert factor == pytest.approx(0.918, abs=0.001)
    resistance = moment_resistance(14.0e-6, 235e6, 1.0)
    whole = cantilever_post_utilisation(894.7, 34.85e3, factor, 1089.3, resistance)
    assert whole == pytest.approx(0.330, abs=0.001)


# By hand, each branch of Table B.1 and B.2 once, C_m 0.9, n 0.5.
@pytest.mark.parametrize(
    ("function", "section_class", "slender", "expected"),
    [
        (interaction_factor, 1.0, 0.6, 0.9 * 1.2),
        (interaction_factor, 2.0, 1.4, 0.9 * 1.4),
        (interaction_factor, 3.0, 0.5, 0.9 * 1.15),
        (interaction_factor, 3.0, 2.0, 0.9 * 1.3),
        (interaction_factor_minor_i_section, 1.0, 0.8, 0.9 * 1.5),
        (interaction_factor_minor_i_section, 2.0, 2.0, 0.9 * 1.7),
        (interaction_factor_minor_i_section, 3.0, 2.0, 0.9 * 1.3),
        (cross_interaction_factor_torsion, 1.0, 0.5, 1.0 - 0.1 * 0.5 / 0.65 * 0.5),
        (cross_interaction_factor_torsion, 1.0, 2.0, 1.0 - 0.1 / 0.65 * 0.5),
        (cross_interaction_factor_torsion, 2.0, 0.3, 0.9),
        (cross_interaction_factor_torsion, 3.0, 0.5, 1.0 - 0.05 * 0.5 / 0.65 * 0.5),
    ],
)
def test_each_branch_by_hand(function, section_class, slender, expected):
    assert function(section_class, 0.9, slender, 0.5) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("section_class", "minor", "major"), [(1.0, 0.54, 0.54), (2.0, 0.54, 0.54), (3.0, 0.9, 0.72)]
)
def test_cross_factors_by_class(section_class, minor, major):
    assert cross_interaction_factor_minor(section_class, 0.9) == pytest.approx(minor)
    assert cross_interaction_factor_major(section_class, 0.9) == pytest.approx(major)


@given(
    section_class=classes, factor=moment_factors, slender=slendernesses, more=shares, share=shares
)
def test_own_axis_factor_grows_with_slenderness_up_to_its_cap(
    section_class, factor, slender, more, share
):
    for function in (interaction_factor, interaction_factor_minor_i_section):
        value = function(section_class, factor, slender, share)
        assert value <= function(section_class, factor, slender + more, share) + 1e-12
        assert value <= factor * (1.0 + 1.4 * share) + 1e-12


@given(section_class=classes, factor=moment_factors, slender=slendernesses)
def test_without_compression_only_the_moment_factor_is_left(section_class, factor, slender):
    assert interaction_factor(section_class, factor, slender, 0.0) == factor
    assert interaction_factor_minor_i_section(section_class, factor, slender, 0.0) == factor


@given(axial=st.floats(0.0, 1e5), major=st.floats(-1e4, 1e4), minor=st.floats(-1e4, 1e4))
def test_utilisation_adds_its_three_parts(axial, major, minor):
    whole = beam_column_utilisation(axial, 4e4, 0.9, major, 3e3, 0.6, minor, 2e3)
    parts = axial / 4e4 + 0.9 * abs(major) / 3e3 + 0.6 * abs(minor) / 2e3
    assert whole == pytest.approx(parts)
    reversed_signs = beam_column_utilisation(axial, 4e4, 0.9, -major, 3e3, 0.6, -minor, 2e3)
    assert whole == reversed_signs


def test_a_post_is_a_member_without_minor_moment():
    post = cantilever_post_utilisation(900.0, 35e3, 0.92, 1100.0, 3290.0)
    assert post == beam_column_utilisation(900.0, 35e3, 0.92, 1100.0, 3290.0, 0.5, 0.0, 1e3)


@pytest.mark.parametrize("function", FACTORS)
@pytest.mark.parametrize(
    "arguments",
    [
        (4.0, 0.9, 1.0, 0.1),
        (0.0, 0.9, 1.0, 0.1),
        (math.nan, 0.9, 1.0, 0.1),
        (1.0, 0.39, 1.0, 0.1),
        (1.0, 1.01, 1.0, 0.1),
        (1.0, 0.9, -0.1, 0.1),
        (1.0, 0.9, math.inf, 0.1),
        (1.0, 0.9, 1.0, -0.1),
        (1.0, 0.9, 1.0, math.nan),
    ],
)
def test_arguments_outside_annex_b_are_refused(function, arguments):
    with pytest.raises(OutOfRange):
        function(*arguments)


@pytest.mark.parametrize(
    "function", [cross_interaction_factor_minor, cross_interaction_factor_major]
)
@pytest.mark.parametrize("arguments", [(4.0, 0.9), (1.0, 0.0), (1.0, math.nan)])
def test_impossible_cross_factors_are_refused(function, arguments):
    with pytest.raises(OutOfRange):
        function(*arguments)


# Tension is no matter of buckling: the clause does not cover it.
@pytest.mark.parametrize("axial", [-1.0, math.nan, math.inf])
def test_tension_is_refused(axial):
    with pytest.raises(OutOfRange, match="compression"):
        axial_utilisation(axial, 35e3)
    with pytest.raises(OutOfRange, match="compression"):
        cantilever_post_utilisation(axial, 35e3, 0.9, 100.0, 3290.0)


@pytest.mark.parametrize(
    ("place", "bad"),
    [(1, 0.0), (2, -0.1), (3, math.nan), (4, 0.0), (5, -0.1), (6, math.inf), (7, -1.0)],
)
def test_impossible_members_are_refused(place, bad):
    arguments = [900.0, 35e3, 0.92, 1100.0, 3290.0, 0.5, 100.0, 3290.0]
    arguments[place] = bad
    with pytest.raises(OutOfRange):
        beam_column_utilisation(*arguments)


@pytest.mark.parametrize(("mode", "ratio"), [("sway", 1.1), ("non-sway", -1.1), ("braced", 0.0)])
def test_impossible_moment_diagrams_are_refused(mode, ratio):
    with pytest.raises(OutOfRange):
        equivalent_moment_factor(mode, ratio)


@pytest.mark.parametrize("arguments", [(0.0, 235e6, 1.0), (1e-5, 0.0, 1.0), (1e-5, 235e6, 0.0)])
def test_impossible_moment_resistances_are_refused(arguments):
    with pytest.raises(OutOfRange):
        moment_resistance(*arguments)


def test_the_lower_bound_of_stocky_members_is_for_plastic_sections_only() -> None:
    # EN 1993-1-1 table B.2: k_zy <= 0.6 + λ̄_z below 0.4, in its column for classes 1 and 2.
    for slenderness, axial_ratio in ((0.1, 0.0), (0.2, 0.3), (0.39, 0.5)):
        plastic = cross_interaction_factor_torsion(1.0, 0.9, slenderness, axial_ratio)
        assert plastic == pytest.approx(
            min(0.6 + slenderness, 1.0 - 0.1 * slenderness / 0.65 * axial_ratio)
        )
        elastic = cross_interaction_factor_torsion(3.0, 0.9, slenderness, axial_ratio)
        assert elastic == pytest.approx(1.0 - 0.05 * slenderness / 0.65 * axial_ratio)
