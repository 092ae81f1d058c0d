"""Industrial-hygiene board examination, equation sheet, fall 2017 (noise)."""

from __future__ import annotations

import pytest

from checker.engineering.acoustics import (
    power_level_from_pressure_level,
    pressure_level_from_power_level,
)


# Equation sheet: Lp = Lw - 20 lg r - 11 (sphere); - 8 on a floor follows from the directivity of
# 2. The constants are printed whole. Confidence: checked (sphere), from-memory (floor).
@pytest.mark.parametrize(("directivity", "constant"), [(1, 11.0), (2, 8.0)])
@pytest.mark.parametrize(("distance", "spreading"), [(1.0, 0.0), (10.0, 20.0)])
def test_spreading(directivity: float, constant: float, distance: float, spreading: float) -> None:
    level = pressure_level_from_power_level(100.0, distance, directivity)
    assert level == pytest.approx(100.0 - spreading - constant, abs=0.05)
    assert power_level_from_pressure_level(level, distance, directivity) == pytest.approx(100.0)
