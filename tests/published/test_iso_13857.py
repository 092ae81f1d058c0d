"""ISO 13857:2019, Table 4, safety distances behind regular openings, 14 years and above."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.absent import OutOfReach
from checker.findings import Finding
from checker.rulebook.model import Rulebook

# ISO 13857:2019, Table 4, as a public data set of suppliers' reproductions prints it (not compared
# with the bought text); mm. Confidence: checked.
OPENINGS_MM = (4, 6, 8, 10, 12, 20, 30, 40, 120)
PRINTED_MM = {
    "slot": (2, 10, 20, 80, 100, 120, 850, 850, 850),
    "square": (2, 5, 15, 25, 80, 120, 120, 200, 850),
    "round": (2, 5, 5, 20, 80, 120, 120, 120, 850),
}


def distance_mm(shipped: Rulebook, opening_mm: float, shape: str) -> float:
    found = shipped.tables["guard_opening"].columns["distance"].look_up(opening_mm / 1e3, shape)
    return float(found * 1e3)


# ISO 13857:2019, Table 4, every cell; exact. Confidence: checked.
@pytest.mark.parametrize(
    ("opening_mm", "shape", "printed_mm"),
    [
        (opening, shape, printed)
        for shape, row in PRINTED_MM.items()
        for opening, printed in zip(OPENINGS_MM, row, strict=True)
    ],
)
def test_table(shipped: Rulebook, opening_mm: float, shape: str, printed_mm: float) -> None:
    assert distance_mm(shipped, opening_mm, shape) == pytest.approx(printed_mm, rel=1e-12)


# A row holds up to its opening and starts above the one before: nothing lies in between.
@pytest.mark.parametrize(
    ("opening_mm", "shape", "printed_mm"),
    [
        (4.1, "slot", 10),
        (8.5, "slot", 80),
        (21, "slot", 850),
        (21, "square", 120),
        (41, "round", 850),
    ],
)
def test_between_two_rows(
    shipped: Rulebook, opening_mm: float, shape: str, printed_mm: float
) -> None:
    assert distance_mm(shipped, opening_mm, shape) == pytest.approx(printed_mm, rel=1e-12)


# Above 120 mm an opening is not a regular one: the table has no answer.
def test_above_the_table(shipped: Rulebook) -> None:
    with pytest.raises(OutOfReach):
        distance_mm(shipped, 121, "square")


# ISO 13857:2019, Table 4: grid 40 × 40, slot 8, slot 30, round 10. The shape decides: 30 mm wide is
# 850 mm for a slot and 120 mm for a square. Confidence: checked.
@pytest.mark.parametrize(
    ("opening_mm", "shape", "printed_mm"),
    [
        (40, "square", 200),
        (8, "slot", 20),
        (30, "slot", 850),
        (10, "round", 20),
        (30, "square", 120),
    ],
)
def test_rule(
    ask: Callable[..., Finding], opening_mm: float, shape: str, printed_mm: float
) -> None:
    def at(distance_mm: float) -> Finding:
        grid = f"name: grid, shape: {shape}, opening: {opening_mm} mm, distance: {distance_mm} mm"
        return ask("clearance/guard-openings", surroundings=f"{{fan_openings: [{{{grid}}}]}}")

    enough, near = at(printed_mm), at(printed_mm - 1)
    assert enough.demand is not None
    assert (enough.demand.value, enough.demand.unit) == (printed_mm, "mm")
    assert (enough.grade.word, near.grade.word) == ("met", "stop")
