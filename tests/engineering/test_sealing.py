"""Gaskets, flanges, clips and plugs: behaviour and refusals."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.sealing import (
    blanking_plugs_needed,
    bolt_pitch,
    clip_fits,
    clip_position,
    compressed_gasket_thickness,
    flange_overlap,
    gasket_compression,
)

lengths = st.floats(1e-3, 1.0)


# Arithmetic: 5 mm at 30 % is 3.5 mm.
def test_compressed_gasket() -> None:
    assert compressed_gasket_thickness(5e-3, 0.30) == pytest.approx(3.5e-3)
    assert gasket_compression(5e-3, 3.5e-3) == pytest.approx(0.30)


def test_a_gap_wider_than_the_gasket_shows() -> None:
    assert gasket_compression(5e-3, 6e-3) == pytest.approx(-0.2)


@given(lengths, st.floats(0.0, 0.99))
def test_compression_there_and_back(free: float, compression: float) -> None:
    fitted = compressed_gasket_thickness(free, compression)
    assert gasket_compression(free, fitted) == pytest.approx(compression, abs=1e-12)


# Arithmetic: flange 220 mm on a hole of 160 mm, 5 mm off centre.
def test_overlap() -> None:
    assert flange_overlap(0.220, 0.160, 0.005) == pytest.approx(0.025)


def test_a_slot_is_a_negative_overlap() -> None:
    assert flange_overlap(0.220, 0.210, 0.010) == pytest.approx(-0.005)


@given(lengths, lengths, st.floats(0.0, 0.1), st.floats(0.0, 0.1))
def test_misalignment_only_harms(flange: float, hole: float, less: float, more: float) -> None:
    near, far = sorted((less, more))
    assert flange_overlap(flange, hole, far) <= flange_overlap(flange, hole, near)


def test_pitch() -> None:
    assert bolt_pitch(0.200, 8) == pytest.approx(0.07854, abs=5e-6)


@pytest.mark.parametrize(
    ("hose", "fits"),
    [(24.9e-3, False), (25e-3, True), (32.5e-3, True), (40e-3, True), (40.1e-3, False)],
)
def test_clip_range(hose: float, fits: bool) -> None:
    assert clip_fits(hose, 25e-3, 40e-3) is fits


def test_middle_of_the_clip() -> None:
    assert clip_position(32.5e-3, 25e-3, 40e-3) == pytest.approx(0.5)
    assert clip_position(20e-3, 25e-3, 40e-3) < 0.0
    assert clip_position(50e-3, 25e-3, 40e-3) > 1.0


@given(lengths, lengths, lengths)
def test_fit_is_a_position_from_nought_to_one(hose: float, first: float, second: float) -> None:
    smallest, largest = sorted((first, second))
    if largest - smallest < 1e-6:
        return
    inside = smallest <= hose <= largest
    if inside:
        assert clip_fits(hose, smallest, largest)
    else:
        near = min(abs(hose - smallest), abs(hose - largest)) < 1e-8
        assert near or not clip_fits(hose, smallest, largest)


def test_plugs() -> None:
    assert blanking_plugs_needed(4, 2) == 2.0
    assert blanking_plugs_needed(3, 3) == 0.0


def test_refusals_name_the_value() -> None:
    with pytest.raises(OutOfRange, match="free thickness is 0 m"):
        gasket_compression(0.0, 1e-3)
    with pytest.raises(OutOfRange, match="fitted thickness is 0 m"):
        gasket_compression(1e-3, 0.0)
    with pytest.raises(OutOfRange, match="compression is 1; a gasket"):
        compressed_gasket_thickness(1e-3, 1.0)
    with pytest.raises(OutOfRange, match="number of bolts is 1"):
        bolt_pitch(0.2, 1)
    with pytest.raises(OutOfRange, match=r"number of bolts is 2\.5"):
        bolt_pitch(0.2, 2.5)
    with pytest.raises(OutOfRange, match=r"misalignment is -0\.01 m"):
        flange_overlap(0.2, 0.1, -0.01)
    with pytest.raises(OutOfRange, match="from 25 mm to 40 mm"):
        clip_position(30e-3, 40e-3, 25e-3)
    with pytest.raises(OutOfRange, match="2 openings and 3 are used"):
        blanking_plugs_needed(2, 3)
    with pytest.raises(OutOfRange, match=r"number of openings used is 0\.5"):
        blanking_plugs_needed(2, 0.5)
