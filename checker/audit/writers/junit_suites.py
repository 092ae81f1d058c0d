"""The results of an audit as JUnit XML, a suite a job."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, TextIO

from checker.audit.comparing import Change
from checker.audit.results import JobResult
from checker.audit.totals import Totals
from checker.findings import Finding
from checker.grades import Grade
from checker.output import junit

__all__ = ["Results"]


class Results:
    """Writes JUnit XML.

    A case is named by its job's file and its rule: readers keep only the first of two
    cases of one name, and two jobs may have one reference.
    """

    wants_words = True

    def __init__(self, file: TextIO, **_: Any) -> None:
        self.file = file
        file.write(junit.head())

    def job(
        self,
        result: JobResult,
        changes: Sequence[Change] = (),
        findings: Sequence[Finding] = (),
    ) -> None:
        """Write one job's suite."""
        del changes
        properties = {
            "reference": result.reference,
            "verdict": result.verdict,
            "stage": result.stage,
            "rulebook": result.rulebook,
            "description": result.digest,
            "local": ", ".join(result.overlays),
            "not-applicable": str(result.counts.get(Grade.NOT_APPLICABLE.word, 0)),
        }
        self.file.write(junit.suite(result.path, _cases(result, findings), properties))

    def end(self, totals: Totals) -> None:
        """Close the document."""
        del totals
        self.file.write(junit.tail())


def _cases(result: JobResult, findings: Sequence[Finding]) -> Iterator[junit.SuiteCase]:
    if result.error:
        first = result.error.splitlines()[0]
        yield junit.SuiteCase(result.path, "description", Grade.CONFIRM, first, result.error)
        return
    # The findings to act on stand in the order of the answers that are worse than met.
    words = iter(findings)
    for answer in result.findings:
        grade = Grade.of(answer.grade)
        classname = f"{result.path}.{answer.rule.rpartition('/')[0]}".rstrip(".")
        worded = next(words, None) if grade < Grade.MET else None
        if worded is None:
            yield junit.SuiteCase(classname, answer.key, grade, grade.word, grade.word)
        else:
            case = junit.case_of(worded, classname, answer.key)
            subject = f"{worded.subject}: " if worded.subject else ""
            yield case._replace(message=subject + case.message, text=subject + case.text)
