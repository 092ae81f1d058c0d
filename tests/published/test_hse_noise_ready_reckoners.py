"""Health and Safety Executive, noise exposure ready-reckoner (weekly exposure), 2020."""

from __future__ import annotations

import pytest

from checker.engineering.noise_exposure import (
    exposure_points,
    weekly_exposure_level,
    weekly_exposure_level_of_points,
)

EIGHT_HOURS = 8 * 3600.0

# Left table: daily exposure in dB(A), points. Confidence: checked.
DAILY = [
    (95, 1000), (94, 790), (93, 630), (92, 500), (91, 400), (90, 315), (89, 250), (88, 200),
    (87, 160), (86, 125), (85, 100), (84, 80), (83, 65), (82, 50), (81, 40), (80, 32), (78, 20),
]  # fmt: skip

# Right table: points of the week, weekly exposure in dB(A). Confidence: checked.
WEEKLY = [
    (5000, 95), (4000, 94), (3200, 93), (2500, 92), (2000, 91), (1600, 90), (1250, 89), (1000, 88),
    (790, 87), (630, 86), (500, 85), (395, 84), (315, 83), (250, 82), (200, 81), (160, 80),
    (125, 79), (100, 78),
]  # fmt: skip


# Tolerance: half of the step the points are printed in: tens above 500, fives down to 40, ones
# below.
@pytest.mark.parametrize(("level", "printed"), DAILY)
def test_daily_points(level: float, printed: float) -> None:
    tolerance = 5.0 if printed > 500 else 2.5 if printed >= 40 else 0.5
    assert exposure_points(level, EIGHT_HOURS) == pytest.approx(printed, abs=tolerance)


# Tolerance: 0.1 dB, because the points of whole decibels are printed in such steps.
@pytest.mark.parametrize(("points", "printed"), WEEKLY)
def test_weekly_level_of_points(points: float, printed: float) -> None:
    assert weekly_exposure_level_of_points(points) == pytest.approx(printed, abs=0.1)


# The reckoner prints 26 points at 79 dB(A); 100 × 10^(-0.6) is 25.1. Confidence: checked.
def test_printed_points_at_79_db_are_not_followed() -> None:
    assert exposure_points(79.0, EIGHT_HOURS) != pytest.approx(26.0, abs=0.5)
    assert exposure_points(79.0, EIGHT_HOURS) == pytest.approx(25.1, abs=0.05)


# Both tables together: five days at one daily level are that weekly level. Confidence: checked.
@pytest.mark.parametrize("level", [78.0, 85.0, 95.0])
def test_five_like_days(level: float) -> None:
    assert weekly_exposure_level([level] * 5) == pytest.approx(level, abs=1e-9)
