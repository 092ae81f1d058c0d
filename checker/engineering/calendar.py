"""Dates of examinations and records: months and days after a date, days between dates.

A date is a number: seconds from 1970-01-01 to midnight of that day, without time zones.
"""

from __future__ import annotations

import calendar as months_of_the_year
from datetime import date, timedelta

from .dimensions import Date, Number
from .limits import OutOfRange

__all__ = ["date_after_days", "date_after_months", "days_between"]

_SECONDS_PER_DAY = 86400
_EPOCH = date(1970, 1, 1)


def _day(value: Date) -> date:
    if not float(value / _SECONDS_PER_DAY).is_integer():
        raise OutOfRange(f"{value:g} s from 1970-01-01 is not midnight; a date has no time of day.")
    try:
        return _EPOCH + timedelta(days=value // _SECONDS_PER_DAY)
    except OverflowError:
        raise OutOfRange(
            f"{value:g} s from 1970-01-01 is outside the years 1 to 9999 of the calendar."
        ) from None


def _seconds(day: date) -> Date:
    return float((day - _EPOCH).days * _SECONDS_PER_DAY)


def _whole(name: str, value: Number) -> int:
    if not float(value).is_integer():
        raise OutOfRange(f"The number of {name} is {value:g}; it must be a whole number.")
    return int(value)


def date_after_months(start: Date, months: Number) -> Date:
    """Date a number of calendar months after another [date].

    Source: corresponding date rule, Dodds v Walker [1981] 1 WLR 1027 (House of Lords), and
    Regulation (EEC, Euratom) No 1182/71, Art. 3(2)(c). Confidence: checked.

    start: day the period runs from [date]
    months: calendar months [1], whole; negative goes back
    Returns [date]: the day of the same number, or the last day of a month that has no such day.
    Valid for: years 1 to 9999.
    Raises OutOfRange: months not whole, a date with a time of day, or a result outside the years.

    >>> days_between(date_after_months(0.0, 14), date_after_days(0.0, 424))   # 1971-03-01
    0.0
    """
    day = _day(start)
    year, month_index = divmod(day.year * 12 + day.month - 1 + _whole("months", months), 12)
    if not date.min.year <= year <= date.max.year:
        raise OutOfRange(
            f"{months:g} months from {day.isoformat()} falls in the year {year}; the calendar "
            "holds the years 1 to 9999."
        )
    last = months_of_the_year.monthrange(year, month_index + 1)[1]
    return _seconds(date(year, month_index + 1, min(day.day, last)))


def date_after_days(start: Date, days: Number) -> Date:
    """Date a number of days after another [date].

    Source: Gregorian calendar. Confidence: checked.

    start: day counted from [date]
    days: days [1], whole; negative goes back
    Returns [date].
    Valid for: years 1 to 9999.
    Raises OutOfRange: days not whole, a date with a time of day, or a result outside the years.

    >>> date_after_days(0.0, 10957) == days_between(0.0, 946684800.0) * 86400   # 2000-01-01
    True
    """
    day = _day(start)
    try:
        return _seconds(day + timedelta(days=_whole("days", days)))
    except OverflowError:
        raise OutOfRange(
            f"{days:g} days from {day.isoformat()} is outside the years 1 to 9999 of the calendar."
        ) from None


def days_between(first: Date, second: Date) -> Number:
    """Days from one date to another [1].

    Source: Gregorian calendar. Confidence: checked.

    first: earlier day [date]
    second: later day [date]
    Returns [1], negative where the second lies before the first.
    Valid for: years 1 to 9999; the first day is not counted, the last one is.
    Raises OutOfRange: a date with a time of day, or outside the years.

    >>> days_between(0.0, 946684800.0)      # 1970-01-01 to 2000-01-01
    10957.0
    """
    return float((_day(second) - _day(first)).days)
