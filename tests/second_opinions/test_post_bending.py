"""Deflection and stiffness of a post against beam elements and an integration of the curvature."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from checker.engineering.beams import (
    base_rotation,
    bending_stress,
    combined_normal_stress,
    tip_deflection_base_rotation,
    tip_deflection_end_moment,
    tip_deflection_side_force,
    tip_rotation_end_moment,
    tip_rotation_side_force,
    tip_stiffness,
    tip_stiffness_flexible_base,
)
from checker.engineering.members import critical_force, second_order_amplification

E = 210e9
I = 35.1e-8  # noqa: E741
LENGTH = 2.0


def test_side_force_and_moment_at_the_top(cantilever: Callable[..., Any]) -> None:
    # Cubic elements are exact under loads at their nodes: only rounding is left.
    post = cantilever(LENGTH, E * I)
    deflection, rotation = post.tip(force=100.0)
    assert tip_deflection_side_force(100.0, LENGTH, E, I) == pytest.approx(deflection, rel=1e-8)
    assert tip_rotation_side_force(100.0, LENGTH, E, I) == pytest.approx(rotation, rel=1e-8)
    assert tip_stiffness(LENGTH, E, I) == pytest.approx(100.0 / deflection, rel=1e-8)
    deflection, rotation = post.tip(moment=140.2)
    assert tip_deflection_end_moment(140.2, LENGTH, E, I) == pytest.approx(deflection, rel=1e-8)
    assert tip_rotation_end_moment(140.2, LENGTH, E, I) == pytest.approx(rotation, rel=1e-8)


@pytest.mark.parametrize("base", [5e3, 50e3, 5e6])
def test_a_foot_that_turns(cantilever: Callable[..., Any], base: float) -> None:
    deflection, _ = cantilever(LENGTH, E * I, base_stiffness=base).tip(force=100.0)
    assert tip_stiffness_flexible_base(LENGTH, E, I, base) == pytest.approx(
        100.0 / deflection, rel=1e-8
    )
    rigid, _ = cantilever(LENGTH, E * I).tip(force=100.0)
    turned = tip_deflection_base_rotation(base_rotation(100.0 * LENGTH, base), LENGTH)
    assert turned == pytest.approx(deflection - rigid, rel=1e-6)


def test_curvature_integrated() -> None:
    # y'' = M(x)/(E I), marched along the post; the tolerance is the integrator's.
    def slope(x: float, state: Any) -> list[float]:
        return [state[1], 300.0 * (LENGTH - x) / (E * I)]

    end = solve_ivp(slope, (0.0, LENGTH), [0.0, 0.0], rtol=1e-10, atol=1e-14).y[:, -1]
    assert tip_deflection_side_force(300.0, LENGTH, E, I) == pytest.approx(end[0], rel=1e-8)
    assert tip_rotation_side_force(300.0, LENGTH, E, I) == pytest.approx(end[1], rel=1e-8)


def test_stress_over_the_section() -> None:
    # A solid rectangle of fibres, each strained as plane sections are: the forces and moments
    # that the stresses add up to are solved for, and the corner's stress is read off.
    width, depth, axial, major, minor = 0.06, 0.10, 5e3, 800.0, 300.0
    x, y = np.meshgrid(
        (np.arange(300) + 0.5) / 300 * width - width / 2.0,
        (np.arange(500) + 0.5) / 500 * depth - depth / 2.0,
    )
    cell = width * depth / x.size
    shapes = [np.ones_like(x), y, x]
    balance = np.array([[float((a * b).sum() * cell) for b in shapes] for a in shapes])
    flat, up, side = np.linalg.solve(balance, [axial, major, minor])
    corner = flat + up * depth / 2.0 + side * width / 2.0
    modulus_major, modulus_minor = width * depth**2 / 6.0, depth * width**2 / 6.0
    ours = combined_normal_stress(axial, width * depth, major, modulus_major, minor, modulus_minor)
    # Midpoint cells leave out 1/n² of the second moment: 1/300² = 1.1e-5.
    assert ours == pytest.approx(corner, rel=2e-5)
    assert bending_stress(major, modulus_major) == pytest.approx(up * depth / 2.0, rel=2e-5)


@pytest.mark.parametrize("share", [0.02, 0.1, 0.3])
def test_growth_of_the_sway_under_its_own_load(
    cantilever: Callable[..., Any], share: float
) -> None:
    post = cantilever(LENGTH, E * I)
    critical = critical_force(E, I, 2.0 * LENGTH)
    first, _ = post.tip(force=100.0)
    second, _ = post.tip(force=100.0, compression=share * critical)
    # The shape under a side force is not quite the buckled one: 1/(1 - N/Ncr) is known to be
    # within 2 % for a cantilever with N up to a third of the critical force.
    assert second_order_amplification(share * critical, critical) == pytest.approx(
        second / first, rel=0.02
    )
