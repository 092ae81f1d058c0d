"""ISO 898-1:2013, Table 4 and the fine-thread table: nominal stress areas.

Printed to three significant digits. Confidence: checked (public data sets that name the table).
"""

from __future__ import annotations

import pytest

from checker.engineering.threads import tensile_stress_area
from checker.rulebook.model import Rulebook


# ISO 898-1, Tables 4 and 6, A_s,nom in mm² by thread and pitch in mm; checked.
@pytest.mark.parametrize(
    ("diameter_mm", "pitch_mm", "printed", "tolerance"),
    [
        (3, 0.5, 5.03, 0.005),
        (4, 0.7, 8.78, 0.005),
        (5, 0.8, 14.2, 0.05),
        (6, 1.0, 20.1, 0.05),
        (7, 1.0, 28.9, 0.05),
        (8, 1.25, 36.6, 0.05),
        (10, 1.5, 58.0, 0.05),
        (12, 1.75, 84.3, 0.05),
        (14, 2.0, 115, 0.5),
        (16, 2.0, 157, 0.5),
        (18, 2.5, 192, 0.5),
        (20, 2.5, 245, 0.5),
        (24, 3.0, 353, 0.5001),
        (30, 3.5, 561, 0.5),
        (8, 1.0, 39.2, 0.05),
        (10, 1.25, 61.2, 0.05),
        (12, 1.5, 88.1, 0.05),
    ],
)
def test_stress_area(diameter_mm, pitch_mm, printed, tolerance):
    found = tensile_stress_area(diameter_mm / 1e3, pitch_mm / 1e3) * 1e6
    assert found == pytest.approx(printed, abs=tolerance)


# ISO 898-1, Tables 4 and 6, A_s,nom in mm²: every row of the shipped table; exact. Checked, but
# M12×1.25 from-memory.
@pytest.mark.parametrize(
    ("thread", "diameter_mm", "pitch_mm", "printed"),
    [
        ("M5", 5, 0.8, 14.2),
        ("M6", 6, 1.0, 20.1),
        ("M8", 8, 1.25, 36.6),
        ("M10", 10, 1.5, 58.0),
        ("M12", 12, 1.75, 84.3),
        ("M16", 16, 2.0, 157),
        ("M20", 20, 2.5, 245),
        ("M24", 24, 3.0, 353),
        ("M8x1", 8, 1.0, 39.2),
        ("M10x1.25", 10, 1.25, 61.2),
        ("M12x1.25", 12, 1.25, 92.1),
        ("M12x1.5", 12, 1.5, 88.1),
    ],
)
def test_table(shipped: Rulebook, thread, diameter_mm, pitch_mm, printed):
    columns = shipped.tables["metric_thread"].columns
    assert columns["diameter"].look_up(thread) * 1e3 == pytest.approx(diameter_mm, rel=1e-12)
    assert columns["pitch"].look_up(thread) * 1e3 == pytest.approx(pitch_mm, rel=1e-12)
    assert columns["stress_area"].look_up(thread) * 1e6 == pytest.approx(printed, rel=1e-12)
