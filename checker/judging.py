"""The grades of one installation without the words: what an audit needs, and nothing more.

The same grades as a report's, by the same functions; the sentences, workings and
remedies that cost a hundred times as much are left to whoever opens the job.
"""

from __future__ import annotations

from typing import NamedTuple

from checker.absent import Unstated
from checker.checking import Values, check
from checker.fitted import RULE as MOVED
from checker.fitted import left_tolerance
from checker.grades import Grade, Verdict, verdict_of
from checker.implausible import RULE as UNUSUAL
from checker.installation.record import Installation
from checker.rulebook.model import Rulebook
from checker.settling import Doubts
from checker.tolerances import utilisation

__all__ = ["Answer", "Judgement", "judge"]


class Answer(NamedTuple):
    """One rule's grade: the member's position in its list, demand over limit, what was missing."""

    rule: str
    member: int | None
    grade: Grade
    utilisation: float | None
    missing: tuple[str, ...]


class Judgement(NamedTuple):
    """All answers for one installation, and the verdict."""

    verdict: Verdict
    answers: tuple[Answer, ...]


def judge(
    rulebook: Rulebook, installation: Installation, plan: Installation | None = None
) -> Judgement:
    """Grade one installation by every rule."""
    values = Values(rulebook, installation.record.values)
    doubts = Doubts(installation, values)
    answers: list[Answer] = []
    if plan is not None:
        answers += [
            Answer(MOVED, None, Grade.CONFIRM, None, ()) for _ in left_tolerance(plan, installation)
        ]
    for record in installation.every_record():
        answers += [Answer(UNUSUAL, None, Grade.CONFIRM, None, ()) for _ in record.unusual]
    for outcome in check(rulebook, installation, values):
        rule, member, _, demand, limit, why, _ = outcome
        ratio = None
        if demand is not None and limit is not None and rule.has_ratio:
            ratio = utilisation(demand, limit)
            ratio = None if ratio == float("inf") else ratio
        missing = why.paths if type(why) is Unstated else ()
        answers.append(Answer(rule.name, member, doubts.grade(outcome), ratio, missing))
    return Judgement(verdict_of([a.grade for a in answers]), tuple(answers))
