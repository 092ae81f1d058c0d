"""Every page in a real browser: nothing overflows, nothing is out of reach, it prints."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from checker.findings import Finding, Report
from checker.grades import Grade, Verdict
from checker.output.html import render
from checker.output.sheet_html import render as render_sheet
from checker.running import Checker

pytestmark = [pytest.mark.slow, pytest.mark.browser]

FIXTURES = Path(__file__).parents[2] / "fixtures"
WIDTHS = (390, 768, 1280)
A4, LETTER = (210.0, 297.0), (215.9, 279.4)
PAGES = ("wall-bracket-old-lathe", "defective/slack-hose-that-eats-the-flow", "long words", "sheet")
LONG = "Abschaltvorrichtungsprüfprotokollnummer" * 12


def _stretched(finding: Finding) -> Finding:
    """A finding whose every text is one long word, as a hostile or a careless writer leaves it."""
    fields = tuple(f._replace(path=LONG, text=LONG, file=LONG) for f in finding.fields[:2])
    working = tuple(w._replace(formula=LONG, numbers=LONG, result=LONG, meaning=LONG) for w in finding.working[:2])  # fmt: skip
    measures = {k: m and m._replace(text=LONG) for k, m in (("demand", finding.demand), ("limit", finding.limit))}  # fmt: skip
    return finding._replace(title=LONG, subject=LONG, sentence=LONG, fields=fields, working=working, caution=LONG,
        protects=LONG, remarks=(LONG,), changes=(LONG,), **measures,
    )  # fmt: skip


@cache
def report_of(name: str) -> Report:
    return Checker().report(str(FIXTURES / f"{name}.yaml"))


@cache
def page_of(name: str) -> str:
    if name == "sheet":
        return render_sheet(Checker().sheet(str(FIXTURES / "turning-cell-side-post.yaml")))
    if name == "long words":
        report = report_of("wall-bracket-old-lathe")
        stretched = tuple(_stretched(f) for f in report.findings[:40])
        geometry = report.geometry
        extents = tuple(e._replace(name=LONG, text=LONG) for e in geometry.extents)
        runs = tuple(r._replace(name=LONG) for r in geometry.runs)
        geometry = geometry._replace(extents=extents, runs=runs)
        return render(
            report._replace(reference=LONG, title=LONG, description=LONG, findings=stretched, geometry=geometry)
        )  # fmt: skip
    return render(report_of(name))


# What sticks out of its box: scrolled boxes may, and so may what is inside a drawing.
OVERFLOWING = """
const found = [];
for (const e of document.querySelectorAll('body *')) {
  if (e.closest('svg') || e.closest('.scroll') || e.closest('.skip') || e.closest('.sign thead')) continue;
  const style = getComputedStyle(e);
  if (style.display === 'inline' || style.display === 'none' || style.position === 'absolute') continue;
  if (e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0) found.push(e.tagName + '.' + e.className + ': ' + e.textContent.trim().slice(0, 40));
  const box = e.getBoundingClientRect();
  if (box.width && (box.right > innerWidth + 1 || box.left < -1)) found.push('outside ' + e.tagName + '.' + e.className);
}
return found.slice(0, 8);
"""
OUTSIDE_DRAWING = """
const found = [];
for (const svg of document.querySelectorAll('svg.drawing')) {
  const outer = svg.getBoundingClientRect();
  for (const t of svg.querySelectorAll('text')) {
    const b = t.getBoundingClientRect();
    if (b.left < outer.left - 1 || b.right > outer.right + 1 || b.top < outer.top - 1 || b.bottom > outer.bottom + 1)
      found.push(svg.getAttribute('aria-labelledby') + ': ' + t.textContent);
  }
}
return found.slice(0, 8);
"""


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", PAGES)
def test_no_text_sticks_out_and_nothing_scrolls_sideways(name: str, width: int, show: Callable[..., Any]) -> None:  # fmt: skip
    browser = show(page_of(name), width, unfolded=True)
    assert browser.execute_script("return document.documentElement.scrollWidth") <= width
    assert browser.execute_script(OVERFLOWING) == []
    assert browser.execute_script(OUTSIDE_DRAWING) == []
    assert [e for e in browser.get_log("browser") if e["level"] in ("SEVERE", "WARNING")] == []


@pytest.mark.parametrize("name", PAGES)
def test_what_a_gloved_hand_presses_is_large_enough(name: str, show: Callable[..., Any]) -> None:
    browser = show(page_of(name), 390)
    low = browser.execute_script(
        "return [...document.querySelectorAll('summary, nav a')].map(e => e.getBoundingClientRect()).filter(b => b.width && b.height < 43.5).length"
    )
    assert low == 0


@cache
def short_page(name: str) -> str:
    """Every kind of part of a page, with findings of two families only: a check of each element takes time."""
    if name == "sheet":
        return page_of(name)
    report = report_of(name)
    kept = tuple(
        f for f in report.findings if f.family in ("clearance", "") or f.grade < Grade.MET
    )[:60]
    return render(report._replace(findings=kept))


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", [p for p in PAGES if p != "long words"])
def test_no_serious_barrier(
    name: str, width: int, dark: bool, show: Callable[..., Any], axe: str
) -> None:
    browser = show(short_page(name), width, dark=dark, unfolded=True)
    browser.execute_script(axe)
    result = browser.execute_async_script(
        "const done = arguments[0]; axe.run(document, {resultTypes: ['violations']}).then(r => done(r.violations.map(v => [v.impact, v.id, v.nodes.length, v.nodes[0].html.slice(0, 200)])))"
    )
    assert [v for v in result if v[0] in ("serious", "critical")] == []


@pytest.mark.parametrize("verdict", list(Verdict))
def test_the_verdict_is_seen_without_scrolling(verdict: Verdict, show: Callable[..., Any]) -> None:
    page = render(report_of("wall-bracket-old-lathe")._replace(verdict=verdict))
    browser = show(page, 390)
    bottom = browser.execute_script(
        "return document.querySelector('.verdict').getBoundingClientRect().bottom"
    )
    assert bottom < 600


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
def test_the_fitting_sheet_is_two_pages_and_its_back(
    paper: tuple[float, float], show: Callable[..., Any], print_to: Callable[[float, float], bytes]
) -> None:
    show(page_of("sheet"), 1280)
    pages = [p.extract_text() for p in PdfReader(io.BytesIO(print_to(*paper))).pages]
    assert len(pages) <= 3
    assert "Fitting sheet" in pages[0]
    assert "Front view" in pages[-1]
    assert "Signatures" in "".join(pages[:-1])


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
def test_the_report_prints_whole_and_counts_its_pages(
    paper: tuple[float, float], show: Callable[..., Any], print_to: Callable[[float, float], bytes]
) -> None:
    report = report_of("defective/slack-hose-that-eats-the-flow")
    show(page_of("defective/slack-hose-that-eats-the-flow"), 1280)
    pages = [
        " ".join(p.extract_text().split()) for p in PdfReader(io.BytesIO(print_to(*paper))).pages
    ]
    for number, text in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in text
        assert report.digest[:12] in text
    whole = " ".join(pages)
    # What has to be acted on stands on paper with its working; what is met as one line each.
    for finding in report.findings:
        if finding.grade < Grade.MET and not finding.missing:
            assert all(
                w.name in whole for w in finding.working if not w.name.startswith("derived.")
            )
    assert len(re.findall(r"Places to sign", whole)) == 1
    # Twelve findings on a page of what is met, some sixty lines a page of what does not apply.
    assert 15 <= len(pages) <= 15 + len(report.findings) // 20
