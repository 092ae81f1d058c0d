"""The report as SARIF 2.1.0, for what shows findings beside the lines they stand on.

Only findings that someone has to act on are results; readers show everything listed as
an alert, so what is met or does not apply is left to the other forms.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import PurePath
from typing import Any
from urllib.parse import quote

from checker.findings import Finding, Report
from checker.grades import Grade

__all__ = ["as_sarif", "relative_uri", "render", "results_of", "rule_entry", "run_around"]

_SCHEMA = "https://json.schemastore.org/sarif-2.1.0.json"
_LEVELS = {
    Grade.STOP: "error",
    Grade.CORRECT: "error",
    Grade.CONFIRM: "warning",
    Grade.ADVISE: "note",
}
_NAME, _TEXT = 255, 1024  # what readers accept


def render(report: Report) -> str:
    """The report as one SARIF document."""
    return json.dumps(as_sarif(report), indent=2, ensure_ascii=False) + "\n"


def as_sarif(report: Report) -> dict[str, Any]:
    """The report as SARIF data."""
    rules: dict[str, dict[str, Any]] = {}
    for finding in report.findings:
        rules.setdefault(finding.rule, rule_entry(finding))
    index = {name: i for i, name in enumerate(rules)}
    return run_around(list(rules.values()), results_of(report, index), report.tool)


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


def results_of(report: Report, index: dict[str, int]) -> list[dict[str, Any]]:
    """The results of one report, gravest first."""
    listed = sorted((f for f in report.findings if f.grade in _LEVELS), key=lambda f: f.grade)
    return [_result(f, report, index) for f in listed]


def _result(finding: Finding, report: Report, index: dict[str, int]) -> dict[str, Any]:
    places = finding.missing or finding.fields
    first = places[0] if places else None
    file = first.file if first is not None else report.description
    line, column = (first.line, first.column) if first is not None else (1, 1)
    subject = f" [{finding.subject}]" if finding.subject else ""
    # Stable when lines move: what it is about, not where it stands.
    identity = f"{finding.rule}|{report.reference or report.description}|{finding.subject or ''}|{places[0].path if places else ''}"
    return {
        "ruleId": finding.rule[:_NAME], "ruleIndex": index[finding.rule], "level": _LEVELS[finding.grade],
        "message": {"text": f"{finding.title}{subject}: {finding.sentence}"},
        "locations": [{"physicalLocation": {"artifactLocation": {"uri": relative_uri(file)}, "region": {"startLine": max(line, 1), "startColumn": max(column, 1)}}}],
        "partialFingerprints": {"primaryLocationLineHash": hashlib.sha256(identity.encode()).hexdigest()[:16] + ":1"},
        "properties": {"grade": finding.grade.word, "verdict": report.verdict.value},
    }  # fmt: skip


def relative_uri(path: str) -> str:
    """A relative reference; an absolute path is said from its last folders on."""
    parts = [p for p in PurePath(path).as_posix().split("/") if p not in ("", ".")]
    if path.startswith("/") or ".." in parts:
        parts = [p for p in parts if p != ".."][-3:]
    text = "/".join(quote(part, safe="!$&'()+,;=@~") for part in parts)
    return text or "description"
