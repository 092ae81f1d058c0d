"""ISO 1996-1 / JIS Z 8731:1999, background correction as tabled in a meter maker's notes."""

from __future__ import annotations

import pytest

from checker.engineering.acoustics import background_correction, level_without_background
from checker.engineering.limits import OutOfRange


# Table: difference of the two readings in dB, correction in dB. Printed to 0.05 or 0.1 dB;
# tolerance 0.05 dB. Confidence: checked.
@pytest.mark.parametrize(
    ("difference", "correction"),
    [(3, 3.0), (5, 1.7), (6, 1.25), (7, 0.95), (8, 0.75), (9, 0.60), (10, 0.45)],
)
def test_corrections(difference: float, correction: float) -> None:
    assert background_correction(70.0 + difference, 70.0) == pytest.approx(correction, abs=0.05)


# Same table prints 2.3 dB for a difference of 4 dB; -10 lg(1 - 10^-0.4) is 2.20 dB. Confidence:
# checked.
def test_printed_correction_at_4_db_is_not_followed() -> None:
    assert background_correction(74.0, 70.0) != pytest.approx(2.3, abs=0.05)
    assert background_correction(74.0, 70.0) == pytest.approx(2.20, abs=0.005)


# Same notes: a machine reads 55 dBA, 50 dBA when stopped: 53.3 dBA. Confidence: checked.
def test_example() -> None:
    assert level_without_background(55.0, 50.0) == pytest.approx(53.3, abs=0.05)


# Same notes: the difference must be at least 3 dB. Confidence: checked.
def test_too_small_a_difference() -> None:
    with pytest.raises(OutOfRange, match="from a difference of 3 dB"):
        level_without_background(72.9, 70.0)
