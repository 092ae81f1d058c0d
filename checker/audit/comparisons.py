"""What a job's result is held against: an earlier audit, another rulebook, or nothing."""

from __future__ import annotations

import contextlib
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Protocol

from checker.audit.comparing import Change, Earlier, changes_between
from checker.audit.jobs import Job
from checker.audit.results import JobResult
from checker.audit.running import Auditor
from checker.running import name_of

__all__ = ["Comparison", "against_earlier", "against_nothing", "against_rules"]


class Comparison(Protocol):
    """Tells what changed; asked once for every job, in the order of the jobs."""

    def changes(self, result: JobResult) -> list[Change]:
        """What changed in a job, gravest first."""

    def gone(self, every: Iterable[Job]) -> dict[str, str]:
        """The jobs that were there and are not any more, with the verdicts they had."""


class _Nothing:
    def changes(self, result: JobResult) -> list[Change]:
        del result
        return []

    def gone(self, every: Iterable[Job]) -> dict[str, str]:
        del every
        return {}


class _SinceEarlier:
    def __init__(self, earlier: Earlier, auditor: Auditor) -> None:
        self.earlier = earlier
        self.auditor = auditor

    def changes(self, result: JobResult) -> list[Change]:
        before = self.earlier.job(result.path)
        if before is None:
            return [Change("description", "new", "", result.verdict, "description added")]
        digests = self.auditor.rule_digests(_rulebook_of(result))
        return changes_between(before, result, self.earlier.digests, digests)

    def gone(self, every: Iterable[Job]) -> dict[str, str]:
        there = {name_of(job.path) for job in every}
        return {path: verdict for path, verdict in self.earlier.verdicts() if path not in there}


class _OtherRules:
    def __init__(self, auditor: Auditor, other: Auditor, judged: Iterator[JobResult]) -> None:
        self.auditor = auditor
        self.other = other
        self.judged = judged

    def changes(self, result: JobResult) -> list[Change]:
        """What the other rules would say instead."""
        instead = next(self.judged)
        if instead.digest != result.digest:
            return []  # The file was replaced between the two readings.
        before = self.auditor.rule_digests(_rulebook_of(result))
        after = self.other.rule_digests(_rulebook_of(instead))
        return changes_between(result, instead, before, after)

    def gone(self, every: Iterable[Job]) -> dict[str, str]:
        del every
        return {}


@contextlib.contextmanager
def against_nothing() -> Iterator[Comparison]:
    """No comparison."""
    yield _Nothing()


@contextlib.contextmanager
def against_earlier(path: Path, auditor: Auditor) -> Iterator[Comparison]:
    """Against the JSON or JSON lines of an earlier audit. Raises Mistakes."""
    with contextlib.closing(Earlier(path)) as earlier:
        yield _SinceEarlier(earlier, auditor)


@contextlib.contextmanager
def against_rules(
    auditor: Auditor, other: Auditor, jobs: list[Job], processes: int
) -> Iterator[Comparison]:
    """Against what other rules would say of the same jobs."""
    with contextlib.closing(other.run(jobs, processes)) as judged:
        yield _OtherRules(auditor, other, (one.result for one in judged))


def _rulebook_of(result: JobResult) -> dict[str, tuple[str, ...]]:
    return {result.rulebook: result.overlays} if result.rulebook else {}
