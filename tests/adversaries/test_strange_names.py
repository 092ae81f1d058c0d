"""Files whose names hold line ends, markup, escape codes or no Unicode."""

from __future__ import annotations

import json
import os
import re
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from attacks import command
from test_bad_yaml import HEAD

NAMES = {
    "a screen sequence": "\x1b[31mred.yaml", "two lines": "two\nlines.yaml", "text turned round": "\u202elmay.exe.yaml", "a tab": "a\tb.yaml", "a space": "a b.yaml",
    "a formula": "=cmd()|'calc'!A0.yaml", "markup": "<script>alert(1)<.yaml", "a command of a build server": "::error::x.yaml", "the end of a section": "]]>.yaml",
    "quotes and a comma": "a,\"b'.yaml", "a percent sign": "%0A%s.yaml", "backticks and bars": "`x`|y.yaml", "a dash in front": "-o.yaml", "three hundred letters": "x" * 240 + ".yaml",
    "no Unicode": os.fsdecode(b"\xff\xfe.yaml"), "another script": "план 計画.yaml", "a name of a folder above": "..plan.yaml",
}  # fmt: skip


@pytest.fixture(scope="module")
def strangely_named() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as folder:
        for i, name in enumerate(NAMES.values()):
            (Path(folder) / name).write_text(HEAD if i % 2 else "not a plan", encoding="utf-8")
        yield Path(folder)


@pytest.mark.parametrize("form", ["text", "json", "jsonl", "csv", "junit", "sarif", "html"])
def test_strange_names_of_files_in_an_audit(form: str, strangely_named: Path) -> None:
    left = command("audit", strangely_named, "--format", form)
    assert left.status == 3
    # Nothing that moves a cursor or turns text round; line ends are those of the format.
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]", left.out.replace("\t", "") if form == "html" else left.out)  # fmt: skip
    assert "<script>alert" not in left.out or form not in ("html", "junit")
    if form == "jsonl":
        assert len(left.out.splitlines()) == len(NAMES) + 1
    if form in ("json", "sarif"):
        json.loads(left.out)
    if form == "csv":
        assert not re.search(r"(?m)^=|,=", left.out)


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
def test_a_strange_name_in_a_check(name: str, strangely_named: Path) -> None:
    left = command("check", strangely_named / name, "--brief")
    assert left.status in (1, 3)
    shown = left.out + left.err
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]", shown)
    assert "Traceback" not in shown
