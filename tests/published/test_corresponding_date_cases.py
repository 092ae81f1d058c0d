"""House of Lords and Court of Appeal on months: Dodds v Walker and the case that followed it."""

from __future__ import annotations

from datetime import date

import pytest

from checker.engineering.calendar import date_after_months

EPOCH = date(1970, 1, 1)


def seconds(day: date) -> float:
    return (day - EPOCH).days * 86400.0


# Dodds v Walker [1981] 1 WLR 1027: notice of 30 September 1978, four months, ended on 30 January
# 1979; an application of 31 January was a day late. Confidence: checked.
def test_dodds_v_walker() -> None:
    end = date_after_months(seconds(date(1978, 9, 30)), 4)
    assert end == seconds(date(1979, 1, 30))
    assert end < seconds(date(1979, 1, 31))


# E J Riley Investments Ltd v Eurostile Holdings Ltd (Court of Appeal): notice of 23 March 1983,
# two months, ended on 23 May 1983. Confidence: checked.
def test_riley_v_eurostile() -> None:
    assert date_after_months(seconds(date(1983, 3, 23)), 2) == seconds(date(1983, 5, 23))


# Chambers' note on judicial review time limits (2022): three months after 1 January is 1 April,
# not 31 March. Confidence: checked.
def test_three_months_after_new_year() -> None:
    end = date_after_months(seconds(date(2022, 1, 1)), 3)
    assert end == seconds(date(2022, 4, 1))
    assert end != seconds(date(2022, 3, 31))


# Solicitors' note on notice periods (2012): six months before 30 September 2012 is 30 March 2012;
# six months from 2 April 2012 is 2 October 2012. Confidence: checked.
@pytest.mark.parametrize(
    ("start", "months", "end"),
    [
        (date(2012, 9, 30), -6, date(2012, 3, 30)),
        (date(2012, 4, 2), 6, date(2012, 10, 2)),
    ],
)
def test_notice_periods(start: date, months: float, end: date) -> None:
    assert date_after_months(seconds(start), months) == seconds(end)
