"""COSHH Regulations 2002, Great Britain: intervals of thorough examination, keeping of records."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.engineering.calendar import date_after_months, days_between
from checker.findings import Finding
from checker.installation.binding import seconds_of
from checker.rulebook.model import Rulebook

# COSHH 2002, regulation 9(2)(a) and Schedule 4 as an insurer tables it: calendar months.
# Confidence: checked.
PRINTED_MONTHS = {
    "any-other": 14,
    "dry-grinding": 6,
    "non-ferrous-casting": 6,
    "casting-blasting": 1,
    "jute": 1,
}


def told(commissioned: str, due: str, process: str = "any-other") -> str:
    return (
        f"{{commissioned_on: {commissioned}, examination: {{process: {process}, due_on: {due}, "
        f"reference: letter 4, on: {commissioned}, by: supervisor}}}}"
    )


# COSHH 2002, Schedule 4, every row; exact. Confidence: checked.
@pytest.mark.parametrize(("process", "printed"), PRINTED_MONTHS.items())
def test_table(shipped: Rulebook, process: str, printed: int) -> None:
    assert shipped.tables["examination_interval"].columns["months"].look_up(process) == printed


# COSHH 2002, regulation 9(2)(a): at least once every 14 months. The months are printed, the days
# are arithmetic of the calendar. Confidence: checked.
@pytest.mark.parametrize(
    ("commissioned", "last_day", "day_after"),
    [
        ("2025-03-15", "2026-05-15", "2026-05-16"),
        ("2025-12-31", "2027-02-28", "2027-03-01"),
        ("2023-12-29", "2025-02-28", "2025-03-01"),
        ("2022-12-31", "2024-02-29", "2024-03-01"),
    ],
)
def test_fourteen_months(
    ask: Callable[..., Finding], commissioned: str, last_day: str, day_after: str
) -> None:
    kept = ask(
        "handover/examination-due", job="{stage: fitted}", records=told(commissioned, last_day)
    )
    late = ask(
        "handover/examination-due", job="{stage: fitted}", records=told(commissioned, day_after)
    )
    assert (kept.grade.word, late.grade.word) == ("met", "correct")
    assert f"due by {last_day} at the latest" in late.sentence


# Fourteen months are not fourteen times thirty days, nor 14/12 of 365. Arithmetic of the calendar.
@pytest.mark.parametrize("days", [14 * 30, round(365 * 14 / 12)])
def test_not_a_number_of_days(days: int) -> None:
    start = seconds_of("2022-12-31")
    assert start is not None
    assert days_between(start, date_after_months(start, 14)) != days


# COSHH 2002, Schedule 4: six months for dry grinding of metal, one for blasting of castings; the
# general 14 months do not serve there. Confidence: checked.
@pytest.mark.parametrize(
    ("process", "last_day"), [("dry-grinding", "2025-09-15"), ("casting-blasting", "2025-04-15")]
)
def test_scheduled_process(ask: Callable[..., Finding], process: str, last_day: str) -> None:
    kept = ask(
        "handover/examination-due",
        job="{stage: fitted}",
        records=told("2025-03-15", last_day, process),
    )
    general = ask(
        "handover/examination-due",
        job="{stage: fitted}",
        records=told("2025-03-15", "2026-05-15", process),
    )
    assert (kept.grade.word, general.grade.word) == ("met", "correct")


# COSHH 2002, regulation 9(4): the record is kept at least five years. Confidence: checked.
@pytest.mark.parametrize(
    ("until", "grade"),
    [("2031-05-15", "met"), ("2031-05-14", "correct"), ("2056-05-15", "met")],
)
def test_five_years(ask: Callable[..., Finding], until: str, grade: str) -> None:
    found = ask(
        "handover/examination-records",
        job="{stage: fitted}",
        records=f"{{examination: {{due_on: 2026-05-15, records_kept_until: {until}}}}}",
    )
    assert found.grade.word == grade
