"""First natural frequency of a post against beam elements: tip mass, own mass, soft foot."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from checker.engineering.beams import tip_stiffness, tip_stiffness_flexible_base
from checker.engineering.vibration import (
    moving_mass,
    moving_mass_flexible_base,
    natural_frequency,
)

E = 210e9
# 60 × 60 × 3 cold-formed, 5.19 kg/m; 80 × 80 × 4.
POSTS = [(35.1e-8, 5.19), (111e-8, 9.22)]


@pytest.mark.parametrize(("second_moment", "linear_mass"), POSTS)
@pytest.mark.parametrize("length", [1.0, 2.0, 3.5])
@pytest.mark.parametrize("tip", [10.0, 57.18, 150.0])
def test_rigid_foot(
    cantilever: Callable[..., Any],
    second_moment: float,
    linear_mass: float,
    length: float,
    tip: float,
) -> None:
    true = cantilever(
        length, E * second_moment, linear_mass=linear_mass, tip_mass=tip
    ).first_frequency()
    ours = natural_frequency(
        tip_stiffness(length, E, second_moment), moving_mass(tip, linear_mass, length)
    )
    # Rayleigh's quotient is never below the true value; the head is at least a third of the
    # post's mass here, which leaves 0.5 %.
    assert true <= ours * (1.0 + 1e-9)
    assert ours == pytest.approx(true, rel=5e-3)


def test_bare_post(cantilever: Callable[..., Any]) -> None:
    true = cantilever(2.0, E * 35.1e-8, linear_mass=5.19).first_frequency()
    ours = natural_frequency(tip_stiffness(2.0, E, 35.1e-8), moving_mass(0.0, 5.19, 2.0))
    # The docstring's own bound for a bare post: 1.5 % high.
    assert true < ours < 1.0151 * true


@pytest.mark.parametrize("base", [2e3, 20e3, 50e3, 500e3, 50e6])
@pytest.mark.parametrize("tip", [10.0, 57.18])
def test_foot_that_turns(cantilever: Callable[..., Any], base: float, tip: float) -> None:
    post = (2.0, 5.19, 35.1e-8)
    length, linear_mass, second_moment = post
    true = cantilever(
        length, E * second_moment, linear_mass=linear_mass, tip_mass=tip, base_stiffness=base
    ).first_frequency()
    stiffness = tip_stiffness_flexible_base(length, E, second_moment, base)
    mass = moving_mass_flexible_base(tip, linear_mass, length, E, second_moment, base)
    ours = natural_frequency(stiffness, mass)
    assert true <= ours * (1.0 + 1e-9)
    assert ours == pytest.approx(true, rel=3e-3)


def test_rotary_inertia_of_the_head_lowers_it(cantilever: Callable[..., Any]) -> None:
    # What the docstring says is neglected, and which way it errs: a head of 0.5 m radius of
    # gyration on a 2 m post takes some five per cent off, never adds.
    ours = natural_frequency(tip_stiffness(2.0, E, 35.1e-8), moving_mass(57.18, 5.19, 2.0))
    true = cantilever(
        2.0, E * 35.1e-8, linear_mass=5.19, tip_mass=57.18, tip_inertia=57.18 * 0.5**2
    ).first_frequency()
    assert 0.90 * ours < true < ours
