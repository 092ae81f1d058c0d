"""Streams, files and colour."""

from __future__ import annotations

import errno
import io
import os
import re
import stat
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from benches import READY, WITH

Run = Callable[..., Any]


def test_a_description_may_come_on_standard_input(run: Run) -> None:
    done = run("check", "-", stdin=READY.encode())
    assert done.status == 0
    assert "<standard input>" in done.out


def test_findings_go_to_standard_output_only(run: Run, plan: Callable[..., str]) -> None:
    done = run("check", plan(WITH["stop"]))
    assert done.err == ""
    assert "STOP" in done.out


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("environment", "options", "coloured"),
    [
        ({}, [], True),
        ({"NO_COLOR": "1"}, [], False),
        ({"NO_COLOR": ""}, [], True),
        ({"TERM": "dumb"}, [], False),
        ({"NO_COLOR": "1"}, ["--colour"], True),
        ({}, ["--no-colour"], False),
        ({"NO_COLOR": "1", "FORCE_COLOR": "1"}, [], False),
        ({"TERM": "dumb", "FORCE_COLOR": "1"}, [], True),
    ],
)
def test_colour_on_a_terminal(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch,
    environment: dict[str, str], options: list[str], coloured: bool,
) -> None:  # fmt: skip
    for name, value in {"TERM": "xterm", **environment}.items():
        monkeypatch.setenv(name, value)
    terminal = _Terminal()
    monkeypatch.setattr(sys, "stdout", terminal)
    assert run("check", plan(WITH["stop"]), *options).status == 1
    assert ("\x1b[" in terminal.getvalue()) == coloured


@pytest.mark.parametrize("form", ["text", "json"])
def test_what_is_piped_has_no_escape_codes(run: Run, plan: Callable[..., str], form: str) -> None:
    assert "\x1b" not in run("check", plan(WITH["stop"]), "--format", form).out


def test_colour_can_be_forced_into_a_pipe(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    name = plan(WITH["stop"])
    monkeypatch.setenv("FORCE_COLOR", "1")
    assert "\x1b[" in run("check", name).out
    assert "\x1b" not in run("check", name, "--format", "json").out


def test_colour_takes_no_word_away(run: Run, plan: Callable[..., str]) -> None:
    name = plan(WITH["stop"])
    coloured = run("check", name, "--colour").out
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == run("check", name, "--no-colour").out


def test_square_brackets_are_not_eaten_as_markup(run: Run, plan: Callable[..., str]) -> None:
    text = READY.replace("J-1", "'[bold]J[/bold] [/b] 1'").replace("100 kg", "39 kg")
    assert "[bold]J[/bold] [/b] 1" in run("check", plan(text), "--colour").out


def test_a_file_is_written_whole(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    shown = run("check", name).out
    done = run("check", name, "--output", "report.txt")
    assert (done.status, done.out) == (0, "")
    assert Path("report.txt").read_text(encoding="utf-8") == shown
    assert sorted(p.name for p in Path().iterdir()) == ["plan.yaml", "report.txt"]


def test_what_stood_there_is_kept_if_writing_fails(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    name = plan(READY)
    Path("report.txt").write_text("before")

    def fail(*_: Any) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", fail)
    done = run("check", name, "--output", "report.txt")
    assert done.status == 3
    assert "No space left on device" in done.err
    assert Path("report.txt").read_text() == "before"
    assert sorted(p.name for p in Path().iterdir()) == ["plan.yaml", "report.txt"]


@pytest.mark.parametrize("target", ["no/such/folder/report.txt", "."])
def test_a_place_that_cannot_be_written_to(run: Run, plan: Callable[..., str], target: str) -> None:
    done = run("check", plan(READY), "--output", target)
    assert done.status == 3
    assert "the file cannot be written" in done.err


def test_what_is_no_file_is_written_to_and_not_replaced(run: Run, plan: Callable[..., str]) -> None:
    """As root a report sent to /dev/null would else put a file in the place of nowhere.

    Tried on a pipe: a test of this that fails must do no harm to the machine.
    """
    name = plan(READY)
    os.mkfifo("pipe")
    # Opened for both ways, so that neither side waits for the other.
    handle = os.open("pipe", os.O_RDWR | os.O_NONBLOCK)
    try:
        assert run("check", name, "--output", "pipe").status == 0
        assert stat.S_ISFIFO(Path("pipe").stat().st_mode)
        assert b"VERDICT" in os.read(handle, 60_000)
    finally:
        os.close(handle)


def test_a_link_keeps_pointing_where_it_did(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    Path("real.txt").write_text("before")
    Path("link.txt").symlink_to("real.txt")
    assert run("check", name, "--output", "link.txt").status == 0
    assert Path("link.txt").is_symlink()
    assert "VERDICT" in Path("real.txt").read_text()


def test_links_in_a_circle(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    Path("a.txt").symlink_to("b.txt")
    Path("b.txt").symlink_to("a.txt")
    assert run("check", name, "--output", "a.txt").status == 3


def test_a_report_is_not_written_over_its_description(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    done = run("check", name, "--output", f"./{name}")
    assert done.status == 2
    assert Path(name).read_text() == READY
