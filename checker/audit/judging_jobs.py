"""One job, from its bytes to its result: a pure function, so that any pool can map it."""

from __future__ import annotations

import hashlib
from typing import NamedTuple

from checker.absent import Absent
from checker.audit import results
from checker.audit.results import JobResult
from checker.checking.judging import judge
from checker.errors import Mistakes
from checker.findings import Finding
from checker.grades import Grade
from checker.installation.binding import bind
from checker.installation.merging import merge
from checker.installation.record import Installation
from checker.running import Checker

__all__ = ["Judged", "digest_of", "judge_bytes", "page_on", "unread", "words_on"]

_WORDS = tuple(g.word for g in Grade)


class Judged(NamedTuple):
    """A job's result and, where they were asked for, the findings to act on in their words."""

    result: JobResult
    findings: tuple[Finding, ...] = ()


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
    cannot be read gives a result that says so; nothing is raised for it. The checker can be
    sent to another process or machine; it takes its own copy of the rules there.
    """
    digest = digest_of(data, site)
    try:
        plan, installation = _bound(data, path, site, fitted)
        rulebook = checker.rulebook_for(installation)
        judgement = judge(rulebook, installation, plan)
    except Mistakes as error:
        return unread(path, fitted, digest, str(error))
    findings = []
    for rule, member, grade, utilisation, missing in judgement.answers:
        ratio = None if utilisation is None else float(f"{utilisation:.6g}")
        findings.append(results.Finding(rule, member, _WORDS[grade], ratio, missing))
    return JobResult(
        path, fitted, digest, rulebook.digest, rulebook.overlays, _stated(installation, "job.reference"),
        _stated(installation, "job.stage"), _date(installation), judgement.verdict.value,
        dict(zip(_WORDS, judgement.counts, strict=True)), tuple(findings), "",
    )  # fmt: skip


def words_on(
    checker: Checker, data: bytes, path: str, site: bytes | None = None, fitted: str | None = None
) -> tuple[Finding, ...]:
    """What has to be acted on in the same bytes, in sentences; none for what cannot be read."""
    from checker.reporting.reports import open_findings  # noqa: PLC0415 - most forms show no sentence

    try:
        plan, installation = _bound(data, path, site, fitted)
        return open_findings(checker.rulebook_for(installation), installation, plan)
    except Mistakes:
        return ()


def page_on(
    checker: Checker, data: bytes, path: str, site: bytes | None = None, fitted: str | None = None
) -> str:
    """The whole report on the same bytes as a page; '' for what cannot be read."""
    from checker.output.html import render  # noqa: PLC0415 - costs a cold start
    from checker.reporting.reports import report_on  # noqa: PLC0415 - costs a cold start

    try:
        plan, installation = _bound(data, path, site, fitted)
        return render(report_on(checker.rulebook_for(installation), installation, plan))
    except Mistakes:
        return ""


def unread(path: str, fitted: str | None, digest: str, error: str) -> JobResult:
    """The result of a job whose files could not be read."""
    # A file's name that is not Unicode stands in the message as it is; it must be writable.
    said = error.encode("utf-8", "backslashreplace").decode()
    return JobResult(path, fitted, digest, "", (), "", "", "", "unread", {}, (), said)


def _bound(
    data: bytes, path: str, site: bytes | None, fitted: str | None
) -> tuple[Installation | None, Installation]:
    """The plan where something was found on site, and what is judged."""
    plan = bind(data, path)
    if site is None:
        return None, plan
    return plan, merge(data, path, site, fitted or path)


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
