"""The source register as the command prints it: for a terminal, for a program, for a spreadsheet."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from typing import Any

import pytest

from checker.output.sources import render
from checker.rulebook.model import Rulebook
from checker.rulebook.register import Entry, register


@pytest.fixture
def entries(small_rulebook: Rulebook) -> tuple[Entry, ...]:
    return register(small_rulebook)


def test_text_names_value_source_and_confidence(entries: tuple[Entry, ...]) -> None:
    text = render(entries, "text", width=60)
    assert max(map(len, text.split("\nfamily")[0].splitlines())) <= 60
    warmth = text.partition("load/warmth")[2].partition("\n\n")[0]
    assert "most = 40 degC" in warmth
    assert "from-memory: " in warmth
    last = text.rstrip().splitlines()[-1].split()
    assert last[0] == "all"
    assert int(last[-1]) == len(entries) == sum(map(int, last[1:-1]))


def test_json_counts_what_it_lists(entries: tuple[Entry, ...]) -> None:
    data = json.loads(render(entries, "json"))
    assert len(data["entries"]) == len(entries)
    for part in ("by_family", "by_kind", "by_source"):
        assert sum(n for count in data[part].values() for n in count.values()) == len(entries)


def test_a_spreadsheet_gets_no_formula() -> None:
    bad = Entry("parameter", "load", "load/x", "y", "=1+1", "kg", "s", "@title", "-", "+c", "checked", "", ("load/x",))  # fmt: skip
    rows = list(csv.DictReader(io.StringIO(render([bad], "csv"))))
    assert (rows[0]["value"], rows[0]["title"], rows[0]["clause"]) == ("'=1+1", "'@title", "'+c")
    assert rows[0]["used_by"] == "load/x"


@pytest.mark.parametrize("form", ["text", "json", "csv"])
def test_command(run: Callable[..., Any], form: str) -> None:
    whole = run("rulebook", "sources", "--format", form)
    assert whole.status == 0
    assert whole.err == ""
    again = run("rulebook", "sources", "--format", form)
    assert again.out == whole.out


def test_command_narrows(run: Callable[..., Any]) -> None:
    data = json.loads(run("rulebook", "sources", "--format", "json", "--kind", "rule").out)
    assert {e["kind"] for e in data["entries"]} == {"rule"}
    wrong = run("rulebook", "sources", "--family", "laod")
    assert wrong.status == 3
    assert "there is no family 'laod'" in wrong.err
