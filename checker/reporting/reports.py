"""The whole report of one installation, or only what someone has to act on."""

from __future__ import annotations

from collections import Counter

import checker
from checker.absent import Absent
from checker.checking.fitted import moved_fields, moved_findings
from checker.checking.implausible import implausible_values
from checker.checking.outcomes import check
from checker.checking.windows import find_target, grades_across
from checker.errors import Mistakes
from checker.findings import (
    FieldWindow,
    Finding,
    Report,
)  # fmt: skip
from checker.geometry import geometry_of
from checker.grades import Grade, verdict_of
from checker.installation.record import Installation
from checker.reporting.curves import curves_of
from checker.reporting.writing_findings import Writer
from checker.rulebook.model import Rulebook

__all__ = ["CAUTIONS", "open_findings", "report_on"]

CAUTIONS = (
    "This is a check of what was stated, from the sources named. It is no permission to work and no approval.",
    "Local codes, the makers' instructions, the licensed electrician, the lifting supervisor and the structural engineer prevail over anything printed here.",
    "A rule that is met says only that this one check was met with these numbers.",
)


def report_on(
    rulebook: Rulebook,
    installation: Installation,
    plan: Installation | None = None,
    *,
    working: bool = True,
) -> Report:
    """The whole report for one bound description, and what moved since its plan.

    working: whether each finding carries its working, and those that are met or do not apply
    their sentence too: it costs most of the time, and a short form does not show it.
    """
    writer = Writer(rulebook, installation, working=working)
    findings = [writer.finding(outcome) for outcome in check(rulebook, installation, writer.values)]
    moved = () if plan is None else moved_fields(plan, installation, rulebook)
    findings = [*moved_findings(moved, installation), *implausible_values(installation), *findings]
    counts = Counter(f.grade.word for f in findings)
    record = installation.record
    return Report(
        checker.__version__, rulebook.digest, rulebook.overlays, tuple(dict.fromkeys(c for r in rulebook.rules for c in r.changes)),
        installation.name, installation.digest,
        _text(installation, "job.reference"), _text(installation, "job.title"), str(record.values[record.layout.by_path["job.stage"].slot]),  # type: ignore[union-attr]
        verdict_of(f.grade for f in findings), {g.word: counts.get(g.word, 0) for g in Grade}, tuple(findings),
        _windows(findings, rulebook, installation), moved, curves_of(rulebook, writer.values), geometry_of(installation), CAUTIONS,
    )  # fmt: skip


def open_findings(
    rulebook: Rulebook, installation: Installation, plan: Installation | None = None
) -> tuple[Finding, ...]:
    """The findings of the report that someone has to act on, in its order, without their working."""
    writer = Writer(rulebook, installation, working=False)
    moved = () if plan is None else moved_fields(plan, installation, rulebook)
    return (
        *moved_findings(moved, installation),
        *implausible_values(installation),
        *(
            writer.finding(outcome)
            for outcome in check(rulebook, installation, writer.values)
            if writer.doubts.grade(outcome) < Grade.MET
        ),
    )


def _text(installation: Installation, path: str) -> str:
    value = installation.value(path)
    return "" if isinstance(value, Absent) else str(value)


def _windows(
    findings: list[Finding], rulebook: Rulebook, installation: Installation
) -> tuple[FieldWindow, ...]:
    """For each field that several findings would change: the range that meets all its rules."""
    wanted = Counter(r.path for f in findings for r in f.remedies if r.needed)
    windows = []
    for path, times in wanted.items():
        if times > 1:
            try:
                target = find_target(path, installation)
            except Mistakes:
                continue  # A choice or a count of words: there is no range to look along.
            windows.append(grades_across(target, rulebook, installation, points=31))
    return tuple(windows)
