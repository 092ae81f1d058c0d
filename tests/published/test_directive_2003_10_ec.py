"""Directive 2003/10/EC, physical agents (noise)."""

from __future__ import annotations

import pytest

from checker.engineering.acoustics import peak_level


# Art. 3(1): peak values in Pa and in dB(C) re 20 µPa: lower action, upper action, limit. The
# decibels are printed whole. Confidence: checked.
@pytest.mark.parametrize(("pascals", "decibels"), [(112, 135), (140, 137), (200, 140)])
def test_peak_values(pascals: float, decibels: float) -> None:
    assert peak_level(pascals) == pytest.approx(decibels, abs=0.5)
