"""The sentences of a job, for the forms that show them: worked out for what failed only."""

from __future__ import annotations

from typing import TYPE_CHECKING

from checker.audit.results import JobResult
from checker.errors import Mistakes
from checker.findings import Report
from checker.grades import Grade

if TYPE_CHECKING:
    from checker.audit.running import Auditor

__all__ = ["report_of"]


def report_of(result: JobResult, auditor: Auditor | None) -> Report | None:
    """The report of a job with something to act on; None where there is nothing, or no file any more.

    A file that has changed since it was judged gives None: its sentences would not be
    those of the result.
    """
    if auditor is None or result.error or result.gravest >= Grade.MET:
        return None
    try:
        report = auditor.checker.report(result.path, result.fitted, working=False)
    except Mistakes:
        return None
    return report if report.digest == result.digest else None
