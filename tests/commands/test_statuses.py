"""Exit statuses: the bar, misuse, faults of ours, interrupts, the version."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from benches import READY, TOP, WITH

from checker import __version__
from checker.__main__ import main as main_of_both

Run = Callable[..., Any]


@pytest.mark.parametrize(
    ("grade", "accept", "status"),
    [
        ("ready", None, 0), ("advise", None, 0), ("confirm", None, 1), ("correct", None, 1), ("stop", None, 1),
        ("stop", "stop", 0), ("correct", "stop", 0), ("correct", "correct", 0), ("confirm", "correct", 0),
        ("correct", "confirm", 1), ("confirm", "confirm", 0), ("advise", "confirm", 0),
        ("advise", "met", 1), ("ready", "met", 0),
    ],
)  # fmt: skip
def test_the_status_says_whether_the_bar_was_met(
    run: Run, plan: Callable[..., str], grade: str, accept: str | None, status: int
) -> None:
    arguments = ["check", plan(WITH[grade])] + (["--accept", accept] if accept else [])
    assert run(*arguments).status == status


@pytest.mark.parametrize(
    ("grade", "verdict"),
    [
        ("ready", "ready"),
        ("advise", "ready"),
        ("confirm", "confirm"),
        ("correct", "rework"),
        ("stop", "hold"),
    ],
)
def test_the_verdict_is_the_last_thing_said(
    run: Run, plan: Callable[..., str], grade: str, verdict: str
) -> None:
    out = run("check", plan(WITH[grade])).out.rstrip().splitlines()
    last = next(line for line in reversed(out) if not line.startswith(" "))
    assert last.startswith(f"VERDICT  {verdict}: ")


@pytest.mark.parametrize(
    "arguments",
    [
        ["check"], ["chekc", "x"], ["check", "--nothing", "x"], ["check", "a.yaml", "--format", "poem"],
        ["check", "a.yaml", "--accept", "ready"], ["check", "a.yaml", "b.yaml"], ["working", "a.yaml"],
        ["audit"], ["rulebook", "shwo"], ["rulebook", "show"], ["--nothing"],
    ],
)  # fmt: skip
def test_a_command_used_wrongly_exits_with_2(run: Run, arguments: list[str]) -> None:
    done = run(*arguments)
    assert done.status == 2
    assert done.out == ""
    assert "Usage:" in done.err
    assert "Traceback" not in done.err


def test_a_fault_of_ours_exits_with_4_and_says_so(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: Any, **__: Any) -> Any:
        raise RuntimeError("the sky fell")

    monkeypatch.setattr("checker.running.Checker.report", fail)
    done = run("check", plan(READY))
    assert done.status == 4
    assert "a fault of ours (RuntimeError: the sky fell)" in done.err
    assert "Traceback" not in done.err


def test_a_fault_of_ours_is_shown_whole_to_whoever_asks(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: Any, **__: Any) -> Any:
        raise RuntimeError("the sky fell")

    monkeypatch.setattr("checker.running.Checker.report", fail)
    monkeypatch.setenv("MISTWRIGHT_DEBUG", "1")
    with pytest.raises(RuntimeError, match="the sky fell"):
        run("check", plan(READY))


def test_an_interrupted_run_exits_with_130(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupt(*_: Any, **__: Any) -> Any:
        raise KeyboardInterrupt

    monkeypatch.setattr("checker.running.Checker.report", interrupt)
    assert run("check", plan(READY)).status == 130


@pytest.mark.parametrize("option", ["--version", "-V"])
def test_the_version_alone_is_told_before_the_options_are_loaded(
    run: Run, option: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "argv", ["mistwright", option])
    main_of_both()
    assert capsys.readouterr().out == run(option).out


def test_the_version_is_told_without_reading_a_rule(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("checker.rulebook.loading.RULES", Path("/no/such/folder"))
    done = run("--version")
    assert (done.status, done.out) == (0, f"mistwright {__version__}\n")


@pytest.mark.parametrize(
    "command",
    [
        [],
        ["check"],
        ["working"],
        ["audit"],
        ["window"],
        ["fields"],
        ["rulebook"],
        ["rulebook", "test"],
    ],
)
def test_every_command_explains_itself_in_80_columns(run: Run, command: list[str]) -> None:
    done = run(*command, "--help")
    assert done.status == 0
    assert done.out.startswith("Usage: mistwright")
    assert max(map(len, done.out.splitlines())) <= 80


@pytest.mark.slow
def test_the_shipped_rules_load_and_answer(plan: Callable[..., str]) -> None:
    """The one test here that reads the shipped rules."""
    settings = {**os.environ, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off"}
    done = subprocess.run(
        [sys.executable, "-m", "checker", "check", plan(READY)],
        capture_output=True, env=settings, timeout=120, check=False,
    )  # fmt: skip
    assert done.returncode == 1, done.stderr.decode()[:2000]
    assert b"VERDICT" in done.stdout
