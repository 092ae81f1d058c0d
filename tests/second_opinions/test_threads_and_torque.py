"""Threads and tightening against the helix as an inclined plane and a drawn 60 degree thread."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from checker.engineering.threads import (
    basic_pitch_diameter,
    external_thread_shear_area,
    internal_thread_shear_area,
    tensile_stress_area,
)
from checker.engineering.tightening import (
    mean_bearing_diameter,
    permissible_preload,
    preload_from_torque,
    tightening_torque,
)

BOLTS = [(0.006, 0.001), (0.008, 0.00125), (0.010, 0.0015), (0.012, 0.00175), (0.016, 0.002)]


def thread_torque(preload: float, pitch: float, pitch_diameter: float, friction: float) -> float:
    """Torque that pushes the nut up its helix: forces on the flank solved as a system.

    Unknown are the push along the circumference and the force normal to the flank. The flank is
    tilted by 30 degrees across the thread and by the helix along it.
    """
    helix = math.atan(pitch / (math.pi * pitch_diameter))
    across = math.atan(math.tan(math.radians(30.0)) * math.cos(helix))
    # Normal of the flank: up, against the push, and radially (which cancels round the bolt).
    up, back = math.cos(across) * math.cos(helix), math.cos(across) * math.sin(helix)
    # Friction runs down the helix, against the nut's way.
    axial = [0.0, up - friction * math.sin(helix)]
    around = [1.0, -(back + friction * math.cos(helix))]
    push, _ = np.linalg.solve([around, axial], [0.0, preload])
    return float(push * pitch_diameter / 2.0)


@pytest.mark.parametrize(("diameter", "pitch"), BOLTS)
@pytest.mark.parametrize("friction", [0.08, 0.12, 0.2])
def test_torque(diameter: float, pitch: float, friction: float) -> None:
    pitch_diameter = basic_pitch_diameter(diameter, pitch)
    bearing = mean_bearing_diameter(1.5 * diameter, 1.1 * diameter)
    preload = 20e3
    true = (
        thread_torque(preload, pitch, pitch_diameter, friction) + preload * friction * bearing / 2.0
    )
    ours = tightening_torque(preload, pitch, pitch_diameter, friction, bearing, friction)
    # The guideline's linear form leaves out the product of helix and friction: 1 % at most.
    assert ours == pytest.approx(true, rel=0.01)
    back = preload_from_torque(ours, pitch, pitch_diameter, friction, bearing, friction)
    assert back == pytest.approx(preload, rel=1e-12)


@pytest.mark.parametrize(("diameter", "pitch"), BOLTS)
def test_preload_that_uses_a_share_of_yield(diameter: float, pitch: float) -> None:
    # Tension with the twist of the thread's torque, a fully plastic round core in shear; the
    # reduced stress after von Mises from the principal stresses of the matrix.
    area = tensile_stress_area(diameter, pitch)
    core = math.sqrt(4.0 * area / math.pi)
    pitch_diameter = basic_pitch_diameter(diameter, pitch)

    def left(preload: float) -> float:
        torque = thread_torque(preload, pitch, pitch_diameter, 0.12)
        shear = torque / (math.pi * core**3 / 12.0)
        one, two, three = np.linalg.eigvalsh(
            [[preload / area, shear, 0.0], [shear, 0.0, 0.0], [0.0, 0.0, 0.0]]
        )
        reduced = math.sqrt(((one - two) ** 2 + (two - three) ** 2 + (three - one) ** 2) / 2.0)
        return reduced - 0.9 * 640e6

    root = brentq(left, 1e2, 1e6)
    # As for the torque: the linear form is within 1 %.
    assert permissible_preload(area, 640e6, 0.9, pitch, pitch_diameter, 0.12) == pytest.approx(
        root, rel=0.01
    )


@pytest.mark.parametrize(("diameter", "pitch"), BOLTS)
def test_stress_area_of_a_drawn_thread(diameter: float, pitch: float) -> None:
    # The basic triangle of height H is drawn: pitch diameter at half its height, and the
    # bolt's root at a sixth of H above the sharp bottom.
    height = brentq(lambda h: 2.0 * h * math.tan(math.radians(30.0)) - pitch, 0.0, 2.0 * pitch)
    sharp_bottom = diameter / 2.0 + height / 8.0 - height
    pitch_radius = sharp_bottom + height / 2.0
    root_radius = sharp_bottom + height / 6.0
    assert basic_pitch_diameter(diameter, pitch) == pytest.approx(2.0 * pitch_radius, rel=1e-9)
    mean = pitch_radius + root_radius
    # The standard prints 0.9382 P for this; four digits.
    assert tensile_stress_area(diameter, pitch) == pytest.approx(math.pi / 4.0 * mean**2, rel=1e-5)


def drawn_width(pitch: float, pitch_diameter: float, at: float, *, inside: bool) -> float:
    """Axial width of a ridge of a 60 degree thread on a cylinder, from samples of its profile."""
    z = np.linspace(0.0, pitch, 400_001)
    triangle = np.abs(((z / pitch) % 1.0) * 2.0 - 1.0)
    # Radius of the flank surface at each place; the ridge's metal lies below it on the bolt,
    # above it in the hole. At the pitch diameter metal and gap are half the pitch each.
    surface = pitch_diameter / 2.0 + (triangle - 0.5) * pitch / (2.0 * math.tan(math.radians(30.0)))
    metal = surface < at / 2.0 if inside else surface > at / 2.0
    return float(np.count_nonzero(metal)) / z.size * pitch


def test_ring_that_a_head_bears_on() -> None:
    # Points of a washer face, spread evenly from the hole to its rim.
    ring = np.linspace(0.009, 0.01163, 100_001)
    assert mean_bearing_diameter(0.01163, 0.009) == pytest.approx(float(ring.mean()), rel=1e-9)


def test_shear_areas_of_drawn_threads() -> None:
    # M8: 6g bolt in a 6H hole at their slackest. The hole's metal is sheared on the cylinder of
    # the bolt's crests, the bolt's on that of the hole's crests.
    pitch, engagement = 0.00125, 0.010
    least_major, least_pitch, largest_pitch, largest_minor = 0.00776, 0.007042, 0.007348, 0.006912
    turns = engagement / pitch
    hole = (
        math.pi * least_major * drawn_width(pitch, largest_pitch, least_major, inside=True) * turns
    )
    assert internal_thread_shear_area(
        pitch, least_major, largest_pitch, engagement
    ) == pytest.approx(hole, rel=1e-4)
    bolt = (
        math.pi
        * largest_minor
        * drawn_width(pitch, least_pitch, largest_minor, inside=False)
        * turns
    )
    assert external_thread_shear_area(
        pitch, largest_minor, least_pitch, engagement
    ) == pytest.approx(bolt, rel=1e-4)
