"""Torque and preload."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.threads import basic_pitch_diameter, tensile_stress_area
from checker.engineering.tightening import (
    mean_bearing_diameter,
    nut_factor,
    permissible_preload,
    preload_from_torque,
    preload_from_torque_by_nut_factor,
    smallest_preload,
    tightening_torque,
    tightening_torque_by_nut_factor,
)

frictions = st.floats(0.04, 0.4)
forces = st.floats(10.0, 1e6)
M10 = {"pitch": 0.0015, "pitch_diameter": 0.009026, "bearing_diameter": 0.0128}


@given(forces, frictions, frictions)
def test_torque_and_preload_are_inverse(preload, thread_friction, head_friction):
    friction = {"thread_friction": thread_friction, "head_friction": head_friction}
    torque = tightening_torque(preload, **M10, **friction)
    assert preload_from_torque(torque, **M10, **friction) == pytest.approx(preload)


@given(frictions, st.floats(1.01, 2.0))
def test_more_friction_takes_more_torque_and_leaves_less_preload(friction, more):
    low = {"thread_friction": friction, "head_friction": friction}
    high = {"thread_friction": friction * more, "head_friction": friction * more}
    assert tightening_torque(1e4, **M10, **high) > tightening_torque(1e4, **M10, **low)
    area = {"stress_area": 58e-6, "proof_strength": 640e6, "utilisation": 0.9, "pitch": 0.0015}
    loose = permissible_preload(**area, pitch_diameter=0.009026, thread_friction=friction)
    tight = permissible_preload(**area, pitch_diameter=0.009026, thread_friction=friction * more)
    assert tight < loose < 0.9 * 640e6 * 58e-6


# Shigley 9th ed., equation 8-26, an independent form with the true lead angle: 3551 lbf·in for
# ¾-16 UNF, 25 kip, f = f_c = 0.15, collar 1.25·d (arithmetic of the equation). The guideline's form
# leaves out a second-order term: within 0.5 %.
def test_against_the_exact_screw():
    diameter, pitch, preload, friction = 0.75, 1 / 16, 25000.0, 0.15
    mean = basic_pitch_diameter(diameter, pitch)
    lead, secant = pitch / (math.pi * mean), 1 / math.cos(math.radians(30))
    screw = mean / 2 * (lead + friction * secant) / (1 - friction * lead * secant)
    exact = preload * (screw + 0.625 * friction * diameter)
    assert exact == pytest.approx(3551, abs=1.0)
    found = tightening_torque(preload, pitch, mean, friction, 1.25 * diameter, friction)
    assert found == pytest.approx(exact, rel=0.005)


# Arithmetic of the VDI 2230 forms for coarse threads of class 8.8, done apart from this code:
# torque at 90 % of yield, within 0.5 % for its rounded stress areas.
@pytest.mark.parametrize(
    ("size", "pitch", "face", "hole", "friction", "torque"),
    [
        (8, 1.25, 11.63, 9.0, 0.12, 24.5),
        (10, 1.5, 14.63, 11.0, 0.12, 48.3),
        (12, 1.75, 16.63, 13.5, 0.12, 83.0),
        (8, 1.25, 11.63, 9.0, 0.14, 27.2),
        (10, 1.5, 14.63, 11.0, 0.14, 53.7),
        (12, 1.75, 16.63, 13.5, 0.14, 92.8),
    ],
)
def test_coarse_threads(size, pitch, face, hole, friction, torque):
    diameter, pitch_m = size / 1e3, pitch / 1e3
    pitch_diameter = basic_pitch_diameter(diameter, pitch_m)
    area = tensile_stress_area(diameter, pitch_m)
    preload = permissible_preload(area, 640e6, 0.9, pitch_m, pitch_diameter, friction)
    bearing = mean_bearing_diameter(face / 1e3, hole / 1e3)
    found = tightening_torque(preload, pitch_m, pitch_diameter, friction, bearing, friction)
    assert found == pytest.approx(torque, rel=0.005)


@given(st.floats(0.05, 0.5), st.floats(0.003, 0.03), forces)
def test_nut_factor_forms_agree(factor, diameter, preload):
    torque = tightening_torque_by_nut_factor(factor, diameter, preload)
    assert nut_factor(torque, diameter, preload) == pytest.approx(factor)
    assert preload_from_torque_by_nut_factor(factor, diameter, torque) == pytest.approx(preload)


@given(forces, st.floats(1.0, 5.0))
def test_scatter_never_raises_preload(preload, factor):
    assert 0.0 < smallest_preload(preload, factor) <= preload


@pytest.mark.parametrize("factor", [0.9, 5.1, 0.0, math.nan])
def test_impossible_tightening_factor(factor):
    with pytest.raises(OutOfRange, match="tightening factor"):
        smallest_preload(1e4, factor)


@pytest.mark.parametrize("friction", [0.0, -0.1, 1.0, math.nan])
def test_impossible_friction(friction):
    with pytest.raises(OutOfRange, match="friction"):
        tightening_torque(1e4, **M10, thread_friction=friction, head_friction=0.12)
    with pytest.raises(OutOfRange, match="friction"):
        preload_from_torque(50.0, **M10, thread_friction=0.12, head_friction=friction)
    with pytest.raises(OutOfRange, match="friction"):
        permissible_preload(58e-6, 640e6, 0.9, 0.0015, 0.009026, friction)


@pytest.mark.parametrize("utilisation", [0.0, 1.01, math.nan])
def test_impossible_share_of_yield(utilisation):
    with pytest.raises(OutOfRange, match="share of yield"):
        permissible_preload(58e-6, 640e6, utilisation, 0.0015, 0.009026, 0.12)


def test_impossible_head_and_nut_factor():
    with pytest.raises(OutOfRange, match="wider than"):
        mean_bearing_diameter(0.009, 0.009)
    with pytest.raises(OutOfRange, match="nut factor"):
        tightening_torque_by_nut_factor(20.0, 0.010, 1e4)
    with pytest.raises(OutOfRange, match="preload"):
        nut_factor(50.0, 0.010, 0.0)
