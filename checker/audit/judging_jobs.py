"""One job, from its bytes to its result: a pure function, so that any pool can map it."""

from __future__ import annotations

import hashlib

from checker.absent import Absent
from checker.audit.results import Finding, JobResult
from checker.errors import Mistakes
from checker.grades import Grade
from checker.installation.binding import bind
from checker.installation.merging import merge
from checker.installation.record import Installation
from checker.judging import judge
from checker.running import Checker

__all__ = ["digest_of", "judge_bytes", "unread"]

_WORDS = tuple(g.word for g in Grade)


def digest_of(data: bytes, site: bytes | None) -> str:
    """The digest of a job's files: the plan's own, or that of both."""
    own = hashlib.sha256(data)
    if site is None:
        return own.hexdigest()
    return hashlib.sha256(own.digest() + hashlib.sha256(site).digest()).hexdigest()


def judge_bytes(
    checker: Checker, data: bytes, path: str, site: bytes | None = None, fitted: str | None = None
) -> JobResult:
    """The result of the bytes of a description, and of what was found on site.

    The same bytes under the same rulebook give the same result. A description that
    cannot be read gives a result that says so; nothing is raised for it.
    """
    digest = digest_of(data, site)
    try:
        plan = bind(data, path)
        installation = plan if site is None else merge(data, path, site, fitted or path)
        rulebook = checker.rulebook_for(installation)
        judgement = judge(rulebook, installation, None if site is None else plan)
    except Mistakes as error:
        return unread(path, fitted, digest, str(error))
    counts = [0] * len(_WORDS)
    findings = []
    for answer in judgement.answers:
        counts[answer.grade] += 1
        if answer.grade is not Grade.NOT_APPLICABLE:
            ratio = None if answer.utilisation is None else float(f"{answer.utilisation:.6g}")
            findings.append(
                Finding(answer.rule, answer.member, _WORDS[answer.grade], ratio, answer.missing)
            )
    return JobResult(
        path, fitted, digest, rulebook.digest, rulebook.overlays, _stated(installation, "job.reference"),
        _stated(installation, "job.stage"), _date(installation), judgement.verdict.value,
        dict(zip(_WORDS, counts, strict=True)), tuple(findings), "",
    )  # fmt: skip


def unread(path: str, fitted: str | None, digest: str, error: str) -> JobResult:
    """The result of a job whose files could not be read."""
    return JobResult(path, fitted, digest, "", (), "", "", "", "unread", {}, (), error)


def _stated(installation: Installation, path: str) -> str:
    value = installation.value(path)
    return "" if isinstance(value, Absent) else str(value)


def _date(installation: Installation) -> str:
    for path in ("job.fitted_on", "job.planned_on"):
        field = installation.record.layout.leaf(path)
        fact = installation.record.facts[field.slot] if field is not None else None
        if fact is not None:
            return fact.text
    return ""
