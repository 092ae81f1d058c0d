"""The overview as a page: what it counts, what it leads to, that it stands alone."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

import pytest
from audits import order, rows, run
from hypothesis import given
from hypothesis import strategies as st

from checker.audit.comparing import Change
from checker.audit.reports import report_name, way_to
from checker.audit.results import Finding, JobResult
from checker.audit.totals import LAST_BIN, Totals, step_at
from checker.audit.writers import open_writer
from checker.grades import Grade, Verdict

HOSTILE = "<script>alert(1)</script>\"'&\x1b]]>{{ 7*7 }}<!-- the jobs -->"


def result(
    path: str, grade: str = "met", ratio: float | None = 0.5, **changed: object
) -> JobResult:
    """A job with one answer."""
    verdict = {"stop": "hold", "correct": "rework", "confirm": "confirm"}.get(grade, "ready")
    made = JobResult(
        path, None, "d", "r", (), "", "plan", "2026-01-05", verdict, {grade: 1},
        (Finding("load/one", None, grade, ratio, ("mount.kind",) if grade == "confirm" else ()),), "",
    )  # fmt: skip
    return made._replace(**changed)  # type: ignore[arg-type]


def page_of(results: list[JobResult], changes: list[Change] | None = None, **options: object) -> str:  # fmt: skip
    out, totals = io.StringIO(), Totals()
    with open_writer("html", out, **options) as writer:
        for one in results:
            writer.job(one, changes or ())
            totals.add(one)
        writer.end(totals)
    return out.getvalue()


class Text(HTMLParser):
    """The texts of a page, the links in it, and the elements left open."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.links: list[str] = []
        self.tags: list[str] = []
        self.words: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if tag in ("td", "th", "tr"):
            self.words.append(" ")
        self.links += [v or "" for k, v in attrs if k in ("href", "src")]

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join("".join(self.words).split())


def test_the_counts_are_those_of_the_results(jobs: Path) -> None:
    found = rows(run(order(jobs))[1])
    text = Text(run(order(jobs, form="html"))[1]).text
    assert f"Overview of {len(found)} jobs" in text
    for verdict in (*(v.value for v in Verdict), "unread"):
        assert f"{sum(r['verdict'] == verdict for r in found)} {verdict}:" in text


def test_what_is_most_frequent_stands_first_with_how_much(jobs: Path) -> None:
    many = [result(f"{i}.yaml", "stop", 1.0 + i / 10) for i in range(1, 6)]
    more = [
        result("x.yaml", "correct", 3.0)._replace(findings=(Finding("load/two", None, "correct", None, ()),))
    ]  # fmt: skip
    text = Text(page_of([*many, *more])).text
    failing = text[text.index("the most rule stop") :]
    # Ratios of 1.1 to 1.5: the middle one is 1.3, which ends the step from 125 to 130 %.
    assert "load/one 5 0 125–130 % 150 % load/two 0 1 – –" in failing.replace("\xa0", " ")
    assert "5 answers, 5 beyond the limit" in text


def test_a_ratio_at_its_limit_is_not_beyond_it() -> None:
    text = Text(page_of([result("a.yaml", "met", 1.0)])).text.replace("\xa0", " ")
    assert "1 answer. Lower quarter 95 to 100 %, middle 95 to 100 %" in text
    beyond = Text(page_of([result("a.yaml", "stop", 7.0)])).text.replace("\xa0", " ")
    assert "highest more than 200 %" in beyond


def test_months_are_drawn_and_told() -> None:
    results = [result(f"{m}.yaml", date=f"2025-{m:02}-11") for m in range(1, 13)]
    page = page_of([*results, result("none.yaml", date="")])
    svg = ET.fromstring(page[page.index("<svg xmlns") : page.index("</svg>", page.index("<svg xmlns")) + 6])  # fmt: skip
    assert len([e for e in svg.iter() if e.get("data-of", "").endswith(" ready")]) == 12
    text = Text(page).text
    assert "2025-07 0 0 0 1" in text
    assert "1 job states neither" in text


def test_what_changed_is_counted_by_reason() -> None:
    change = Change("load/one[2]", "worse", "met", "stop", "rule changed")
    text = Text(page_of([result("a.yaml"), result("b.yaml")], [change])).text
    assert "2 worse" in text
    assert "load/one worse rule changed 2" in text


