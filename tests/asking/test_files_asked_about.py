"""Files of any kind: completed, left whole, kept when changed meanwhile."""

from __future__ import annotations

import io
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from stated_values import value_in

from checker.asking.conversation import ask as hold
from checker.asking.terminal import Terminal
from checker.running import Checker


def test_a_description_of_ones_own_hand_is_completed(ask: Any, tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_bytes(b"# mine\r\njob: {stage: plan}\r\nmount:\r\n    kind: side-post   # post\r\n")
    ask(*[""] * 9, "80 kg", "28 kg")
    assert path.read_bytes() == (
        b"# mine\r\njob: {stage: plan}\r\nmount:\r\n    kind: side-post   # post\r\n"
        b"host:\r\n  capacity: 80 kg\r\ncollector:\r\n  mass: 28 kg\r\n"
    )


def test_a_value_over_several_lines_is_left_to_its_writer(ask: Any, tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    text = "job:\n  stage: plan\n  title: >-\n    a\n    b\nmount: {kind: side-post}\n"
    path.write_text(text, encoding="utf-8")
    found = ask("new", "", options=("--section", "job.title"))
    assert "only you can change: line 3" in " ".join(found.out.split())
    assert path.read_text(encoding="utf-8") == text


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("job: {stage: plan}\n", "'mount' is missing"),
        ("job: {a\n  b: [}\n", "try"),
        ("", "the file is empty"),
        ("job: {stage: plan}\nmount: {kind: side-post}\nhost: {capacity: 5}\n", "has no unit"),
    ],
)
def test_a_file_that_cannot_be_read_is_not_touched(
    ask: Any, tmp_path: Path, text: str, said: str
) -> None:
    path = tmp_path / "job.yaml"
    path.write_text(text, encoding="utf-8")
    found = ask("x")
    assert found.status == 3
    assert said in found.err
    assert path.read_text(encoding="utf-8") == text


def test_a_folder_is_no_description(ask: Any, tmp_path: Path) -> None:
    (tmp_path / "job.yaml").mkdir()
    assert ask("x").status == 3
    found = ask("side-post", "", "", name="no/such/job.yaml")
    assert found.status == 3
    assert "there is no such folder" in found.err


def test_a_link_stays_a_link(ask: Any, job: Path, tmp_path: Path) -> None:
    (tmp_path / "link.yaml").symlink_to(job)
    ask("K-7", name="link.yaml")
    assert (tmp_path / "link.yaml").is_symlink()
    assert value_in(job, "job.reference") == "K-7"


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_may_not_be_written_ends_it(ask: Any, job: Path, tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        found = ask("K-7")
    finally:
        tmp_path.chmod(0o700)
    assert found.status == 3
    assert "the file cannot be written" in found.err


def test_a_disk_that_is_full_ends_it_and_the_file_is_as_it_was(
    ask: Any, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = job.read_bytes()

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    found = ask("K-7", "A title")
    assert found.status == 3
    assert "No space left on device" in found.err
    assert job.read_bytes() == before
    assert list(job.parent.glob(".job*")) == []


class _Typist:
    """Answers that do something to the file before each is given."""

    def __init__(self, *acts: tuple[Callable[[], Any], str]) -> None:
        self.acts = list(acts)

    def isatty(self) -> bool:
        return False

    def readline(self) -> str:
        if not self.acts:
            return ""
        act, answer = self.acts.pop(0)
        act()
        return f"{answer}\n"


def _hold(path: Path, typist: _Typist) -> str:
    screen = io.StringIO()
    assert hold(path, None, Checker(), Terminal(typist, screen, 80)) == 0  # type: ignore[arg-type]
    return screen.getvalue()


def test_what_an_editor_saves_meanwhile_is_kept(job: Path) -> None:
    def edited() -> None:
        text = job.read_text(encoding="utf-8")
        job.write_text(text.replace("  site:\n", "  site: Hall 3   # by hand\n"), encoding="utf-8")

    _hold(job, _Typist((edited, "K-7"), (lambda: None, "A title")))
    assert value_in(job, "job.site") == "Hall 3"
    assert value_in(job, "job.reference") == "K-7"
    assert value_in(job, "job.title") == "A title"
    assert "# by hand" in job.read_text(encoding="utf-8")


def test_a_file_broken_meanwhile_is_not_written_over(job: Path) -> None:
    whole = job.read_text(encoding="utf-8")
    broken = whole.replace("  site:\n", "  site: [\n")
    seen = _hold(
        job,
        _Typist(
            (lambda: job.write_text(broken, encoding="utf-8"), "K-7"),
            (lambda: job.write_text(whole, encoding="utf-8"), "K-8"),
        ),
    )
    assert "was changed meanwhile and cannot be read" in " ".join(seen.split())
    assert value_in(job, "job.reference") == "K-8"
