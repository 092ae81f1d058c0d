"""The line that says that something takes its time."""

from __future__ import annotations

import io
import time
from typing import Any

import pytest

from checker.commands import patience as module
from checker.commands.patience import patience


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture(autouse=True)
def impatient(monkeypatch: Any) -> None:
    monkeypatch.setattr(module, "_FIRST", 0.02)
    monkeypatch.setattr(module, "_NEXT", 0.02)


def test_what_takes_long_is_told_and_the_line_is_wiped_in_the_end() -> None:
    err = Terminal()
    with patience(err):
        while "still at it" not in err.getvalue():
            time.sleep(0.01)
    *_, shown, blanks, rest = err.getvalue().split("\r")
    assert shown.startswith("still at it")
    assert blanks == " " * len(shown)
    assert rest == ""


def test_what_is_quick_says_nothing() -> None:
    err = Terminal()
    with patience(err):
        pass
    assert err.getvalue() == ""


def test_nobody_watches_a_pipe() -> None:
    err = io.StringIO()
    with patience(err):
        time.sleep(0.1)
    assert err.getvalue() == ""


def test_a_mistake_passes_through_and_the_line_is_wiped() -> None:
    err = Terminal()

    def work() -> None:
        while not err.getvalue():
            time.sleep(0.01)
        raise ValueError("ours")

    with pytest.raises(ValueError, match="ours"), patience(err):
        work()
    assert err.getvalue().endswith(" \r")
