"""The results of an audit as one page: how they stand, what fails, by how much, what is missing.

What the page says of all jobs is counted as they pass; their rows wait in a file on disk,
so that memory does not grow with the jobs.
"""

from __future__ import annotations

import shutil
import tempfile
from bisect import insort
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple, TextIO
from urllib.parse import quote

from markupsafe import Markup, escape

import checker
from checker.audit.comparing import KINDS, Change
from checker.audit.reports import report_name
from checker.audit.results import JobResult
from checker.audit.totals import BIN, LAST_BIN, Totals, ratio, step_at, step_text
from checker.drawing.months import MOST_MONTHS, draw_months
from checker.drawing.spread import draw_spread
from checker.findings import Finding
from checker.grades import Grade, Verdict
from checker.installation.schema import installation_layout
from checker.output.html import VERDICT_GRADE
from checker.output.templating import fill, icon, trusted
from checker.output.text import VERDICT_MEANING
from checker.reporting.reports import CAUTIONS

__all__ = ["Results"]

_UNREAD = "unread"
_MEANINGS = {**{v.value: text for v, text in VERDICT_MEANING.items()}, _UNREAD: "Not a description that can be checked."}  # fmt: skip
# A job that cannot be read cannot be decided.
_GRADES = {**VERDICT_GRADE, _UNREAD: Grade.CONFIRM}
_ROWS, _JOBS = 25, 25
_CUT = Markup("<!-- the jobs -->")


class _Row(NamedTuple):
    """A job as the page shows it; sorted, the worst is first."""

    order: tuple[int, int, int]
    name: str
    reference: str
    verdict: str
    stop: int
    correct: int
    confirm: int
    error: str
    link: str


class _Spread(NamedTuple):
    """A rule's utilisations over all jobs, in words and drawn."""

    rule: str
    answers: int
    beyond: int
    low: str
    middle: str
    high: str
    most: str
    drawn: Any


class Results:
    """Writes the overview."""

    wants_words = False

    def __init__(self, file: TextIO, reports: str = "", **_: Any) -> None:
        self.file = file
        self.reports = reports
        self.rows = tempfile.TemporaryFile("w+", encoding="utf-8", newline="\n")  # noqa: SIM115 - see close
        self.worst: list[_Row] = []
        self.unread: list[_Row] = []
        self.changed: Counter[tuple[str, str, str]] = Counter()

    def job(
        self,
        result: JobResult,
        changes: Sequence[Change] = (),
        findings: Sequence[Finding] = (),
    ) -> None:
        """Take in one job."""
        del findings
        row = self._row(result)
        self.rows.write(_table_row(row))
        if result.error:
            if len(self.unread) < _JOBS:
                self.unread.append(row)
        elif row.stop or row.correct or row.confirm:
            insort(self.worst, row)
            del self.worst[_JOBS:]
        for change in changes:
            self.changed[change.rule.partition("[")[0], change.kind, change.why] += 1

    def end(self, totals: Totals) -> None:
        """Write the page."""
        months = sorted(totals.by_month.items())
        kinds = Counter[str]()
        for (_, kind, _), times in self.changed.items():
            kinds[kind] += times
        page = fill(
            "overview.html.jinja",
            totals=totals,
            tool=checker.__version__,
            grades=_GRADES,
            verdicts=[(w, totals.verdicts[w], _MEANINGS[w]) for w in _MEANINGS if w != _UNREAD or totals.verdicts[w]],
            cautions=CAUTIONS,
            months=months,
            months_drawn=trusted(draw_months(months, "months")) if months else "",
            most_months=MOST_MONTHS,
            over_time=[v.value for v in Verdict],
            undated=totals.jobs - totals.verdicts[_UNREAD] - sum(c.total() for _, c in months),
            changed=sorted(self.changed.items(), key=lambda x: (-x[1], KINDS.index(x[0][1]), x[0])),
            changed_kinds=[(kind, kinds[kind]) for kind in KINDS if kinds[kind]],
            failing=totals.failing(),
            families=_families(totals),
            lacking=list(_lacking(totals)),
            worst=self.worst,
            to_act_on=totals.jobs - totals.verdicts[_UNREAD] - totals.verdicts[Verdict.READY],
            unread=self.unread,
            most_rows=_ROWS,
            linked=bool(self.reports),
            rulebooks=sorted(totals.rulebooks.items()),
            ratio=ratio,
            step_text=step_text,
            cut=_CUT,
        )  # fmt: skip
        before, _, behind = page.partition(str(_CUT))
        self.file.write(before)
        self.rows.seek(0)
        shutil.copyfileobj(self.rows, self.file)
        self.file.write(behind)

    def close(self) -> None:
        """Let the rows go."""
        self.rows.close()

    def _row(self, result: JobResult) -> _Row:
        stop, correct, confirm = (result.counts.get(w, 0) for w in ("stop", "correct", "confirm"))
        link = ""
        if self.reports and not result.error:
            link = self.reports + quote(report_name(result.path))
        name = result.path + (" + fitted" if result.fitted else "")
        return _Row(
            (-stop, -correct, -confirm), name, result.reference, result.verdict,
            stop, correct, confirm, result.error.partition("\n")[0], link,
        )  # fmt: skip


def _table_row(row: _Row) -> str:
    name = escape(row.name)
    if row.link:
        name = Markup('<a href="{}">{}</a>').format(row.link, row.name)
    if row.reference:
        name += Markup(' <span class="small" dir="auto">{}</span>').format(row.reference)
    grade = _GRADES[row.verdict]
    verdict = Markup('<span class="word g-{}">{} {}</span>').format(
        grade.word, icon(grade), row.verdict
    )
    cells = Markup("").join(
        Markup('<td class="n">{}</td>').format(n) for n in (row.stop, row.correct, row.confirm)
    )
    return f'<tr><th scope="row">{name}</th><td>{verdict}</td>{cells}</tr>\n'


def _families(totals: Totals) -> list[tuple[str, list[_Spread]]]:
    """The rules of each family, those nearest to their limit first."""
    limit = round(1 / BIN)
    families: dict[str, list[tuple[tuple[int, ...], _Spread]]] = {}
    for rule, counts in sorted(totals.spread.items()):
        low, middle, high = (step_at(counts, share) for share in (0.25, 0.5, 0.75))
        most = max(counts)
        beyond = totals.beyond[rule]
        spread = _Spread(
            rule, counts.total(), beyond, step_text(low), step_text(middle), step_text(high), step_text(most),
            trusted(draw_spread(counts, (low, middle, high), limit, LAST_BIN)),
        )  # fmt: skip
        order = (-beyond, -most, -high, -middle)
        families.setdefault(rule.rpartition("/")[0] or "values", []).append((order, spread))
    return [
        (name, [s for _, s in sorted(found, key=lambda x: (x[0], x[1].rule))])
        for name, found in families.items()
    ]


def _lacking(totals: Totals) -> Iterator[tuple[str, str, int]]:
    meanings = {field.path: field.description for field in installation_layout().walk()}
    for path, count in totals.lacking():
        yield path, meanings.get(path, ""), count
