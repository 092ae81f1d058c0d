"""Sealant beads and cartridges: behaviour and refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.sealant import (
    bead_length_per_cartridge,
    bead_volume,
    cartridges_needed,
    fillet_bead_area,
    flange_bead_length,
    half_round_bead_area,
    rectangular_bead_area,
    round_bead_area,
)

MILLILITRE = 1e-6
widths = st.floats(1e-3, 20e-3)


# Arithmetic of contents over cross-section, 310 ml.
@pytest.mark.parametrize(
    ("diameter", "metres", "digit"), [(6, 10.96, 0.01), (4, 24.7, 0.1), (8, 6.17, 0.01)]
)
def test_round_beads(diameter: float, metres: float, digit: float) -> None:
    area = round_bead_area(diameter * 1e-3)
    assert bead_length_per_cartridge(310 * MILLILITRE, area) == pytest.approx(
        metres, abs=0.5 * digit
    )


def test_rectangular_joint() -> None:
    length = bead_length_per_cartridge(310 * MILLILITRE, rectangular_bead_area(10e-3, 5e-3))
    assert length == pytest.approx(6.2, abs=0.05)


# Arithmetic: square of 250 mm with 8 rings of 20 mm; circle of 200 mm with 8 rings of 18 mm.
@pytest.mark.parametrize(
    ("perimeter", "ring", "length"),
    [(1.00, 0.020, 1.503), (2.00, 0.020, 2.503), (math.pi * 0.200, 0.018, 1.081)],
)
def test_beads_of_flanges(perimeter: float, ring: float, length: float) -> None:
    assert flange_bead_length(perimeter, 8, ring) == pytest.approx(length, abs=5e-4)


@given(widths)
def test_shapes_in_one_square(width: float) -> None:
    square = rectangular_bead_area(width, width)
    assert fillet_bead_area(width, width) == pytest.approx(square / 2)
    assert half_round_bead_area(width) == pytest.approx(round_bead_area(width) / 2)
    assert round_bead_area(width) < square


@given(st.floats(0.01, 100.0), widths, st.floats(50e-6, 600e-6))
def test_a_cartridge_fills_its_length(length: float, width: float, cartridge: float) -> None:
    area = round_bead_area(width)
    needed = cartridges_needed(bead_volume(length, area), 0.0, cartridge)
    reach = bead_length_per_cartridge(cartridge, area)
    assert (needed - 1.0) * reach < length * (1 + 1e-6)
    assert needed * reach > length * (1 - 1e-6)


def test_whole_cartridges() -> None:
    assert cartridges_needed(0.0, 0.15, 310 * MILLILITRE) == 0.0
    assert cartridges_needed(310 * MILLILITRE, 0.0, 310 * MILLILITRE) == 1.0
    assert cartridges_needed(3 * 310 * MILLILITRE, 0.0, 310 * MILLILITRE) == 3.0
    assert cartridges_needed(310 * MILLILITRE, 0.15, 310 * MILLILITRE) == 2.0


def test_refusals_name_the_value() -> None:
    with pytest.raises(OutOfRange, match="bead diameter is 0 m"):
        round_bead_area(0.0)
    with pytest.raises(OutOfRange, match="bead width is -1 m"):
        half_round_bead_area(-1.0)
    with pytest.raises(OutOfRange, match="joint depth is 0 m"):
        rectangular_bead_area(1e-3, 0.0)
    with pytest.raises(OutOfRange, match="fillet height is 0 m"):
        fillet_bead_area(1e-3, 0.0)
    with pytest.raises(OutOfRange, match=r"number of bolts is 4\.5"):
        flange_bead_length(1.0, 4.5, 0.02)
    with pytest.raises(OutOfRange, match="number of bolts is -1"):
        flange_bead_length(1.0, -1, 0.02)
    with pytest.raises(OutOfRange, match="share of waste is 15"):
        cartridges_needed(1e-4, 15.0, 310e-6)
    with pytest.raises(OutOfRange, match="contents of the cartridge is 0"):
        bead_length_per_cartridge(0.0, 1e-5)
    with pytest.raises(OutOfRange, match="bead length is -1 m"):
        bead_volume(-1.0, 1e-5)
