"""What an audit's results look like: each module writes one form, job by job as they come."""

from __future__ import annotations

import importlib
from collections.abc import Sequence
from typing import Any, Protocol, TextIO

from checker.audit.comparing import Change
from checker.audit.results import JobResult
from checker.audit.totals import Totals

__all__ = ["FORMATS", "Writer", "open_writer"]

# A new form is a module here with a class ``Results``, and a line in this table.
FORMATS = {
    "text": "checker.audit.writers.text",
    "json": "checker.audit.writers.json_whole",
    "jsonl": "checker.audit.writers.json_lines",
    "csv": "checker.audit.writers.csv_table",
    "parquet": "checker.audit.writers.parquet_table",
    "junit": "checker.audit.writers.junit_suites",
    "sarif": "checker.audit.writers.sarif_log",
}


class Writer(Protocol):
    """Writes the results of an audit to an open file."""

    def job(self, result: JobResult, changes: Sequence[Change] = ()) -> None:
        """Write one job's result, and what changed in it since an earlier audit."""

    def end(self, totals: Totals) -> None:
        """Write what stands after the last job."""


def open_writer(form: str, file: TextIO, **options: Any) -> Writer:
    """The writer of a form, at its beginning. Raises KeyError for a form that does not exist."""
    module = importlib.import_module(FORMATS[form])
    writer: Writer = module.Results(file, **options)
    return writer
