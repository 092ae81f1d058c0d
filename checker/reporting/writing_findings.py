"""One outcome as a finding: its sentence, its working, the fields it read, what would meet it."""

from __future__ import annotations

from functools import cached_property
from typing import Any

from checker.absent import Absent, OutOfReach, Unstated
from checker.checking.outcomes import Outcome, Values, working_of
from checker.checking.remedies import remedies_for
from checker.checking.settling import Doubts
from checker.checking.tolerances import WorstCase, utilisation
from checker.findings import (
    FieldRead,
    Finding,
    Measure,
    MissingField,
    Remedy,
    WorkingLine,
    Worst,
)  # fmt: skip
from checker.grades import Grade
from checker.installation.fields import Field
from checker.installation.record import Installation
from checker.reporting.bases import NOT_VERIFIED, bases_of, is_unverified, remarks_of
from checker.reporting.lacking_fields import missing_fields
from checker.reporting.wording import Wording
from checker.rulebook.model import Derived, Rule, Rulebook

__all__ = ["Writer"]


class Writer:
    """Writes the findings of one installation; ``working`` whether with their workings."""

    def __init__(self, rulebook: Rulebook, installation: Installation, *, working: bool) -> None:
        self.with_working = working
        self.rulebook = rulebook
        self.installation = installation
        self.values = Values(rulebook, installation.record.values)
        self.doubts = Doubts(installation, self.values)
        self.wording = Wording(installation, rulebook)

    def finding(self, outcome: Outcome) -> Finding:
        """An outcome in sentences."""
        rule, member, grade = outcome.rule, outcome.member, outcome.grade
        settled = self.doubts.settle(outcome)
        if settled.grade >= Grade.MET and not self.with_working:
            return self._counted(outcome, settled.grade)
        if settled.grade is Grade.NOT_APPLICABLE:
            return self._not_applicable(outcome)
        names = working_of(rule, self.values, member)
        known = self._known(outcome, names)
        missing = missing_fields(outcome, self.installation)
        if missing:
            sentence = _not_stated(missing)
        elif isinstance(outcome.why, OutOfReach):
            sentence = outcome.why.reason
        elif grade is Grade.NOT_APPLICABLE:
            sentence = "At the stated values this does not apply; inside their tolerances it would."
        else:
            sentence = self.wording.sentence(
                rule.says.get(grade.word, rule.title), rule, names, known, member
            )
        fields = self._fields(rule, member)
        worst = None if settled.worst is None else self._worst(settled.worst)
        if settled.worst is not None and worst is not None and settled.worst.outcome.grade < grade:
            sentence = f"{sentence} {worst.sentence}"
        if settled.estimated:
            sentence = f"{sentence} That rests on an estimate ({', '.join(settled.estimated)}): measure it before handover."
        grade = settled.grade
        demand, limit = self._measures(outcome)
        bases = bases_of(rule, self.rulebook)
        return Finding(
            rule.name, rule.title, rule.family, known.get("subject"), grade, sentence, rule.protects, demand, limit,
            _ratio(outcome), worst, self._working(rule, names, member), fields, missing, self._remedies(outcome, grade),
            tuple(bases), tuple(remarks_of(bases, rule, self.rulebook, self.values, names)),
            rule.changes, rule.caution,
        )  # fmt: skip

    def _counted(self, outcome: Outcome, grade: Grade) -> Finding:
        """A finding of which a short form shows no more than that it is there, and how sure it is."""
        rule = outcome.rule
        remarks: tuple[str, ...] = ()
        if grade is Grade.MET and is_unverified(rule, self.rulebook, self.values, outcome.member):
            remarks = (f"{NOT_VERIFIED}.",)
        return Finding(
            rule.name, rule.title, rule.family, None, grade, "", rule.protects, None, None, None, None,
            (), (), (), (), (), remarks, rule.changes, rule.caution,
        )  # fmt: skip

    def _not_applicable(self, outcome: Outcome) -> Finding:
        rule = outcome.rule
        reason = outcome.reason or rule.says.get("not-applicable", "")
        if not reason and rule.applies is not None:
            reason = f"Applies only where {rule.applies.text}."
        known: dict[str, str] = {}
        if outcome.member is not None or "{" in reason:
            names = working_of(rule, self.values, outcome.member)
            known = self._known(outcome, names)
            reason = self.wording.sentence(reason, rule, names, known, outcome.member)
        subject = known.get("subject")
        return Finding(
            rule.name,
            rule.title,
            rule.family,
            subject,
            outcome.grade,
            reason,
            rule.protects,
            None,
            None,
            None,
            None,
            (),
            (),
            (),
            (),
            (),
            (),
            rule.changes,
            rule.caution,
        )

    def _known(self, outcome: Outcome, names: dict[str, Any]) -> dict[str, str]:
        rule = outcome.rule
        known: dict[str, str] = {}
        if rule.each is not None and outcome.member is not None:
            from checker.formulas.lacking import evaluate  # noqa: PLC0415

            number = f"no. {outcome.member + 1}"
            value = evaluate(rule.subject.source, names) if rule.subject else number
            known["subject"] = number if isinstance(value, Absent) else str(value)
        if (
            rule.demand is not None
            and rule.limit is not None
            and rule.demand.unit is not None
            and outcome.demand is not None
            and outcome.limit is not None
        ):
            known["demand"], known["limit"] = self.wording.pair(
                outcome.demand, outcome.limit, rule.demand.unit
            )
            if rule.has_ratio:
                known["utilisation"] = _percent(utilisation(outcome.demand, outcome.limit))
        return known

    def _measures(self, outcome: Outcome) -> tuple[Measure | None, Measure | None]:
        rule = outcome.rule
        if (
            rule.demand is None
            or rule.limit is None
            or rule.demand.unit is None
            or outcome.demand is None
            or outcome.limit is None
        ):
            return None, None
        unit = self.wording.unit(rule.demand.unit)
        texts = self.wording.pair(outcome.demand, outcome.limit, rule.demand.unit)
        first, second = (
            Measure(_rounded((v - unit.offset) / unit.factor), unit.symbol, t)
            for v, t in zip((outcome.demand, outcome.limit), texts, strict=True)
        )
        return first, second

    def _remedies(self, outcome: Outcome, grade: Grade) -> tuple[Remedy, ...]:
        if outcome.why is not None or grade not in (Grade.STOP, Grade.CORRECT, Grade.ADVISE):
            return ()
        return remedies_for(outcome.rule, self.installation, self.values, outcome)

    def _worst(self, case: WorstCase) -> Worst:
        demand, limit = self._measures(case.outcome)
        if case.outcome.grade is Grade.CONFIRM and isinstance(case.outcome.why, OutOfReach):
            sentence = (
                f"Inside the stated tolerances it cannot be computed: {case.outcome.why.reason}"
            )
        elif demand is not None and limit is not None:
            sentence = f"At the worst of the stated tolerances it is {demand.text} against {limit.text} ({case.outcome.grade.word}): measure {case.tighten} more closely."
        else:
            sentence = f"At the worst of the stated tolerances the grade is {case.outcome.grade.word}: measure {case.tighten} more closely."
        return Worst(case.outcome.grade, demand, limit, case.tighten, sentence)

    def _working(
        self, rule: Rule, names: dict[str, Any], member: int | None
    ) -> tuple[WorkingLine, ...]:
        lines: list[WorkingLine] = []
        if not self.with_working:
            return ()
        for index in rule.derived:
            derived: Derived = self.rulebook.order[index]
            lines.append(
                WorkingLine(
                    f"derived.{derived.name}",
                    derived.title,
                    derived.result.formula.text,
                    "",
                    self.wording.value(names["D"][index], derived.result.unit),
                )
            )
        for line in (*rule.lines, *(x for x in (rule.demand, rule.limit) if x is not None)):
            value = names[f"v_{line.name}"]
            result = self.wording.value(value, line.unit)
            if isinstance(value, Absent) and isinstance(value.why, Unstated):
                result = f"not known: {', '.join(value.why.paths)} not stated"
            numbers = self.wording.numbers(line, rule, names, member)
            lines.append(
                WorkingLine(
                    line.name,
                    line.meaning,
                    line.formula.text,
                    "" if numbers == result else numbers,
                    result,
                )
            )
        return tuple(lines)

    def _fields(self, rule: Rule, member: int | None) -> tuple[FieldRead, ...]:
        own = f"{rule.each.field.path}[{member}]." if rule.each is not None else ""
        among = f"{rule.each.field.path}[" if rule.each is not None else "\0"
        found = [
            (read.file, read.line, read.column, number, read)
            for path in dict.fromkeys(rule.fields)
            for prefix, number, read in self._read.get(path, ())
            if not prefix.startswith(among) or prefix == own
        ]
        return tuple(entry[-1] for entry in sorted(found))

    @cached_property
    def _read(self) -> dict[str, list[tuple[str, int, FieldRead]]]:
        """Every stated value by its field's path, with its list member and its number in order."""
        by_path: dict[str, list[tuple[str, int, FieldRead]]] = {}
        number = 0
        for prefix, record in self.installation.records():
            for field, fact in zip(record.layout.fields, record.facts, strict=True):
                if fact is None or field.item is not None:
                    continue
                place = self.installation.place(fact.mark)
                read = FieldRead(
                    _path(prefix, field), fact.text, place.file, place.line, place.column, fact.origin,
                )  # fmt: skip
                by_path.setdefault(field.path, []).append((prefix, number, read))
                number += 1
        return by_path


def _path(prefix: str, field: Field) -> str:
    return prefix + field.path.rpartition("[].")[2] if prefix else field.path


def _ratio(outcome: Outcome) -> float | None:
    if outcome.demand is None or outcome.limit is None or not outcome.rule.has_ratio:
        return None
    ratio = utilisation(outcome.demand, outcome.limit)
    return None if ratio == float("inf") else _rounded(ratio)


def _percent(ratio: float) -> str:
    return "more than 999 %" if ratio > 9.99 else f"{ratio * 100:.0f} %"


def _rounded(value: float) -> float:
    # Ten digits: the same text on every machine, and more than anyone measures.
    return float(f"{value:.10g}")


def _not_stated(missing: tuple[MissingField, ...]) -> str:
    first = "; ".join(f"{_lower(m.meaning)} ({m.path})" for m in missing[:3])
    rest = f"; and {len(missing) - 3} more" if len(missing) > 3 else ""
    return f"Not stated: {first}{rest}."


def _lower(text: str) -> str:
    text = text.split(". ", maxsplit=1)[0].rstrip(".")
    return text[:1].lower() + text[1:] if text[1:2].islower() else text
