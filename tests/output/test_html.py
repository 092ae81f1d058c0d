"""The page: one file, nothing fetched, everything in it that a report holds, the same bytes each time.

The reviewed pages hold the findings of two families only: that is enough to see every part
of a page, and short enough to be read. ``pytest --force-regen`` writes them again.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest
from pytest_regressions.file_regression import FileRegressionFixture

from checker.drawing.elevation import draw_elevation
from checker.findings import Report
from checker.grades import Grade, Verdict
from checker.output import render
from checker.output.html import render as render_page
from checker.output.text import VERDICT_MEANING
from checker.running import Checker

FIXTURES = Path(__file__).parents[2] / "fixtures"
VOID = {"meta", "br", "path", "rect", "line", "circle"}


@cache
def report_of(name: str, local: tuple[str, ...] = ()) -> Report:
    return Checker(local=local).report(str(FIXTURES / f"{name}.yaml"))


@cache
def page_of(name: str) -> str:
    return render_page(report_of(name))


class Reader(HTMLParser):
    """Elements as they open, their text, and whether each is closed in its turn."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.texts: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if not self.open or self.open[-1] != "style":
            self.texts.append(data)


@cache
def read(page: str) -> Reader:
    reader = Reader()
    reader.feed(page)
    reader.close()
    assert reader.open == []
    return reader


@cache
def words(page: str) -> str:
    return " ".join(" ".join(read(page).texts).replace("\N{NO-BREAK SPACE}", " ").split())


PAGES = [
    "turning-cell-side-post",
    "wall-bracket-old-lathe",
    "defective/slack-hose-that-eats-the-flow",
]


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_fetched_and_nothing_runs(name: str) -> None:
    page = page_of(name)
    reader = read(page)
    for tag, attributes in reader.elements:
        assert tag not in ("script", "link", "iframe", "object", "img", "form", "base")
        for attribute, value in attributes.items():
            assert not attribute.startswith("on")
            if attribute in ("href", "src", "xlink:href", "action", "data", "srcset"):
                assert (value or "").startswith("#")
    assert "url(" not in page
    assert "@import" not in page
    # The name of the SVG language is a name; no other address stands in the page's own text.
    assert set(re.findall(r"https?://[^\s\"'<]+", page)) <= {"http://www.w3.org/2000/svg"}


@pytest.mark.parametrize("name", PAGES)
def test_every_link_leads_somewhere_and_every_name_is_given_once(name: str) -> None:
    reader = read(page_of(name))
    names = [a["id"] for _, a in reader.elements if "id" in a]
    assert len(names) == len(set(names))
    links = [(a.get("href") or "")[1:] for tag, a in reader.elements if tag == "a"]
    assert links
    assert set(links) <= set(names)
    for _, attributes in reader.elements:
        for reference in (attributes.get("aria-labelledby") or "").split():
            assert reference in names


@pytest.mark.parametrize("name", PAGES)
def test_it_is_a_document_that_can_be_read_aloud(name: str) -> None:
    reader = read(page_of(name))
    tags = [tag for tag, _ in reader.elements]
    assert ("html", {"lang": "en"}) in reader.elements
    assert tags.count("h1") == tags.count("main") == 1
    levels = [int(tag[1]) for tag in tags if re.fullmatch(r"h[1-6]", tag)]
    assert all(b - a <= 1 for a, b in pairwise(levels))
    for tag, attributes in reader.elements:
        if tag == "th":
            assert attributes.get("scope") in ("col", "row")
        if tag == "svg":
            assert attributes.get("role") == "img" or attributes.get("aria-hidden") == "true"
    assert tags.count("caption") == tags.count("table")


@pytest.mark.parametrize("name", PAGES)
def test_every_finding_is_on_the_page_with_all_that_it_says(name: str) -> None:
    report = report_of(name)
    told = words(page_of(name))
    for finding in report.findings:
        said = [finding.title, finding.sentence or "does not apply here."]
        if finding.grade is not Grade.NOT_APPLICABLE:
            said += [finding.caution, finding.protects, finding.rule, *finding.remarks]
            said += [r.sentence for r in finding.remedies]
            said += [x for w in finding.working for x in (w.name, w.formula, w.numbers, w.result)]
            said += [x for b in finding.basis for x in (b.title, b.clause, b.confidence)]
            for f in finding.fields:
                # A section's fields stand together behind its name.
                section, _, field = f.path.rpartition(".")
                said += [section, f"{field} {f.text}", f"line {f.line}"]
            said += [x for m in finding.missing for x in (m.path, m.meaning, m.where)]
            said += [x for m in (finding.demand, finding.limit) if m is not None for x in (m.text,)]
        for text in said:
            assert " ".join(text.split()) in told


