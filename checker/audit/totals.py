"""What many results come to: counted as they pass, so that memory does not grow with their number."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping
from math import ceil
from typing import Any, NamedTuple, TypeVar

from checker.audit.results import JobResult
from checker.grades import Grade
from checker.installation.fields import general_path

__all__ = ["BIN", "LAST_BIN", "Failing", "Totals", "ratio", "step_at", "step_text"]

# The width of one step of the spread of utilisations, its upper end included, so that what
# is just at the limit is not beyond it; and the step that holds all beyond.
BIN = 0.05
LAST_BIN = 40
_FAILING = (Grade.STOP.word, Grade.CORRECT.word)

_Key = TypeVar("_Key", str, int)


class Failing(NamedTuple):
    """A rule that gave stop or correct: how often each, and how far demand went over the limit.

    ``middle`` is the step of the spread that the middle one lies in.
    """

    rule: str
    stop: int
    correct: int
    middle: int | None
    most: float | None


class Totals:
    """Counts over all jobs: verdicts, grades by rule, the spread of utilisations, what was missing."""

    def __init__(self) -> None:
        self.jobs = 0
        self.verdicts: Counter[str] = Counter()
        self.by_month: defaultdict[str, Counter[str]] = defaultdict(Counter)
        # By rule and grade, and by rule and step, counted flat: it is done for every answer.
        self._answers: Counter[tuple[str, str]] = Counter()
        self._steps: Counter[tuple[str, int]] = Counter()
        # How many answers lie beyond the limit, and how far those of them that fail.
        self.beyond: Counter[str] = Counter()
        self.over: defaultdict[str, Counter[int]] = defaultdict(Counter)
        self.most: dict[str, float] = {}
        self.missing: Counter[str] = Counter()
        self.rulebooks: dict[str, tuple[str, ...]] = {}
        self.rule_digests: dict[str, dict[str, str]] = {}
        # Jobs of the earlier audit that are no longer there, with their verdicts.
        self.gone: dict[str, str] = {}
        # Which part of a divided audit this is, K/N.
        self.part = ""

    def add(self, result: JobResult) -> None:
        """Count one result."""
        self.jobs += 1
        self.verdicts[result.verdict] += 1
        if result.date:
            self.by_month[result.date[:7]][result.verdict] += 1
        if result.rulebook:
            self.rulebooks.setdefault(result.rulebook, result.overlays)
        if not result.findings:
            return
        rules, _, grades, ratios, lacking = zip(*result.findings, strict=True)
        self._answers.update(zip(rules, grades, strict=True))
        rated = [
            (rule, ratio) for rule, ratio in zip(rules, ratios, strict=True) if ratio is not None
        ]
        self._steps.update(
            [(rule, min(max(ceil(ratio / BIN) - 1, 0), LAST_BIN)) for rule, ratio in rated]
        )
        if max((ratio for _, ratio in rated), default=0.0) > 1:
            self._add_beyond(result)
        paths = {path for missing in lacking if missing for path in missing}
        self.missing.update({general_path(path) for path in paths})

    def _add_beyond(self, result: JobResult) -> None:
        """Count the answers of a result that lie beyond their limit."""
        for rule, _, grade, utilisation, _ in result.findings:
            if utilisation is not None and utilisation > 1:
                self.beyond[rule] += 1
                # At or below the limit something else than the ratio failed.
                if grade in _FAILING:
                    step = min(max(ceil(utilisation / BIN) - 1, 0), LAST_BIN)
                    self.over[rule][step] += 1
                    self.most[rule] = max(self.most.get(rule, 0.0), utilisation)

    @property
    def grades(self) -> dict[str, Counter[str]]:
        """How often each rule gave each grade."""
        return _by_rule(self._answers)

    @property
    def spread(self) -> dict[str, Counter[int]]:
        """How often each rule's utilisation lay in each step."""
        return _by_rule(self._steps)

    def failing(self) -> list[Failing]:
        """The rules that gave stop or correct, most first."""
        found = [
            Failing(
                rule, counts["stop"], counts["correct"], self._middle(rule), self.most.get(rule)
            )
            for rule, counts in self.grades.items()
            if counts["stop"] or counts["correct"]
        ]
        return sorted(found, key=lambda f: (-f.stop - f.correct, -f.stop, f.rule))

    def lacking(self) -> list[tuple[str, int]]:
        """The fields that were not stated, with the number of jobs that lack them, most first."""
        return sorted(self.missing.items(), key=lambda x: (-x[1], x[0]))

    def as_data(self) -> dict[str, Any]:
        """The totals as plain data, in a fixed order."""
        data = {
            "jobs": self.jobs,
            "verdicts": dict(sorted(self.verdicts.items())),
            "by_month": {m: dict(sorted(c.items())) for m, c in sorted(self.by_month.items())},
            "rules": {r: dict(sorted(c.items())) for r, c in sorted(self.grades.items())},
            "spread": {r: _steps(c) for r, c in sorted(self.spread.items())},
            "over": {
                f.rule: {"most": f.most, "spread": _steps(self.over[f.rule])}
                for f in sorted(self.failing())
                if f.most is not None
            },
            "not_stated": dict(self.lacking()),
            "gone": dict(sorted(self.gone.items())),
            "rulebooks": {d: list(o) for d, o in sorted(self.rulebooks.items())},
            "rule_digests": {
                d: dict(sorted(r.items())) for d, r in sorted(self.rule_digests.items())
            },
        }
        return {**data, "part": self.part} if self.part else data

    def _middle(self, rule: str) -> int | None:
        return step_at(self.over[rule], 0.5) if rule in self.over else None


def _by_rule(counts: Counter[tuple[str, _Key]]) -> dict[str, Counter[_Key]]:
    found: dict[str, Counter[_Key]] = {}
    for (rule, key), times in counts.items():
        found.setdefault(rule, Counter())[key] = times
    return found


def step_at(counts: Mapping[int, int], share: float) -> int:
    """The step of a spread below which, itself included, a share of its answers lies."""
    wanted, passed = share * sum(counts.values()), 0
    for step, times in sorted(counts.items()):
        passed += times
        if passed >= wanted:
            return step
    return LAST_BIN


def step_text(step: int, *, short: bool = False) -> str:
    """A step of a spread in words, or for a narrow column.

    >>> step_text(19), step_text(LAST_BIN), step_text(LAST_BIN, short=True)
    ('95 to 100 %', 'more than 200 %', '> 200 %')
    """
    low, high = round(step * BIN * 100), round((step + 1) * BIN * 100)
    if step >= LAST_BIN:
        return f"> {low} %" if short else f"more than {low} %"
    return f"{low}–{high} %" if short else f"{low} to {high} %"


def ratio(value: float, *, short: bool = False) -> str:
    """Demand over limit as a percentage.

    >>> ratio(1.034), ratio(25.0)
    ('103 %', 'more than 999 %')
    """
    if value > 9.99:
        return "> 999 %" if short else "more than 999 %"
    return f"{value * 100:.0f} %"


def _steps(counts: Counter[int]) -> dict[str, int]:
    return {f"{step * BIN:.2f}": n for step, n in sorted(counts.items())}
