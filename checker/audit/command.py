"""An audit from its options to its exit status."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple, TextIO

from checker.audit.comparing import Change, Earlier, changes_between
from checker.audit.jobs import Job, find_jobs, part_of
from checker.audit.memory import open_memory
from checker.audit.results import JobResult, status_of
from checker.audit.running import Auditor
from checker.audit.totals import Totals
from checker.audit.writers import open_writer
from checker.grades import Grade
from checker.writing import writing_whole

__all__ = ["Order", "run_audit"]


class Order(NamedTuple):
    """What was asked for."""

    paths: tuple[str, ...]
    lists: tuple[str, ...]
    form: str
    output: Path | None
    accept: Grade
    part: str | None
    processes: int
    memory: Path | None
    folders: tuple[Path, ...]
    local: tuple[str, ...]
    against: Path | None = None
    versus: tuple[Path, ...] = ()
    versus_local: tuple[str, ...] = ()


def run_audit(order: Order, out: TextIO, err: TextIO) -> int:
    """Judge all jobs and write their results; the highest status of them all.

    Raises Mistakes for a path that leads nowhere or a rulebook that cannot be read; a
    job that cannot be read is a result of its own and ends nothing.
    """
    jobs = find_jobs(order.paths, order.lists)
    if order.part is not None:
        jobs = part_of(jobs, order.part)
    auditor = Auditor(order.folders, order.local)
    totals = Totals()
    status = 0
    progress = _Progress(len(jobs), err)
    with writing_whole(order.output, out) as file, open_memory(order.memory) as (memory, why):
        if why:
            err.write(why + "\n")
        writer = open_writer(order.form, file, auditor=auditor)
        results = auditor.run(jobs, order.processes, memory)
        for result, changes in _compared(results, jobs, order, auditor):
            writer.job(result, changes)
            totals.add(result)
            status = max(status, status_of(result, order.accept))
            progress.step()
        totals.rule_digests = auditor.rule_digests(totals.rulebooks)
        writer.end(totals)
    progress.end()
    return status


def _compared(
    results: Iterator[JobResult], jobs: list[Job], order: Order, auditor: Auditor
) -> Iterator[tuple[JobResult, list[Change]]]:
    """Each result beside what changed in it: since an earlier audit, or from another rulebook."""
    if order.against is not None:
        earlier = Earlier(order.against)
        try:
            for result in results:
                before = earlier.job(result.path)
                digests = auditor.rule_digests(
                    {result.rulebook: result.overlays} if result.rulebook else {}
                )
                yield (
                    result,
                    []
                    if before is None
                    else changes_between(before, result, earlier.digests, digests),
                )
        finally:
            earlier.close()
    elif order.versus or order.versus_local:
        other = Auditor(order.versus, order.versus_local)
        for result, before in zip(results, other.run(jobs), strict=True):
            old = other.rule_digests({before.rulebook: before.overlays} if before.rulebook else {})
            new = auditor.rule_digests(
                {result.rulebook: result.overlays} if result.rulebook else {}
            )
            yield result, changes_between(before, result, old, new)
    else:
        for result in results:
            yield result, []


class _Progress:
    """How far, how fast, how long yet: on a terminal only, and only where it takes its time."""

    def __init__(self, jobs: int, err: TextIO) -> None:
        self.jobs = jobs
        self.err = err
        self.shown = err.isatty()
        self.done = 0
        self.start = self.last = time.monotonic()

    def step(self) -> None:
        self.done += 1
        if not self.shown:
            return
        now = time.monotonic()
        if now - self.last < 0.25 or now - self.start < 1:
            return
        self.last = now
        rate = self.done / (now - self.start)
        left = (self.jobs - self.done) / rate
        self.err.write(f"\r{self.done} of {self.jobs}, {rate:.0f} a second, {left:.0f} s left   ")
        self.err.flush()

    def end(self) -> None:
        if self.shown and self.last != self.start:
            self.err.write("\r" + " " * 60 + "\r")
            sys.stderr.flush()
