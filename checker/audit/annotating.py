"""The worst findings as lines that a CI service shows beside the code.

A service shows ten of a step and drops the rest without a word; so the ten worst are
written, and how many more there are.
"""

from __future__ import annotations

from bisect import insort
from typing import NamedTuple

from checker.audit.jobs import Job
from checker.audit.results import JobResult
from checker.audit.running import Auditor, read_job
from checker.findings import Finding
from checker.grades import Grade

__all__ = ["Annotations", "annotation"]

_MOST = 10
_LEVELS = {
    Grade.STOP: "error", Grade.CORRECT: "error", Grade.CONFIRM: "warning", Grade.ADVISE: "notice",
}  # fmt: skip


class _Candidate(NamedTuple):
    """An annotation to be: how grave, which job, which of its findings (-1: it cannot be read)."""

    grade: int
    number: int
    place: int


class Annotations:
    """Gathers the worst findings of an audit as its jobs go by."""

    def __init__(self, auditor: Auditor, accept: Grade = Grade.ADVISE) -> None:
        self.auditor = auditor
        self.accept = accept
        self.worst: list[_Candidate] = []
        self.jobs: dict[int, tuple[Job, JobResult]] = {}
        self.seen = 0
        self.number = 0

    def add(self, job: Job, result: JobResult) -> None:
        """Take note of one job; what is accepted is not said."""
        self.number += 1
        if not result.error and result.gravest >= self.accept:
            return
        grades = [g for g in (Grade.of(f.grade) for f in result.findings) if g < Grade.MET]
        found = [
            _Candidate(grade, self.number, place)
            for place, grade in enumerate(grades)
            if grade < self.accept
        ]
        if result.error:
            found = [_Candidate(Grade.STOP, self.number, -1)]
        self.seen += len(found)
        for candidate in found:
            if len(self.worst) < _MOST or candidate < self.worst[-1]:
                insort(self.worst, candidate)
                del self.worst[_MOST:]
                self.jobs[self.number] = (job, result)
        kept = {candidate.number for candidate in self.worst}
        for number in [n for n in self.jobs if n not in kept]:
            del self.jobs[number]

    def written(self) -> str:
        """The lines, worst first."""
        words = {n: self._words(*self.jobs[n]) for n in self.jobs}
        lines = []
        for candidate in self.worst:
            _, result = self.jobs[candidate.number]
            findings = words[candidate.number]
            if candidate.place < 0:
                lines.append(_unread(result))
            elif candidate.place < len(findings):
                lines.append(annotation(findings[candidate.place], result))
        if self.seen > len(lines):
            lines.append(f"::notice::and {self.seen - len(lines)} more")
        return "".join(f"{line}\n" for line in lines)

    def _words(self, job: Job, result: JobResult) -> tuple[Finding, ...]:
        files = read_job(job)
        if isinstance(files, JobResult) or files.digest != result.digest:
            return ()  # It has changed since: its sentences would not be those of the result.
        return self.auditor.words(files, result)


def annotation(finding: Finding, result: JobResult) -> str:
    """One finding as one line."""
    places = finding.missing or finding.fields
    file, line, column = (
        (places[0].file, places[0].line, places[0].column) if places else (result.path, 1, 1)
    )
    subject = f" [{finding.subject}]" if finding.subject else ""
    title = f"{finding.grade.word}: {finding.title}{subject}"
    return _line(_LEVELS[finding.grade], file, line, column, title, finding.sentence)


def _unread(result: JobResult) -> str:
    file, line, column, message = result.unread_at
    return _line("error", file, line, column, "unread", message)


def _line(level: str, file: str, line: int, column: int, title: str, message: str) -> str:
    place = f"file={_property(file)},line={max(line, 1)},col={max(column, 1)}"
    return f"::{level} {place},title={_property(title)}::{_data(message)}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
