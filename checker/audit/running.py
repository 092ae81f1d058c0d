"""The jobs of an audit, judged one after another or in several processes, in order."""

from __future__ import annotations

import contextlib
import gc
import hashlib
from collections.abc import Generator, Iterable, Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

import checker
from checker.audit.jobs import Job, plan_of
from checker.audit.judging_jobs import Judged, digest_of, judge_bytes, unread, words_on
from checker.audit.memory import Memory
from checker.audit.reports import Reports
from checker.audit.results import JobResult
from checker.errors import Mistake, Mistakes, Place
from checker.findings import Finding
from checker.places import SCHEMAS
from checker.reading import read_bytes
from checker.running import Checker, name_of

__all__ = ["Auditor", "Files", "Wanted", "read_job"]


class Wanted(NamedTuple):
    """What is wanted of a job besides its grades: words and pages cost many times as much."""

    words: bool = False
    reports: Reports | None = None


_GRADES = Wanted()
# New objects before Python looks for circular garbage.
_RARELY = 200_000


class Files:
    """A job's files as they were read once, and their digest."""

    __slots__ = ("data", "digest", "fitted", "path", "site")

    def __init__(self, job: Job) -> None:
        self.path = name_of(job.path)
        self.fitted = None if job.fitted is None else name_of(job.fitted)
        self.data = read_bytes(job.path)
        self.site = None if job.fitted is None else read_bytes(job.fitted)
        self.digest = digest_of(self.data, self.site)


def read_job(job: Job) -> Files | JobResult:
    """A job's files, or the result that says why they cannot be read."""
    if job.fitted is None and ".fitted." in job.path:
        plan = plan_of(job.path)
        if plan is not None:
            name = name_of(job.path)
            what = Mistake(
                "what was found on site, without its plan",
                Place(name),
                expected=f"{name_of(plan)} beside it",
                hint="a whole description of its own has no '.fitted' in its name",
            )
            return unread(name, None, "", str(what))
    try:
        return Files(job)
    except Mistakes as error:
        fitted = None if job.fitted is None else name_of(job.fitted)
        return unread(name_of(job.path), fitted, "", str(error))


class Auditor:
    """Judges jobs by the rulebook of a set of folders and overlays."""

    def __init__(self, folders: Iterable[Path] = (), local: Iterable[str] = ()) -> None:
        self.checker = Checker(folders, local)
        # All that an answer depends on besides the job's own bytes.
        parts = [_program(), self.checker.rulebooks.digest, *self.checker.local]
        self.key = hashlib.sha256("\n".join(parts).encode()).digest()
        self._digests: dict[str, dict[str, str]] = {}

    def run(
        self,
        jobs: list[Job],
        processes: int = 1,
        memory: Memory | None = None,
        wanted: Wanted = _GRADES,
    ) -> Generator[Judged, None, None]:
        """Every job judged, in their order, as each is ready.

        Raises Mistakes where a page that is wanted cannot be written.
        """
        with _rarely_collected():
            if processes <= 1:
                for job in jobs:
                    yield self.one(job, memory, wanted)
            else:
                from checker.audit.sharing import share  # noqa: PLC0415 - costs a cold start

                yield from share(self, jobs, processes, memory, wanted)

    def rule_digests(self, rulebooks: Mapping[str, tuple[str, ...]]) -> dict[str, dict[str, str]]:
        """The digest of each rule of the rulebooks that a run used, by the rulebook's digest."""
        for digest, overlays in rulebooks.items():
            if digest not in self._digests:
                rulebook = self.checker.rulebooks.with_overlays(overlays)
                self._digests[digest] = {rule.name: rule.digest for rule in rulebook.rules}
        return {digest: self._digests[digest] for digest in rulebooks}

    def one(self, job: Job, memory: Memory | None = None, wanted: Wanted = _GRADES) -> Judged:
        """One job: remembered if it was judged before, else judged now."""
        files = read_job(job)
        if isinstance(files, JobResult):
            return Judged(files)
        known = self.recalled(files, memory)
        if known is None:
            known = self.judged(files)
            if memory is not None:
                memory.keep(self.key_of(files.digest), known)
        return self.with_words(files, known, wanted)

    def with_words(self, files: Files, result: JobResult, wanted: Wanted) -> Judged:
        """A result with the words that are wanted of it; its page is written beside it."""
        if self.lacks_page(files, result, wanted) and wanted.reports is not None:
            key = self.key_of(files.digest)
            wanted.reports.write(
                self.checker, key, files.data, files.path, files.site, files.fitted
            )
        return Judged(result, self.words(files, result) if wanted.words else ())

    def lacks_page(self, files: Files, result: JobResult, wanted: Wanted) -> bool:
        """Whether the page of a job is wanted and not there yet."""
        if wanted.reports is None or result.error:
            return False
        return not wanted.reports.has(files.path, self.key_of(files.digest))

    def judged(self, files: Files) -> JobResult:
        """The result of files that were read."""
        return judge_bytes(self.checker, files.data, files.path, files.site, files.fitted)

    def words(self, files: Files, result: JobResult) -> tuple[Finding, ...]:
        """The findings to act on in their words; none where there is nothing to act on."""
        if not result.to_act_on:
            return ()
        return words_on(self.checker, files.data, files.path, files.site, files.fitted)

    def recalled(self, files: Files, memory: Memory | None) -> JobResult | None:
        """The result of an earlier audit for the same bytes under the same rules."""
        if memory is None:
            return None
        found = memory.recall(self.key_of(files.digest), files.path)
        return None if found is None else found._replace(fitted=files.fitted)

    def key_of(self, digest: str) -> bytes:
        """What a result is remembered by."""
        return hashlib.sha256(self.key + digest.encode()).digest()


@contextlib.contextmanager
def _rarely_collected() -> Iterator[None]:
    """Have Python look for circular garbage rarely.

    A job leaves none behind, and looking for it through a whole rulebook again and again
    would cost a third of the time.
    """
    before = gc.get_threshold()
    gc.set_threshold(_RARELY, *before[1:])
    try:
        yield
    finally:
        gc.set_threshold(*before)


def _program() -> str:
    """The digest of this program's own files: another program is asked again."""
    digest = hashlib.sha256(checker.__version__.encode())
    for folder, pattern in ((Path(checker.__file__).parent, "*.py"), (SCHEMAS, "*.json")):
        for path in sorted(folder.rglob(pattern)):
            digest.update(path.relative_to(folder).as_posix().encode() + b"\0")
            digest.update(hashlib.sha256(path.read_bytes()).digest())
    return digest.hexdigest()
