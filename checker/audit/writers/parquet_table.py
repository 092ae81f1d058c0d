"""One row a finding as a Parquet file, for those who ask questions of years of jobs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TextIO

from checker.audit.comparing import Change
from checker.audit.results import JobResult
from checker.audit.totals import Totals
from checker.audit.writers.csv_table import COLUMNS, rows_of
from checker.errors import Place, fault
from checker.findings import Finding

__all__ = ["Results"]

_GROUP = 50_000


class Results:
    """Writes Parquet in groups of rows, so that memory does not grow with the jobs."""

    wants_words = False

    def __init__(self, file: TextIO, **_: Any) -> None:
        try:
            import pyarrow as pa  # noqa: PLC0415 - an extra
            import pyarrow.parquet as pq  # noqa: PLC0415 - an extra
        except ImportError:
            fault(
                "Parquet needs a further package",
                Place("--format parquet"),
                hint="pip install 'mistwright[parquet]'",
            )
        if not hasattr(file, "buffer"):
            fault(
                "Parquet is not text",
                Place("--format parquet"),
                hint="write it to a file with --output",
            )
        self.pa = pa
        texts = {c: pa.string() for c in COLUMNS} | {
            "member": pa.int32(),
            "utilisation": pa.float64(),
        }
        self.schema = pa.schema([(c, texts[c]) for c in COLUMNS])
        self.writer = pq.ParquetWriter(file.buffer, self.schema)
        self.rows: list[tuple[Any, ...]] = []

    def job(
        self,
        result: JobResult,
        changes: Sequence[Change] = (),
        findings: Sequence[Finding] = (),
    ) -> None:
        """Take in one job's rows."""
        del changes, findings
        self.rows += rows_of(result)
        if len(self.rows) >= _GROUP:
            self._flush()

    def end(self, totals: Totals) -> None:
        """Write what waits and close the file."""
        del totals
        self._flush()
        self.writer.close()

    def _flush(self) -> None:
        columns = list(zip(*self.rows, strict=True)) if self.rows else [()] * len(COLUMNS)
        arrays = [self.pa.array(c, type=f.type) for c, f in zip(columns, self.schema, strict=True)]
        self.writer.write_table(self.pa.Table.from_arrays(arrays, schema=self.schema))
        self.rows.clear()
