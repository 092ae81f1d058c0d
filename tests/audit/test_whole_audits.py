"""Whole audits over a handful of jobs: the same answer however it is split, kept or written."""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
import sqlite3
import xml.etree.ElementTree as ET
import zlib
from pathlib import Path

import pytest
from audits import FIXTURES, FORMS, order, rows, run

from checker.audit.merging import merge_parts
from checker.errors import Mistakes
from checker.grades import Grade


def test_one_bad_file_ends_nothing(jobs: Path) -> None:
    status, text, _ = run(order(jobs))
    found = {Path(str(r["path"])).name: r for r in rows(text)}
    assert status == 3
    assert found["broken.yaml"]["verdict"] == "unread"
    assert "side-post" in str(found["broken.yaml"]["error"])
    assert found["grinder-roof-plate.yaml"]["verdict"] == "ready"


def test_a_site_file_belongs_to_its_plan(jobs: Path) -> None:
    _, text, _ = run(order(jobs))
    found = {Path(str(r["path"])).name: r for r in rows(text)}
    assert "turning-cell-side-post.fitted.yaml" not in found
    pair = found["turning-cell-side-post.yaml"]
    assert Path(str(pair["fitted"])).name == "turning-cell-side-post.fitted.yaml"
    assert (pair["verdict"], pair["stage"]) == ("hold", "fitted")


@pytest.fixture(scope="module")
def parts(jobs: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, ...]:
    folder = tmp_path_factory.mktemp("parts")
    for k in (1, 2, 3):
        run(order(jobs, part=f"{k}/3", output=folder / f"{k}.jsonl", words=True))
    return tuple(str(folder / f"{k}.jsonl") for k in (1, 2, 3))


@pytest.mark.parametrize("form", FORMS)
def test_parts_merged_are_one_run(jobs: Path, parts: tuple[str, ...], form: str) -> None:
    _, whole, _ = run(order(jobs, form=form))
    out = io.StringIO()
    assert merge_parts(parts, form, None, Grade.ADVISE, out) == 3
    assert out.getvalue() == whole


def test_parts_merged_are_one_run_as_parquet(
    jobs: Path, parts: tuple[str, ...], tmp_path: Path
) -> None:
    pytest.importorskip("pyarrow")
    whole, merged = tmp_path / "whole", tmp_path / "merged"
    run(order(jobs, form="parquet", output=whole))
    merge_parts(parts, "parquet", merged, Grade.ADVISE, io.StringIO())
    assert merged.read_bytes() == whole.read_bytes()


def test_parts_merged_know_what_changed(jobs: Path, tmp_path: Path) -> None:
    folder, earlier = tmp_path / "jobs", tmp_path / "earlier"
    shutil.copytree(jobs, folder)
    run(order(folder, output=earlier))
    (folder / "broken.yaml").unlink()
    _, whole, _ = run(order(folder, against=earlier))
    assert json.loads(whole.splitlines()[-1])["totals"]["gone"] == {
        (folder / "broken.yaml").as_posix(): "unread"
    }
    for k in (1, 2):
        run(order(folder, part=f"{k}/2", output=tmp_path / str(k), against=earlier))
    out = io.StringIO()
    merge_parts((str(tmp_path / "1"), str(tmp_path / "2")), "jsonl", None, Grade.ADVISE, out)
    assert out.getvalue() == whole


def test_sentences_that_a_part_did_not_keep_are_asked_for(jobs: Path, tmp_path: Path) -> None:
    part = tmp_path / "1.jsonl"
    run(order(jobs, part="1/1", output=part))
    with pytest.raises(Mistakes, match="--words"):
        merge_parts((str(part),), "sarif", None, Grade.ADVISE, io.StringIO())


def test_parts_in_another_order_are_refused(parts: tuple[str, ...]) -> None:
    with pytest.raises(Mistakes, match="not in its place"):
        merge_parts(parts[::-1], "text", None, Grade.ADVISE, io.StringIO())


def test_a_part_that_is_not_whole_is_refused(jobs: Path, tmp_path: Path) -> None:
    part = tmp_path / "1.jsonl"
    run(order(jobs, part="1/2", output=part))
    part.write_text("".join(part.read_text().splitlines(keepends=True)[:-1]))
    with pytest.raises(Mistakes, match="not whole"):
        merge_parts((str(part),), "text", None, Grade.ADVISE, io.StringIO())


def test_two_processes_write_the_same(jobs: Path) -> None:
    assert run(order(jobs, processes=2))[1] == run(order(jobs))[1]


def test_what_is_remembered_is_the_same(jobs: Path, tmp_path: Path) -> None:
    fresh = run(order(jobs))
    memory = tmp_path / "memory"
    assert run(order(jobs, memory=memory)) == fresh
    assert run(order(jobs, memory=memory)) == fresh
    with sqlite3.connect(memory) as connection:
        assert connection.execute("SELECT count(*) FROM results").fetchone()[0] == 4


