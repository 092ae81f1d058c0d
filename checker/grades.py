"""Grades of a finding and the verdict that follows from the gravest."""

from __future__ import annotations

from collections.abc import Iterable
from enum import IntEnum, StrEnum

__all__ = ["Grade", "Verdict", "verdict_of"]


class Grade(IntEnum):
    """How grave a finding is; a lower number is graver, so ``min`` is the gravest."""

    STOP = 0
    CORRECT = 1
    CONFIRM = 2
    ADVISE = 3
    MET = 4
    NOT_APPLICABLE = 5

    @property
    def word(self) -> str:
        """The word that every output prints."""
        return self.name.lower().replace("_", "-")

    @classmethod
    def of(cls, word: str) -> Grade:
        """The grade that a word names.

        >>> Grade.of("not-applicable")
        <Grade.NOT_APPLICABLE: 5>
        """
        return cls[word.upper().replace("-", "_")]


class Verdict(StrEnum):
    """What follows for the whole installation."""

    HOLD = "hold"
    REWORK = "rework"
    CONFIRM = "confirm"
    READY = "ready"


def verdict_of(grades: Iterable[Grade]) -> Verdict:
    """The verdict from the grades of all findings.

    >>> verdict_of([Grade.MET, Grade.CONFIRM, Grade.CORRECT])
    <Verdict.REWORK: 'rework'>
    """
    gravest = min(grades, default=Grade.MET)
    if gravest is Grade.STOP:
        return Verdict.HOLD
    if gravest is Grade.CORRECT:
        return Verdict.REWORK
    return Verdict.CONFIRM if gravest is Grade.CONFIRM else Verdict.READY
