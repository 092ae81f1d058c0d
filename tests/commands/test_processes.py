"""The command in a process of its own: the same bytes, readers who go away, signals."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from benches import DRIVER, READY, TOP, WITH, apart


@pytest.mark.slow
@pytest.mark.parametrize("form", ["text", "json"])
def test_two_processes_give_the_same_bytes(plan: Callable[..., str], form: str) -> None:
    name = plan(WITH["stop"] + "drain: {}\n")
    one, other, third = (
        apart("check", name, "--format", form, environment={"PYTHONHASHSEED": seed})
        for seed in ("0", "1", "4242")
    )
    assert one.returncode == other.returncode == third.returncode == 1
    assert one.stdout == other.stdout == third.stdout
    assert one.stdout


@pytest.mark.slow
def test_a_reader_who_goes_away_gets_no_traceback(plan: Callable[..., str]) -> None:
    name = plan(READY)
    settings = {**os.environ, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off"}
    with subprocess.Popen(
        [sys.executable, "-c", DRIVER, "check", name, "--format", "json"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=settings,
    ) as process:  # fmt: skip
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        said = process.stderr.read()
        status = process.wait(30)
    assert said == b""
    assert status == 141


@pytest.mark.slow
@pytest.mark.parametrize("stream", ["0<&-", "1>&-", "2>&-"])
def test_a_closed_stream_is_no_fault_of_ours(plan: Callable[..., str], stream: str) -> None:
    name = plan(READY)
    source = "-" if stream == "0<&-" else name
    settings = {**os.environ, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off"}
    done = subprocess.run(
        ["sh", "-c", f'exec "$0" -c "$1" check {source} {stream}', sys.executable, DRIVER],
        capture_output=True, env=settings, timeout=60, check=False,
    )  # fmt: skip
    assert done.returncode == (3 if source == "-" else 0)
    assert b"Traceback" not in done.stderr


@pytest.mark.slow
@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8"])
def test_a_terminal_without_our_signs_costs_no_report(
    plan: Callable[..., str], encoding: str
) -> None:
    name = plan(READY.replace("J-1", "Ω² ≤ 𝄞"))
    done = apart("check", name, environment={"PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"})
    assert done.returncode == 0
    assert b"VERDICT" in done.stdout


@pytest.mark.slow
def test_a_name_that_is_not_unicode(plan: Callable[..., str]) -> None:
    Path(plan(READY)).rename(os.fsdecode(b"plan-\xff.yaml"))
    for form in ("text", "json"):
        done = apart(
            "check", os.fsdecode(b"plan-\xff.yaml"), "--format", form, "--output", "report.txt"
        )
        assert done.returncode == 0, done.stderr
        assert "plan-\\udcff.yaml" in Path("report.txt").read_text(encoding="utf-8").replace(
            "\\\\", "\\"
        )


@pytest.mark.slow
def test_an_interrupt_from_outside(plan: Callable[..., str]) -> None:
    waiting = DRIVER.replace(
        "from checker.cli import main\n",
        "import time, checker.running as running\n"
        "def wait(path):\n"
        "    print('waiting', flush=True)\n"
        "    time.sleep(30)\n"
        "running.read_bytes = wait\n"
        "from checker.cli import main\n",
    )
    settings = {**os.environ, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off"}
    with subprocess.Popen(
        [sys.executable, "-c", waiting, "check", plan(READY)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=settings,
    ) as process:  # fmt: skip
        assert process.stdout is not None
        assert process.stdout.readline() == b"waiting\n"
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=30)
    assert process.returncode == 130
    assert out == err == b""
