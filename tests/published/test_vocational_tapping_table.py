"""Vocational handbook for metal trades, core-hole table d − P. Confidence: checked."""

from __future__ import annotations

import pytest

from checker.engineering.threads import tapping_drill_diameter


# Vocational handbook, core-hole table, printed to 0.05 mm; checked.
@pytest.mark.parametrize(
    ("diameter_mm", "pitch_mm", "printed"),
    [(6, 1.0, 5.0), (8, 1.25, 6.75), (10, 1.5, 8.5), (12, 1.75, 10.25)],
)
def test_core_hole(diameter_mm, pitch_mm, printed):
    found = tapping_drill_diameter(diameter_mm / 1e3, pitch_mm / 1e3) * 1e3
    assert found == pytest.approx(printed, abs=0.005)
