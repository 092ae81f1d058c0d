"""An audit from its options to its exit status."""

from __future__ import annotations

import time
from contextlib import AbstractContextManager, ExitStack
from pathlib import Path
from typing import NamedTuple, TextIO

from checker.audit.annotating import Annotations
from checker.audit.comparisons import (
    Comparison,
    against_earlier,
    against_nothing,
    against_rules,
)
from checker.audit.jobs import Job, find_jobs, part_of
from checker.audit.memory import open_memory
from checker.audit.reports import Reports, way_to
from checker.audit.results import status_of
from checker.audit.running import Auditor, Wanted
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
    annotate: bool = False
    reports: Path | None = None
    words: bool = False


def run_audit(order: Order, out: TextIO, err: TextIO) -> int:
    """Judge all jobs and write their results; the highest status of them all.

    Raises Mistakes for a path that leads nowhere or a rulebook that cannot be read; a
    job that cannot be read is a result of its own and ends nothing.
    """
    every = find_jobs(order.paths, order.lists)
    jobs = every if order.part is None else part_of(every, order.part)
    auditor = Auditor(order.folders, order.local)
    totals = Totals()
    totals.part = order.part or ""
    status = 0
    progress = _Progress(len(jobs), err)
    notes = Annotations(auditor, order.accept) if order.annotate else None
    reports = None if order.reports is None else Reports(order.reports)
    if reports is not None:
        reports.begin()
    with (
        _comparison(order, auditor, jobs) as comparison,
        writing_whole(order.output, out) as file,
        open_memory(order.memory, auditor.key) as (memory, why),
        ExitStack() as stack,
    ):
        if why:
            err.write(why + "\n")
        options = {"words": order.words, "reports": way_to(order.reports, order.output)}
        writer = stack.enter_context(open_writer(order.form, file, **options))
        judged = auditor.run(jobs, order.processes, memory, Wanted(writer.wants_words, reports))
        for job, (result, findings) in zip(jobs, judged, strict=True):
            writer.job(result, comparison.changes(result), findings)
            totals.add(result)
            if notes is not None:
                notes.add(job, result)
            status = max(status, status_of(result, order.accept))
            progress.step()
        if order.part is None or order.part.startswith("1/"):
            totals.gone = comparison.gone(every)
        totals.rule_digests = auditor.rule_digests(totals.rulebooks)
        writer.end(totals)
    progress.end()
    if notes is not None:
        err.write(notes.written())
    return status


def _comparison(
    order: Order, auditor: Auditor, jobs: list[Job]
) -> AbstractContextManager[Comparison]:
    if order.against is not None:
        return against_earlier(order.against, auditor)
    if order.versus or order.versus_local:
        other = Auditor((*order.folders, *order.versus), (*order.local, *order.versus_local))
        return against_rules(auditor, other, jobs, order.processes)
    return against_nothing()


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
            self.err.flush()
