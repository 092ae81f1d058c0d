"""NFPA 70 (NEC) 250.122: copper equipment grounding conductor by the overcurrent device."""

from __future__ import annotations

import pytest

from checker.absent import OutOfReach
from checker.rulebook.model import Rulebook

# Table 250.122, copper, in two full reproductions: device up to A, gauge. Confidence: checked.
TABLE_250_122 = [
    (15, "14 AWG"),
    (20, "12 AWG"),
    (60, "10 AWG"),
    (100, "8 AWG"),
    (200, "6 AWG"),
    (300, "4 AWG"),
    (400, "3 AWG"),
]


@pytest.mark.parametrize(("device", "gauge"), TABLE_250_122)
def test_shipped_rows(shipped: Rulebook, device: int, gauge: str) -> None:
    table = shipped.tables["grounding_conductor_nec"]
    assert table.columns["gauge"].look_up(float(device)) == gauge
    assert len(table.rows) == len(TABLE_250_122)


# Trainer's newsletter and an engineering page: 15, 20, 40 and 70 A take 14, 12, 10 and 8 AWG; 25 A and
# 30 A fall in the row of 60 A, the first one that is not exceeded. Confidence: checked.
@pytest.mark.parametrize(
    ("device", "gauge"),
    [
        (15, "14 AWG"),
        (20, "12 AWG"),
        (40, "10 AWG"),
        (70, "8 AWG"),
        (25, "10 AWG"),
        (30, "10 AWG"),
    ],
)
def test_between_rows(shipped: Rulebook, device: int, gauge: str) -> None:
    look_up = shipped.tables["grounding_conductor_nec"].columns["gauge"].look_up
    assert look_up(float(device)) == gauge


def test_beyond_the_rows(shipped: Rulebook) -> None:
    with pytest.raises(OutOfReach):
        shipped.tables["grounding_conductor_nec"].columns["gauge"].look_up(500.0)
