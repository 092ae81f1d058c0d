"""SMACNA HVAC Air Duct Leakage Test Manual, as quoted in instrument manuals."""

from __future__ import annotations

import pytest

from checker.engineering.duct_leakage import smacna_leakage_class, smacna_permitted_leakage

CUBIC_FOOT_PER_MINUTE = 4.719474e-4
HUNDRED_SQUARE_FEET = 9.290304
INCH_OF_WATER = 249.089


# Table 4-1 and definition: class C_L is the leakage in cubic feet a minute per 100 square feet at
# one inch of water; classes 3, 6, 12 round, 6, 12, 24 rectangular, 30 unsealed flexible, 48
# unsealed rectangular. Confidence: checked.
@pytest.mark.parametrize("leakage_class", [3, 6, 12, 24, 30, 48])
def test_definition(leakage_class: float) -> None:
    leakage = smacna_permitted_leakage(leakage_class, INCH_OF_WATER, HUNDRED_SQUARE_FEET)
    assert leakage / CUBIC_FOOT_PER_MINUTE == pytest.approx(leakage_class, rel=1e-6)
    assert smacna_leakage_class(leakage, INCH_OF_WATER, HUNDRED_SQUARE_FEET) == pytest.approx(
        leakage_class
    )
