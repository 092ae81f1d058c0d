"""One line a finding, for a spreadsheet."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from typing import Any, TextIO

from checker.audit.comparing import Change
from checker.audit.results import JobResult
from checker.audit.totals import Totals
from checker.findings import Finding

__all__ = ["COLUMNS", "Results", "rows_of"]

COLUMNS = (
    "path",
    "reference",
    "stage",
    "date",
    "verdict",
    "rule",
    "member",
    "grade",
    "utilisation",
    "missing",
    "error",
)
# What a spreadsheet would take for a formula.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


class Results:
    """Writes comma separated values."""

    wants_words = False

    def __init__(self, file: TextIO, **_: Any) -> None:
        self.writer = csv.writer(file, lineterminator="\n")
        self.writer.writerow(COLUMNS)

    def job(
        self,
        result: JobResult,
        changes: Sequence[Change] = (),
        findings: Sequence[Finding] = (),
    ) -> None:
        """Write one job's lines."""
        del changes, findings  # A line a finding has no place for them.
        for row in rows_of(result):
            self.writer.writerow([_guarded(cell) for cell in row])

    def end(self, totals: Totals) -> None:
        """Nothing stands behind the last line."""


def rows_of(result: JobResult) -> list[tuple[Any, ...]]:
    """A job's findings as rows; a job that could not be read is one row with the reason."""
    head = (result.path, result.reference, result.stage, result.date, result.verdict)
    if result.error:
        return [(*head, "", None, "", None, "", result.error.splitlines()[0])]
    return [
        (*head, f.rule, f.member, f.grade, f.utilisation, " ".join(f.missing), "")
        for f in result.findings
    ]


def _guarded(cell: Any) -> Any:
    if isinstance(cell, str) and cell.startswith(_FORMULA):
        return "'" + cell
    return "" if cell is None else cell
