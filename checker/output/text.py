"""The report on a terminal: gravest first, the verdict last, 80 columns, colour optional."""

from __future__ import annotations

import textwrap
from collections import Counter

from checker.findings import BasisRead, Finding, MissingField, Report
from checker.grades import Grade, Verdict

__all__ = ["GRADE_MEANING", "STYLES", "VERDICT_MEANING", "render", "render_working"]

VERDICT_MEANING = {
    Verdict.HOLD: "Do not dispatch, do not energise: someone could be hurt, or it cannot work.",
    Verdict.REWORK: "Put right what is listed before handover.",
    Verdict.CONFIRM: "Not decided: find out what is listed, or have it decided by the person named.",
    Verdict.READY: "Nothing found against it by the checks that were made.",
}
GRADE_MEANING = {
    Grade.STOP: "someone could be hurt, or it cannot work",
    Grade.CORRECT: "put right before handover",
    Grade.CONFIRM: "cannot be decided from what is stated",
    Grade.ADVISE: "would be better",
    Grade.MET: "met with the numbers stated",
    Grade.NOT_APPLICABLE: "does not apply here",
}
STYLES = {
    "STOP": "bold red",
    "CORRECT": "bold magenta",
    "CONFIRM": "bold cyan",
    "ADVISE": "blue",
    "MET": "green",
}
_MARGIN = 9


def render(report: Report, *, width: int = 80, detail: str = "usual") -> str:
    """The whole report as text, without colour.

    detail: ``brief`` names what has to be done, ``usual`` explains it, ``all`` shows every
    finding whole, those that are met included.
    """
    out = _Page(width)
    head = " · ".join(x for x in (report.reference, report.title) if x) or report.description
    out.text(f"{head} ({report.stage})")
    out.text(report.description)
    if detail == "brief":
        out.blank()
    else:
        _summary(out, report)
    if detail == "all":
        for finding in sorted(report.findings, key=lambda f: f.grade):
            out.blank()
            _finding(out, finding, whole=True)
    elif detail == "usual":
        _listed(out, report)
        _met(out, report)
    else:
        _brief(out, report)
    _moved(out, report)
    _windows(out, report)
    _changes(out, report)
    out.blank()
    for caution in report.cautions:
        out.text(caution)
    out.blank()
    local = f", local {', '.join(report.overlays)}" if report.overlays else ""
    out.text(
        f"mistwright {report.tool}, rulebook {report.rulebook[:12]}, description {report.digest[:12]}{local}"
    )
    out.blank()
    out.text(f"VERDICT  {report.verdict.value}: {VERDICT_MEANING[report.verdict]}", indent=_MARGIN)
    return out.whole()


def _summary(out: _Page, report: Report) -> None:
    """In the first lines: how it stands, and what stops it or has to be put right."""
    out.blank()
    counts = ", ".join(f"{n} {word}" for word, n in report.counts.items() if n)
    out.text(f"{report.verdict.value.upper()}: {counts}")
    grave = [f for f in report.findings if f.grade <= Grade.CORRECT]
    for finding in sorted(grave, key=lambda f: f.grade)[:8]:
        remedy = next((r.sentence for r in finding.remedies if r.needed), "")
        subject = f" [{finding.subject}]" if finding.subject else ""
        out.text(
            f"{finding.grade.word:<{_MARGIN}}{finding.title}{subject} ({finding.rule})"
            + (f". Try {remedy}" if remedy else ""),
            indent=_MARGIN,
        )
    if len(grave) > 8:
        out.text(f"{'':<{_MARGIN}}and {len(grave) - 8} more")


def _brief(out: _Page, report: Report) -> None:
    """One line for each thing that is not met."""
    for grade in (Grade.STOP, Grade.CORRECT, Grade.CONFIRM, Grade.ADVISE):
        for finding in report.findings:
            if finding.grade is grade:
                out.text(
                    f"{grade.word.upper():<{_MARGIN}}{finding.sentence} ({finding.rule})",
                    indent=_MARGIN,
                )


