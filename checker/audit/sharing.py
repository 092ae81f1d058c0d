"""Jobs shared among several processes, their results in the jobs' order."""

from __future__ import annotations

import multiprocessing
from collections import deque
from collections.abc import Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from typing import TYPE_CHECKING, NamedTuple

from checker.audit.jobs import Job
from checker.audit.judging_jobs import Judged
from checker.audit.memory import Memory
from checker.audit.results import JobResult
from checker.audit.running import Wanted, read_job
from checker.errors import Place, fault

if TYPE_CHECKING:
    from checker.audit.running import Auditor

__all__ = ["share"]

# Jobs sent to a process at a time, and how many such batches for each process may wait or
# stand finished: enough that none is ever idle, few enough that memory stays the same.
_BATCH, _AHEAD = 16, 4


class _Batch(NamedTuple):
    """Some jobs: what is known of each already, and the rest as it will come."""

    known: list[Judged | None]
    asked: Future[list[Judged]] | None


def share(
    auditor: Auditor, jobs: list[Job], processes: int, memory: Memory | None, wanted: Wanted
) -> Iterator[Judged]:
    """Every job judged, in their order.

    Raises Mistakes where one of the processes is ended from outside.
    """
    # Forked workers share the rulebook that is compiled already; elsewhere each reads it
    # for itself.
    method = "fork" if "fork" in multiprocessing.get_all_start_methods() else "spawn"
    pool = ProcessPoolExecutor(
        processes, multiprocessing.get_context(method), initializer=_start, initargs=(auditor,)
    )
    waiting: deque[_Batch] = deque()
    try:
        for start in range(0, len(jobs), _BATCH):
            waiting.append(_ask(auditor, jobs[start : start + _BATCH], pool, memory, wanted))
            if len(waiting) > processes * _AHEAD:
                yield from _finish(waiting.popleft(), auditor, memory)
        while waiting:
            yield from _finish(waiting.popleft(), auditor, memory)
    except BrokenProcessPool:
        fault(
            "one of the processes was ended from outside",
            Place("--processes"),
            hint="if memory ran out, try fewer",
        )
    finally:
        pool.shutdown(cancel_futures=True)


def _ask(
    auditor: Auditor,
    jobs: list[Job],
    pool: ProcessPoolExecutor,
    memory: Memory | None,
    wanted: Wanted,
) -> _Batch:
    """Recall what is known of some jobs and send the rest away."""
    known: list[Judged | None] = [None] * len(jobs)
    tasks: list[tuple[Job, JobResult | None]] = []
    for i, job in enumerate(jobs):
        found: JobResult | None = None
        if memory is not None:
            files = read_job(job)
            if isinstance(files, JobResult):
                known[i] = Judged(files)
                continue
            found = auditor.recalled(files, memory)
            if found is not None and auditor.lacks_page(files, found, wanted):
                tasks.append((job, found))
                continue
        if found is not None and not (wanted.words and found.to_act_on):
            known[i] = Judged(found)
        else:
            tasks.append((job, found))
    return _Batch(known, pool.submit(_judge, tasks, wanted) if tasks else None)


def _finish(batch: _Batch, auditor: Auditor, memory: Memory | None) -> Iterator[Judged]:
    fresh = iter(batch.asked.result() if batch.asked is not None else ())
    for known in batch.known:
        judged = known or next(fresh)
        if memory is not None and known is None and judged.result.digest:
            # Under the digest of the bytes that were judged: the file may have changed since
            # it was looked up.
            memory.keep(auditor.key_of(judged.result.digest), judged.result)
        yield judged


_worker: Auditor | None = None


def _start(auditor: Auditor) -> None:
    global _worker  # noqa: PLW0603 - one rulebook for the life of a worker
    _worker = auditor


def _judge(tasks: list[tuple[Job, JobResult | None]], wanted: Wanted) -> list[Judged]:
    assert _worker is not None  # noqa: S101 - set when the process starts
    return [_judge_one(_worker, job, known, wanted) for job, known in tasks]


def _judge_one(auditor: Auditor, job: Job, known: JobResult | None, wanted: Wanted) -> Judged:
    files = read_job(job)
    if isinstance(files, JobResult):
        return Judged(files)
    if known is None or known.digest != files.digest:
        known = auditor.judged(files)
    return auditor.with_words(files, known, wanted)
