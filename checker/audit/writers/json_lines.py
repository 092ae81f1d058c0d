"""One line of JSON a job, and a last one with the totals."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, TextIO

from checker.audit.comparing import Change
from checker.audit.results import JobResult, to_json
from checker.audit.totals import Totals
from checker.findings import Finding

__all__ = ["Results"]


class Results:
    """Writes JSON lines."""

    def __init__(self, file: TextIO, *, words: bool = False, **_: Any) -> None:
        self.file = file
        # A part that is to become a form with sentences carries them along.
        self.wants_words = words

    def job(
        self,
        result: JobResult,
        changes: Sequence[Change] = (),
        findings: Sequence[Finding] = (),
    ) -> None:
        """Write one job's line."""
        words = None
        if findings and self.wants_words:
            from checker.audit.worded import to_data  # noqa: PLC0415 - few lines carry words

            words = to_data(findings)
        self.file.write(to_json(result, changes, words) + "\n")

    def end(self, totals: Totals) -> None:
        """Write the totals' line."""
        self.file.write(
            json.dumps({"totals": totals.as_data()}, ensure_ascii=False, separators=(",", ":"))
            + "\n"
        )
