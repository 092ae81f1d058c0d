"""Meeus, Astronomical Algorithms, chapter 7 (Julian Day): days between dates."""

from __future__ import annotations

from datetime import date

from checker.engineering.calendar import date_after_days, days_between

EPOCH = date(1970, 1, 1)


def seconds(day: date) -> float:
    return (day - EPOCH).days * 86400.0


# Example 7.d: perihelia of Halley's comet on 20 April 1910 and 9 February 1986: 27 689 days.
# Confidence: from-memory.
def test_perihelia_of_halleys_comet() -> None:
    assert days_between(seconds(date(1910, 4, 20)), seconds(date(1986, 2, 9))) == 27689.0


# Exercise after it: 10 000 days after 11 July 1991 is 26 November 2018. Confidence: from-memory.
def test_ten_thousand_days() -> None:
    assert date_after_days(seconds(date(1991, 7, 11)), 10000) == seconds(date(2018, 11, 26))


# Julian Day of J2000.0 (2000 January 1.5) 2 451 545.0 and of the Unix epoch 2 440 587.5:
# 10 957 days from midnight to midnight. Confidence: checked (2 451 545.0), from-memory (the
# other).
def test_j2000() -> None:
    assert days_between(0.0, seconds(date(2000, 1, 1))) == (2451545.0 - 0.5) - 2440587.5
