"""The report as SARIF 2.1.0, for what shows findings beside the lines they stand on.

Only findings that someone has to act on are results; readers show everything listed as
an alert, so what is met or does not apply is left to the other forms.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import PurePath
from typing import Any, NamedTuple
from urllib.parse import quote

from checker.findings import Finding, Report
from checker.grades import Grade

__all__ = [
    "MOST",
    "JobOf",
    "as_sarif",
    "relative_uri",
    "render",
    "result_of",
    "rule_entry",
    "run_around",
    "unread_result",
]

_SCHEMA = "https://json.schemastore.org/sarif-2.1.0.json"
_LEVELS = {
    Grade.STOP: "error",
    Grade.CORRECT: "error",
    Grade.CONFIRM: "warning",
    Grade.ADVISE: "note",
}
# What readers accept: characters of a name and of a text, results in one run.
_NAME, _TEXT = 255, 1024
MOST = 25_000


class JobOf(NamedTuple):
    """The job that a finding belongs to: its file, its reference, its verdict."""

    description: str
    reference: str
    verdict: str


def render(report: Report) -> str:
    """The report as one SARIF document."""
    return json.dumps(as_sarif(report), indent=2, ensure_ascii=False) + "\n"


def as_sarif(report: Report) -> dict[str, Any]:
    """The report as SARIF data."""
    rules: dict[str, dict[str, Any]] = {}
    for finding in report.findings:
        rules.setdefault(finding.rule, rule_entry(finding))
    index = {name: i for i, name in enumerate(rules)}
    job = JobOf(report.description, report.reference, report.verdict.value)
    listed = sorted((f for f in report.findings if f.grade in _LEVELS), key=lambda f: f.grade)
    results = [result_of(f, job, index[f.rule]) for f in listed]
    return run_around(list(rules.values()), results, report.tool)


def run_around(
    rules: list[dict[str, Any]], results: list[dict[str, Any]], tool: str
) -> dict[str, Any]:
    """The document around rules and results."""
    driver = {"name": "mistwright", "semanticVersion": tool, "rules": rules}
    return {
        "$schema": _SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "columnKind": "unicodeCodePoints",
                "automationDetails": {"id": "mistwright/"},
                "tool": {"driver": driver},
                "results": results,
            }
        ],
    }


def rule_entry(finding: Finding) -> dict[str, Any]:
    """What SARIF says of a rule."""
    name = "".join(w.capitalize() for w in finding.rule.replace("/", "-").split("-"))
    basis = "; ".join(
        f"{b.title}, {b.clause} ({b.confidence})" for b in finding.basis if b.of == "the rule"
    )
    return {
        "id": finding.rule[:_NAME], "name": name[:_NAME],
        "shortDescription": {"text": finding.title[:_TEXT]}, "fullDescription": {"text": finding.protects[:_TEXT]},
        "help": {"text": f"{finding.caution} {basis}".strip()[:_TEXT] or finding.title},
        "defaultConfiguration": {"level": "warning"}, "properties": {"tags": [finding.family]},
    }  # fmt: skip


def result_of(finding: Finding, job: JobOf, index: int) -> dict[str, Any]:
    """One finding that someone has to act on; index: the place of its rule among the rules."""
    places = finding.missing or finding.fields
    first = places[0] if places else None
    file = first.file if first is not None else job.description
    line, column = (first.line, first.column) if first is not None else (1, 1)
    subject = f" [{finding.subject}]" if finding.subject else ""
    # Stable when lines move: what it is about, not where it stands.
    identity = f"{finding.rule}|{job.reference or job.description}|{finding.subject or ''}|{places[0].path if places else ''}"
    return {
        "ruleId": finding.rule[:_NAME], "ruleIndex": index, "level": _LEVELS[finding.grade],
        "message": {"text": f"{finding.title}{subject}: {finding.sentence}"},
        "locations": [_location(file, line, column)],
        "partialFingerprints": _fingerprint(identity),
        "properties": {"grade": finding.grade.word, "verdict": job.verdict},
    }  # fmt: skip


def unread_result(
    rule: str, index: int, description: str, place: tuple[str, int, int], error: str
) -> dict[str, Any]:
    """A description that cannot be read: file, line and column of where, and why."""
    return {
        "ruleId": rule, "ruleIndex": index, "level": "error", "message": {"text": error},
        "locations": [_location(*place)], "partialFingerprints": _fingerprint(f"{rule}|{description}"),
    }  # fmt: skip


def _location(file: str, line: int, column: int) -> dict[str, Any]:
    region = {"startLine": max(line, 1), "startColumn": max(column, 1)}
    return {"physicalLocation": {"artifactLocation": {"uri": relative_uri(file)}, "region": region}}


def _fingerprint(identity: str) -> dict[str, str]:
    return {"primaryLocationLineHash": hashlib.sha256(identity.encode()).hexdigest()[:16] + ":1"}


def relative_uri(path: str) -> str:
    """A relative reference; an absolute path is said from its last folders on."""
    parts = [p for p in PurePath(path).as_posix().split("/") if p not in ("", ".")]
    if path.startswith("/") or ".." in parts:
        parts = [p for p in parts if p != ".."][-3:]
    text = "/".join(quote(part, safe="!$&'()+,;=@~") for part in parts)
    return text or "description"
