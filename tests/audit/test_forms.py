"""The forms that other programs read, held against the schemas that are published for them."""

from __future__ import annotations

import csv
import io
import json
import re
from collections import Counter
from pathlib import Path

import pytest
from audits import FIXTURES, order, run, shipped

from checker.audit.jobs import Job
from checker.audit.results import Finding, JobResult
from checker.audit.running import Wanted
from checker.audit.totals import Totals
from checker.audit.worded import from_data, to_data
from checker.audit.writers import open_writer
from checker.grades import Grade
from checker.output import sarif as sarif_form

PUBLISHED = Path(__file__).parents[1] / "data" / "published"
HOSTILE = "=cmd|' /C calc'!A0 <b>&\"]]>\x1b\n\ud800 -- %"


@pytest.fixture(scope="module")
def hard(jobs: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Jobs with names and references that a careless writer trips over."""
    folder = tmp_path_factory.mktemp("hard: jobs, 100 % & <more>")
    plan = (FIXTURES / "wall-bracket-old-lathe.yaml").read_text()
    for name, reference in (("=1+1", "=cmd()"), ("two words", "'<&\"]]>"), ("same", "'<&\"]]>")):
        text = re.sub(r"reference: .*", "reference: " + json.dumps(reference), plan, count=1)
        (folder / f"{name}.yaml").write_text(text)
    (folder / "bad\x1b[31m.yaml").write_text("'\\e[2J': 1\n")
    return folder


@pytest.mark.parametrize("which", ["jobs", "hard"])
def test_junit_is_what_its_schema_says(which: str, request: pytest.FixtureRequest) -> None:
    etree = pytest.importorskip("lxml.etree")
    text = run(order(request.getfixturevalue(which), form="junit"))[1]
    schema = etree.XMLSchema(etree.parse(str(PUBLISHED / "junit-10.xsd")))
    document = etree.fromstring(text.encode())
    assert schema.validate(document), schema.error_log
    # Readers keep only the first of two cases of one name, in the whole file.
    names = Counter((c.get("classname"), c.get("name")) for c in document.iter("testcase"))
    assert names.most_common(1)[0][1] == 1


def test_junit_is_read_back(jobs: Path) -> None:
    junitparser = pytest.importorskip("junitparser")
    text = run(order(jobs, form="junit"))[1]
    results = {Path(r["path"]).name: r for r in map(json.loads, run(order(jobs))[1].splitlines()[:-1])}  # fmt: skip
    suites = list(junitparser.JUnitXml.fromstring(text.encode()))
    assert sorted(Path(s.name).name for s in suites) == sorted(results)
    for suite in suites:
        result = results[Path(suite.name).name]
        if result["error"]:
            assert (suite.tests, suite.errors) == (1, 1)
            continue
        counts = result["counts"]
        assert suite.tests == sum(n for word, n in counts.items() if word != "not-applicable")
        assert suite.failures == counts["stop"] + counts["correct"]
        assert suite.errors == counts["confirm"]
        for case in suite:
            for outcome in case.result:
                # The sentence stands both where some readers look and where others do.
                assert outcome.message in re.sub(r"\s+", " ", outcome.text)
                assert len(outcome.message) > 20


@pytest.mark.parametrize("which", ["jobs", "hard"])
def test_sarif_is_what_its_schema_says(which: str, request: pytest.FixtureRequest) -> None:
    from jsonschema import Draft4Validator, FormatChecker  # noqa: PLC0415

    log = json.loads(run(order(request.getfixturevalue(which), form="sarif"))[1])
    schema = json.loads((PUBLISHED / "sarif-2.1.0-rtm.5.json").read_text())
    checker = Draft4Validator(schema, format_checker=FormatChecker())
    assert [e.message for e in checker.iter_errors(log)] == []
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    for rule in rules:
        assert rule["shortDescription"]["text"]
        assert rule["fullDescription"]["text"]
        assert rule["help"]["text"]
    grades = []
    for result in log["runs"][0]["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]
        (location,) = result["locations"]
        place = location["physicalLocation"]
        assert place["region"]["startLine"] >= 1
        assert place["region"]["startColumn"] >= 1
        uri = place["artifactLocation"]["uri"]
        assert re.fullmatch(r"[A-Za-z0-9%!$&'()+,;=@~._/-]+", uri), uri
        assert ":" not in uri.partition("/")[0]
        assert "kind" not in result
        assert result["partialFingerprints"]["primaryLocationLineHash"]
        grades.append(result["level"])
    # A reader keeps the first of too many: the gravest.
    assert grades == sorted(grades, key=["error", "warning", "note"].index)


def test_sarif_knows_a_finding_again_when_its_line_moves(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text((FIXTURES / "wall-bracket-old-lathe.yaml").read_text())
    before = _fingerprints(plan)
    plan.write_text("# a line more\n" + plan.read_text())
    assert _fingerprints(plan) == before
    assert len(before) > 3


def _fingerprints(plan: Path) -> list[str]:
    log = json.loads(run(order(plan, form="sarif"))[1])
    return [r["partialFingerprints"]["primaryLocationLineHash"] for r in log["runs"][0]["results"]]


def test_sarif_of_too_many_results_keeps_the_gravest(jobs: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip
    whole = json.loads(run(order(jobs, form="sarif"))[1])["runs"][0]
    monkeypatch.setattr(sarif_form, "MOST", 5)
    few = json.loads(run(order(jobs, form="sarif"))[1])["runs"][0]
    assert few["results"] == whole["results"][:5]
    assert few["properties"] == {"resultsLeftOut": len(whole["results"]) - 5}


def test_a_table_runs_no_formula(hard: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(hard)
    text = run(order(".", form="csv"))[1]
    for row in csv.reader(io.StringIO(text)):
        for cell in row:
            assert not cell.startswith(("=", "+", "@", "\t", "\r"))
            assert not cell.startswith("-") or re.fullmatch(r"-?[0-9.e-]+", cell)
    assert "'=cmd()" in text
    result = JobResult("=a", None, "", "", (), "+1", "-plan", "@x", "ready", {"met": 1}, (Finding("=r", None, "met", 0.5, ()),), "")  # fmt: skip
    out = io.StringIO()
    with open_writer("csv", out) as writer:
        writer.job(result)
        writer.end(Totals())
    assert out.getvalue().splitlines()[1].startswith("'=a,'+1,'-plan,'@x,ready,'=r,,met,0.5")


def test_parquet_holds_the_rows_of_the_table(jobs: Path, tmp_path: Path) -> None:
    pq = pytest.importorskip("pyarrow.parquet")
    path = tmp_path / "result.parquet"
    run(order(jobs, form="parquet", output=path))
    table = pq.read_table(path).to_pylist()
    rows = list(csv.DictReader(io.StringIO(run(order(jobs, form="csv"))[1])))
    assert len(table) == len(rows)
    for one, row in zip(table, rows, strict=True):
        assert {k: "" if v is None else str(v) for k, v in one.items()} == row


@pytest.mark.parametrize("form", ["text", "json", "jsonl", "csv", "junit", "sarif", "html"])
def test_the_same_jobs_the_same_bytes(jobs: Path, form: str) -> None:
    assert run(order(jobs, form=form)) == run(order(jobs, form=form))
    assert run(order(jobs, form=form, processes=2)) == run(order(jobs, form=form))


@pytest.mark.slow
def test_sentences_belong_to_their_answers() -> None:
    """Forms with sentences pair them with the answers by their order."""
    auditor = shipped()
    plans = sorted((FIXTURES / "defective").glob("*.yaml"))[:12]
    pairs = sorted(FIXTURES.glob("fitted/*.fitted.yaml"))
    jobs = [Job(str(p), None) for p in plans]
    jobs += [Job(str(FIXTURES / p.name.replace(".fitted", "")), str(p)) for p in pairs]
    for job in jobs:
        result, findings = auditor.one(job, wanted=Wanted(words=True))
        answers = [f for f in result.findings if Grade.of(f.grade) < Grade.MET]
        assert [(a.rule, a.grade) for a in answers] == [(f.rule, f.grade.word) for f in findings]
        assert from_data(json.loads(json.dumps(to_data(findings)))) == findings
