"""ISO 2306:1972, Drills for use prior to tapping screw threads, Table 1. Confidence: checked."""

from __future__ import annotations

import pytest

from checker.engineering.threads import tapping_drill_diameter
from checker.rulebook.model import Rulebook


# ISO 2306, Table 1, drill in mm. Within 0.1 mm: clause 0 calls d − P approximate, the table rounds
# to stocked drills (6.75 becomes 6.80, 10.25 becomes 10.20); checked.
@pytest.mark.parametrize(
    ("diameter_mm", "pitch_mm", "printed"), [(8, 1.25, 6.80), (12, 1.75, 10.20), (16, 2.0, 14.0)]
)
def test_drill(diameter_mm, pitch_mm, printed):
    found = tapping_drill_diameter(diameter_mm / 1e3, pitch_mm / 1e3) * 1e3
    assert found == pytest.approx(printed, abs=0.1)


# ISO 2306, Table 1, and the Mechanical Engineer's Data Handbook, 8.2.4: every coarse drill of the
# shipped table; exact. Checked.
@pytest.mark.parametrize(
    ("thread", "printed"),
    [
        ("M5", 4.2),
        ("M6", 5.0),
        ("M8", 6.8),
        ("M10", 8.5),
        ("M12", 10.2),
        ("M16", 14.0),
        ("M20", 17.5),
        ("M24", 21.0),
    ],
)
def test_table(shipped: Rulebook, thread, printed):
    found = shipped.tables["tapping_drill"].columns["drill"].look_up(thread)
    assert found * 1e3 == pytest.approx(printed, rel=1e-12)


# Two public tap charts, 75 % thread: fine threads; exact. Checked, but they name no standard.
@pytest.mark.parametrize(
    ("thread", "printed"), [("M8x1", 7.0), ("M10x1.25", 8.8), ("M12x1.25", 10.8), ("M12x1.5", 10.5)]
)
def test_fine_threads(shipped: Rulebook, thread, printed):
    found = shipped.tables["tapping_drill"].columns["drill"].look_up(thread)
    assert found * 1e3 == pytest.approx(printed, rel=1e-12)
