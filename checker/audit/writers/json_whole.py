"""All results as one JSON document."""

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
    """Writes one JSON document, a job a line."""

    wants_words = False

    def __init__(self, file: TextIO, **_: Any) -> None:
        self.file = file
        self.first = True
        file.write('{"jobs": [')

    def job(
        self,
        result: JobResult,
        changes: Sequence[Change] = (),
        findings: Sequence[Finding] = (),
    ) -> None:
        """Write one job."""
        del findings
        self.file.write(("\n" if self.first else ",\n") + to_json(result, changes))
        self.first = False

    def end(self, totals: Totals) -> None:
        """Close the list and write the totals."""
        self.file.write(
            '\n], "totals": ' + json.dumps(totals.as_data(), ensure_ascii=False, indent=1) + "}\n"
        )
