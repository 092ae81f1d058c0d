"""SCENIHR, Potential health risks of exposure to noise from personal music players (2008)."""

from __future__ import annotations

import pytest

from checker.engineering.noise_exposure import daily_exposure_level, period_exposure_level


# Table 3, equivalent exposures: level in dB(A), hours, daily exposure level in dB(A). Tolerance:
# 0.1 dB, because the table lets 3 dB stand for the exact 10 lg 2 = 3.01 dB. Confidence: checked.
@pytest.mark.parametrize(
    ("level", "hours", "printed"),
    [(88, 4, 85), (91, 2, 85), (94, 1, 85), (83, 4, 80), (86, 2, 80)],
)
def test_equivalent_exposures(level: float, hours: float, printed: float) -> None:
    assert period_exposure_level(level, hours * 3600.0) == pytest.approx(printed, abs=0.1)
    assert daily_exposure_level([level], [hours * 3600.0]) == pytest.approx(printed, abs=0.1)
