"""Noise over a shift: energy average (3 dB), dose (3 dB, 5 dB), permitted time, points.

European form: `period_exposure_level`, `daily_exposure_level`, `weekly_exposure_level`,
`exposure_points`, `weekly_exposure_level_of_points`.
American form: `permitted_duration`, `noise_dose`, `average_level_of_dose`, `level_for_dose`.
A dose is a fraction here: 1 is what the rules print as 100 %.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ._bounds import require_positive
from .acoustics import level_sum, require_plausible_level
from .dimensions import Level, Number, Time
from .limits import OutOfRange

__all__ = [
    "average_level_of_dose",
    "daily_exposure_level",
    "exposure_points",
    "level_for_dose",
    "noise_dose",
    "period_exposure_level",
    "permitted_duration",
    "weekly_exposure_level",
    "weekly_exposure_level_of_points",
]

# The day all these rules are normalised to, whatever the length of the shift.
_EIGHT_HOURS = 8.0 * 3600.0
_DAY = 24.0 * 3600.0


def _duration(duration: Time) -> Time:
    if not 0.0 < duration <= _DAY:
        raise OutOfRange(
            f"The period lasts {duration / 3600.0:g} h; a period of a day's noise is above 0 h "
            "and at most 24 h."
        )
    return duration


def _exchange_rate(exchange_rate: Level) -> Level:
    if not 3.0 <= exchange_rate <= 6.0:
        raise OutOfRange(
            f"The exchange rate is {exchange_rate:g} dB; the rules in force use 3 dB to 6 dB "
            "for a doubling."
        )
    return exchange_rate


def _check_periods(levels: Sequence[Level], durations: Sequence[Time]) -> None:
    if len(levels) == 0 or len(levels) != len(durations):
        raise OutOfRange(
            f"There are {len(levels)} levels and {len(durations)} durations; each period of the "
            "day needs one of both, and there must be at least one."
        )
    total = math.fsum(_duration(duration) for duration in durations)
    if total > _DAY * (1.0 + 1e-12):
        raise OutOfRange(
            f"The periods add up to {total / 3600.0:g} h; a day's noise has at most 24 h."
        )


def period_exposure_level(level: Level, duration: Time) -> Level:
    """Daily noise exposure level of one period alone L_EX,8h [dB].

    Source: Directive 2003/10/EC, Art. 2, by reference to ISO 1999, L + 10 lg(t/8 h).
    Confidence: checked.

    level: A-weighted level during the period [dB], -50 to 200
    duration: of the period in the day [s], above 0 and at most 24 h
    Returns [dB]; several periods are added with `level_sum`.
    Valid for: equal-energy rules (3 dB).
    Raises OutOfRange: a level or duration outside its range.

    >>> period_exposure_level(88.0, 4 * 3600)     # SCENIHR 2008 prints 85
    85.0
    """
    require_plausible_level(level)
    return level + 10.0 * math.log10(_duration(duration) / _EIGHT_HOURS)


def daily_exposure_level(levels: Sequence[Level], durations: Sequence[Time]) -> Level:
    """Daily noise exposure level L_EX,8h [dB].

    Source: Directive 2003/10/EC, Art. 2, by reference to ISO 1999,
    10 lg((1/8 h) Σ ti 10^(Li/10)). Confidence: checked.

    levels: A-weighted level of each period [dB], -50 to 200
    durations: of the same periods [s], each above 0, together at most 24 h
    Returns [dB].
    Valid for: equal-energy rules (3 dB); the eight hours stay eight however long the shift.
    Raises OutOfRange: lists of unequal length or empty, or a value outside its range.

    >>> daily_exposure_level([91.0, 70.0], [2 * 3600, 6 * 3600])
    85.1
    """
    _check_periods(levels, durations)
    return level_sum(
        [
            period_exposure_level(level, duration)
            for level, duration in zip(levels, durations, strict=True)
        ]
    )


def weekly_exposure_level(daily_levels: Sequence[Level]) -> Level:
    """Weekly noise exposure level, five days of eight hours L_EX,w [dB].

    Source: Directive 2003/10/EC, Art. 2(c), 10 lg((1/5) Σ 10^(L_EX,8h/10)). Confidence: checked
    (against the weekly ready-reckoner of the Health and Safety Executive, 2020).

    daily_levels: daily noise exposure level of each working day [dB], one to seven
    Returns [dB].
    Valid for: equal-energy rules (3 dB); the five stays five however many days are worked.
    Raises OutOfRange: no day, more than seven, or a level outside its range.

    >>> weekly_exposure_level([85.0, 85.0, 85.0, 85.0, 85.0])
    85.0
    """
    if not 1 <= len(daily_levels) <= 7:
        raise OutOfRange(f"There are {len(daily_levels)} days; a week has one to seven.")
    return level_sum(daily_levels) - 10.0 * math.log10(5.0)


def exposure_points(level: Level, duration: Time) -> Number:
    """Noise exposure points of one period [1].

    Source: Health and Safety Executive, noise exposure ready-reckoners (2020): 100 points are
    85 dB for eight hours. Confidence: checked.

    level: A-weighted level during the period [dB], -50 to 200
    duration: of the period in the day [s], above 0 and at most 24 h
    Returns [1]; points of periods and of days are added.
    Valid for: equal-energy rules (3 dB).
    Raises OutOfRange: a level or duration outside its range.

    >>> exposure_points(90.0, 8 * 3600)     # the reckoner prints 315
    316.2
    """
    return 100.0 * math.pow(10.0, (period_exposure_level(level, duration) - 85.0) / 10.0)


def weekly_exposure_level_of_points(points: Number) -> Level:
    """Weekly noise exposure level from the week's points L_EX,w [dB].

    Source: Health and Safety Executive, noise exposure ready-reckoner (weekly exposure), 2020:
    500 points in the week are 85 dB. Confidence: checked.

    points: sum over the week [1], > 0
    Returns [dB].
    Valid for: equal-energy rules (3 dB).
    Raises OutOfRange: points not above zero.

    >>> weekly_exposure_level_of_points(2000)
    91.0
    """
    require_positive(points, "sum of the week's points")
    return 85.0 + 10.0 * math.log10(points / 500.0)


def permitted_duration(level: Level, criterion_level: Level, exchange_rate: Level) -> Time:
    """Reference duration at a steady level T [s].

    Source: 29 CFR 1910.95, App. A, footnote to Table G-16a, T = 8 h / 2^((L - 90)/5); NIOSH
    98-126, 1.1, the same with 85 and 3. Confidence: checked.

    level: A-weighted level [dB], -50 to 200
    criterion_level: level permitted for eight hours [dB]
    exchange_rate: decibels that halve the time [dB], 3 to 6; 10 lg 2 = 3.0103 is exact energy
    Returns [s].
    Valid for: the range the rule states (OSHA 80 to 130 dBA, NIOSH 80 to 140 dBA).
    Raises OutOfRange: a level or the exchange rate outside its range.

    >>> permitted_duration(95.0, 90.0, 5.0) / 3600
    4.0
    """
    require_plausible_level(level)
    require_plausible_level(criterion_level)
    return _EIGHT_HOURS / math.pow(2.0, (level - criterion_level) / _exchange_rate(exchange_rate))


def noise_dose(
    levels: Sequence[Level],
    durations: Sequence[Time],
    criterion_level: Level,
    exchange_rate: Level,
    threshold: Level,
) -> Number:
    """Noise dose of a day as a fraction D [1], 1 for what the rules print as 100 %.

    Source: 29 CFR 1910.95, App. A, I(1), D = Σ C/T. Confidence: checked.

    levels: A-weighted level of each period [dB], -50 to 200
    durations: of the same periods [s], each above 0, together at most 24 h
    criterion_level: level permitted for eight hours [dB]
    exchange_rate: decibels that halve the time [dB], 3 to 6
    threshold: level below which a period does not count [dB]: OSHA 90 for the permitted
        exposure, 80 for the action level
    Returns [1].
    Valid for: steady levels within each period.
    Raises OutOfRange: lists of unequal length or empty, or a value outside its range.

    >>> noise_dose([92.0], [8 * 3600], 90.0, 5.0, 80.0)     # 131.95 %; printed 132 %
    1.32
    """
    _check_periods(levels, durations)
    # Before the threshold: what is no number lies below none and would count for nothing.
    for level in levels:
        require_plausible_level(level)
    require_plausible_level(threshold)
    return math.fsum(
        duration / permitted_duration(level, criterion_level, exchange_rate)
        for level, duration in zip(levels, durations, strict=True)
        if level >= threshold
    )


def average_level_of_dose(dose: Number, criterion_level: Level, exchange_rate: Level) -> Level:
    """Eight-hour time-weighted average level of a dose TWA [dB].

    Source: 29 CFR 1910.95, App. A, I(2), TWA = 16.61 lg D + 90, the 16.61 being 5/lg 2.
    Confidence: checked.

    dose: as a fraction [1], > 0
    criterion_level: level permitted for eight hours [dB], -50 to 200
    exchange_rate: decibels that halve the time [dB], 3 to 6
    Returns [dB].
    Valid for: the rule the dose was reckoned by.
    Raises OutOfRange: dose not above zero, or a value outside its range.

    >>> average_level_of_dose(0.91, 90.0, 5.0)
    89.3
    """
    require_plausible_level(criterion_level)
    require_positive(dose, "noise dose")
    return criterion_level + _exchange_rate(exchange_rate) * math.log2(dose)


def level_for_dose(
    dose: Number, duration: Time, criterion_level: Level, exchange_rate: Level
) -> Level:
    """Steady level that gives a stated dose in a stated time L [dB].

    Source: OSHA Technical Manual, section III, chapter 5, action level for long shifts; the
    dose formula of 29 CFR 1910.95, App. A, solved for the level. Confidence: checked.

    dose: as a fraction [1], > 0; 0.5 is the American action level
    duration: length of the shift [s], above 0 and at most 24 h
    criterion_level: level permitted for eight hours [dB], -50 to 200
    exchange_rate: decibels that halve the time [dB], 3 to 6
    Returns [dB].
    Valid for: one steady level over the whole shift.
    Raises OutOfRange: a value outside its range.

    >>> level_for_dose(0.5, 12 * 3600, 90.0, 5.0)
    82.1
    """
    require_positive(dose, "noise dose")
    per_eight_hours = dose * _EIGHT_HOURS / _duration(duration)
    return average_level_of_dose(per_eight_hours, criterion_level, exchange_rate)
