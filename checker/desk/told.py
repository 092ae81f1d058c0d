"""Findings, mistakes and moved values as the page takes them: plain data, no markup."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from checker.desk.typed import Entry
from checker.findings import BasisRead, Finding, Moved, Remedy
from checker.grades import Grade

__all__ = ["basis_told", "entry_told", "finding_told", "identified", "moved_told", "values_of"]

_BOUND = re.compile(r"at (?:least|most) ")


def identified(findings: Iterable[Finding]) -> list[tuple[str, Finding]]:
    """The findings gravest first, each with a name of its own that stays while it is there."""
    times: dict[str, int] = {}
    found = []
    for finding in sorted(findings, key=lambda f: f.grade):
        name = f"{finding.rule}#{finding.subject or ''}"
        times[name] = times.get(name, 0) + 1
        found.append((name if times[name] == 1 else f"{name}#{times[name]}", finding))
    return found


def finding_told(finding: Finding) -> dict[str, Any]:
    """A finding without its working and its sources, which are asked for when it is opened."""
    return {
        "rule": finding.rule,
        "title": finding.title,
        "subject": finding.subject or "",
        "grade": finding.grade.word,
        "sentence": finding.sentence,
        "demand": finding.demand.text if finding.demand else "",
        "limit": finding.limit.text if finding.limit else "",
        "utilisation": finding.utilisation,
        "fields": [
            {"path": f.path, "text": f.text, "origin": f.origin or ""} for f in finding.fields
        ],
        "missing": [
            {"path": m.path, "meaning": m.meaning, "where": m.where, "unit": m.unit}
            for m in finding.missing
        ],
        "remedies": [_remedy(r) for r in finding.remedies],
        "remarks": list(finding.remarks),
        "changes": list(finding.changes),
        "protects": finding.protects,
        "caution": finding.caution,
    }


def _remedy(remedy: Remedy) -> dict[str, Any]:
    return {"path": remedy.path, "sentence": remedy.sentence, "values": values_of(remedy.needed)}


def values_of(needed: str) -> list[str]:
    """The values that a remedy names, as they would be typed.

    >>> values_of("at most 1.42 m"), values_of("star or delta"), values_of("")
    (['1.42 m'], ['star', 'delta'], [])
    """
    return [v for v in _BOUND.sub("", needed, count=1).split(" or ") if v]


def entry_told(entry: Entry) -> dict[str, str]:
    """What is wrong with what was typed; the name of the field stands beside it already."""
    head, colon, what = entry.what.partition(": ")
    inner = re.sub(r"\[\d*\]", "", entry.path)
    if colon and re.sub(r"\[\d*\]", "", head) == inner:
        said = what
    else:
        said = re.sub(r"^[a-z_]+(?:\.[a-z_]+|\[\d*\])* (?=has |is |cannot )", "this ", entry.what)
    return {"path": entry.path, "what": said, "found": entry.found, "expected": entry.expected, "hint": entry.hint}  # fmt: skip


def moved_told(moved: Moved) -> dict[str, Any]:
    """A value that is not as planned, and the grades that changed with it."""
    return {
        "path": moved.path, "planned": moved.planned, "fitted": moved.fitted, "change": moved.change,
        "beyond": moved.beyond_tolerance, "grades": [_grade_change(g) for g in moved.grades],
    }  # fmt: skip


def _grade_change(text: str) -> dict[str, str]:
    rule, _, change = text.rpartition(": ")
    old, _, new = change.partition(" -> ")
    return {"rule": rule, "was": old, "now": new, "worse": "yes" if Grade.of(new) < Grade.of(old) else ""}  # fmt: skip


def basis_told(finding: Finding) -> dict[str, Any]:
    """The working and the sources of a finding."""
    return {
        "working": [
            {
                "name": w.name,
                "meaning": w.meaning,
                "formula": w.formula,
                "numbers": w.numbers,
                "result": w.result,
            }
            for w in finding.working
        ],
        "basis": [_basis(b) for b in finding.basis],
    }


def _basis(basis: BasisRead) -> dict[str, str]:
    return {"of": basis.of, "title": basis.title, "edition": basis.edition, "clause": basis.clause, "confidence": basis.confidence}  # fmt: skip
