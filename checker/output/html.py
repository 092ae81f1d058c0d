"""The report as one page: no network, no script, on a phone, on paper, in the dark, read aloud."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any, NamedTuple

from checker.drawing.bars import draw_bar, draw_utilisations
from checker.drawing.elevation import draw_elevation
from checker.drawing.fan_chart import draw_fan_chart
from checker.drawing.strip_chart import draw_strip_chart, stretches
from checker.findings import (
    BasisRead,
    FieldRead,
    FieldWindow,
    Finding,
    MissingField,
    Report,
    WorkingLine,
)
from checker.grades import Grade
from checker.output.templating import fill, trusted
from checker.output.text import GRADE_MEANING, VERDICT_MEANING

__all__ = ["ROLES", "VERDICT_GRADE", "render"]

VERDICT_GRADE = {
    "hold": Grade.STOP, "rework": Grade.CORRECT, "confirm": Grade.CONFIRM, "ready": Grade.MET,
}  # fmt: skip
# Who signs, and for what: the people who prevail over anything printed here.
ROLES = (
    ("Installer", "what was fitted and measured is as described"),
    ("Supervisor", "has read the findings and released the next step"),
    ("Licensed electrician", "supply, protection, isolation and their tests"),
    ("Lifting supervisor", "the lift, its plan and its gear"),
    ("Structural engineer", "host, mount and fixings, where their decision is asked"),
    ("Customer", "has received the work, the open points and the documents"),
)
# What a reader wants to know of the job first; shown where a finding has read it.
_GLANCE = (
    ("host.kind", "host"), ("mount.kind", "mount"), ("collector.mass", "mass of the unit"),
    ("mount.underside_height", "underside above the floor"), ("host.capacity", "allowed by the host's maker"),
    ("process.fluid", "fluid"), ("collector.flow", "stated flow"), ("host.extraction_flow", "flow asked"),
    ("collector.discharge", "cleaned air goes to"), ("drain.route", "drain"), ("supply.voltage", "supply"),
    ("supply.frequency", "frequency"), ("supply.wiring_code", "wiring rules"),
)  # fmt: skip
_BARS = 15
_DERIVED = re.compile(r"derived\.\w+")


class BasisLine(NamedTuple):
    """What rests on one clause of one source with one confidence."""

    basis: BasisRead
    of: tuple[str, ...]


class ReadFrom(NamedTuple):
    """Fields that were read from one section or one member of a list.

    ``place`` says where they stand if they share one line; else each has its own.
    """

    section: str
    place: str
    fields: tuple[tuple[str, FieldRead], ...]


class SharedValue(NamedTuple):
    """A derived value that several findings use, and what it rests on itself."""

    line: WorkingLine
    basis: tuple[BasisLine, ...]


class Shown(NamedTuple):
    """A finding as the page shows it."""

    number: int
    finding: Finding
    bar: Any
    percent: str
    own: tuple[WorkingLine, ...]
    shared: tuple[WorkingLine, ...]
    read: tuple[ReadFrom, ...]
    basis: tuple[BasisLine, ...]
    deeper: tuple[BasisLine, ...]


class Family(NamedTuple):
    """A family's findings that are met, with their utilisations side by side."""

    name: str
    shown: tuple[Shown, ...]
    rated: int
    bars: int
    chart: Any


def render(report: Report, *, folded: bool = True) -> str:
    """The whole page, the same bytes for the same report.

    folded: whether it holds what is folded away on paper in any case, the insides of
    what is met; a page that is only ever printed is much quicker made without.
    """
    shown = [_shown(i, f, report.description) for i, f in enumerate(report.findings, 1)]
    ordered = sorted(shown, key=lambda s: s.finding.grade)
    missing = [s for s in ordered if s.finding.grade is Grade.CONFIRM and s.finding.missing]
    acted = [s for s in ordered if s.finding.grade < Grade.MET and s not in missing]
    elevation = draw_elevation(report.geometry, report.findings)
    return fill(
        "page.html.jinja",
        with_folded=folded,
        report=report,
        heading=" · ".join(x for x in (report.reference, report.title) if x) or report.description,
        verdict_grade=VERDICT_GRADE[report.verdict.value],
        verdict_meaning=VERDICT_MEANING[report.verdict],
        grades=[(g, report.counts.get(g.word, 0), GRADE_MEANING[g]) for g in Grade],
        glance=_glance(report.findings),
        acted=acted,
        missing=missing,
        to_find_out=_to_find_out(missing),
        families=_families(shown),
        unchecked=_unchecked(report.findings),
        changes=_changes(report, shown),
        views=[(v, trusted(v.svg)) for v in elevation.views],
        drawing_notes=elevation.notes,
        fan_chart=None if report.curves is None else trusted(draw_fan_chart(report.curves)),
        windows=[_window(w, i) for i, w in enumerate(report.windows, 1)],
        shared=_shared(report.findings),
        sources=_sources(report.findings),
        roles=ROLES,
    )


