"""Preloaded joints in service."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.preloaded_joint import (
    bolt_stress_in_service,
    joint_clamp_force,
    joint_constant,
)

stiffnesses = st.floats(1e5, 1e10)


@given(stiffnesses, stiffnesses, st.floats(0.01, 100.0))
def test_constant_is_a_share_without_scale(bolt, members, scale):
    share = joint_constant(bolt, members)
    assert 0.0 < share < 1.0
    assert joint_constant(bolt * scale, members * scale) == pytest.approx(share)
    assert share + joint_constant(members, bolt) == pytest.approx(1.0)


# What the bolt carries less what still clamps is the load: equilibrium of the joint.
@given(st.floats(1e3, 1e5), st.floats(0.0, 1.0), st.floats(0.0, 0.99))
def test_equilibrium(preload, constant, share):
    load = share * preload
    bolt = bolt_stress_in_service(preload, constant, load, 1e-4) * 1e-4
    assert bolt - joint_clamp_force(preload, constant, load) == pytest.approx(load, abs=1e-6)


def test_open_joint_is_negative_and_has_no_shared_stress():
    assert joint_clamp_force(1000.0, 0.25, 2000.0) == pytest.approx(-500.0)
    with pytest.raises(OutOfRange, match="opens a joint"):
        bolt_stress_in_service(1000.0, 0.25, 2000.0, 36.6e-6)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_impossible_values(bad):
    with pytest.raises(OutOfRange):
        joint_constant(bad, 1e8)
    with pytest.raises(OutOfRange):
        joint_constant(1e8, bad)
    with pytest.raises(OutOfRange):
        joint_clamp_force(bad, 0.25, 1000.0)
    with pytest.raises(OutOfRange):
        bolt_stress_in_service(1000.0, 0.25, 100.0, bad)


@pytest.mark.parametrize("constant", [-0.01, 1.01, math.nan])
def test_constant_outside_its_range(constant):
    with pytest.raises(OutOfRange, match="joint constant"):
        joint_clamp_force(1000.0, constant, 100.0)
