"""ISO 2306:1972, Drills for use prior to tapping screw threads, Table 1. Confidence: checked."""

from __future__ import annotations

import pytest

from checker.engineering.threads import tapping_drill_diameter


# ISO 2306, Table 1, drill in mm. Within 0.1 mm: clause 0 calls d − P approximate, the table rounds
# to stocked drills (6.75 becomes 6.80, 10.25 becomes 10.20); checked.
@pytest.mark.parametrize(
    ("diameter_mm", "pitch_mm", "printed"), [(8, 1.25, 6.80), (12, 1.75, 10.20), (16, 2.0, 14.0)]
)
def test_drill(diameter_mm, pitch_mm, printed):
    found = tapping_drill_diameter(diameter_mm / 1e3, pitch_mm / 1e3) * 1e3
    assert found == pytest.approx(printed, abs=0.1)
