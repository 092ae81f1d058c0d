"""The answers of a description kept between keystrokes: only what a change can move is asked again.

A rule's answer rests on a few fields. As long as those are stated as before, its answer,
its sentence and its remedies are those of the keystroke before.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from checker.checking.fitted import moved_fields, moved_findings
from checker.checking.implausible import implausible_values
from checker.checking.outcomes import outcomes_of
from checker.checking.rule_reads import slots_of
from checker.findings import Finding
from checker.grades import Grade, Verdict, verdict_of
from checker.installation.fields import Layout
from checker.installation.record import Installation, Record
from checker.reporting.writing_findings import Writer
from checker.rulebook.model import Rule, Rulebook
from checker.rulebook.soundness import PLACEHOLDER

__all__ = ["Answers", "Keeper"]


class _Kept(NamedTuple):
    """What a rule rested on, its grades, and the findings that someone has to act on."""

    rests_on: tuple[Any, ...]
    grades: tuple[Grade, ...]
    findings: tuple[Finding, ...]


class Answers(NamedTuple):
    """What a description comes to: the open findings in the report's order, and the counts of all."""

    installation: Installation
    writer: Writer
    verdict: Verdict
    counts: dict[str, int]
    findings: tuple[Finding, ...]


class Keeper:
    """Keeps what the last look at one description found, for the next one to go on from."""

    def __init__(self) -> None:
        self.rulebook: Rulebook | None = None
        self.around: tuple[Any, ...] = ()
        self.slots: dict[str, tuple[int, ...]] = {}
        self.kept: dict[str, _Kept] = {}

    def answers(
        self, rulebook: Rulebook, installation: Installation, plan: Installation | None = None
    ) -> Answers:
        """The findings of the report that someone has to act on, as ``open_findings`` gives them."""
        writer = Writer(rulebook, installation, working=False)
        stage = str(installation.value("job.stage"))
        self._turn_to(rulebook, (stage, writer.wording.inch))
        state = _state(installation.record)
        grades: list[Grade] = []
        ruled: list[Finding] = []
        for rule in rulebook.rules:
            rests_on = tuple(state[slot] for slot in self.slots[rule.name])
            kept = self.kept.get(rule.name)
            if kept is None or kept.rests_on != rests_on:
                kept = self.kept[rule.name] = _ask(rule, writer, stage, rests_on)
            grades += kept.grades
            ruled += kept.findings
        moved = () if plan is None else moved_fields(plan, installation, None)
        own = (*moved_findings(moved, installation), *implausible_values(installation))
        counts = Counter(g.word for g in (*grades, *(f.grade for f in own)))
        return Answers(
            installation,
            writer,
            verdict_of((*grades, *(f.grade for f in own))),
            {g.word: counts.get(g.word, 0) for g in Grade},
            (*own, *ruled),
        )

    def _turn_to(self, rulebook: Rulebook, around: tuple[Any, ...]) -> None:
        """Forget what was found in another rulebook, at another stage or in other units."""
        if self.rulebook is not rulebook:
            self.slots = {rule.name: _slots(rule, rulebook) for rule in rulebook.rules}
        if self.rulebook is not rulebook or self.around != around:
            self.rulebook, self.around, self.kept = rulebook, around, {}


def _ask(rule: Rule, writer: Writer, stage: str, rests_on: tuple[Any, ...]) -> _Kept:
    grades, findings = [], []
    for outcome in outcomes_of(rule, writer.values, stage):
        grade = writer.doubts.grade(outcome)
        grades.append(grade)
        if grade < Grade.MET:
            findings.append(writer.finding(outcome))
    return _Kept(rests_on, tuple(grades), tuple(findings))


def _slots(rule: Rule, rulebook: Rulebook) -> tuple[int, ...]:
    """Every field of the description that an answer, its sentence or its remedies can rest on."""
    layout = rulebook.layout
    named = {*slots_of(rule, rulebook), *_roots(rule.fields, layout), *_roots(rule.adjust, layout)}
    for text in rule.says.values():
        named |= set(_roots(PLACEHOLDER.findall(text), layout))
    return tuple(sorted(named))


def _roots(paths: Iterable[str], layout: Layout) -> Iterator[int]:
    for path in paths:
        field = layout.leaf(path.partition("[]")[0])
        if field is not None:
            yield field.slot


def _state(record: Record) -> list[Any]:
    """How each field is stated, without the place: members of lists below the list itself."""
    state: list[Any] = [None if fact is None else fact[:5] for fact in record.facts]
    for slot, members in record.members.items():
        state[slot] = tuple(tuple(_state(member)) for member in members)
    return state
