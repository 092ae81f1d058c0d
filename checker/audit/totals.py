"""What many results come to: counted as they pass, so that memory does not grow with their number."""

from __future__ import annotations

from collections import Counter
from typing import Any

from checker.audit.results import JobResult
from checker.grades import Grade

__all__ = ["BIN", "Totals"]

# The width of one step of the spread of utilisations.
BIN = 0.05
_LAST_BIN = 40


class Totals:
    """Counts over all jobs: verdicts, grades by rule, the spread of utilisations, what was missing."""

    def __init__(self) -> None:
        self.jobs = 0
        self.verdicts: Counter[str] = Counter()
        self.by_month: dict[str, Counter[str]] = {}
        self.grades: dict[str, Counter[str]] = {}
        self.spread: dict[str, Counter[int]] = {}
        self.missing: Counter[str] = Counter()
        self.rulebooks: dict[str, tuple[str, ...]] = {}
        self.rule_digests: dict[str, dict[str, str]] = {}

    def add(self, result: JobResult) -> None:
        """Count one result."""
        self.jobs += 1
        self.verdicts[result.verdict] += 1
        if result.date:
            self.by_month.setdefault(result.date[:7], Counter())[result.verdict] += 1
        if result.rulebook:
            self.rulebooks.setdefault(result.rulebook, result.overlays)
        seen: set[str] = set()
        for finding in result.findings:
            self.grades.setdefault(finding.rule, Counter())[finding.grade] += 1
            if finding.utilisation is not None:
                step = min(int(finding.utilisation / BIN), _LAST_BIN)
                self.spread.setdefault(finding.rule, Counter())[step] += 1
            seen.update(finding.missing)
        self.missing.update(seen)

    def failing(self) -> list[tuple[str, int, int]]:
        """The rules that gave stop or correct: name, how many of each, most first."""
        found = [
            (rule, counts[Grade.STOP.word], counts[Grade.CORRECT.word])
            for rule, counts in self.grades.items()
            if counts[Grade.STOP.word] or counts[Grade.CORRECT.word]
        ]
        return sorted(found, key=lambda f: (-f[1] - f[2], -f[1], f[0]))

    def as_data(self) -> dict[str, Any]:
        """The totals as plain data, in a fixed order."""
        return {
            "jobs": self.jobs,
            "verdicts": dict(sorted(self.verdicts.items())),
            "by_month": {m: dict(sorted(c.items())) for m, c in sorted(self.by_month.items())},
            "rules": {r: dict(sorted(c.items())) for r, c in sorted(self.grades.items())},
            "spread": {
                r: {f"{step * BIN:.2f}": n for step, n in sorted(c.items())}
                for r, c in sorted(self.spread.items())
            },
            "not_stated": dict(sorted(self.missing.items(), key=lambda x: (-x[1], x[0]))),
            "rulebooks": {d: list(o) for d, o in sorted(self.rulebooks.items())},
            "rule_digests": {
                d: dict(sorted(r.items())) for d, r in sorted(self.rule_digests.items())
            },
        }
