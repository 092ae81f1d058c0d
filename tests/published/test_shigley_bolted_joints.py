"""Shigley's Mechanical Engineering Design, 9th ed., chapter 8. Confidence: checked."""

from __future__ import annotations

import math

import pytest

from checker.engineering.bolt_groups import (
    bolt_group_polar_moment,
    eccentric_bolt_force,
    largest_eccentric_bolt_force,
    shear_per_bolt,
)
from checker.engineering.preloaded_joint import bolt_stress_in_service, joint_constant
from checker.engineering.tightening import (
    nut_factor,
    preload_from_torque_by_nut_factor,
    tightening_torque_by_nut_factor,
)

ALONG = [-0.075, 0.075, 0.075, -0.075]
ACROSS = [-0.060, -0.060, 0.060, 0.060]


# Example 8-7, p. 457: r of each bolt printed 96.0 mm; checked.
def test_example_8_7_radius():
    found = math.sqrt(bolt_group_polar_moment(ALONG, ACROSS) / 4)
    assert found * 1e3 == pytest.approx(96.0, abs=0.05)


# Example 8-7, p. 458: primary shear printed 4 kN; checked.
def test_example_8_7_primary():
    assert shear_per_bolt(16e3, 4.0) / 1e3 == pytest.approx(4.0)


# Example 8-7, p. 458: secondary shear printed 17.7 kN; checked. So many bolts are told to share the
# direct load that only the turning part is left.
def test_example_8_7_secondary():
    polar_moment = bolt_group_polar_moment(ALONG, ACROSS)
    found = eccentric_bolt_force(16e3, 0.425, 1e12, polar_moment, 0.075, 0.060)
    assert found / 1e3 == pytest.approx(17.7, abs=0.05)


# Example 8-7, p. 458: resultants printed 21.0 kN (A and B, near the load) and 14.8 kN (C and D);
# checked.
@pytest.mark.parametrize(
    ("along", "across", "printed_kn"),
    [(0.075, -0.060, 21.0), (0.075, 0.060, 21.0), (-0.075, 0.060, 14.8), (-0.075, -0.060, 14.8)],
    ids=["A", "B", "C", "D"],
)
def test_example_8_7_resultants(along, across, printed_kn):
    polar_moment = bolt_group_polar_moment(ALONG, ACROSS)
    found = eccentric_bolt_force(16e3, 0.425, 4.0, polar_moment, along, across)
    assert found / 1e3 == pytest.approx(printed_kn, abs=0.05)


# Example 8-7, p. 458: critical bolts 21.0 kN, shear stress on 144 mm² printed 146 MPa; checked.
def test_example_8_7_largest():
    found = largest_eccentric_bolt_force(16e3, 0.425, ALONG, ACROSS)
    assert found / 1e3 == pytest.approx(21.0, abs=0.05)
    assert found / 144e-6 / 1e6 == pytest.approx(146.0, abs=0.5)


KIP, INCH = 4448.2216, 0.0254
KPSI = KIP / INCH**2


# Example 8-3, p. 439: C printed 0.320; checked.
def test_example_8_3_joint_constant():
    mlbf_per_inch = 1000.0 * KIP / INCH
    found = joint_constant(6.50 * mlbf_per_inch, 13.8 * mlbf_per_inch)
    assert found == pytest.approx(0.320, abs=0.0005)


# Example 8-3, p. 439: preload stress printed 67.02 kpsi, the case P = 0; checked.
def test_example_8_3_preload_stress():
    found = bolt_stress_in_service(25 * KIP, 0.320, 0.0, 0.373 * INCH**2)
    assert found / KPSI == pytest.approx(67.02, abs=0.005)


# Example 8-3, p. 439: service stress printed 72.17 kpsi with C 0.320 and P 6 kip; checked.
def test_example_8_3_service_stress():
    found = bolt_stress_in_service(25 * KIP, 0.320, 6 * KIP, 0.373 * INCH**2)
    assert found / KPSI == pytest.approx(72.17, abs=0.005)


# Example 8-3, part b, equation 8-27 with K 0.2: 3750 lbf·in; arithmetic of the equation, the
# printed torque stands on a page not read.
def test_example_8_3_torque():
    found = tightening_torque_by_nut_factor(0.2, 0.75 * INCH, 25 * KIP)
    assert found / (KIP / 1000 * INCH) == pytest.approx(3750.0, abs=0.5)


# Table 8-15, p. 439: black 0.30, zinc plated 0.20. A torque meant for zinc leaves a black bolt at
# two thirds of its preload; checked (factors), arithmetic (ratio).
def test_table_8_15_black_bolt_on_a_zinc_torque():
    torque = tightening_torque_by_nut_factor(0.20, 0.010, 25e3)
    assert preload_from_torque_by_nut_factor(0.30, 0.010, torque) / 25e3 == pytest.approx(2 / 3)
    assert nut_factor(torque, 0.010, 25e3) == pytest.approx(0.20)
