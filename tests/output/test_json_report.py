"""The report as data: its schema says what it is, no more and no less; two goldens to read.

A golden that changes on purpose is written again with ``pytest --force-regen`` and read
before it is kept.
"""

from __future__ import annotations

import copy
import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pytest_regressions.file_regression import FileRegressionFixture

from checker import findings
from checker.findings import Report
from checker.grades import Grade, Verdict
from checker.installation.binding import ORIGINS
from checker.installation.record import Installation
from checker.output.json_report import as_data, render
from checker.output.text import render as render_text
from checker.places import SCHEMAS
from checker.reporting.reports import report_on
from checker.rulebook.model import CONFIDENCES, Rulebook

Describe = Callable[[str], Installation]

DATA = Path(__file__).parents[1] / "data"
SCHEMA = json.loads((SCHEMAS / "report.schema.json").read_text(encoding="utf-8"))
VALIDATOR = Draft202012Validator(SCHEMA)

# Which part of the schema describes which data.
PARTS = {
    "": findings.Report, "finding": findings.Finding, "measure": findings.Measure, "worst": findings.Worst,
    "working": findings.WorkingLine, "field": findings.FieldRead, "missing": findings.MissingField,
    "remedy": findings.Remedy, "basis": findings.BasisRead, "window": findings.FieldWindow,
    "moved": findings.Moved, "curves": findings.Curves,
    "geometry": findings.Geometry,
}  # fmt: skip


@pytest.fixture
def report(small_rulebook: Rulebook, describe: Describe) -> Report:
    """A report with every grade but advise, a worst case, a remedy, a missing value."""
    found = report_on(small_rulebook, describe((DATA / "shelf.yaml").read_text(encoding="utf-8")))
    # Goldens outlive versions; what is drawn has tests of its own, and a shelf has no drawing.
    empty = found.geometry._replace(shapes=(), runs=(), extents=(), marks=(), notes=())
    return found._replace(tool="0.0.0", geometry=empty)


# --- the schema ------------------------------------------------------------------


def part(name: str) -> dict[str, Any]:
    found: dict[str, Any] = SCHEMA["$defs"][name] if name else SCHEMA
    return found


@pytest.mark.parametrize(("name", "kind"), PARTS.items(), ids=[k or "report" for k in PARTS])
def test_the_schema_names_every_field_and_no_other(name: str, kind: type) -> None:
    wanted = set(kind._fields) | (set() if name else {"$schema"})
    assert set(part(name)["properties"]) == wanted
    assert set(part(name)["required"]) == wanted
    assert part(name)["additionalProperties"] is False


def test_every_group_in_the_schema_is_closed_and_whole() -> None:
    def walk(node: Any) -> None:
        if isinstance(node, dict):
            if "properties" in node:
                assert node["additionalProperties"] is False
                assert set(node["required"]) == set(node["properties"])
            for inner in node.values():
                walk(inner)
        elif isinstance(node, list):
            for inner in node:
                walk(inner)

    walk(SCHEMA)


def test_the_schema_knows_every_word() -> None:
    grades = {g.word for g in Grade}
    assert set(part("grade")["enum"]) == grades
    assert set(SCHEMA["properties"]["counts"]["properties"]) == grades
    assert set(SCHEMA["properties"]["verdict"]["enum"]) == {v.value for v in Verdict}
    assert set(part("field")["properties"]["origin"]["enum"]) == {*ORIGINS, None}
    assert set(part("basis")["properties"]["confidence"]["enum"]) == set(CONFIDENCES)


def test_every_entry_of_the_schema_is_used_by_the_data() -> None:
    assert set(PARTS) - {""} <= set(SCHEMA["$defs"])


# --- reports against it ----------------------------------------------------------


def faults(data: Any) -> list[str]:
    return [f"{e.json_path}: {e.message}" for e in VALIDATOR.iter_errors(data)]


def test_a_report_is_valid(report: Report) -> None:
    assert faults(json.loads(render(report))) == []
    assert {f.grade for f in report.findings} >= {
        Grade.STOP,
        Grade.CORRECT,
        Grade.CONFIRM,
        Grade.MET,
        Grade.NOT_APPLICABLE,
    }
    assert any(f.worst for f in report.findings)
    assert any(f.remedies for f in report.findings)
    assert any(f.missing for f in report.findings)