def _listed(out: _Page, report: Report) -> None:
    """What someone has to act on, gravest first; what is only missing is gathered by field."""
    for grade in (Grade.STOP, Grade.CORRECT, Grade.CONFIRM):
        for finding in report.findings:
            if finding.grade is grade and not (grade is Grade.CONFIRM and finding.missing):
                out.blank()
                _finding(out, finding)
    _to_find_out(
        out,
        [f for f in report.findings if f.grade is Grade.CONFIRM and f.missing],
        report.description,
    )
    for finding in report.findings:
        if finding.grade is Grade.ADVISE:
            out.blank()
            _finding(out, finding)


def _to_find_out(out: _Page, findings: list[Finding], description: str) -> None:
    if not findings:
        return
    waiting: dict[MissingField, list[str]] = {}
    for finding in findings:
        for missing in finding.missing:
            rules = waiting.setdefault(missing, [])
            if finding.rule not in rules:
                rules.append(finding.rule)
    out.blank()
    values = "value is" if len(waiting) == 1 else "values are"
    rules_wait = len({f.rule for f in findings})
    out.text(
        f"{'CONFIRM':<{_MARGIN}}To find out: {len(waiting)} {values} not stated, and {rules_wait} {'rule waits' if rules_wait == 1 else 'rules wait'}",
        indent=_MARGIN,
    )
    for missing, rules in waiting.items():
        here = missing.file == description
        place = f"line {missing.line}" if here else f"{missing.file}:{missing.line}"
        unit = f", in {missing.unit}" if missing.unit not in ("", "1") else ""
        out.text(
            f"{'':<{_MARGIN}}{missing.path}{unit} ({place})",
            indent=_MARGIN + 2,
        )
        out.text(
            f"{'':<{_MARGIN + 2}}{missing.meaning} {missing.where}".rstrip(), indent=_MARGIN + 2
        )
        out.text(f"{'':<{_MARGIN + 2}}for {', '.join(rules)}", indent=_MARGIN + 2)
    out.text(f"{'':<{_MARGIN}}Cautions of these rules:", indent=_MARGIN)
    for caution in dict.fromkeys(f.caution for f in findings):
        out.text(f"{'':<{_MARGIN}}- {caution}", indent=_MARGIN + 2)


def render_working(finding: Finding, *, width: int = 80) -> str:
    """One rule's working, line by line, with its sources."""
    out = _Page(width)
    _finding(out, finding, whole=True)
    return out.whole()


class _Page:
    def __init__(self, width: int) -> None:
        self.width = max(width, 40)
        self.lines: list[str] = []

    def blank(self) -> None:
        self.lines.append("")

    def text(self, text: str, *, indent: int = 0) -> None:
        self.lines.extend(
            textwrap.wrap(
                text,
                self.width,
                subsequent_indent=" " * indent,
                break_on_hyphens=False,
                break_long_words=False,
            )
            or [""]
        )

    def item(self, label: str, text: str) -> None:
        self.text(f"{'':<{_MARGIN}}{label:<9}{text}", indent=_MARGIN + 9)

    def whole(self) -> str:
        return "\n".join(self.lines) + "\n"


