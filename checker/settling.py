"""The grade that stands once tolerances and estimates have had their say."""

from __future__ import annotations

from typing import NamedTuple

from checker.checking import Outcome, Values
from checker.grades import Grade
from checker.installation.record import Installation
from checker.tolerances import WorstCase, worst_case

__all__ = ["Settled", "is_simple", "settle"]


class Settled(NamedTuple):
    """A grade, and what moved it: the worst case in the tolerances, estimated fields."""

    grade: Grade
    worst: WorstCase | None
    estimated: tuple[str, ...]


def is_simple(installation: Installation) -> bool:
    """Whether no value was stated with a tolerance or as an estimate."""
    return not any(r.uncertain or r.estimated for r in installation.every_record())


def settle(outcome: Outcome, installation: Installation, values: Values) -> Settled:
    """Grade an outcome with the tolerances and the origins of what it rests on.

    A rule met at the stated values but not at the worst corner of their tolerances is
    ``confirm``: a closer measurement decides it; so is one that does not apply at the
    stated values but would, and would not be met, inside their tolerances. At stage
    ``fitted`` an estimate under a rule that can stop leaves it ``confirm`` too.
    """
    grade, worst = outcome.grade, None
    asked = outcome.why is None and not outcome.reason
    if outcome.rule.each is not None and outcome.member is None:
        asked = False  # There is no member to ask the rule about.
    if grade is not Grade.STOP and asked:
        worst = worst_case(outcome.rule, installation, values, outcome)
        if worst is not None and worst.outcome.grade < grade and grade > Grade.CONFIRM:
            grade = max(worst.outcome.grade, Grade.CONFIRM)
        if outcome.grade is Grade.NOT_APPLICABLE and grade >= Grade.ADVISE:
            # Where it would apply inside the tolerances it is no worse than advice: leave it.
            grade, worst = outcome.grade, None
    estimated: tuple[str, ...] = ()
    if (
        outcome.rule.can_stop
        and grade in (Grade.MET, Grade.ADVISE)
        and installation.value("job.stage") == "fitted"
    ):
        estimated = _estimated(outcome, installation)
        if estimated:
            grade = Grade.CONFIRM
    return Settled(grade, worst, estimated)


def _estimated(outcome: Outcome, installation: Installation) -> tuple[str, ...]:
    rule = outcome.rule
    wanted = set(rule.fields)
    own = f"{rule.each.field.path}[{outcome.member}]." if rule.each is not None else ""
    among = f"{rule.each.field.path}[" if rule.each is not None else "\0"
    found = []
    for prefix, record in installation.records():
        if record.estimated and (not prefix.startswith(among) or prefix == own):
            for slot in record.estimated:
                field = record.layout.fields[slot]
                if field.path in wanted:
                    found.append(prefix + field.path.rpartition("[].")[2] if prefix else field.path)
    return tuple(found)
