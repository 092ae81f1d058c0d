"""ISO 724:1993, Basic dimensions: pitch diameters. Confidence: checked (tap and tool tables)."""

from __future__ import annotations

import pytest

from checker.engineering.threads import basic_pitch_diameter


# ISO 724, d2 = D2 by thread and pitch in mm; checked.
@pytest.mark.parametrize(
    ("diameter_mm", "pitch_mm", "printed"),
    [
        (5, 0.8, 4.480),
        (6, 1.0, 5.350),
        (8, 1.25, 7.188),
        (10, 1.5, 9.026),
        (12, 1.75, 10.863),
        (16, 2.0, 14.701),
        (8, 1.0, 7.350),
        (10, 1.25, 9.188),
        (12, 1.25, 11.188),
    ],
)
def test_basic_pitch_diameter(diameter_mm, pitch_mm, printed):
    found = basic_pitch_diameter(diameter_mm / 1e3, pitch_mm / 1e3) * 1e3
    assert found == pytest.approx(printed, abs=0.0005)
