"""The jobs of an audit, judged one after another or in several processes, in order."""

from __future__ import annotations

import hashlib
import multiprocessing
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path

import checker
from checker.audit.jobs import Job
from checker.audit.judging_jobs import digest_of, judge_bytes, unread
from checker.audit.memory import Memory
from checker.audit.results import JobResult
from checker.errors import Mistakes
from checker.reading import read_bytes
from checker.running import Checker

__all__ = ["Auditor"]

_CHUNK = 32


class Auditor:
    """Judges jobs by the rulebook of a set of folders and overlays."""

    def __init__(self, folders: Iterable[Path] = (), local: Iterable[str] = ()) -> None:
        self.checker = Checker(folders, local)
        # All that an answer depends on besides the job's own bytes.
        parts = [checker.__version__, self.checker.rulebooks.digest, *self.checker.local]
        self.key = hashlib.sha256("\n".join(parts).encode()).digest()

    def run(
        self, jobs: list[Job], processes: int = 1, memory: Memory | None = None
    ) -> Iterator[JobResult]:
        """The result of every job, in their order, as each is ready."""
        if processes <= 1:
            for job in jobs:
                yield self.one(job, memory)
            return
        yield from self._several(jobs, processes, memory)

    def rule_digests(self, rulebooks: Mapping[str, tuple[str, ...]]) -> dict[str, dict[str, str]]:
        """The digest of each rule of the rulebooks that a run used, by the rulebook's digest."""
        found = {}
        for digest, overlays in rulebooks.items():
            rulebook = self.checker.rulebooks.with_overlays(overlays)
            found[digest] = {rule.name: rule.digest for rule in rulebook.rules}
        return found

    def one(self, job: Job, memory: Memory | None = None) -> JobResult:
        """The result of one job: remembered if it was judged before, else judged now."""
        read = _read(job)
        if isinstance(read, JobResult):
            return read
        data, site = read
        key = self._key(data, site)
        if memory is not None:
            known = memory.recall(key, job.path)
            if known is not None:
                return known._replace(fitted=job.fitted)
        result = judge_bytes(self.checker, data, job.path, site, job.fitted)
        if memory is not None:
            memory.keep(key, result)
        return result

    def _key(self, data: bytes, site: bytes | None) -> bytes:
        return hashlib.sha256(self.key + digest_of(data, site).encode()).digest()

    def _several(
        self, jobs: list[Job], processes: int, memory: Memory | None
    ) -> Iterator[JobResult]:
        # Forked workers share the rulebook that is compiled already; elsewhere each
        # worker reads it for itself.
        method = "fork" if "fork" in multiprocessing.get_all_start_methods() else "spawn"
        context = multiprocessing.get_context(method)
        roots, local = tuple(self.checker.rulebooks.roots[1:]), self.checker.local
        global _worker  # noqa: PLW0603 - what a forked worker finds in place
        _worker = self
        arguments = (roots, local) if method == "spawn" else ()
        with context.Pool(processes, _start if method == "spawn" else None, arguments) as pool:
            if memory is None:
                yield from pool.imap(_judge, jobs, chunksize=_CHUNK)
                return
            yield from self._with_memory(
                jobs, memory, lambda some: pool.imap(_judge, some, chunksize=_CHUNK)
            )

    def _with_memory(
        self,
        jobs: list[Job],
        memory: Memory | None,
        judge: Callable[[list[Job]], Iterator[JobResult]],
    ) -> Iterator[JobResult]:
        """Recall here, judge the rest in the workers, a stretch of jobs at a time."""
        assert memory is not None  # noqa: S101 - the caller asked
        for start in range(0, len(jobs), 64 * _CHUNK):
            stretch = jobs[start : start + 64 * _CHUNK]
            known: dict[str, JobResult] = {}
            keys: dict[str, bytes] = {}
            for job in stretch:
                read = _read(job)
                if isinstance(read, JobResult):
                    known[job.path] = read
                    continue
                keys[job.path] = self._key(*read)
                found = memory.recall(keys[job.path], job.path)
                if found is not None:
                    known[job.path] = found._replace(fitted=job.fitted)
            fresh = judge([job for job in stretch if job.path not in known])
            for job in stretch:
                if job.path in known:
                    yield known[job.path]
                else:
                    result = next(fresh)
                    if result.digest == "" or self._still(keys[job.path], result):
                        memory.keep(keys[job.path], result)
                    yield result

    def _still(self, key: bytes, result: JobResult) -> bool:
        """Whether the bytes judged were the bytes looked up: a file may change in between."""
        return hashlib.sha256(self.key + result.digest.encode()).digest() == key


_worker: Auditor | None = None


def _start(folders: tuple[Path, ...], local: tuple[str, ...]) -> None:
    global _worker  # noqa: PLW0603 - one rulebook for the life of a worker
    _worker = Auditor(folders, local)


def _judge(job: Job) -> JobResult:
    assert _worker is not None  # noqa: S101 - set before the pool starts
    return _worker.one(job)


def _read(job: Job) -> tuple[bytes, bytes | None] | JobResult:
    try:
        return read_bytes(job.path), None if job.fitted is None else read_bytes(job.fitted)
    except Mistakes as error:
        return unread(job.path, job.fitted, "", str(error))
