"""The grades of one installation without the words: what an audit needs, and nothing more.

The same grades as a report's, by the same functions; the sentences, workings and
remedies that cost a hundred times as much are left to whoever opens the job.
"""

from __future__ import annotations

from typing import NamedTuple

from checker.absent import Unstated
from checker.checking.fitted import RULE as MOVED
from checker.checking.fitted import left_tolerance
from checker.checking.implausible import RULE as UNUSUAL
from checker.checking.outcomes import Values, check
from checker.checking.settling import Doubts
from checker.checking.tolerances import utilisation
from checker.grades import Grade, Verdict, verdict_of
from checker.installation.record import Installation
from checker.rulebook.model import Rulebook

__all__ = ["Answer", "Judgement", "judge"]


class Answer(NamedTuple):
    """One rule's grade: the member's position in its list, demand over limit, what was missing."""

    rule: str
    member: int | None
    grade: Grade
    utilisation: float | None
    missing: tuple[str, ...]


class Judgement(NamedTuple):
    """How many answers of each grade, by its number, those that apply, and the verdict."""

    verdict: Verdict
    counts: tuple[int, ...]
    answers: tuple[Answer, ...]


def judge(
    rulebook: Rulebook, installation: Installation, plan: Installation | None = None
) -> Judgement:
    """Grade one installation by every rule."""
    values = Values(rulebook, installation.record.values)
    doubts = Doubts(installation, values)
    answers: list[Answer] = []
    gone = () if plan is None else left_tolerance(plan, installation)
    unusual = [slot for record in installation.every_record() for slot in record.unusual]
    # Numbered in the order of the report's findings: two of one name would be taken for one.
    answers += [Answer(MOVED, i, Grade.CONFIRM, None, ()) for i, _ in enumerate(gone)]
    answers += [Answer(UNUSUAL, i, Grade.CONFIRM, None, ()) for i, _ in enumerate(unusual)]
    idle = 0
    for outcome in check(rulebook, installation, values):
        grade = doubts.grade(outcome)
        if grade is Grade.NOT_APPLICABLE:
            idle += 1
            continue
        rule, member, _, demand, limit, why, _ = outcome
        ratio = None
        if limit is not None and demand is not None and rule.has_ratio:
            ratio = utilisation(demand, limit)
            ratio = None if ratio == float("inf") else ratio
        missing = why.paths if type(why) is Unstated else ()
        answers.append(Answer(rule.name, member, grade, ratio, missing))
    counts = [0] * len(Grade)
    for answer in answers:
        counts[answer.grade] += 1
    counts[Grade.NOT_APPLICABLE] = idle
    verdict = verdict_of(grade for grade in Grade if counts[grade])
    return Judgement(verdict, tuple(counts), tuple(answers))
