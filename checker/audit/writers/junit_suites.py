"""The results of an audit as JUnit XML, a suite a job."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TextIO

from checker.audit.comparing import Change
from checker.audit.results import JobResult
from checker.audit.totals import Totals
from checker.audit.wordy import report_of
from checker.grades import Grade
from checker.output import junit

__all__ = ["Results"]


class Results:
    """Writes JUnit XML; the sentences of what failed are worked out again for it."""

    def __init__(self, file: TextIO, auditor: Any = None, **_: Any) -> None:
        self.file = file
        self.auditor = auditor
        file.write(junit.head())

    def job(self, result: JobResult, changes: Sequence[Change] = ()) -> None:
        """Write one job's suite."""
        del changes
        label = result.reference or result.path
        if result.error:
            cases = [
                junit.SuiteCase(
                    label, "description", Grade.CONFIRM, result.error.splitlines()[0], result.error
                )
            ]
        else:
            report = report_of(result, self.auditor)
            if report is not None:
                cases = junit.cases_of(report, label)
            else:
                cases = [
                    junit.SuiteCase(
                        f"{label}.{f.rule.rpartition('/')[0]}",
                        f.key,
                        Grade.of(f.grade),
                        f.grade,
                        f.grade,
                    )
                    for f in result.findings
                ]
        properties = {
            "verdict": result.verdict,
            "stage": result.stage,
            "rulebook": result.rulebook,
            "description": result.digest,
            "local": ", ".join(result.overlays),
        }
        self.file.write(junit.suite(result.path, cases, properties))

    def end(self, totals: Totals) -> None:
        """Close the document."""
        del totals
        self.file.write(junit.tail())
