"""The grade that stands once tolerances and estimates have had their say."""

from __future__ import annotations

from typing import NamedTuple

from checker.checking.outcomes import Outcome, Values
from checker.checking.tolerances import Tolerances, WorstCase, can_read
from checker.grades import Grade
from checker.installation.record import Installation

__all__ = ["Doubts", "Settled"]


class Settled(NamedTuple):
    """A grade, and what moved it: the worst case in the tolerances, estimated fields."""

    grade: Grade
    worst: WorstCase | None
    estimated: tuple[str, ...]


class Doubts:
    """What of one installation is uncertain, and what that does to its outcomes.

    Holds for the values as they are; for others, ask anew.
    """

    def __init__(self, installation: Installation, values: Values) -> None:
        self.tolerances = Tolerances(installation, values)
        # Each with the path of its field and the prefix of its list member.
        self.estimates: list[tuple[str, str, str]] = []
        # While it is planned, an estimate is what there is.
        if installation.value("job.stage") == "fitted":
            self.estimates = list(_estimates(installation))

    def settle(self, outcome: Outcome) -> Settled:
        """Grade an outcome with the tolerances and the origins of what it rests on.

        A rule met at the stated values but not at the worst corner of their tolerances is
        ``confirm``: a closer measurement decides it; so is one that does not apply at the
        stated values but would, and would not be met, inside their tolerances. At stage
        ``fitted`` an estimate under a rule that can stop leaves it ``confirm`` too.
        """
        rule, grade, worst = outcome.rule, outcome.grade, None
        asked = outcome.why is None and not outcome.reason
        if rule.each is not None and outcome.member is None:
            asked = False  # There is no member to ask the rule about.
        if grade is not Grade.STOP and asked:
            worst = self.tolerances.worst_case(outcome)
            if worst is not None and worst.outcome.grade < grade and grade > Grade.CONFIRM:
                grade = max(worst.outcome.grade, Grade.CONFIRM)
            if outcome.grade is Grade.NOT_APPLICABLE and grade >= Grade.ADVISE:
                # Where it would apply inside the tolerances it is no worse than advice: leave it.
                grade, worst = outcome.grade, None
        estimated: tuple[str, ...] = ()
        if self.estimates and rule.can_stop and grade in (Grade.MET, Grade.ADVISE):
            estimated = self._estimated(outcome)
            if estimated:
                grade = Grade.CONFIRM
        return Settled(grade, worst, estimated)

    def grade(self, outcome: Outcome) -> Grade:
        """The settled grade alone, for those who print no sentence."""
        if outcome.grade <= Grade.CONFIRM:
            return outcome.grade  # Doubt makes nothing graver than this.
        if outcome.rule.name not in self.tolerances.rules and not self.estimates:
            return outcome.grade
        return self.settle(outcome).grade

    def _estimated(self, outcome: Outcome) -> tuple[str, ...]:
        rule, rulebook = outcome.rule, self.tolerances.values.rulebook
        return tuple(
            shown
            for path, prefix, shown in self.estimates
            if path in rule.fields and can_read(rule, outcome.member, path, prefix, rulebook)
        )


def _estimates(installation: Installation) -> list[tuple[str, str, str]]:
    if not any(record.estimated for record in installation.every_record()):
        return []
    return [
        (path, prefix, prefix + path.rpartition("[].")[2] if prefix else path)
        for prefix, record in installation.records()
        for path in (record.layout.fields[slot].path for slot in record.estimated)
    ]