def test_nothing_is_executed_and_nothing_is_fetched(jobs: Path) -> None:
    hostile = result(HOSTILE, "stop", reference=HOSTILE)
    page = page_of([hostile, result("b", error=HOSTILE, verdict="unread", findings=(), counts={})], reports="r/")  # fmt: skip
    read = Text(page)
    assert "script" not in read.tags
    assert "49" not in read.text
    assert read.text.count("alert(1)") >= 3
    for link in (*read.links, *Text(run(order(jobs, form="html"))[1]).links):
        assert link.startswith(("#", "r/"))
    assert not re.search(r"url\(|@import|<link|<img|javascript:", page)


def test_an_empty_audit_is_a_page_too() -> None:
    text = Text(page_of([])).text
    assert "Overview of 0 jobs" in text
    assert "No rule answered stop or correct" in text


def test_links_lead_to_reports(jobs: Path, tmp_path: Path) -> None:
    output, folder = tmp_path / "out" / "overview.html", tmp_path / "out" / "reports of jobs"
    output.parent.mkdir()
    asked = order(jobs, form="html", output=output, reports=folder)
    run(asked)
    first = {p: p.stat().st_mtime_ns for p in folder.iterdir()}
    links = [link for link in Text(output.read_text()).links if not link.startswith("#")]
    found = rows(run(order(jobs))[1])
    assert len(first) == len([r for r in found if not r["error"]]) == len(set(links))
    for link in links:
        assert link.startswith("reports%20of%20jobs/")
        assert (output.parent / unquote(link)).read_text().startswith("<!doctype html>")
    # The same bytes again: no page is made anew, by one process or by two.
    page = output.read_bytes()
    run(asked)
    run(asked._replace(processes=2, memory=tmp_path / "memory"))
    run(asked._replace(processes=2, memory=tmp_path / "memory"))
    assert output.read_bytes() == page
    assert {p: p.stat().st_mtime_ns for p in folder.iterdir()} == first


def test_a_page_that_is_not_whole_is_made_anew(jobs: Path, tmp_path: Path) -> None:
    asked = order(jobs / "wall-bracket-old-lathe.yaml", reports=tmp_path / "pages")
    run(asked)
    (page,) = (tmp_path / "pages").iterdir()
    whole = page.read_bytes()
    page.write_bytes(whole[:-30])
    run(asked)
    assert page.read_bytes() == whole


@given(st.lists(st.text(min_size=1), min_size=2, max_size=6, unique=True))
def test_names_of_pages_stay_in_the_folder_and_apart(paths: list[str]) -> None:
    names = [report_name(path) for path in paths]
    assert len(set(names)) == len(paths)
    for name in names:
        assert re.fullmatch(r"[a-z0-9][a-z0-9-]{0,110}\.html", name)


def test_the_way_to_the_reports_is_relative(tmp_path: Path) -> None:
    assert way_to(tmp_path / "a b", tmp_path / "x" / "o.html") == "../a%20b/"
    assert way_to(None, tmp_path) == ""


def test_what_is_kept_does_not_grow_with_the_jobs() -> None:
    out = io.StringIO()
    with open_writer("html", out) as writer:
        for i in range(3_000):
            writer.job(result(f"{i}.yaml", "stop"))
            writer.job(result(f"{i}.yml", verdict="unread", error="e", findings=(), counts={}))
        assert len(writer.worst) == len(writer.unread) == 25  # type: ignore[attr-defined]
        writer.end(Totals())
    assert out.getvalue().count('<tr><th scope="row">') >= 6_000


@given(
    st.dictionaries(st.integers(0, LAST_BIN), st.integers(1, 9), min_size=1),
    st.sampled_from([0.25, 0.5, 0.75]),
)
def test_quarters_are_those_of_the_answers_written_out(counts: dict[int, int], share: float) -> None:  # fmt: skip
    every = [step for step in sorted(counts) for _ in range(counts[step])]
    step = step_at(counts, share)
    assert sum(s <= step for s in every) >= share * len(every)
    assert sum(s < step for s in every) < share * len(every)


@pytest.mark.parametrize("grade", [g for g in Grade if g < Grade.ADVISE])
def test_verdicts_are_words_not_only_colours(grade: Grade) -> None:
    one = result("a.yaml", grade.word)
    assert f"a.yaml {one.verdict}" in Text(page_of([one])).text
