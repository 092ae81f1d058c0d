"""Stopped at any moment, at a terminal and without one: nothing is lost."""

from __future__ import annotations

import os
import pty
import random
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from stated_values import value_in

from checker.asking.starting import begun, needs_of
from checker.output.new_description import render, schema_for
from checker.places import SCHEMAS
from checker.running import Checker

COMMAND = [sys.executable, "-u", "-m", "checker", "ask"]


def _started(path: Path, *arguments: str, **options: Any) -> subprocess.Popen[bytes]:
    environment = {**os.environ, "PYTHONPATH": str(SCHEMAS.parent)}
    return subprocess.Popen([*COMMAND, str(path), *arguments], env=environment, **options)


def _until(process: subprocess.Popen[bytes], what: bytes, times: int = 1) -> None:
    assert process.stdout is not None
    seen = b""
    while seen.count(what) < times:
        piece = os.read(process.stdout.fileno(), 65536)
        assert piece, seen
        seen += piece


def _new(path: Path) -> None:
    book = Checker().rulebook
    start = begun(book.layout, "side-post", "plan", None)
    path.write_text(render(start, needs_of(book, start), schema=schema_for(path)), encoding="utf-8")


@pytest.mark.slow
def test_a_kill_at_any_moment_leaves_the_file_whole_with_all_that_was_answered(
    tmp_path: Path,
) -> None:
    path = tmp_path / "job.yaml"
    _new(path)
    chance = random.Random(4)
    held = ""
    for turn in range(8):
        process = _started(
            path, "--section", "job.title", stdin=subprocess.PIPE, stdout=subprocess.PIPE
        )
        assert process.stdin is not None
        try:
            _until(process, b"\n> ")
            process.stdin.write(f"answer {turn}\n".encode())
            process.stdin.flush()
            if turn % 2:
                # It has gone on: what was answered before has to be on the disk by now.
                _until(process, b"still open")
                held = f"answer {turn}"
            else:
                time.sleep(chance.random() * 0.2)
        finally:
            process.kill()
            process.wait()
            process.stdin.close()
            process.stdout.close()  # type: ignore[union-attr]
        assert value_in(path, "job.title") in (held or None, f"answer {turn}")
        held = value_in(path, "job.title") or ""
        if turn % 2:
            assert held == f"answer {turn}"


@pytest.mark.slow
@pytest.mark.parametrize("times", [1, 3])
def test_an_interrupt_says_that_nothing_is_lost(tmp_path: Path, times: int) -> None:
    path = tmp_path / "job.yaml"
    _new(path)
    process = _started(
        path, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
    )
    assert process.stdin is not None
    _until(process, b"\n> ")
    process.stdin.write(b"K-7\n" * (times - 1))
    process.stdin.flush()
    if times > 1:
        _until(process, b"\n> ", times - 1)
    process.send_signal(signal.SIGINT)
    out, _ = process.communicate(timeout=60)
    assert process.returncode == 130
    assert b"Stopped. Every answer so far is in" in out
    assert b"Traceback" not in out


@pytest.mark.slow
def test_at_a_terminal(tmp_path: Path) -> None:
    # A real terminal: prompts by input(), the end of input by Ctrl-D.
    path = tmp_path / "job.yaml"
    _new(path)
    master, slave = pty.openpty()
    process = _started(path, stdin=slave, stdout=slave, stderr=slave)
    os.close(slave)
    seen = b""

    def until(*wanted: bytes) -> None:
        nonlocal seen
        while not all(what in seen for what in wanted):
            seen += os.read(master, 65536)
        seen = b""

    until(b"job.reference", b"\n> ")
    os.write(master, b"K-7\n")
    until(b"job.title", b"\n> ")
    os.write(master, b"\x04")
    until(b"VERDICT  confirm")
    assert process.wait(timeout=60) == 0
    os.close(master)
    assert value_in(path, "job.reference") == "K-7"


def test_without_any_input_it_says_how_things_stand(ask: Any, job: Path) -> None:
    before = job.read_bytes()
    found = ask()
    assert found.status == 0
    assert "2 of 2 questions are still open: host 1, collector 1." in found.out
    assert job.read_bytes() == before
