"""Public pages on the yield of sealant cartridges."""

from __future__ import annotations

import pytest

from checker.engineering.sealant import (
    bead_length_per_cartridge,
    cartridges_needed,
    fillet_bead_area,
    half_round_bead_area,
    rectangular_bead_area,
)

INCH = 0.0254
FOOT = 12 * INCH
CUBIC_INCH = INCH**3


# Yield guide: square millimetres are millilitres a metre; 10 × 5 mm: 50 (rectangle), 25 (fillet);
# half round of 10 mm: 39.3. Confidence: checked.
def test_rectangle() -> None:
    assert rectangular_bead_area(10e-3, 5e-3) * 1e6 == pytest.approx(50.0, abs=0.5)


def test_fillet() -> None:
    assert fillet_bead_area(10e-3, 5e-3) * 1e6 == pytest.approx(25.0, abs=0.5)


def test_half_round() -> None:
    assert half_round_bead_area(10e-3) * 1e6 == pytest.approx(39.3, abs=0.05)


# Sealant supplier's page: a 10.1 oz cartridge holds 18.3 in³; yield in feet is 18 over twelve
# times the cross-section in in²: 24 ft for 1/4 × 1/4 in. Confidence: checked.
def test_yield_of_a_quarter_inch_joint() -> None:
    length = bead_length_per_cartridge(
        18.0 * CUBIC_INCH, rectangular_bead_area(0.25 * INCH, 0.25 * INCH)
    )
    assert length / FOOT == pytest.approx(24.0, abs=0.5)


# Worked example of a sealant maker: 10 × 10 mm, 10 m: 1 l, 3.33 cartridges of 300 ml, so 4.
# Confidence: checked.
def test_cartridges_of_a_long_joint() -> None:
    volume = 10.0 * rectangular_bead_area(10e-3, 10e-3)
    assert volume * 1e3 == pytest.approx(1.0, abs=0.05)
    assert cartridges_needed(volume, 0.0, 300e-6) == 4.0


# A published chart for a 10.1 oz tube (its own 18.2 in³) promises 50-55, 33-36, 25-28 and 9-10 ft
# for these joints. Contents over cross-section is half of that. Confidence: checked.
@pytest.mark.parametrize(
    ("width", "depth", "promised", "honest"),
    [
        (0.25, 0.25, 50.0, 24.3),
        (0.375, 0.25, 33.0, 16.2),
        (0.5, 0.25, 25.0, 12.15),
        (0.75, 0.5, 9.0, 4.05),
    ],
)
def test_generous_chart_is_not_followed(
    width: float, depth: float, promised: float, honest: float
) -> None:
    area = rectangular_bead_area(width * INCH, depth * INCH)
    feet = bead_length_per_cartridge(18.2273 * CUBIC_INCH, area) / FOOT
    assert feet < 0.55 * promised
    assert feet == pytest.approx(honest, abs=0.05)
