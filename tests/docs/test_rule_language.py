"""The page on the rule language, run: every file in it, every formula, every refusal."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest
import yaml

from checker.errors import Mistakes
from checker.installation.binding import bind
from checker.output.rules import render_test
from checker.reporting.reports import report_on
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

PAGE = Path(__file__).parents[2] / "docs" / "rule-language.md"
FENCE = re.compile(r"^```(?P<info>[^\n]*)\n(?P<body>.*?)^```$", re.S | re.M)
FORMULA = """\
title: A line of the page
protects: Nobody.
working: {{x: {{formula: {formula}{unit}}}}}
expect: {{advise: {expect}}}
says: {{advise: a, met: m}}
basis: [{{source: statics, clause: c, confidence: checked}}]
caution: None.
example: {example}
cases: [{{name: line, grade: {grade}{more}}}]
"""


class Block(NamedTuple):
    """One fenced block: what it is, the words behind that, what it holds."""

    kind: str
    words: str
    body: str
    line: int


class Line(NamedTuple):
    """One formula and what comes out of it; its place in the page."""

    formula: str
    result: str
    line: int


class Refusal(NamedTuple):
    """A change to a file of the page, and a part of what is then said."""

    file: str
    before: str
    after: str
    says: str
    line: int


@cache
def blocks() -> tuple[Block, ...]:
    text = PAGE.read_text(encoding="utf-8")
    found = []
    for fence in FENCE.finditer(text):
        kind, _, words = fence["info"].partition(" ")
        found.append(Block(kind, words, fence["body"], text[: fence.start()].count("\n") + 1))
    return tuple(found)


@cache
def files() -> dict[str, str]:
    """The rulebook's files by path."""
    found = {}
    for block in blocks():
        if block.kind == "yaml" and block.words.endswith(".yaml"):
            assert block.words not in found, block.words
            found[block.words] = block.body
    return found


def example() -> dict[str, object]:
    (one,) = [b for b in blocks() if b.kind == "yaml" and b.words == "example"]
    read = yaml.load(one.body, yaml.BaseLoader)
    assert isinstance(read, dict)
    return read


def formulas() -> Iterator[Line]:
    for block in blocks():
        if block.kind == "formulas":
            for i, text in enumerate(block.body.splitlines(), 1):
                formula, arrow, result = text.partition("=>")
                assert arrow, text
                yield Line(formula.strip(), result.strip(), block.line + i)


def refusals() -> Iterator[Refusal]:
    for block in blocks():
        if block.kind == "refused":
            for i, text in enumerate(block.body.splitlines(), 1):
                change, _, says = text.rpartition(" :: ")
                before, arrow, after = (change + " ").partition(" => ")
                assert arrow, text
                yield Refusal(block.words, before, after.strip(), says, block.line + i)


def written(folder: Path, these: dict[str, str]) -> Path:
    for name, text in these.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written(tmp_path_factory.mktemp("page"), files())


@pytest.fixture(scope="module")
def book(folder: Path) -> Rulebook:
    return load_rulebook([folder], shipped=False)


def test_every_block_is_one_that_is_run() -> None:
    for block in blocks():
        known = block.kind in ("formulas", "refused") or (
            block.kind == "yaml"
            and (
                block.words == "example"
                or block.words.startswith("check ")
                or block.words.endswith(".yaml")
            )
        )
        assert known, f"line {block.line}: ```{block.kind} {block.words}"
    assert len(files()) > 12
    assert sum(1 for _ in formulas()) > 60
    assert sum(1 for _ in refusals()) > 15


def test_every_case_of_the_page_holds(book: Rulebook) -> None:
    text, failed = render_test(book)
    assert failed == 0, text


def test_cases_of_the_overlays_rules_hold(folder: Path) -> None:
    text, failed = render_test(load_rulebook([folder], shipped=False, local=["harbour"]))
    assert failed == 0, text


def quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


def one_line(line: Line) -> str:
    """A rule around one formula: its working is the formula, its case what comes out."""
    result, unit, expect, grade, more = line.result, "", "true", "met", ""
    if result.startswith("not stated: "):
        missing = result.removeprefix("not stated: ")
        grade, more, unit = "confirm", f", missing: [{missing}]", ", unit: kg"
        expect = quoted(f"x >= 0 * ({line.formula})")
    elif result.startswith("no answer: "):
        grade, unit, expect = "confirm", ", unit: mm", quoted("x >= 0 * x")
    elif re.fullmatch(r"-?[0-9.]+( .+)?", result):
        unit = f', unit: "{result.partition(" ")[2] or "1"}"'
        more = f", lines: {{x: {quoted(result)}}}" if unit else ""
    elif result in ("true", "false"):
        more = f", lines: {{x: {result}}}"
    elif not result.startswith("refused: "):
        more = f", lines: {{x: {quoted(result)}}}"
    if result.startswith("no answer: ") and "factor" in line.formula:
        unit = ', unit: "1"'
    if result.startswith("refused: "):
        unit = ", unit: kg" if not any(s in line.formula for s in ("and", "==", "in [")) else ""
    return FORMULA.format(
        formula=quoted(line.formula),
        unit=unit,
        expect=expect,
        example=flow(example()),
        grade=grade,
        more=more,
    )


