"""Certification body's Pocket Guide 14 (2018): BS 7671 Tables 43.1, 54.2, 54.3 and 54.4, k.

The guide's k is proven by the formula of IEC 60364-5-54, Annex A, whose constants are from
memory. The initial and final temperatures are those of the tables' headings (from memory).
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.adiabatic import adiabatic_factor
from checker.rulebook.model import Rulebook

ZERO = 273.15

# Table, insulation, metal, initial and final °C, k per mm². Confidence: checked (k), from-memory
# (temperatures).
FACTORS = [
    ("43.1 and 54.3, 70 °C PVC", "copper", 70, 160, "115"),
    ("43.1 and 54.3, 90 °C PVC", "copper", 90, 160, "100"),
    ("43.1 and 54.3, 90 °C XLPE", "copper", 90, 250, "143"),
    ("43.1, 60 °C rubber", "copper", 60, 200, "141"),
    ("54.2, PVC, not bunched", "copper", 30, 160, "143"),
    ("54.2, XLPE, not bunched", "copper", 30, 250, "176"),
    ("54.4, steel armour, 70 °C PVC", "steel", 60, 200, "51"),
    ("54.4, steel armour, 90 °C", "steel", 80, 200, "46"),
]


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


@pytest.mark.parametrize(("use", "metal", "initial", "final", "factor"), FACTORS)
def test_thermal_factor(use: str, metal: str, initial: int, final: int, factor: str) -> None:
    found = adiabatic_factor(metal, initial + ZERO, final + ZERO)
    assert found / 1e6 == printed(factor), use


# The same k as shipped, by use and insulation. Confidence: checked.
SHIPPED = [
    ("line", "115", "100", "143"),
    ("core", "115", "100", "143"),
    ("separate", "143", "143", "176"),
    ("armour", "51", "46", "46"),
]


@pytest.mark.parametrize(
    ("use", "insulation", "k"),
    [
        (use, insulation, k)
        for use, *row in SHIPPED
        for insulation, k in zip(("pvc-70", "pvc-90", "xlpe-90"), row, strict=True)
    ]
    + [("line", "rubber-60", "141")],
)
def test_shipped_k(shipped: Rulebook, use: str, insulation: str, k: str) -> None:
    table = shipped.tables["thermal_factor"]
    assert table.columns["k"].look_up(use, insulation) / 1e6 == pytest.approx(float(k))
    assert len(table.rows) == 13
