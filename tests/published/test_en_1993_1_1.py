"""EN 1993-1-1:2005, figures that stand in the standard's own tables."""

from __future__ import annotations

import pytest

from checker.engineering.beam_columns import equivalent_moment_factor
from checker.engineering.members import (
    buckling_imperfection_factor,
    buckling_reduction,
    hollow_section_buckling_curve,
)
from checker.engineering.section_classes import section_class, yield_strength_coefficient


# EN 1993-1-1:2005, Table 6.1, imperfection factors. Confidence: checked.
@pytest.mark.parametrize(
    ("curve", "alpha"), [("a0", 0.13), ("a", 0.21), ("b", 0.34), ("c", 0.49), ("d", 0.76)]
)
def test_imperfection_factor(curve, alpha):
    assert buckling_imperfection_factor(curve) == alpha


# EN 1993-1-1:2005, Table 6.2, hollow sections, about any axis. Confidence: checked.
@pytest.mark.parametrize(
    ("finish", "yield_strength", "curve"),
    [
        ("hot-finished", 235e6, "a"),
        ("hot-finished", 355e6, "a"),
        ("hot-finished", 420e6, "a"),
        ("hot-finished", 460e6, "a0"),
        ("cold-formed", 235e6, "c"),
        ("cold-formed", 460e6, "c"),
    ],
)
def test_buckling_curve(finish, yield_strength, curve):
    assert hollow_section_buckling_curve(finish, yield_strength) == curve


# EN 1993-1-1:2005, Table 5.2, row of ε, as reproduced in the Designers' Guide, p. 41.
# Confidence: checked.
@pytest.mark.parametrize(
    ("yield_strength", "epsilon"),
    [(235e6, 1.00), (275e6, 0.92), (355e6, 0.81), (420e6, 0.75), (460e6, 0.71)],
)
def test_coefficient_epsilon(yield_strength, epsilon):
    assert yield_strength_coefficient(yield_strength) == pytest.approx(epsilon, abs=0.005)


# EN 1993-1-1:2005, Table 5.2, row of ε², same page; 235/275 = 0.8545 is printed 0.85.
# Confidence: checked.
@pytest.mark.parametrize(
    ("yield_strength", "squared"),
    [(235e6, 1.00), (275e6, 0.85), (355e6, 0.66), (420e6, 0.56), (460e6, 0.51)],
)
def test_coefficient_epsilon_squared(yield_strength, squared):
    assert yield_strength_coefficient(yield_strength) ** 2 == pytest.approx(squared, abs=0.005)


# EN 1993-1-1:2005, Table 5.2, sheet 1, internal parts in compression 33ε, 38ε, 42ε; sheet 3,
# tubular sections 50ε², 70ε², 90ε². Confidence: checked.
@pytest.mark.parametrize(
    ("shape", "limit", "better"),
    [
        ("square", 33.0, 1.0),
        ("rectangular", 38.0, 2.0),
        ("square", 42.0, 3.0),
        ("round", 50.0, 1.0),
        ("round", 70.0, 2.0),
        ("round", 90.0, 3.0),
    ],
)
@pytest.mark.parametrize("yield_strength", [235e6, 355e6])
def test_class_changes_at_the_limit(shape, limit, better, yield_strength):
    epsilon = (235e6 / yield_strength) ** (1.0 if shape == "round" else 0.5)
    assert section_class(shape, limit * epsilon, yield_strength) == better
    assert section_class(shape, limit * epsilon * 1.001, yield_strength) == better + 1.0


# EN 1993-1-1:2005, Table B.3: 0.6 + 0.4 ψ ≥ 0.4 for a linear moment; 0.9 for a sway mode (note).
# Confidence: checked.
@pytest.mark.parametrize(
    ("mode", "ratio", "factor"),
    [
        ("sway", 0.0, 0.9),
        ("sway", 1.0, 0.9),
        ("non-sway", 1.0, 1.0),
        ("non-sway", 0.0, 0.6),
        ("non-sway", -0.5, 0.4),
        ("non-sway", -1.0, 0.4),
    ],
)
def test_equivalent_moment_factor(mode, ratio, factor):
    assert equivalent_moment_factor(mode, ratio) == pytest.approx(factor, abs=1e-12)


# EN 1993-1-1:2005, 6.3.1.2(4): no reduction up to λ̄ = 0.2. Confidence: checked.
@pytest.mark.parametrize("curve", ["a0", "a", "b", "c", "d"])
def test_no_reduction_of_stocky_members(curve):
    assert buckling_reduction(0.2, curve) == 1.0
    assert buckling_reduction(0.21, curve) < 1.0
