"""What an audit's results look like: each module writes one form, job by job as they come."""

from __future__ import annotations

import contextlib
import importlib
from collections.abc import Iterator, Sequence
from typing import Any, Protocol, TextIO, runtime_checkable

from checker.audit.comparing import Change
from checker.audit.results import JobResult
from checker.audit.totals import Totals
from checker.findings import Finding

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
    "html": "checker.audit.writers.html_overview",
}


class Writer(Protocol):
    """Writes the results of an audit to an open file."""

    # Whether it shows the findings to act on in their words.
    wants_words: bool

    def job(
        self,
        result: JobResult,
        changes: Sequence[Change] = (),
        findings: Sequence[Finding] = (),
    ) -> None:
        """Write one job's result, what changed in it, and in words what to act on."""

    def end(self, totals: Totals) -> None:
        """Write what stands after the last job."""


@contextlib.contextmanager
def open_writer(form: str, file: TextIO, **options: Any) -> Iterator[Writer]:
    """The writer of a form, at its beginning; what it holds is let go at the end, come what may.

    Raises KeyError for a form that does not exist.
    """
    module = importlib.import_module(FORMATS[form])
    writer: Writer = module.Results(file, **options)
    try:
        yield writer
    finally:
        if isinstance(writer, _Holding):
            writer.close()


@runtime_checkable
class _Holding(Protocol):
    def close(self) -> None:
        """Let go of files of its own."""
