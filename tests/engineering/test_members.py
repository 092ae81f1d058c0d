"""Buckling of posts: second opinions by root finding, limits, and refused values."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from checker.engineering.limits import OutOfRange
from checker.engineering.members import (
    buckling_auxiliary,
    buckling_imperfection_factor,
    buckling_may_be_ignored,
    buckling_reduction,
    buckling_resistance,
    compression_resistance,
    critical_force,
    critical_force_flexible_base,
    hollow_section_buckling_curve,
    second_order_amplification,
    slenderness,
)

E, SECOND_MOMENT, AREA, YIELD = 210e9, 35.1e-8, 6.61e-4, 235e6
CURVES = ["a0", "a", "b", "c", "d"]
curves = st.sampled_from(CURVES)


def reduction_by_first_yield(lam, alpha):
    """χ from the Ayrton-Perry model: a bowed member whose second-order stress reaches yield.

    χ + η χ/(1 − χ λ̄²) = 1 with bow η = α (λ̄ − 0.2), solved numerically: the standard's curve is
    the closed form of it, so this is an independent route to the same number.
    """
    bow = alpha * (lam - 0.2)
    highest = min(1.0, 1.0 / lam**2) * (1.0 - 1e-12)
    return brentq(lambda chi: chi + bow * chi / (1.0 - chi * lam**2) - 1.0, 0.0, highest)


@pytest.mark.parametrize("curve", CURVES)
@pytest.mark.parametrize("lam", [0.25, 0.5, 1.0, 1.848, 3.0])
def test_reduction_by_first_yield(lam, curve):
    expected = reduction_by_first_yield(lam, buckling_imperfection_factor(curve))
    assert buckling_reduction(lam, curve) == pytest.approx(expected, rel=1e-9)


# Arithmetic of eq. (6.49): a0 at 1.0, and a, b, c at 2.0.
@pytest.mark.parametrize(
    ("lam", "curve", "chi"),
    [(1.0, "a0", 0.7253), (2.0, "a", 0.2229), (2.0, "b", 0.2095), (2.0, "c", 0.1962)],
)
def test_reduction_by_hand(lam, curve, chi):
    assert buckling_reduction(lam, curve) == pytest.approx(chi, abs=5e-5)


@given(lam=st.floats(0.0, 20.0), more=st.floats(0.0, 5.0), curve=curves)
def test_reduction_falls_with_slenderness(lam, more, curve):
    chi = buckling_reduction(lam, curve)
    assert 0.0 < buckling_reduction(lam + more, curve) <= chi <= 1.0
    if lam > 0.2:
        assert chi <= 1.0 / lam**2


@given(lam=st.floats(0.21, 20.0))
def test_curves_are_in_order(lam):
    values = [buckling_reduction(lam, curve) for curve in CURVES]
    assert values == sorted(values, reverse=True)
    assert len(set(values)) == len(CURVES)


@given(curve=curves)
def test_reduction_is_continuous_at_its_plateau(curve):
    assert buckling_reduction(0.2 + 1e-9, curve) == pytest.approx(1.0, abs=1e-8)
    assert buckling_auxiliary(0.2, curve) == pytest.approx(0.52)


# Independent result: the exact buckling equation k L·tan(k L) = k_θ L/(E I) of a free-standing post
# on a turning base, solved numerically.
@pytest.mark.parametrize("base_ratio", [1e-3, 0.1, 0.5, 1.0, 2.0, 2.58, 4.0, 10.0, 100.0, 1e5])
def test_flexible_base_against_the_exact_equation(base_ratio):
    length = 2.0
    base = base_ratio * E * SECOND_MOMENT / length
    root = brentq(lambda x: x * math.tan(x) - base_ratio, 1e-9, math.pi / 2.0 - 1e-12)
    exact = root**2 * E * SECOND_MOMENT / length**2
    lower_bound = critical_force_flexible_base(E, SECOND_MOMENT, length, base)
    assert lower_bound <= exact * (1.0 + 1e-6)
    assert lower_bound >= exact / 1.06


def test_a_very_stiff_base_is_rigid():
    rigid = critical_force(E, SECOND_MOMENT, 4.0)
    assert critical_force_flexible_base(E, SECOND_MOMENT, 2.0, 1e15) == pytest.approx(rigid)


def test_a_very_soft_base_is_a_rigid_bar_on_a_spring():
    assert critical_force_flexible_base(E, SECOND_MOMENT, 2.0, 10.0) == pytest.approx(5.0, rel=1e-3)


# Arithmetic of the formulas for one post: SHS 60 × 60 × 3 cold-formed, S235, 2.0 m, L_cr 4.0 m.
def test_one_post_from_end_to_end():
    critical = critical_force(E, SECOND_MOMENT, 4.0)
    assert critical / 1e3 == pytest.approx(45.5, abs=0.05)
    lam = slenderness(AREA, YIELD, critical)
    assert lam == pytest.approx(1.848, abs=0.001)
    curve = hollow_section_buckling_curve("cold-formed", YIELD)
    assert buckling_auxiliary(lam, curve) == pytest.approx(2.612, abs=0.002)
    chi = buckling_reduction(lam, curve)
    assert chi == pytest.approx(0.2243, abs=0.0002)
    assert buckling_resistance(chi, AREA, YIELD, 1.0) / 1e3 == pytest.approx(34.85, abs=0.03)
    assert buckling_may_be_ignored(lam, 894.7, critical)
    assert second_order_amplification(894.7, critical) == pytest.approx(1.020, abs=0.0005)


# Arithmetic: the tube of the Designers' Guide, Example 6.7, if it were cold-formed.
def test_cold_forming_costs_an_eighth():
    lam = slenderness(7370e-6, 355e6, critical_force(E, 5073e-8, 4.0))
    resistance = buckling_resistance(buckling_reduction(lam, "c"), 7370e-6, 355e6, 1.0)
    assert resistance / 1e3 == pytest.approx(2006, abs=1.0)


@given(length=st.floats(0.1, 20.0), factor=st.floats(1.0, 5.0))
def test_critical_force_falls_with_the_square_of_length(length, factor):
    assert critical_force(E, SECOND_MOMENT, factor * length) * factor**2 == pytest.approx(
        critical_force(E, SECOND_MOMENT, length)
    )


@given(lam=st.floats(0.05, 5.0))
def test_slenderness_undoes_its_definition(lam):
    assert slenderness(AREA, YIELD, AREA * YIELD / lam**2) == pytest.approx(lam)


@given(partial=st.floats(1.0, 1.5))
def test_partial_factor_divides(partial):
    assert compression_resistance(AREA, YIELD, partial) * partial == pytest.approx(AREA * YIELD)
    assert buckling_resistance(1.0, AREA, YIELD, partial) == compression_resistance(
        AREA, YIELD, partial
    )


BAD = [0.0, -1.0, math.nan, math.inf]


@pytest.mark.parametrize("bad", BAD)
@pytest.mark.parametrize(
    ("function", "good"),
    [
        (critical_force, (E, SECOND_MOMENT, 4.0)),
        (critical_force_flexible_base, (E, SECOND_MOMENT, 2.0, 5e4)),
        (slenderness, (AREA, YIELD, 45e3)),
        (compression_resistance, (AREA, YIELD, 1.0)),
        (buckling_resistance, (0.5, AREA, YIELD, 1.0)),
    ],
)
def test_impossible_values_are_refused(function, good, bad):
    for place in range(len(good)):
        arguments = list(good)
        arguments[place] = bad
        with pytest.raises(OutOfRange):
            function(*arguments)


@pytest.mark.parametrize("bad", [-0.1, math.nan, math.inf])
def test_impossible_slenderness_is_refused(bad):
    for function in (buckling_auxiliary, buckling_reduction):
        with pytest.raises(OutOfRange, match="slenderness"):
            function(bad, "a")
    with pytest.raises(OutOfRange, match="slenderness"):
        buckling_may_be_ignored(bad, 1.0, 1.0)


def test_an_unknown_curve_is_refused():
    for function in (buckling_auxiliary, buckling_reduction):
        with pytest.raises(OutOfRange, match="buckling curve"):
            function(1.0, "e")


def test_a_reduction_above_one_is_refused():
    with pytest.raises(OutOfRange, match="reduction factor"):
        buckling_resistance(1.01, AREA, YIELD, 1.0)


@pytest.mark.parametrize("strength", [160e6, 500e6, math.nan])
def test_other_materials_have_no_curve(strength):
    with pytest.raises(OutOfRange, match="yield strength"):
        hollow_section_buckling_curve("cold-formed", strength)


def test_an_unknown_finish_has_no_curve():
    with pytest.raises(OutOfRange, match="finish"):
        hollow_section_buckling_curve("welded", 235e6)


@pytest.mark.parametrize("axial", [16e3, 45e3, 46e3, -1.0, math.nan])
def test_amplification_needs_a_distance_from_buckling(axial):
    with pytest.raises(OutOfRange):
        second_order_amplification(axial, 45e3)


# Between tension and the limit the amplification grows from one to one and a half.
@given(share=st.floats(0.0, 1.0 / 3.0))
def test_amplification_grows(share):
    assert 1.0 <= second_order_amplification(share * 45e3, 45e3) <= 1.5 + 1e-9