def _finding(out: _Page, finding: Finding, *, whole: bool = False) -> None:
    subject = f" [{finding.subject}]" if finding.subject else ""
    word = "N/A" if finding.grade is Grade.NOT_APPLICABLE else finding.grade.word.upper()
    out.text(f"{word:<{_MARGIN}}{finding.title}{subject}", indent=_MARGIN)
    out.text(f"{'':<{_MARGIN}}{finding.sentence}", indent=_MARGIN)
    if finding.demand is not None and finding.limit is not None:
        ratio = "" if finding.utilisation is None else f" ({finding.utilisation * 100:.0f} %)"
        out.item("demand", f"{finding.demand.text} against {finding.limit.text}{ratio}")
    for missing in finding.missing:
        unit = f", in {missing.unit}" if missing.unit not in ("", "1") else ""
        out.item("state", f"{missing.path}{unit} (line {missing.line}). {missing.where}".rstrip())
    for remedy in finding.remedies:
        out.item("try", remedy.sentence)
    if finding.fields and (whole or not finding.missing):
        shown = finding.fields if whole else finding.fields[:6]
        more = (
            ""
            if len(shown) == len(finding.fields)
            else f", and {len(finding.fields) - len(shown)} more"
        )
        out.item(
            "read",
            ", ".join(
                f"{f.path} {f.text} (line {f.line}{', ' + f.origin if f.origin else ''})"
                for f in shown
            )
            + more,
        )
    if whole:
        out.item("protects", finding.protects)
        out.blank()
        for line in finding.working:
            out.item("", f"{line.name} = {line.formula}")
            if line.numbers:
                out.item("", f"  = {line.numbers}")
            out.item("", f"  = {line.result}" + (f"   {line.meaning}" if line.meaning else ""))
        out.blank()
    if whole:
        for basis in finding.basis:
            note = f". {basis.note}" if basis.note else ""
            out.item("basis", f"{basis.of}: {_source(basis)}{note}")
        for remark in finding.remarks:
            out.item("note", remark)
    else:
        own = [_source(b) for b in finding.basis if b.of == "the rule"]
        if own:
            out.item("basis", "; ".join(own))
        doubtful = [
            b.of for b in finding.basis if b.confidence == "from-memory" and b.of != "the rule"
        ]
        if any("not verified" in remark for remark in finding.remarks):
            out.item(
                "note",
                "Reference not verified"
                + (f": {', '.join(dict.fromkeys(doubtful))}." if doubtful else "."),
            )
    for change in finding.changes:
        out.item("local", change)
    out.item("caution", finding.caution)
    out.item("rule", finding.rule)


def _source(basis: BasisRead) -> str:
    edition = f", {basis.edition}" if basis.edition else ""
    return f"{basis.title}{edition}, {basis.clause} ({basis.confidence})"


def _met(out: _Page, report: Report) -> None:
    out.blank()
    for grade in (Grade.MET, Grade.NOT_APPLICABLE):
        chosen = [f for f in report.findings if f.grade is grade]
        if not chosen:
            continue
        families = Counter(f.family for f in chosen)
        label = "MET" if grade is Grade.MET else "NOT APPLICABLE"
        out.text(
            f"{label:<{_MARGIN}}"
            + (" " if grade is not Grade.MET else "")
            + ", ".join(f"{name} {n}" for name, n in families.items()),
            indent=_MARGIN,
        )
        if grade is Grade.MET:
            doubtful = {f.rule for f in chosen if any("not verified" in r for r in f.remarks)}
            if doubtful:
                out.text(
                    f"{'':<{_MARGIN}}{len(doubtful)} of these rules rest on a reference that was not verified: 'mistwright check --all' says which and why",
                    indent=_MARGIN,
                )


def _moved(out: _Page, report: Report) -> None:
    if report.moved:
        out.blank()
        out.text("MOVED SINCE THE PLAN")
        for moved in report.moved:
            out.text(
                f"  {moved.path}: {moved.planned} -> {moved.fitted} ({moved.change})", indent=4
            )
            for grade in moved.grades:
                out.text(f"    {grade}", indent=6)


def _windows(out: _Page, report: Report) -> None:
    if report.windows:
        out.blank()
        out.text("WHAT WOULD MEET ALL RULES THAT BOUND ONE FIELD")
        for window in report.windows:
            out.text(f"  {window.sentence}", indent=4)


def _changes(out: _Page, report: Report) -> None:
    if report.changes:
        out.blank()
        out.text("LOCAL CHANGES IN FORCE")
        for change in report.changes:
            out.text(f"  {change}", indent=4)