BOXES = st.lists(
    st.fixed_dictionaries(
        {"name": st.sampled_from(["a", "b", "<script>", "]]>", "::error::", "é²"])},
        optional={"kind": st.sampled_from(["open", "shut"]), "mass": st.sampled_from(["1 kg", "30 kg", "24 kg ± 2 kg", "500 kg"])},
    ),
    max_size=3,
)  # fmt: skip
SHELVES = st.fixed_dictionaries(
    {},
    optional={
        "mass": st.sampled_from(["20 kg", "{is: 20 kg, origin: estimated}", "20 kg ± 10 kg", "2800 kg", "44 lb"]),
        "capacity": st.sampled_from(["50 kg", "30 kg", "0 kg", "110 lb"]),
        "warmth": st.sampled_from(["20 degC", "45 degC", "38..42 degC", "104 degF"]),
        "reach": st.sampled_from(["1 m", "3 ft"]),
    },
)  # fmt: skip


@settings(max_examples=40)
@given(BOXES, SHELVES, st.sampled_from(["plan", "fitted"]))
def test_every_report_is_valid(
    small_rulebook: Rulebook, describe: Describe, boxes: list[dict[str, str]], shelf: dict[str, str], stage: str
) -> None:  # fmt: skip
    written = "".join(
        f"- {{name: {json.dumps(b['name'], ensure_ascii=False)}"
        + "".join(f", {k}: {v}" for k, v in b.items() if k != "name")
        + "}\n"
        for b in boxes
    )
    text = f"job: {{stage: {stage}, checked_on: 2026-01-31, due_on: 2027-03-01}}\n"
    text += f"shelf: {{{', '.join(f'{k}: {v}' for k, v in shelf.items())}}}\n"
    text += f"boxes:\n{written}" if boxes else "boxes: []\n"
    found = report_on(small_rulebook, describe(text))
    assert faults(json.loads(render(found))) == []
    render_text(found)


def test_numbers_and_their_texts_agree(report: Report) -> None:
    for finding in report.findings:
        for measure in (finding.demand, finding.limit):
            if measure is not None:
                assert float(measure.text.split()[0]) == pytest.approx(measure.value, rel=0.01)
        if finding.utilisation is not None and finding.demand and finding.limit:
            assert finding.utilisation == pytest.approx(finding.demand.value / finding.limit.value)


def test_counts_add_up(report: Report) -> None:
    assert sum(report.counts.values()) == len(report.findings)
    for word, times in report.counts.items():
        assert times == sum(f.grade.word == word for f in report.findings)


BREAKS: list[tuple[str, Callable[[Any], Any]]] = [
    ("an entry too many", lambda d: d.update(extra=1)),
    ("an entry too few", lambda d: d.pop("verdict")),
    ("an unknown verdict", lambda d: d.update(verdict="fine")),
    ("an unknown grade", lambda d: d["findings"][0].update(grade="bad")),
    ("a finding without its caution", lambda d: d["findings"][0].pop("caution")),
    ("an empty caution", lambda d: d["findings"][0].update(caution="")),
    ("a finding with an entry too many", lambda d: d["findings"][0].update(extra=1)),
    ("a text for a number", lambda d: d["findings"][0].update(utilisation="half")),
    ("a line before the first", lambda d: d["findings"][0]["fields"][0].update(line=0)),
    ("an unknown origin", lambda d: d["findings"][0]["fields"][0].update(origin="guessed")),
    ("an unknown confidence", lambda d: d["findings"][0]["basis"][0].update(confidence="certain")),
    ("a count below nought", lambda d: d["counts"].update(stop=-1)),
    ("no cautions", lambda d: d.update(cautions=[])),
    ("a short digest", lambda d: d.update(digest="abc")),
    ("another schema", lambda d: d.update({"$schema": "other.json"})),
]


@pytest.mark.parametrize("break_it", [b for _, b in BREAKS], ids=[n for n, _ in BREAKS])
def test_what_is_no_report_is_refused(report: Report, break_it: Callable[[Any], Any]) -> None:
    data = copy.deepcopy(json.loads(render(report)))
    assert data["findings"][0]["fields"]
    break_it(data)
    assert faults(data)


def test_no_number_is_written_that_json_does_not_know(report: Report) -> None:
    with pytest.raises(ValueError, match="Out of range"):
        render(report._replace(counts={"stop": math.nan}))  # type: ignore[dict-item]


def test_data_are_plain(report: Report) -> None:
    data = as_data(report._replace(findings=()))
    assert data["verdict"] == "hold"
    assert type(data["verdict"]) is str
    assert data["findings"] == []


# --- goldens ---------------------------------------------------------------------


def test_the_text_of_a_small_report(report: Report, file_regression: FileRegressionFixture) -> None:
    file_regression.check(
        render_text(report), extension=".txt", encoding="utf-8", fullpath=DATA / "shelf.report.txt"
    )


def test_the_json_of_a_small_report(report: Report, file_regression: FileRegressionFixture) -> None:
    file_regression.check(
        render(report), extension=".json", encoding="utf-8", fullpath=DATA / "shelf.report.json"
    )
