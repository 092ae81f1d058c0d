"""OSHA Technical Manual, section III, chapter 5 (noise)."""

from __future__ import annotations

import pytest

from checker.engineering.noise_exposure import level_for_dose, noise_dose


# Section III, chapter 5, dose of eight hours at one level: printed 132 % and 66 %. Confidence:
# checked (transcription).
@pytest.mark.parametrize(("level", "per_cent"), [(92.0, 132.0), (87.0, 66.0)])
def test_dose_of_a_steady_shift(level: float, per_cent: float) -> None:
    dose = noise_dose([level], [8 * 3600.0], 90.0, 5.0, 80.0)
    assert dose * 100.0 == pytest.approx(per_cent, abs=0.5)


# Section III, chapter 5, action level (half the dose) for long shifts: hours, dBA. Tolerance:
# half a unit of the last digit. Confidence: checked (transcription).
@pytest.mark.parametrize(
    ("hours", "level"), [(8, 85.0), (9, 84.2), (10, 83.4), (12, 82.1), (16, 80.0)]
)
def test_action_level_for_long_shifts(hours: float, level: float) -> None:
    assert level_for_dose(0.5, hours * 3600.0, 90.0, 5.0) == pytest.approx(level, abs=0.05)
