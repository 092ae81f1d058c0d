"""EN 1090-2, Execution of steel structures, Table 11: nominal clearances of bolt holes.

Read in a workshop's holing procedure that copies the table, and quoted alike in three other
public texts. Confidence: checked.
"""

from __future__ import annotations

import pytest

from checker.rulebook.model import Rulebook

# EN 1090-2, Table 11: clearance of normal and of oversize round holes, in mm. Footnote a carries
# the column of M12 down to smaller bolts. Confidence: checked.
CLEARANCE_MM = {12: (1, 3), 16: (2, 4), 20: (2, 4), 24: (2, 6)}
SIZES = {"M5": 5, "M6": 6, "M8": 8, "M10": 10, "M12": 12, "M16": 16, "M20": 20, "M24": 24}
FINE = {"M8x1": 8, "M10x1.25": 10, "M12x1.25": 12, "M12x1.5": 12}


# EN 1090-2, Table 11, every bolt of the shipped table; exact. Confidence: checked.
@pytest.mark.parametrize(("thread", "size"), [*SIZES.items(), *FINE.items()])
@pytest.mark.parametrize(("column", "index"), [("normal", 0), ("oversize", 1)])
def test_hole(shipped: Rulebook, thread: str, size: int, column: str, index: int) -> None:
    found = shipped.tables["structural_hole"].columns[column].look_up(thread)
    assert found * 1e3 == pytest.approx(size + CLEARANCE_MM[max(size, 12)][index], rel=1e-12)


# Hole diameters as published texts print them: M12 13, M16 18, M24 26 mm, oversize M24 d + 6.
# Confidence: checked.
@pytest.mark.parametrize(
    ("thread", "column", "printed_mm"),
    [
        ("M12", "normal", 13),
        ("M16", "normal", 18),
        ("M20", "normal", 22),
        ("M24", "normal", 26),
        ("M24", "oversize", 30),
    ],
)
def test_printed_hole(shipped: Rulebook, thread: str, column: str, printed_mm: float) -> None:
    found = shipped.tables["structural_hole"].columns[column].look_up(thread)
    assert found * 1e3 == pytest.approx(printed_mm, rel=1e-12)


# Published wrongly: a public code set takes d + 2 as the normal hole of every bolt up to M24; M12 is
# d + 1. Confidence: checked, as a trap.
def test_m12_is_not_two_millimetres_wider(shipped: Rulebook) -> None:
    found = shipped.tables["structural_hole"].columns["normal"].look_up("M12")
    assert found * 1e3 < 14.0


def test_no_other_rows(shipped: Rulebook) -> None:
    assert {row[0] for row in shipped.tables["structural_hole"].rows} == {*SIZES, *FINE}
