"""The fitting sheet: what the engineer takes along, every figure from a rule that it names."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import checker
from checker.absent import Absent
from checker.checking import Values, check, working_of
from checker.findings import Geometry
from checker.formulas.lacking import evaluate
from checker.geometry import geometry_of
from checker.grades import Grade, Verdict, verdict_of
from checker.installation.record import Installation
from checker.rulebook.model import Rule, Rulebook, SheetLine
from checker.rulebook.soundness import PLACEHOLDER
from checker.settling import settle
from checker.wording import Wording

__all__ = ["PARTS", "Entry", "Part", "Sheet", "sheet_for"]

# The parts in the order in which they are needed.
PARTS = {
    "hold": "Hold points, in the order of work",
    "kit": "To take along",
    "cut": "Cut lengths",
    "drill": "Holes and drills",
    "tighten": "Tightening torques",
    "lift": "Lifting",
    "drain": "Drain and trap",
    "set": "Settings",
    "measure": "To measure and record",
    "sign": "Who signs what",
}
_UNKNOWN = ("not stated", "not known")


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the sheet, the rule it comes from, and whether a figure is still missing."""

    text: str
    rule: str
    complete: bool


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the sheet."""

    name: str
    title: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The whole sheet, and the verdict under which it was made."""

    tool: str
    rulebook: str
    overlays: tuple[str, ...]
    description: str
    digest: str
    reference: str
    title: str
    stage: str
    verdict: Verdict
    open: tuple[str, ...]
    parts: tuple[Part, ...]
    geometry: Geometry


def sheet_for(rulebook: Rulebook, installation: Installation) -> Sheet:
    """The fitting sheet of an installation, from the ``sheet`` lines of all its rules."""
    wording = Wording(installation, rulebook)
    values = Values(rulebook, installation.record.values)
    found: dict[str, list[tuple[int, Entry]]] = {part: [] for part in PARTS}
    grades: list[Grade] = []
    open_: dict[str, None] = {}
    for outcome in check(rulebook, installation):
        rule, member = outcome.rule, outcome.member
        grade = settle(outcome, installation, values).grade
        grades.append(grade)
        if grade in (Grade.STOP, Grade.CORRECT):
            open_[f"{grade.word}: {rule.title} ({rule.name})"] = None
        if not rule.sheet or not _stands(
            rule, grade, member, values, str(installation.value("job.stage"))
        ):
            continue
        for one in _members(rule, member, values):
            names = working_of(rule, values, one)
            for line in rule.sheet:
                entry = _entry(line, rule, names, one, wording)
                if entry is not None and entry not in [e for _, e in found[line.part]]:
                    found[line.part].append((line.order, entry))
    parts = tuple(
        Part(name, title, tuple(e for _, e in sorted(found[name], key=lambda x: x[0])))
        for name, title in PARTS.items()
        if found[name]
    )
    return Sheet(
        checker.__version__, rulebook.digest, rulebook.overlays, installation.name, installation.digest,
        _text(installation, "job.reference"), _text(installation, "job.title"), str(installation.value("job.stage")),
        verdict_of(grades), tuple(open_), parts, geometry_of(installation),
    )  # fmt: skip


def _stands(rule: Rule, grade: Grade, member: int | None, values: Values, stage: str) -> bool:
    """Whether a rule's lines belong on the sheet: it applies, now or once fitted."""
    if rule.switched_off:
        return False
    if grade is not Grade.NOT_APPLICABLE:
        return True
    # A rule of the other stage: what only the finished work can show is a thing to do.
    if stage in rule.stages:
        return False
    if rule.test is None or rule.each is not None:
        return True
    values.work_out(rule.derived)
    answer = (
        evaluate(rule.applies.source, working_of(rule, values, member)) if rule.applies else True
    )
    return isinstance(answer, Absent) or bool(answer)


def _members(rule: Rule, member: int | None, values: Values) -> list[int | None]:
    if rule.each is None or member is not None:
        return [member]
    members = values.S[rule.each.field.slot]
    return [] if isinstance(members, Absent) else list(range(len(members)))


def _entry(
    line: SheetLine, rule: Rule, names: dict[str, Any], member: int | None, wording: Wording
) -> Entry | None:
    if line.condition is not None:
        holds = evaluate(line.condition.source, names)
        if isinstance(holds, Absent) or not holds:
            return None
    known = {}
    if rule.each is not None and member is not None:
        named = evaluate(rule.subject.source, names) if rule.subject else f"no. {member + 1}"
        known["subject"] = f"no. {member + 1}" if isinstance(named, Absent) else str(named)
    missing = [
        name for name in PLACEHOLDER.findall(line.line)
        if name not in known and wording.named(name, rule, names, member) in _UNKNOWN
    ]  # fmt: skip
    text = wording.sentence(line.line, rule, names, known, member)
    return Entry(text, rule.name, not missing)


def _text(installation: Installation, path: str) -> str:
    value = installation.value(path)
    return "" if isinstance(value, Absent) else str(value)
