"""Lines for the log of a CI service: the worst, at most ten, nothing that breaks out of its line."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from audits import FIXTURES, order, rows, run

from checker.audit.annotating import Annotations
from checker.audit.jobs import Job
from checker.audit.results import JobResult
from checker.grades import Grade
from checker.running import name_of

LINE = re.compile(
    r"::(error|warning|notice) file=([^,:]+),line=([1-9]\d*),col=([1-9]\d*),title=([^:,]+)::(.+)"
)


def lines(*paths: object, **options: object) -> list[str]:
    return run(order(*paths, annotate=True, **options))[2].splitlines()


def test_the_worst_first_ten_at_most_and_how_many_more(jobs: Path) -> None:
    said = lines(jobs, accept=Grade.MET)
    assert len(said) == 11
    matches = [LINE.fullmatch(line) for line in said[:10]]
    assert all(matches)
    levels = [m[1] for m in matches if m]
    assert levels == sorted(levels)
    results = rows(run(order(jobs))[1])
    open_ones = sum(1 for r in results for f in r["findings"] if Grade.of(f[2]) < Grade.MET)
    unread = sum(1 for r in results if r["error"])
    assert said[10] == f"::notice::and {open_ones + unread - 10} more"


def test_a_finding_stands_where_its_sentence_says(jobs: Path) -> None:
    plan = FIXTURES / "defective" / "emergency-stop-that-starts.yaml"
    (line,) = lines(plan)
    match = LINE.fullmatch(line)
    assert match is not None
    assert match[2] == plan.as_posix()
    assert "emergency_stop" in plan.read_text().splitlines()[int(match[3]) - 1]
    assert match[5].startswith("stop%3A ")


def test_what_is_accepted_is_not_said(jobs: Path) -> None:
    assert lines(jobs / "grinder-roof-plate.yaml") == []
    assert lines(jobs / "grinder-roof-plate.yaml", accept=Grade.MET) != []
    assert lines(jobs / "turning-cell-side-post.yaml", accept=Grade.STOP) == []


def test_a_file_that_cannot_be_read_stands_at_its_place(jobs: Path) -> None:
    (line, *_) = lines(jobs / "broken.yaml")
    match = LINE.fullmatch(line)
    assert match is not None
    assert (match[1], match[3]) == ("error", "2")
    assert "side-poost" in match[6]


@pytest.mark.parametrize("name", ["a,b.yaml", "a:7:7: b.yaml", "::stop-commands::x.yaml", "100 %.yaml", "a\nb.yaml"])  # fmt: skip
def test_no_name_breaks_out_of_its_line(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.write_text("not a description\n")
    said = lines(path)
    assert len(said) == 1
    match = LINE.fullmatch(said[0])
    assert match is not None
    plain = match[2]
    for sign, code in ((":", "%3A"), (",", "%2C"), ("\n", "%0A"), ("%", "%25")):
        plain = plain.replace(code, sign)
    assert plain == name_of(str(path))


def test_memory_stays_the_same_with_any_number_of_jobs() -> None:
    notes = Annotations(None)  # type: ignore[arg-type]
    for i in range(5_000):
        unread = JobResult(f"{i}", None, "", "", (), "", "", "", "unread", {}, (), f"{i}: broken")
        notes.add(Job(f"{i}", None), unread)
    assert len(notes.jobs) == len(notes.worst) == 10
    assert notes.written().splitlines()[-1] == "::notice::and 4990 more"


def test_a_site_file_without_its_plan_says_so(tmp_path: Path) -> None:
    site = tmp_path / "42.fitted.yaml"
    site.write_text((FIXTURES / "fitted" / "turning-cell-side-post.fitted.yaml").read_text())
    (row,) = rows(run(order(tmp_path))[1])
    assert row["error"].splitlines()[0] == f"{site.as_posix()}: what was found on site, without its plan"  # fmt: skip
    assert f"{(tmp_path / '42.yaml').as_posix()} beside it" in row["error"]
    (tmp_path / "42.yaml").write_text((FIXTURES / "turning-cell-side-post.yaml").read_text())
    # Named alone, as a hook names what changed, it leads to its plan.
    (alone,), (both,) = rows(run(order(site))[1]), rows(run(order(tmp_path))[1])
    assert alone == both
    assert both["stage"] == "fitted"
