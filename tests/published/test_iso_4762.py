"""ISO 4762, Hexagon socket head cap screws: plain heads.

Read alike in several public tables of the standard. Confidence: checked.
"""

from __future__ import annotations

import pytest

from checker.rulebook.model import Rulebook

# ISO 4762: largest diameter of a plain head, least bearing face, in mm. Confidence: checked.
PRINTED_MM = {
    "M5": (8.5, 8.03),
    "M6": (10, 9.38),
    "M8": (13, 12.33),
    "M10": (16, 15.33),
    "M12": (18, 17.23),
    "M16": (24, 23.17),
    "M20": (30, 28.87),
    "M24": (36, 34.81),
}
FINE = {"M8x1": "M8", "M10x1.25": "M10", "M12x1.25": "M12", "M12x1.5": "M12"}


# ISO 4762, every cell; exact. A round head has one width, which stands for flats and points.
# Confidence: checked.
@pytest.mark.parametrize("thread", [*PRINTED_MM, *FINE])
@pytest.mark.parametrize(
    ("column", "index"), [("across_flats", 0), ("across_points", 0), ("bearing", 1)]
)
def test_cell(shipped: Rulebook, thread: str, column: str, index: int) -> None:
    found = shipped.tables["bolt_head"].columns[column].look_up("socket", thread)
    assert found * 1e3 == pytest.approx(PRINTED_MM[FINE.get(thread, thread)][index], rel=1e-12)