def _shown(number: int, finding: Finding, description: str) -> Shown:
    ratio = finding.utilisation
    percent = ""
    if ratio is not None:
        percent = "more than 999 %" if ratio > 9.99 else f"{ratio * 100:.0f} %"
    # A finding's bases are those of its own rule, then those of the shared values beneath it.
    derived = next((i for i, b in enumerate(finding.basis) if b.of.startswith("derived.")), len(finding.basis))  # fmt: skip
    own = tuple(w for w in finding.working if not w.name.startswith("derived."))
    return Shown(
        number, finding, None if ratio is None else trusted(draw_bar(ratio)), percent,
        own, _named_by(own, finding.working), _read_from(finding.fields, description),
        _basis(finding.basis[:derived]), _basis(finding.basis[derived:]),
    )  # fmt: skip


def _named_by(own: tuple[WorkingLine, ...], working: Iterable[WorkingLine]) -> tuple[WorkingLine, ...]:  # fmt: skip
    """The shared values that a finding's own lines name; what those rest on stands with them."""
    names = {name for line in own for name in _DERIVED.findall(line.formula)}
    return tuple(
        w for w in working if w.name in names or (not own and w.name.startswith("derived."))
    )


def _basis(read: Iterable[BasisRead]) -> tuple[BasisLine, ...]:
    found: dict[tuple[str, str, str], BasisLine] = {}
    for basis in read:
        key = basis.source, basis.clause, basis.confidence
        before = found.get(key)
        found[key] = BasisLine(basis, (basis.of,) if before is None else (*before.of, basis.of))
    return tuple(found.values())


def _glance(findings: Iterable[Finding]) -> list[tuple[str, str]]:
    read = {f.path: f.text for finding in findings for f in finding.fields}
    return [(label, read[path]) for path, label in _GLANCE if path in read]


def _to_find_out(missing: Iterable[Shown]) -> list[tuple[MissingField, list[Shown]]]:
    waiting: dict[MissingField, list[Shown]] = {}
    for shown in missing:
        for field in shown.finding.missing:
            waiting.setdefault(field, []).append(shown)
    return list(waiting.items())


def _families(shown: Iterable[Shown]) -> list[Family]:
    listed = list(shown)
    found = []
    for name in dict.fromkeys(s.finding.family for s in listed):
        met = tuple(s for s in listed if s.finding.family == name and s.finding.grade is Grade.MET)
        rated = [s.finding for s in listed if s.finding.family == name and s.finding.utilisation is not None]  # fmt: skip
        rated.sort(key=lambda f: (-(f.utilisation or 0.0), f.rule, f.subject or ""))
        chart = draw_utilisations(rated[:_BARS], name, f"bars-{name or 'values'}") if rated else ""
        if met or rated:
            found.append(Family(name, met, len(rated), min(len(rated), _BARS), trusted(chart)))
    return found


def _unchecked(findings: Iterable[Finding]) -> list[tuple[str, list[Finding]]]:
    families: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.grade is Grade.NOT_APPLICABLE:
            families.setdefault(finding.family, []).append(finding)
    return list(families.items())


def _changes(report: Report, shown: Iterable[Shown]) -> list[tuple[str, list[Shown]]]:
    listed = list(shown)
    return [(c, [s for s in listed if c in s.finding.changes]) for c in report.changes]


def _window(window: FieldWindow, number: int) -> tuple[FieldWindow, Any, Any]:
    rows = [(r, stretches(window, r.grades)) for r in window.rules]
    return window, trusted(draw_strip_chart(window, f"window-{number}")), rows


def _read_from(fields: Iterable[FieldRead], description: str) -> tuple[ReadFrom, ...]:
    """Fields gathered by the section, or the member of a list, that they stand in."""
    found: dict[str, list[tuple[str, FieldRead]]] = {}
    for field in fields:
        section, _, name = field.path.rpartition(".")
        found.setdefault(section, []).append((name, field))
    return tuple(_gathered(section, read, description) for section, read in found.items())


def _gathered(section: str, read: list[tuple[str, FieldRead]], description: str) -> ReadFrom:
    first = read[0][1]
    together = all((f.file, f.line) == (first.file, first.line) for _, f in read)
    place = f"line {first.line}"
    if first.file != description:
        place = f"{first.file}, {place}"
    return ReadFrom(section, place if together else "", tuple(read))


def _shared(findings: Iterable[Finding]) -> list[SharedValue]:
    """The derived values, once for all the findings that use them."""
    lines: dict[str, WorkingLine] = {}
    bases: dict[str, list[BasisRead]] = {}
    for finding in findings:
        new = {w.name: w for w in finding.working if w.name.startswith("derived.")}
        lines = new | lines
        # A shared value's own bases stand behind its name, up to the next shared value's.
        name = ""
        seen = frozenset(bases)
        for basis in finding.basis:
            name = basis.of if basis.of.startswith("derived.") else name
            if name and name not in seen:
                bases.setdefault(name, []).append(basis)
    return [SharedValue(line, _basis(bases.get(name, ()))) for name, line in sorted(lines.items())]


def _sources(findings: Iterable[Finding]) -> list[tuple[BasisRead, list[str], list[str]]]:
    """Each document once: how far it is to be relied on, and how each part of it was read."""
    read: dict[str, tuple[BasisRead, dict[str, None], dict[str, None]]] = {}
    for finding in findings:
        for basis in finding.basis:
            _, words, notes = read.setdefault(basis.source, (basis, {}, {}))
            words[basis.confidence] = None
            if basis.note:
                notes[basis.note] = None
    return sorted(
        ((basis, sorted(words), list(notes)) for basis, words, notes in read.values()),
        key=lambda found: (found[0].title, found[0].source),
    )