def flow(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k}: {flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    return str(value)


@pytest.mark.parametrize("line", list(formulas()), ids=lambda line: f"line-{line.line}")
def test_formula(line: Line, tmp_path: Path) -> None:
    # The shared values and tables of the page are at hand; its rules are not needed.
    beneath = {
        n: t for n, t in files().items() if n.split("/")[0] in ("sources", "tables", "derived")
    }
    root = written(tmp_path, beneath | {"line/of-the-page.yaml": one_line(line)})
    if line.result.startswith("refused: "):
        with pytest.raises(Mistakes) as raised:
            load_rulebook([root], shipped=False)
        assert line.result.removeprefix("refused: ") in str(raised.value)
        return
    loaded = load_rulebook([root], shipped=False)
    complaints = [c for c in render_test(loaded)[0].splitlines() if "case 'line'" in c]
    assert complaints == []
    if line.result.startswith("no answer: "):
        text = f"{yaml.safe_dump(example())}\n".replace("'", "")
        report = report_on(
            loaded, bind(text.replace("job:", "job:\n  stage: plan").encode(), "page.yaml")
        )
        assert line.result.removeprefix("no answer: ") in report.findings[-1].sentence


@pytest.mark.parametrize("refusal", list(refusals()), ids=lambda refusal: f"line-{refusal.line}")
def test_refusal(refusal: Refusal, tmp_path: Path) -> None:
    text = files()[refusal.file]
    assert text.count(refusal.before) >= 1, refusal.before
    changed = files() | {refusal.file: text.replace(refusal.before, refusal.after, 1)}
    root = written(tmp_path, changed)
    local = ["harbour"] if refusal.file.startswith("local/") else []
    try:
        loaded = load_rulebook([root], shipped=False, local=local)
    except Mistakes as error:
        said = str(error)
    else:
        # What the loader lets pass, the cases refuse.
        said, failed = render_test(loaded)
        assert failed, "nothing was refused"
    assert refusal.says in said


@pytest.mark.parametrize(
    "block",
    [b for b in blocks() if b.words.startswith("check ")],
    ids=lambda block: f"line-{block.line}",
)
def test_check(block: Block, folder: Path) -> None:
    words = block.words.split()[1:]
    local = [words[1]] if words[0] == "--local" else []
    rule, grade = words[-2:]
    loaded = load_rulebook([folder], shipped=False, local=local)
    report = report_on(loaded, bind(block.body.encode(), "page.yaml"))
    found = [f.grade.word for f in report.findings if f.rule == rule]
    assert found == [grade]
    if local:
        assert report.changes


def test_the_page_speaks_of_every_entry_of_a_rule() -> None:
    schema = json.loads(
        (PAGE.parents[1] / "schemas" / "rule.schema.json").read_text(encoding="utf-8")
    )
    used = {key for name, text in files().items() if name.count("/") == 1 and not name.startswith(("sources", "local", "tables", "derived")) for key in yaml.load(text, yaml.BaseLoader)}  # fmt: skip
    assert used == set(schema["properties"])
    of_cases = set(schema["properties"]["cases"]["items"]["properties"])
    shown = {key for text in files().values() for case in yaml.load(text, yaml.BaseLoader).get("cases", []) for key in case}  # fmt: skip
    assert shown == of_cases
    of_sheet = set(schema["$defs"]["sheet"]["items"]["properties"])
    lines = {key for text in files().values() for line in yaml.load(text, yaml.BaseLoader).get("sheet", []) for key in line}  # fmt: skip
    assert lines == of_sheet
    grades = {grade for text in files().values() for grade in yaml.load(text, yaml.BaseLoader).get("expect", {})}  # fmt: skip
    assert grades == set(schema["properties"]["expect"]["properties"])


def test_the_page_speaks_of_every_way_between_two_rows() -> None:
    schema = json.loads(
        (PAGE.parents[1] / "schemas" / "table.schema.json").read_text(encoding="utf-8")
    )
    ways = schema["properties"]["keys"]["additionalProperties"]["properties"]["between"]["enum"]
    assert all(f"between: {way}" in files()["tables/example_between.yaml"] for way in ways)
