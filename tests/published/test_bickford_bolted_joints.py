"""Bickford, Introduction to the Design and Behavior of Bolted Joints, 4th ed., metric threads.

Table of stress and shear areas of selected M series threads, 6g bolt in 6H nut, engaged one
diameter, printed to five significant digits. Limits of size: ASME B1.13M. Confidence: checked
(areas, and limits except where said).
"""

from __future__ import annotations

import pytest

from checker.engineering.threads import (
    basic_internal_shear_area,
    external_thread_shear_area,
    internal_thread_shear_area,
    tensile_stress_area,
)

# Pitch; bolt least major and least pitch diameter; nut largest minor and pitch diameter, in mm.
# From-memory: the third decimal of M12's bolt, and M6's 5.153.
LIMITS = {
    5: (0.8, 4.826, 4.361, None, 4.605),
    6: (1.0, 5.794, 5.212, 5.153, 5.500),
    8: (1.25, 7.760, 7.042, 6.912, 7.348),
    10: (1.5, 9.732, 8.862, 8.676, 9.206),
    12: (1.75, 11.701, 10.679, 10.441, 11.063),
}


# Table, "nut thread strip area", mm². Limits of size to 0.001 mm move the area by 0.02 %; checked.
@pytest.mark.parametrize(
    ("size", "printed"), [(5, 49.994), (6, 73.145), (8, 134.63), (10, 214.77), (12, 313.41)]
)
def test_nut_strip_area(size, printed):
    pitch, major, _, _, nut_pitch = LIMITS[size]
    found = internal_thread_shear_area(pitch / 1e3, major / 1e3, nut_pitch / 1e3, size / 1e3)
    assert found * 1e6 == pytest.approx(printed, rel=2e-4)


# Table, "bolt thread strip area" 6H/6g, mm². Same tolerance; checked.
@pytest.mark.parametrize(
    ("size", "printed"), [(6, 51.875), (8, 97.290), (10, 155.80), (12, 227.72)]
)
def test_bolt_strip_area(size, printed):
    pitch, _, bolt_pitch, nut_minor, _ = LIMITS[size]
    found = external_thread_shear_area(pitch / 1e3, nut_minor / 1e3, bolt_pitch / 1e3, size / 1e3)
    assert found * 1e6 == pytest.approx(printed, rel=2e-4)


# Table, "tensile stress area", mm², printed to five digits; checked.
@pytest.mark.parametrize(
    ("size", "pitch", "printed", "half_unit"),
    [
        (5, 0.8, 14.183, 0.0005),
        (6, 1.0, 20.123, 0.0005),
        (8, 1.25, 36.609, 0.0005),
        (10, 1.5, 57.990, 0.0005),
        (12, 1.75, 84.267, 0.0005),
        (16, 2.0, 156.67, 0.005),
        (20, 2.5, 244.79, 0.005),
        (24, 3.0, 352.50, 0.005),
    ],
)
def test_tensile_stress_area(size, pitch, printed, half_unit):
    found = tensile_stress_area(size / 1e3, pitch / 1e3) * 1e6
    assert found == pytest.approx(printed, abs=half_unit)


# Easy to misread: the handbooks' short form 0.875·π·d·L is 31 % more than this table's M8.
def test_basic_size_is_not_the_slack_pair():
    found = basic_internal_shear_area(0.008, 0.008) * 1e6
    assert found / 134.63 == pytest.approx(1.31, abs=0.01)
