"""Noise over a shift: behaviour and refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.noise_exposure import (
    average_level_of_dose,
    daily_exposure_level,
    exposure_points,
    level_for_dose,
    noise_dose,
    period_exposure_level,
    permitted_duration,
    weekly_exposure_level,
    weekly_exposure_level_of_points,
)

HOUR = 3600.0
levels = st.floats(60.0, 120.0)
hours = st.floats(0.1, 12.0)


# Arithmetic of D = C/T: 2 h of 4 at 95 dBA, 6 h of 16 at 85 dBA.
def test_dose_of_two_periods() -> None:
    dose = noise_dose([95.0, 85.0], [2 * HOUR, 6 * HOUR], 90.0, 5.0, 80.0)
    assert dose == pytest.approx(0.875)
    assert average_level_of_dose(dose, 90.0, 5.0) == pytest.approx(89.04, abs=0.005)


def test_threshold_leaves_the_quiet_period_out() -> None:
    periods = ([95.0, 85.0], [2 * HOUR, 6 * HOUR])
    assert noise_dose(*periods, 90.0, 5.0, 90.0) == pytest.approx(0.5)
    assert noise_dose(*periods, 90.0, 5.0, 85.0) == pytest.approx(0.875)


def test_one_day_can_meet_one_rule_and_fail_another() -> None:
    day = ([95.0, 70.0], [2 * HOUR, 6 * HOUR])
    assert noise_dose(*day, 90.0, 5.0, 90.0) < 1.0
    assert noise_dose(*day, 85.0, 3.0, 80.0) > 1.0
    assert daily_exposure_level(*day) > 87.0


# Arithmetic of L + 10 lg(t/8 h).
@pytest.mark.parametrize(
    ("level", "duration", "exposure"),
    [(88, 4, 84.99), (91, 2, 84.98), (94, 1, 84.97), (83, 4, 79.99), (86, 2, 79.98)],
)
def test_exact_equivalents(level: float, duration: float, exposure: float) -> None:
    assert period_exposure_level(level, duration * HOUR) == pytest.approx(exposure, abs=0.005)


@given(levels, st.floats(0.1, 8.0))
def test_dividing_a_period_changes_nothing(level: float, duration: float) -> None:
    whole = daily_exposure_level([level], [duration * HOUR])
    halves = daily_exposure_level([level, level], [duration * HOUR / 2, duration * HOUR / 2])
    assert halves == pytest.approx(whole)


@given(levels, levels, hours, hours)
def test_points_and_levels_agree(first: float, second: float, short: float, long: float) -> None:
    points = exposure_points(first, short * HOUR) + exposure_points(second, long * HOUR)
    level = daily_exposure_level([first, second], [short * HOUR, long * HOUR])
    assert 85.0 + 10.0 * math.log10(points / 100.0) == pytest.approx(level)
    assert weekly_exposure_level_of_points(5 * points) == pytest.approx(
        weekly_exposure_level([level] * 5)
    )


@given(st.floats(60.0, 130.0), st.sampled_from([3.0, 5.0]))
def test_exchange_rate_halves_the_time(level: float, rate: float) -> None:
    assert permitted_duration(level + rate, 90.0, rate) == pytest.approx(
        permitted_duration(level, 90.0, rate) / 2.0
    )


@given(levels, hours)
def test_exact_energy_dose_is_the_daily_level(level: float, duration: float) -> None:
    rate = 10.0 * math.log10(2.0)
    dose = noise_dose([level], [duration * HOUR], 85.0, rate, 0.0)
    assert average_level_of_dose(dose, 85.0, rate) == pytest.approx(
        daily_exposure_level([level], [duration * HOUR])
    )


@given(st.floats(0.01, 30.0), hours, st.sampled_from([(90.0, 5.0), (85.0, 3.0)]))
def test_level_for_dose_gives_the_dose(
    dose: float, duration: float, rule: tuple[float, float]
) -> None:
    level = level_for_dose(dose, duration * HOUR, *rule)
    assert noise_dose([level], [duration * HOUR], *rule, -50.0) == pytest.approx(dose)


def test_a_week_is_five_days_of_eight_hours() -> None:
    assert weekly_exposure_level([88.0]) == pytest.approx(81.01, abs=0.005)
    assert weekly_exposure_level([85.0] * 6) > 85.0


def test_refusals_name_the_value() -> None:
    with pytest.raises(OutOfRange, match="2 levels and 1 durations"):
        daily_exposure_level([80.0, 85.0], [HOUR])
    with pytest.raises(OutOfRange, match="0 levels and 0 durations"):
        noise_dose([], [], 90.0, 5.0, 80.0)
    with pytest.raises(OutOfRange, match="add up to 26 h"):
        daily_exposure_level([80.0, 85.0], [13 * HOUR, 13 * HOUR])
    with pytest.raises(OutOfRange, match="lasts 0 h"):
        period_exposure_level(80.0, 0.0)
    with pytest.raises(OutOfRange, match="lasts nan h"):
        period_exposure_level(80.0, math.nan)
    with pytest.raises(OutOfRange, match="exchange rate is 10 dB"):
        permitted_duration(90.0, 90.0, 10.0)
    with pytest.raises(OutOfRange, match="level is 300 dB"):
        permitted_duration(300.0, 90.0, 5.0)
    with pytest.raises(OutOfRange, match="noise dose is 0"):
        average_level_of_dose(0.0, 90.0, 5.0)
    with pytest.raises(OutOfRange, match="noise dose is -1"):
        level_for_dose(-1.0, 8 * HOUR, 90.0, 5.0)
    with pytest.raises(OutOfRange, match="points is 0"):
        weekly_exposure_level_of_points(0.0)
    with pytest.raises(OutOfRange, match="8 days"):
        weekly_exposure_level([80.0] * 8)


def test_a_day_of_24_hours_is_accepted() -> None:
    assert noise_dose([80.0] * 3, [8 * HOUR] * 3, 90.0, 5.0, 80.0) == pytest.approx(0.75)


@pytest.mark.parametrize("level", [math.nan, -51.0, 201.0])
def test_a_level_that_is_none_is_refused_even_below_the_threshold(level: float) -> None:
    with pytest.raises(OutOfRange):
        noise_dose([92.0, level], [3600.0, 3600.0], 90.0, 5.0, 80.0)
