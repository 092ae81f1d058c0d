"""The results of an audit as one SARIF log."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, TextIO

import checker
from checker.audit.comparing import Change
from checker.audit.results import JobResult
from checker.audit.totals import Totals
from checker.audit.wordy import report_of
from checker.output import sarif

__all__ = ["Results"]

_MOST = 25_000  # results a reader accepts in one run


class Results:
    """Writes SARIF; what is kept until the end are the results, which a reader limits."""

    def __init__(self, file: TextIO, auditor: Any = None, **_: Any) -> None:
        self.file = file
        self.auditor = auditor
        self.rules: dict[str, dict[str, Any]] = {}
        self.results: list[dict[str, Any]] = []
        self.left_out = 0

    def job(self, result: JobResult, changes: Sequence[Change] = ()) -> None:
        """Take in one job's findings."""
        del changes
        if result.error:
            self._unread(result)
            return
        report = report_of(result, self.auditor)
        if report is None:
            return
        for finding in report.findings:
            self.rules.setdefault(finding.rule, sarif.rule_entry(finding))
        index = {name: i for i, name in enumerate(self.rules)}
        self._add(sarif.results_of(report, index))

    def end(self, totals: Totals) -> None:
        """Write the log."""
        del totals
        log = sarif.run_around(list(self.rules.values()), self.results, checker.__version__)
        if self.left_out:
            log["runs"][0]["properties"] = {"resultsLeftOut": self.left_out}
        json.dump(log, self.file, indent=1, ensure_ascii=False)
        self.file.write("\n")

    def _unread(self, result: JobResult) -> None:
        name = "description/unread"
        self.rules.setdefault(
            name,
            {
                "id": name,
                "name": "DescriptionUnread",
                "shortDescription": {"text": "A description that cannot be read"},
                "fullDescription": {"text": "The file is not a description that can be checked."},
                "help": {"text": "Mend the file as the message says."},
            },
        )
        self._add(
            [
                {
                    "ruleId": name,
                    "ruleIndex": list(self.rules).index(name),
                    "level": "error",
                    "message": {"text": result.error},
                    "locations": [
                        {
                            "physicalLocation": {
                                "artifactLocation": {"uri": sarif.relative_uri(result.path)},
                                "region": {"startLine": 1, "startColumn": 1},
                            }
                        }
                    ],
                }
            ]
        )

    def _add(self, results: list[dict[str, Any]]) -> None:
        room = _MOST - len(self.results)
        self.results += results[:room]
        self.left_out += max(len(results) - room, 0)
