"""One line of JSON a job, and a last one with the totals."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, TextIO

from checker.audit.comparing import Change
from checker.audit.results import JobResult, to_json
from checker.audit.totals import Totals

__all__ = ["Results"]


class Results:
    """Writes JSON lines."""

    def __init__(self, file: TextIO, **_: Any) -> None:
        self.file = file

    def job(self, result: JobResult, changes: Sequence[Change] = ()) -> None:
        """Write one job's line."""
        self.file.write(to_json(result, changes) + "\n")

    def end(self, totals: Totals) -> None:
        """Write the totals' line."""
        self.file.write(
            json.dumps({"totals": totals.as_data()}, ensure_ascii=False, separators=(",", ":"))
            + "\n"
        )
