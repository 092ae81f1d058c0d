"""FED-STD-H28/2B (1991), Screw-thread standards for federal services: the thread-strip formulas.

Read as quoted alike in public texts and in Machinery's Handbook, 24th ed. Confidence: checked
(formulas); results below that the standard does not print are arithmetic of the formulas.
"""

from __future__ import annotations

import math

import pytest

from checker.engineering.threads import (
    basic_internal_shear_area,
    basic_pitch_diameter,
    engagement_against_internal_stripping,
    internal_thread_shear_area,
    thread_shear_strength,
)


# H28/2B formula at basic size, 0.875·π·d·L_e as the handbooks print it; checked.
@pytest.mark.parametrize(("size", "pitch"), [(0.006, 0.001), (0.008, 0.00125), (0.012, 0.00175)])
def test_basic_size(size, pitch):
    full = internal_thread_shear_area(pitch, size, basic_pitch_diameter(size, pitch), size)
    assert basic_internal_shear_area(size, size) == pytest.approx(0.875 * math.pi * size**2)
    assert full == pytest.approx(basic_internal_shear_area(size, size), rel=1e-5)


# Arithmetic of the H28/2B formula: a class 8.8 bolt, 6g in 6H, in steel with f_u 360 MPa breaks
# first from 8.4 mm (M8) and 10.4 mm (M10), about one diameter.
@pytest.mark.parametrize(
    ("stress_area", "pitch", "major", "nut_pitch", "expected_mm"),
    [(36.6e-6, 0.00125, 0.00776, 0.007348, 8.4), (58.0e-6, 0.0015, 0.009732, 0.009206, 10.4)],
    ids=["M8", "M10"],
)
def test_bolt_breaks_first(stress_area, pitch, major, nut_pitch, expected_mm):
    found = engagement_against_internal_stripping(
        800e6 * stress_area, thread_shear_strength(360e6), pitch, major, nut_pitch
    )
    assert found * 1e3 == pytest.approx(expected_mm, abs=0.05)
