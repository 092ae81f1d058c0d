"""The grades of one installation without the words: what an audit needs, and nothing more.

The same grades as a report's, by the same functions; the sentences, workings and
remedies that cost a hundred times as much are left to whoever opens the job.
"""

from __future__ import annotations

from typing import NamedTuple

from checker.absent import Unstated
from checker.checking import Values, check
from checker.fitted import moved_fields, moved_findings
from checker.grades import Grade, Verdict, verdict_of
from checker.implausible import RULE as UNUSUAL
from checker.installation.record import Installation
from checker.rulebook.model import Rulebook
from checker.settling import is_simple, settle
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
    simple = is_simple(installation)
    values = Values(rulebook, installation.record.values)
    answers: list[Answer] = []
    if plan is not None:
        moved = moved_fields(plan, installation, rulebook)
        answers += [
            Answer(f.rule, None, f.grade, None, ()) for f in moved_findings(moved, installation)
        ]
    for record in installation.every_record():
        answers += [Answer(UNUSUAL, None, Grade.CONFIRM, None, ()) for _ in record.unusual]
    for outcome in check(rulebook, installation):
        rule, member, grade, demand, limit, why, _ = outcome
        if not simple:
            grade = settle(outcome, installation, values).grade
        missing = why.paths if type(why) is Unstated else ()
        ratio = None
        if demand is not None and limit is not None and rule.has_ratio:
            ratio = utilisation(demand, limit)
            ratio = None if ratio == float("inf") else ratio
        answers.append(Answer(rule.name, member, grade, ratio, missing))
    return Judgement(verdict_of([a.grade for a in answers]), tuple(answers))
