"""The results of an audit as one SARIF log."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, TextIO

import checker
from checker.audit.comparing import Change
from checker.audit.results import JobResult
from checker.audit.totals import Totals
from checker.findings import Finding
from checker.grades import Grade
from checker.output import sarif

__all__ = ["Results"]

_UNREAD = "description/unread"
_NO_RESULTS = '"results": []'


class Results:
    """Writes SARIF, the gravest results first.

    What is kept until the end are the results, as text, and no more of them than a reader
    accepts.
    """

    wants_words = True

    def __init__(self, file: TextIO, **_: Any) -> None:
        self.file = file
        self.rules: dict[str, dict[str, Any]] = {}
        self.index: dict[str, int] = {}
        self.results: dict[Grade, list[str]] = {g: [] for g in Grade if g < Grade.MET}
        self.room = sarif.MOST
        self.left_out = 0

    def job(
        self,
        result: JobResult,
        changes: Sequence[Change] = (),
        findings: Sequence[Finding] = (),
    ) -> None:
        """Take in one job's findings."""
        del changes
        if result.error:
            self._unread(result)
            return
        job = sarif.JobOf(result.path, result.reference, result.verdict)
        for finding in findings:
            if finding.rule not in self.index:
                self._rule(sarif.rule_entry(finding))
            self._add(finding.grade, sarif.result_of(finding, job, self.index[finding.rule]))

    def end(self, totals: Totals) -> None:
        """Write the log, a result a line."""
        del totals
        log = sarif.run_around(list(self.rules.values()), [], checker.__version__)
        if self.left_out:
            log["runs"][0]["properties"] = {"resultsLeftOut": self.left_out}
        # Within a text of the log a quotation mark is escaped, so this stands there once.
        before, here, behind = json.dumps(log, indent=1, ensure_ascii=False).partition(_NO_RESULTS)
        self.file.write(before + here[:-1])
        divide = "\n"
        for grade in self.results.values():
            for result in grade:
                self.file.write(divide + result)
                divide = ",\n"
        self.file.write(here[-1] + behind + "\n")

    def _unread(self, result: JobResult) -> None:
        if _UNREAD not in self.index:
            self._rule(
                {
                    "id": _UNREAD,
                    "name": "DescriptionUnread",
                    "shortDescription": {"text": "A description that cannot be read"},
                    "fullDescription": {"text": "The file is no description that can be checked."},
                    "help": {"text": "Mend the file as the message says."},
                }
            )
        file, line, column, error = result.unread_at
        unread = sarif.unread_result(
            _UNREAD, self.index[_UNREAD], result.path, (file, line, column), error
        )
        self._add(Grade.STOP, unread)

    def _rule(self, entry: dict[str, Any]) -> None:
        self.index[entry["id"]] = len(self.rules)
        self.rules[entry["id"]] = entry

    def _add(self, grade: Grade, result: dict[str, Any]) -> None:
        """Keep a result; where there is no room, one of the least grave makes way."""
        self.results[grade].append(json.dumps(result, ensure_ascii=False))
        self.room -= 1
        if self.room < 0:
            least = next(kept for kept in reversed(self.results.values()) if kept)
            least.pop()
            self.room = 0
            self.left_out += 1
