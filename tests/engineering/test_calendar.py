"""Calendar months and days: behaviour and refusals."""

from __future__ import annotations

import math
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.calendar import date_after_days, date_after_months, days_between
from checker.engineering.limits import OutOfRange

EPOCH = date(1970, 1, 1)
days = st.dates(date(1900, 1, 1), date(2200, 12, 31))


def seconds(day: date) -> float:
    return (day - EPOCH).days * 86400.0


# Arithmetic of fourteen calendar months (COSHH Regulations 2002, reg. 9(2)(a)).
@pytest.mark.parametrize(
    ("commissioned", "due"),
    [
        (date(2025, 3, 15), date(2026, 5, 15)),
        (date(2025, 12, 31), date(2027, 2, 28)),
        (date(2023, 12, 29), date(2025, 2, 28)),
        (date(2022, 12, 31), date(2024, 2, 29)),
    ],
)
def test_fourteen_months(commissioned: date, due: date) -> None:
    assert date_after_months(seconds(commissioned), 14) == seconds(due)


# Regulation 1182/71, Art. 3(2)(c): a day the last month lacks becomes its last day.
@pytest.mark.parametrize(
    ("start", "end"),
    [
        (date(2023, 1, 31), date(2023, 2, 28)),
        (date(2024, 1, 30), date(2024, 2, 29)),
        (date(2023, 3, 31), date(2023, 4, 30)),
        (date(1999, 12, 31), date(2000, 1, 31)),
    ],
)
def test_a_month_without_the_day(start: date, end: date) -> None:
    assert date_after_months(seconds(start), 1) == seconds(end)


def test_the_last_day_is_not_carried_along() -> None:
    # 28 February to 28 March: the corresponding date, not the end of the month.
    assert date_after_months(seconds(date(2023, 2, 28)), 1) == seconds(date(2023, 3, 28))


@given(days, st.integers(0, 120))
def test_months_land_in_their_month(day: date, months: int) -> None:
    end = EPOCH.fromordinal(
        EPOCH.toordinal() + int(date_after_months(seconds(day), months) // 86400)
    )
    assert end.year * 12 + end.month == day.year * 12 + day.month + months
    assert end.day <= day.day
    assert end.day == day.day or day.day > 28


@given(days, st.integers(-120, 120))
def test_a_later_start_never_ends_earlier(day: date, months: int) -> None:
    today, tomorrow = seconds(day), seconds(day) + 86400.0
    assert date_after_months(today, months) <= date_after_months(tomorrow, months)


@given(days, days)
def test_days_there_and_back(first: date, second: date) -> None:
    count = days_between(seconds(first), seconds(second))
    assert count == (second - first).days
    assert date_after_days(seconds(first), count) == seconds(second)


def test_dates_before_1970() -> None:
    assert date_after_months(seconds(date(1969, 11, 30)), 3) == seconds(date(1970, 2, 28))
    assert days_between(seconds(date(1969, 12, 31)), 0.0) == 1.0


def test_refusals_name_the_value() -> None:
    with pytest.raises(OutOfRange, match=r"number of months is 1\.5"):
        date_after_months(0.0, 1.5)
    with pytest.raises(OutOfRange, match=r"number of days is 0\.5"):
        date_after_days(0.0, 0.5)
    with pytest.raises(OutOfRange, match="number of days is nan"):
        date_after_days(0.0, math.nan)
    with pytest.raises(OutOfRange, match="3600 s from 1970-01-01 is not midnight"):
        days_between(0.0, 3600.0)
    with pytest.raises(OutOfRange, match="is not midnight"):
        days_between(math.nan, 0.0)
    with pytest.raises(OutOfRange, match="falls in the year 11970"):
        date_after_months(0.0, 120000)
    with pytest.raises(OutOfRange, match="years 1 to 9999"):
        date_after_days(0.0, 1e7)
    with pytest.raises(OutOfRange, match="years 1 to 9999"):
        days_between(0.0, 86400.0 * 1e7)
