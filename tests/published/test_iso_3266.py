"""ISO 3266, Forged steel eyebolts for general lifting purposes: rated loads.

Read in one public data set that names UNI-ISO 3266. Confidence: checked.
"""

from __future__ import annotations

import pytest

from checker.rulebook.model import Rulebook

# ISO 3266, in kg: straight, and at 45°. Confidence: checked (one data set).
PRINTED_KG = {
    "M8": (140, 95),
    "M10": (230, 170),
    "M12": (340, 240),
    "M16": (700, 500),
    "M20": (1200, 830),
    "M24": (1800, 1270),
}


# ISO 3266, every cell; exact. Confidence: checked.
@pytest.mark.parametrize(("thread", "printed"), PRINTED_KG.items())
@pytest.mark.parametrize(("column", "index"), [("straight", 0), ("slanted", 1)])
def test_cell(
    shipped: Rulebook, thread: str, printed: tuple[float, float], column: str, index: int
) -> None:
    found = shipped.tables["eyebolt"].columns[column].look_up("ISO 3266", thread)
    assert found == printed[index]


# ISO 3266 against DIN 580: alike hanging straight, less at 45° for M8, M20 and M24, never more.
# Confidence: checked.
@pytest.mark.parametrize("thread", PRINTED_KG)
def test_never_more_than_din_580(shipped: Rulebook, thread: str) -> None:
    columns = shipped.tables["eyebolt"].columns
    ours = columns["slanted"].look_up("ISO 3266", thread)
    theirs = columns["slanted"].look_up("DIN 580", thread)
    assert ours < theirs if thread in ("M8", "M20", "M24") else ours == theirs