def test_a_damaged_line_of_memory_is_judged_again(jobs: Path, tmp_path: Path) -> None:
    fresh = run(order(jobs))
    memory = tmp_path / "memory"
    run(order(jobs, memory=memory))
    with sqlite3.connect(memory) as connection:
        rows = connection.execute("SELECT key, line FROM results").fetchall()
        forged = [
            (zlib.compress(zlib.decompress(line).replace(b'"hold"', b'"ready"')), key)
            for key, line in rows
        ]
        connection.executemany("UPDATE results SET line = ? WHERE key = ?", forged)
    assert run(order(jobs, memory=memory)) == fresh


@pytest.mark.parametrize(
    "content", [b"not a database at all, but long enough to be read as one" * 40, b""]
)
def test_foreign_memory_is_left_alone(jobs: Path, tmp_path: Path, content: bytes) -> None:
    memory = tmp_path / "memory"
    memory.write_bytes(content)
    status, text, said = run(order(jobs, memory=memory))
    assert (status, text) == run(order(jobs))[:2]
    if content:
        assert said.count("\n") == 1
        assert "judged afresh" in said
        assert memory.read_bytes() == content


def test_another_program_s_database_is_left_alone(jobs: Path, tmp_path: Path) -> None:
    memory = tmp_path / "memory"
    with sqlite3.connect(memory) as connection:
        connection.execute("CREATE TABLE results (theirs TEXT)")
    _, _, said = run(order(jobs, memory=memory))
    assert "another program's file" in said


def test_what_changed_since_and_why(jobs: Path, tmp_path: Path) -> None:
    earlier = tmp_path / "earlier.jsonl"
    folder = tmp_path / "jobs"
    shutil.copytree(jobs, folder)
    run(order(folder, output=earlier))
    assert all("changes" not in r for r in rows(run(order(folder, against=earlier))[1]))
    plan = folder / "grinder-roof-plate.yaml"
    plan.write_text(
        re.sub(r"angle_from_vertical: [0-9.]+ deg", "angle_from_vertical: 75 deg", plan.read_text())
    )
    changed = [r for r in rows(run(order(folder, against=earlier))[1]) if "changes" in r]
    assert [Path(str(r["path"])).name for r in changed] == ["grinder-roof-plate.yaml"]
    assert ["load/sling-angle", "worse", "met", "stop", "description changed"] in changed[0][
        "changes"
    ]


@pytest.mark.slow
def test_another_rulebook_over_the_same_jobs(jobs: Path, tmp_path: Path) -> None:
    rules = tmp_path / "edition"
    (rules / "load").mkdir(parents=True)
    shipped = (FIXTURES.parent / "rules" / "load" / "sling-angle.yaml").read_text()
    (rules / "load" / "sling-angle.yaml").write_text(
        shipped.replace("The legs hang", "Legs that hang")
    )
    text = run(order(jobs, versus=(rules,)))[1]
    assert all("changes" not in r for r in rows(text)), "another wording changes no grade"


def test_forms_that_other_programs_read(jobs: Path) -> None:
    junit = ET.fromstring(run(order(jobs, form="junit"))[1])
    suites = {Path(s.get("name", "")).name: s for s in junit}
    assert suites["broken.yaml"].get("errors") == "1"
    for suite in suites.values():
        cases = suite.findall("testcase")
        assert int(suite.get("tests", "0")) == len(cases)
        assert len({(c.get("classname"), c.get("name")) for c in cases}) == len(cases)
        assert int(suite.get("failures", "0")) == len(suite.findall("testcase/failure"))
    sarif = json.loads(run(order(jobs, form="sarif"))[1])["runs"][0]
    rules = [r["id"] for r in sarif["tool"]["driver"]["rules"]]
    for result in sarif["results"]:
        assert rules[result["ruleIndex"]] == result["ruleId"]
        place = result["locations"][0]["physicalLocation"]
        assert place["region"]["startLine"] >= 1
        assert not place["artifactLocation"]["uri"].startswith("/")
    table = list(csv.DictReader(io.StringIO(run(order(jobs, form="csv"))[1])))
    assert {r["grade"] for r in table} >= {"met", "stop", "advise"}


def test_a_slip_in_a_name_is_no_success(tmp_path: Path) -> None:
    with pytest.raises(Mistakes, match="no description here"):
        run(order(tmp_path / "nothing-*.yaml"))


def test_links_that_go_round_end(jobs: Path, tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    shutil.copytree(jobs, folder)
    (folder / "again").symlink_to(folder, target_is_directory=True)
    assert len(rows(run(order(folder))[1])) == len(rows(run(order(jobs))[1]))


def test_output_is_whole_or_not_there(jobs: Path, tmp_path: Path) -> None:
    out = tmp_path / "result.json"
    out.write_text("what stood here before")
    with pytest.raises(Mistakes):
        run(order(jobs, output=out, folders=(tmp_path / "no-rules",)))
    assert out.read_text() == "what stood here before"
    assert [p.name for p in tmp_path.iterdir()] == ["result.json"]
