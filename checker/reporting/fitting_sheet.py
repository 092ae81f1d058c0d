"""The fitting sheet: what the engineer takes along, every figure from a rule that it names."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import checker
from checker.absent import Absent, Unstated
from checker.checking.outcomes import Values, check, working_of
from checker.checking.settling import Doubts
from checker.findings import Geometry
from checker.formulas.lacking import evaluate
from checker.geometry import geometry_of
from checker.grades import Grade, Verdict, verdict_of
from checker.installation.record import Installation
from checker.reporting.sheet_lines import Entry, entries_of, entry_for_list
from checker.reporting.wording import Wording
from checker.rulebook.model import Rule, Rulebook, SheetLine

__all__ = ["PARTS", "Entry", "Part", "Sheet", "sheet_for"]

# The parts in the order in which they are needed.
PARTS = {
    "hold": "Stop here, in the order of work, until it is done",
    "kit": "To take along",
    "cut": "Cut lengths",
    "drill": "Holes, drills and depth",
    "tighten": "Tightening torques",
    "lift": "Lifting",
    "drain": "Drain and trap, heights above the floor",
    "set": "Settings",
    "measure": "To measure and record",
    "sign": "Who signs what",
}


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
    stage = str(installation.value("job.stage"))
    graded: dict[str, dict[int | None, Grade]] = {}
    open_: dict[str, None] = {}
    doubts = Doubts(installation, values)
    for outcome in check(rulebook, installation, values):
        rule, grade = outcome.rule, doubts.grade(outcome)
        graded.setdefault(rule.name, {})[outcome.member] = grade
        if grade in (Grade.STOP, Grade.CORRECT):
            open_[f"{grade.word}: {rule.title} ({rule.name})"] = None
    found: dict[str, list[tuple[int, Entry]]] = {part: [] for part in PARTS}
    for rule in rulebook.rules:
        for line, entry in _lines(
            rule, graded.get(rule.name, {}), values, wording, rulebook, stage
        ):
            if all(entry.text != e.text or entry.rule != e.rule for _, e in found[line.part]):
                found[line.part].append((line.order, entry))
    parts = tuple(
        Part(name, title, tuple(e for _, e in sorted(found[name], key=lambda x: x[0])))
        for name, title in PARTS.items()
        if found[name]
    )
    verdict = verdict_of(grade for grades in graded.values() for grade in grades.values())
    return Sheet(
        checker.__version__, rulebook.digest, rulebook.overlays, installation.name, installation.digest,
        _text(installation, "job.reference"), _text(installation, "job.title"), stage,
        verdict, tuple(open_), parts, geometry_of(installation),
    )  # fmt: skip


def _lines(
    rule: Rule,
    graded: dict[int | None, Grade],
    values: Values,
    wording: Wording,
    rulebook: Rulebook,
    stage: str,
) -> Iterator[tuple[SheetLine, Entry]]:
    """The lines of one rule, if it applies now or will once the stage is reached."""
    if not rule.sheet or rule.switched_off:
        return
    now = stage in rule.stages
    listed = None if rule.each is None else values.S[rule.each.field.slot]
    if isinstance(listed, Absent):
        yield from _lines_without_list(rule, listed, values, wording, rulebook, now=now)
        return
    members: dict[int | None, Grade]
    if now:
        members = {m: g for m, g in graded.items() if g is not Grade.NOT_APPLICABLE}
    else:
        # What only the finished work can show is, to a plan, a thing to do.
        every = [None] if listed is None else range(len(listed))
        members = {m: Grade.NOT_APPLICABLE for m in every if _applies(rule, values, m)}
    yield from entries_of(rule, members, values, wording, rulebook, asks_whether=now)


def _lines_without_list(
    rule: Rule, listed: Absent, values: Values, wording: Wording, rulebook: Rulebook, *, now: bool
) -> Iterator[tuple[SheetLine, Entry]]:
    """A rule whose list is not stated: ask for it."""
    if not isinstance(listed.why, Unstated) or not _applies(rule, values, None):
        return
    if now or rule.each is None or not rule.each.field.path.startswith("records."):
        paths = listed.why.paths
        yield from ((x, entry_for_list(rule, i, paths)) for i, x in enumerate(rule.sheet))
        return
    # What will be recorded at commissioning is no list that a plan could state: what the
    # lines say of no member in particular stands all the same.
    every: dict[int | None, Grade] = {None: Grade.NOT_APPLICABLE}
    for line, entry in entries_of(rule, every, values, wording, rulebook, asks_whether=False):
        if entry.complete:
            yield line, entry


def _applies(rule: Rule, values: Values, member: int | None) -> bool:
    """Whether a rule applies, what cannot be told counted as if it did."""
    if rule.applies is None:
        return True
    answer = evaluate(rule.applies.source, working_of(rule, values, member))
    return isinstance(answer, Absent) or bool(answer)


def _text(installation: Installation, path: str) -> str:
    value = installation.value(path)
    return "" if isinstance(value, Absent) else str(value)
