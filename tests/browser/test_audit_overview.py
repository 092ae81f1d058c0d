"""The overview of an audit in a real browser: nothing overflows, nothing bars the way, links lead on."""

from __future__ import annotations

import io
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from audits import order, run

from checker.audit.comparing import Change
from checker.audit.results import Finding, JobResult
from checker.audit.totals import Totals
from checker.audit.writers import open_writer

pytestmark = [pytest.mark.slow, pytest.mark.browser]

FIXTURES = Path(__file__).parents[2] / "fixtures"
WIDTHS = (390, 768, 1280)
LONG = "Abschaltvorrichtungsprüfprotokollnummer" * 12
OVERFLOWING = """
const found = [];
for (const e of document.querySelectorAll('body *')) {
  if (e.closest('svg') || e.closest('.scroll') || e.closest('.skip')) continue;
  const style = getComputedStyle(e);
  if (style.display === 'inline' || style.display === 'none' || style.position === 'absolute') continue;
  const box = e.getBoundingClientRect();
  if (box.width && (box.right > innerWidth + 1 || box.left < -1)) found.push(e.tagName + '.' + e.className + ': ' + e.textContent.trim().slice(0, 40));
}
return found.slice(0, 8);
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An overview of a few jobs with their reports."""
    top = tmp_path_factory.mktemp("overview")
    (top / "jobs").mkdir()
    for name in ("wall-bracket-old-lathe", "defective/crush-gap-at-the-conveyor-lid"):
        shutil.copy(FIXTURES / f"{name}.yaml", top / "jobs")
    (top / "jobs" / "broken.yaml").write_text("a: b\n")
    run(order(top / "jobs", form="html", output=top / "overview.html", reports=top / "reports"))
    return top


def careless() -> str:
    """The overview of jobs whose every text is one long word, over many months."""
    out, totals = io.StringIO(), Totals()
    with open_writer("html", out, reports="reports/") as writer:
        for i in range(60):
            grade = ("stop", "correct", "confirm", "met")[i % 4]
            verdict = ("hold", "rework", "confirm", "ready")[i % 4]
            finding = Finding(
                f"electrical-protection/{LONG[: i + 5]}", None, grade, i / 17, (LONG,)
            )
            job = JobResult(
                f"{i}{LONG}", None, "", LONG, (LONG,), LONG, "plan", f"{2020 + i // 12}-{i % 12 + 1:02}-01",
                verdict, {grade: 88_888}, (finding,), "",
            )  # fmt: skip
            writer.job(job, [Change(LONG, "worse", "met", "stop", LONG)])
            totals.add(job)
        unread = JobResult(LONG, None, "", "", (), "", "", "", "unread", {}, (), LONG)
        writer.job(unread)
        totals.add(unread)
        totals.gone = {LONG: "hold"}
        writer.end(totals)
    return out.getvalue()


def page_of(name: str, folder: Path) -> str:
    return careless() if name == "long words" else (folder / "overview.html").read_text()


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", ["jobs", "long words"])
def test_nothing_scrolls_sideways(name: str, width: int, folder: Path, show: Callable[..., Any]) -> None:  # fmt: skip
    browser = show(page_of(name, folder), width, unfolded=True)
    assert browser.execute_script("return document.documentElement.scrollWidth") <= width
    assert browser.execute_script(OVERFLOWING) == []
    assert [e for e in browser.get_log("browser") if e["level"] in ("SEVERE", "WARNING")] == []


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_no_serious_barrier(width: int, dark: bool, folder: Path, show: Callable[..., Any], axe: str) -> None:  # fmt: skip
    browser = show(page_of("jobs", folder), width, dark=dark, unfolded=True)
    browser.execute_script(axe)
    result = browser.execute_async_script(
        "const done = arguments[0]; axe.run(document, {resultTypes: ['violations']}).then(r => done(r.violations.map(v => [v.impact, v.id, v.nodes.length, v.nodes[0].html.slice(0, 200)])))"
    )
    assert [v for v in result if v[0] in ("serious", "critical")] == []


def test_links_lead_to_reports(folder: Path, browser: Any) -> None:
    browser.get((folder / "overview.html").as_uri())
    links = {a.get_attribute("href") for a in browser.find_elements("css selector", "#worst a")}
    assert len(links) == 2
    for link in sorted(links):
        browser.get(link)
        assert browser.find_elements("css selector", ".verdict .word")
    browser.get((folder / "overview.html").as_uri())
    browser.execute_script("document.querySelector('#jobs details').open = true")
    listed = browser.find_elements("css selector", "#jobs tbody tr")
    assert len(listed) == 3
    assert len(browser.find_elements("css selector", "#jobs tbody a")) == 2


def test_it_prints_with_its_numbers(folder: Path, show: Callable[..., Any], print_to: Callable[[float, float], bytes]) -> None:  # fmt: skip
    from pypdf import PdfReader  # noqa: PLC0415

    show(page_of("jobs", folder), 1280)
    pages = [p.extract_text() for p in PdfReader(io.BytesIO(print_to(210.0, 297.0))).pages]
    text = " ".join(" ".join(pages).split())
    # What is folded on the screen stands on paper: the spread of every rule.
    assert "answer. Lower quarter" in text.replace("\xa0", " ")
    assert f"of {len(pages)}" in text
