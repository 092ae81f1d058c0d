"""The parts of an audit put together again: the same answer as one run, to the byte."""

from __future__ import annotations

import json
from collections.abc import Generator
from contextlib import ExitStack, closing
from itertools import zip_longest
from pathlib import Path
from typing import Any, NamedTuple, NoReturn, TextIO

from checker.audit.comparing import Change, change_from
from checker.audit.line_files import numbered_lines
from checker.audit.reports import way_to
from checker.audit.results import JobResult, from_json, rule_digests_from, status_of, verdicts_from
from checker.audit.totals import Totals
from checker.audit.worded import from_data
from checker.audit.writers import open_writer
from checker.errors import Place, fault
from checker.findings import Finding
from checker.grades import Grade
from checker.writing import writing_whole

__all__ = ["merge_parts"]


class _Line(NamedTuple):
    result: JobResult
    changes: list[Change]
    findings: tuple[Finding, ...]


def merge_parts(
    parts: tuple[str, ...],
    form: str,
    output: Path | None,
    accept: Grade,
    out: TextIO,
    reports: Path | None = None,
    *,
    words: bool = False,
) -> int:
    """Write the jobs of all parts in the order of one run; the highest status of them all.

    Part K of N held every N-th job from the K-th on, so the parts are dealt out in turn.
    Raises Mistakes for a file that is not the JSON lines of an audit, not whole, or not in
    its place among the parts.
    """
    totals = Totals()
    status = 0
    with writing_whole(output, out) as file, ExitStack() as stack:
        options = {"words": words, "reports": way_to(reports, output)}
        writer = stack.enter_context(open_writer(form, file, **options))
        read = [_Part(name, i, len(parts), writer.wants_words) for i, name in enumerate(parts, 1)]
        lines = [stack.enter_context(closing(part.lines())) for part in read]
        for turn in zip_longest(*lines):
            for line in turn:
                if line is None:
                    continue
                writer.job(line.result, line.changes, line.findings)
                totals.add(line.result)
                status = max(status, status_of(line.result, accept))
        digests = {d: r for part in read for d, r in part.digests.items()}
        totals.rule_digests = {d: r for d, r in digests.items() if d in totals.rulebooks}
        totals.gone = {path: verdict for part in read for path, verdict in part.gone.items()}
        writer.end(totals)
    return status


class _Part:
    """The K-th file of N."""

    def __init__(self, name: str, number: int, of: int, words: bool) -> None:
        self.name = name
        self.part = f"{number}/{of}"
        self.words = words
        self.digests: dict[str, dict[str, str]] = {}
        self.gone: dict[str, str] = {}

    def lines(self) -> Generator[_Line, None, None]:
        """Its jobs, each as it is asked for."""
        whole = False
        try:
            for number, text in numbered_lines(Path(self.name)):
                try:
                    data = json.loads(text)
                    if "totals" in data:
                        self._end(data["totals"])
                        whole = True
                        continue
                    line = self._line(text, data)
                except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
                    self._refuse(str(error)[:120], number)
                yield line
        except (OSError, ValueError) as error:
            fault("the part cannot be read", Place(self.name), found=str(error)[:120])
        if not whole:
            fault(
                "the part is not whole",
                Place(self.name),
                expected="a last line with the totals",
                hint="run that part again",
            )

    def _line(self, text: str, data: dict[str, Any]) -> _Line:
        result = from_json(text)
        changes = [change_from(c) for c in data.get("changes", ())]
        words: tuple[Finding, ...] = ()
        if self.words and result.to_act_on:
            if "words" not in data:
                fault(
                    "the part holds grades only, and this form shows sentences",
                    Place(self.name),
                    hint="run that part again with --words",
                )
            words = from_data(data["words"])
        return _Line(result, changes, words)

    def _end(self, totals: dict[str, Any]) -> None:
        self.digests = rule_digests_from(totals)
        self.gone = verdicts_from(totals["gone"])
        part = totals.get("part", "1/1")
        if part != self.part:
            fault(
                "the part is not in its place",
                Place(self.name),
                found=part,
                expected=self.part,
                hint="give all parts, in the order 1/N to N/N",
            )

    def _refuse(self, found: str, number: int) -> NoReturn:
        fault(
            "the part is not the JSON lines of an audit", Place(self.name, number, 1), found=found
        )
