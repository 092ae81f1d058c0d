"""The report on a terminal: gravest first, the verdict last, 80 columns, colour optional."""

from __future__ import annotations

import textwrap
from collections import Counter

from checker.findings import Finding, Report
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


def render(report: Report, *, width: int = 80) -> str:
    """The whole report as text, without colour."""
    out = _Page(width)
    head = " · ".join(x for x in (report.reference, report.title) if x) or report.description
    out.text(f"{head} ({report.stage})")
    out.text(report.description)
    listed = [f for f in report.findings if f.grade < Grade.MET]
    for grade in (Grade.STOP, Grade.CORRECT, Grade.CONFIRM, Grade.ADVISE):
        for finding in listed:
            if finding.grade is grade:
                out.blank()
                _finding(out, finding)
    _met(out, report)
    _moved(out, report)
    _windows(out, report)
    _changes(out, report)
    out.blank()
    for caution in report.cautions:
        out.text(caution)
    out.blank()
    out.text(
        f"mistwright {report.tool}, rulebook {report.rulebook[:12]}, description {report.digest[:12]}"
        + (f", local {', '.join(report.overlays)}" if report.overlays else "")
    )
    counts = ", ".join(f"{n} {word}" for word, n in report.counts.items() if n)
    out.text(counts)
    out.blank()
    out.text(f"VERDICT  {report.verdict.value}: {VERDICT_MEANING[report.verdict]}", indent=_MARGIN)
    return out.whole()


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
        out.item("asked", f"{finding.demand.text}; allowed {finding.limit.text}{ratio}")
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
    for basis in finding.basis if whole else [b for b in finding.basis if b.of == "the rule"]:
        edition = f", {basis.edition}" if basis.edition else ""
        of = f"{basis.of}: " if whole else ""
        out.item(
            "basis",
            f"{of}{basis.title}{edition}, {basis.clause} ({basis.confidence})"
            + (f". {basis.note}" if whole and basis.note else ""),
        )
    for remark in finding.remarks:
        out.item("note", remark)
    for change in finding.changes:
        out.item("local", change)
    out.item("caution", finding.caution)
    out.item("rule", finding.rule)


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
            doubtful = sorted(
                {f.rule for f in chosen if any("not verified" in r for r in f.remarks)}
            )
            if doubtful:
                out.text(
                    f"{'':<{_MARGIN}}of these with a reference not verified: {', '.join(doubtful)}",
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