@pytest.mark.parametrize("name", PAGES)
def test_the_gravest_stand_first(name: str) -> None:
    page = page_of(name)
    grades = [Grade.of(g) for g in re.findall(r'<article class="finding g-([\w-]+)"', page)]
    assert grades == sorted(grades)
    assert VERDICT_MEANING[report_of(name).verdict] in words(page)[:600]


@pytest.mark.parametrize("name", PAGES)
def test_tables_hold_the_numbers_of_the_drawings(name: str) -> None:
    report = report_of(name)
    told = words(page_of(name))
    for view in draw_elevation(report.geometry, report.findings).views:
        for one in view.dimensions:
            assert f"{one.number} {one.extent.name} {one.extent.text}" in told
    if report.curves is not None:
        for flow, pressure in report.curves.fan:
            assert f"fan {flow:.0f} {pressure:.0f}" in told
        for point in report.curves.working_points:
            assert f"working point, {point.filters} filters {point.flow:.0f} {point.pressure:.0f}" in told  # fmt: skip


def test_the_same_report_gives_the_same_bytes() -> None:
    name = "wall-bracket-old-lathe"
    assert render_page(report_of(name)) == page_of(name)
    again = Checker().report(str(FIXTURES / f"{name}.yaml"))
    assert render(again, "html") == page_of(name)


def test_what_a_fan_does_not_say_is_left_out() -> None:
    report = report_of("wall-bracket-old-lathe")._replace(curves=None)
    page = render_page(report)
    assert 'id="curves"' not in page
    assert "#curves" not in page


def test_a_window_is_drawn_and_told() -> None:
    report = report_of("defective/fan-short-of-flow-when-filters-are-dirty")
    assert report.windows
    page = page_of("defective/fan-short-of-flow-when-filters-are-dirty")
    for window in report.windows:
        assert f"Window of {window.path}" in page
        assert window.sentence in words(page)


def test_local_changes_stand_beside_what_they_touched() -> None:
    report = report_of("wall-bracket-old-lathe")
    change = "load/x: limit was 1 mm, is 2 mm (house rule 7)"
    first = next(f for f in report.findings if f.grade < Grade.MET and not f.missing)
    changed = tuple(f._replace(changes=(change,)) if f is first else f for f in report.findings)
    page = words(
        render_page(report._replace(findings=changed, changes=(change,), overlays=("house",)))
    )
    assert f"Local: {change}" in page
    assert f"{change} Touched: {first.title}" in page
    assert "In force: house." in page


def test_moved_fields_are_told() -> None:
    plan, site = (
        FIXTURES / "turning-cell-side-post.yaml",
        FIXTURES / "fitted" / "turning-cell-side-post.fitted.yaml",
    )
    report = Checker().report(str(plan), str(site))
    assert report.moved
    told = words(render_page(report))
    for moved in report.moved:
        assert f"{moved.path} : {moved.planned} → {moved.fitted}" in told


@pytest.mark.parametrize("verdict", list(Verdict))
def test_each_verdict_has_word_and_shape(verdict: Verdict) -> None:
    page = render_page(report_of("wall-bracket-old-lathe")._replace(verdict=verdict))
    banner = page[page.index('<div class="verdict') : page.index('<ul class="counts">')]
    assert f"<strong>{verdict.value}</strong>" in banner
    assert "<svg" in banner


REVIEWED = [
    ("turning-cell-side-post", ("clearance",)),
    ("defective/crush-gap-at-the-conveyor-lid", ("clearance",)),
]


@pytest.mark.parametrize(("name", "families"), REVIEWED, ids=["ready", "hold"])
def test_reviewed_page(
    name: str, families: tuple[str, ...], file_regression: FileRegressionFixture, normal: Callable[[Report], Report]
) -> None:  # fmt: skip
    report = normal(report_of(name))
    kept = tuple(f for f in report.findings if f.family in families)
    page = render_page(report._replace(findings=kept), folded=False)
    # The style is reviewed where it stands.
    page = re.sub(r"<style>.*?</style>", "<style>…</style>", page, flags=re.DOTALL)
    file_regression.check(page, extension=".html", encoding="utf-8")
