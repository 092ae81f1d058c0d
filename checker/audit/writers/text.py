"""The results of an audit on a terminal: a line a job, then what they come to."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any, TextIO

from checker.audit.comparing import Change
from checker.audit.results import JobResult
from checker.audit.totals import Failing, Totals, ratio, step_text
from checker.findings import Finding

__all__ = ["Results"]


class Results:
    """Writes a table of verdicts with counts, and the rules that fail most."""

    wants_words = False

    def __init__(self, file: TextIO, **_: Any) -> None:
        self.file = file
        self.changed: Counter[str] = Counter()
        self.file.write(
            f"{'verdict':<9}{'stop':>5}{'correct':>8}{'confirm':>8}{'advise':>7}{'met':>5}  description\n"
        )

    def job(
        self,
        result: JobResult,
        changes: Sequence[Change] = (),
        findings: Sequence[Finding] = (),
    ) -> None:
        """Write one job's line, and what changed in it."""
        del findings
        self._line(result)
        for change in changes:
            self.changed[change.kind] += 1
            moved = " -> ".join(x for x in (change.before, change.now) if x)
            self.file.write(f"{'':<11}{change.kind:<7}{change.rule}: {moved} ({change.why})\n")

    def _line(self, result: JobResult) -> None:
        name = result.path + (" + fitted" if result.fitted else "")
        if result.error:
            self.file.write(
                f"{'unread':<9}{'':>33}  {name}\n{'':<11}{result.error.splitlines()[0]}\n"
            )
            return
        c = result.counts
        self.file.write(
            f"{result.verdict:<9}{c['stop']:>5}{c['correct']:>8}{c['confirm']:>8}{c['advise']:>7}{c['met']:>5}  {name}\n"
        )

    def end(self, totals: Totals) -> None:
        """Write the totals."""
        lines = [
            "",
            f"{totals.jobs} descriptions: "
            + ", ".join(f"{n} {v}" for v, n in sorted(totals.verdicts.items())),
        ]
        if self.changed:
            lines.append(
                "changed: "
                + ", ".join(
                    f"{self.changed[k]} {k}"
                    for k in ("worse", "new", "better", "gone")
                    if self.changed[k]
                )
            )
        if totals.gone:
            lines += ["", "gone since the earlier audit"]
            lines += [f"  {verdict:<9}{path}" for path, verdict in sorted(totals.gone.items())]
        failing = totals.failing()
        if failing:
            lines += [
                "",
                f"{'most often stop or correct':<46}{'stop':>4}{'correct':>9}  demand over limit: middle, most",
            ]
            lines += [_failing(f) for f in failing[:10]]
        if totals.missing:
            lines += ["", f"{'most often not stated':<46}jobs"]
            lines += [f"  {path:<44}{n:>4}" for path, n in totals.lacking()[:10]]
        self.file.write("\n".join(lines) + "\n")


def _failing(f: Failing) -> str:
    line = f"  {f.rule:<44}{f.stop:>4}{f.correct:>9}"
    if f.middle is None or f.most is None:
        return line
    return f"{line}  {step_text(f.middle)}, {ratio(f.most)}"
