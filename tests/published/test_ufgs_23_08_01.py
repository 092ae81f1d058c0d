"""UFGS 23 08 01.00 20, testing of industrial ventilation systems (US public specification)."""

from __future__ import annotations

import pytest

from checker.engineering.pressure_tappings import hood_tapping_distance


# Hood static pressure: one duct diameter downstream of a tapered hood, three of a plain or flanged
# one. Confidence: checked.
@pytest.mark.parametrize(
    ("hood", "diameters"), [("tapered", 1.0), ("plain", 3.0), ("flanged", 3.0)]
)
def test_distance_in_diameters(hood: str, diameters: float) -> None:
    assert hood_tapping_distance(hood, 0.125) == pytest.approx(0.125 * diameters)  # type: ignore[arg-type]
