"""The command writes the page, the sheet and the PDF where it is told to."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from checker.cli import main

FIXTURE = Path(__file__).parents[2] / "fixtures" / "wall-bracket-old-lathe.yaml"


def run(monkeypatch: pytest.MonkeyPatch, *arguments: str) -> int:
    monkeypatch.setattr(sys, "argv", ["mistwright", *arguments])
    with pytest.raises(SystemExit) as left:
        main()
    return int(left.value.code or 0)


@pytest.mark.parametrize("command", ["check", "sheet"])
def test_a_page_is_written_whole_and_is_the_one_printed(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    target = tmp_path / "page.html"
    status = run(monkeypatch, command, str(FIXTURE), "--format", "html", "--output", str(target))
    assert status == (1 if command == "check" else 0)
    capfd.readouterr()
    run(monkeypatch, command, str(FIXTURE), "--format", "html")
    assert capfd.readouterr().out == target.read_text(encoding="utf-8")
    assert target.read_text(encoding="utf-8").startswith("<!doctype html>")


@pytest.mark.parametrize("command", ["check", "sheet"])
def test_without_the_extra_pdf_says_so_and_writes_nothing(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    target = tmp_path / "page.pdf"
    assert run(monkeypatch, command, str(FIXTURE), "--format", "pdf", "--output", str(target)) == 3
    assert "mistwright[pdf]" in capfd.readouterr().err
    assert not target.exists()
