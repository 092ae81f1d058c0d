"""What stands where a file should: a folder, a pipe, a device, a link to nothing; files that change meanwhile."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from attacks import PLAN, command, honest_lines
from campaign import told_well
from test_bad_yaml import HEAD

from checker import reading
from checker.errors import Mistakes
from checker.reading import read_bytes


def _missing(at: Path) -> None:
    del at


def _folder(at: Path) -> None:
    at.mkdir()


def _pipe(at: Path) -> None:
    os.mkfifo(at)


def _dangling(at: Path) -> None:
    at.symlink_to("nowhere.yaml")


def _circle(at: Path) -> None:
    at.symlink_to(at.name)


def _device(at: Path) -> None:
    at.symlink_to("/dev/zero")


def _empty_device(at: Path) -> None:
    at.symlink_to("/dev/null")


def _large(at: Path) -> None:
    with at.open("wb") as file:
        file.truncate(10 * 1024**3)


NO_FILES: list[tuple[str, Callable[[Path], None], str]] = [
    ("a file that is missing", _missing, "there is no such file"),
    ("a folder", _folder, "this is a folder"),
    ("a pipe that nobody writes to", _pipe, "this is not a file"),
    ("a link to nothing", _dangling, "there is no such file"),
    ("a link to itself", _circle, "the file cannot be read"),
    ("a link to a device that never ends", _device, "this is not a file"),
    ("a link to a device that is empty", _empty_device, "this is not a file"),
    ("ten gibibytes of nothing", _large, "the file is too large"),
]


@pytest.mark.parametrize(("make", "what"), [c[1:] for c in NO_FILES], ids=[c[0] for c in NO_FILES])
@pytest.mark.parametrize("use", ["check", "sheet", "site file", "window", "working", "audit"])
def test_in_the_place_of_a_file(
    make: Callable[[Path], None], what: str, use: str, tmp_path: Path
) -> None:
    path = tmp_path / "plan.yaml"
    make(path)
    (tmp_path / "honest").mkdir()
    honest = tmp_path / "honest" / "honest.yaml"
    honest.write_text(HEAD, encoding="utf-8")
    match use:
        case "site file":
            left = command("check", honest, "--fitted", path)
        case "window":
            left = command("window", path, "collector.mass")
        case "working":
            left = command("working", path, "load/host-capacity")
        case _:
            left = command(use, path)
    assert left.status == 3
    told = left.err or left.out
    assert what in told or use == "audit"
    told_well(left.err or left.out)


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(HEAD, encoding="utf-8")
    path.chmod(0)
    if os.geteuid() == 0:
        # The superuser may read everything; what others meet is put in its place.
        def refuse(*_: Any) -> int:
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr(reading.os, "open", refuse)
    left = command("check", path)
    assert left.status == 3
    assert "the file may not be read" in left.err


def test_a_file_that_is_replaced_while_it_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bytes are those of one file, the old one, whole."""
    path = tmp_path / "plan.yaml"
    old, new = b"a: 1\n" * 50_000, b"b: 2\n" * 50_000
    path.write_bytes(old)
    (tmp_path / "new.yaml").write_bytes(new)
    opened = os.fdopen

    def replace_first(*arguments: Any, **options: Any) -> Any:
        (tmp_path / "new.yaml").replace(path)
        return opened(*arguments, **options)

    monkeypatch.setattr(reading.os, "fdopen", replace_first)
    assert read_bytes(str(path)) == old
    monkeypatch.undo()
    assert read_bytes(str(path)) == new


@pytest.mark.parametrize("length", [0, 1, 100, len(HEAD) - 3, 5000, 20_000])
def test_a_file_that_is_cut_short_while_it_is_written(length: int, tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_bytes(PLAN[:length])
    left = command("check", path, "--brief")
    assert left.status in (0, 1, 3)
    assert (left.status == 3) is bool(left.err)


@pytest.mark.parametrize("data", [b"", b"\xff\xfe", b"\0" * 100, b"job", HEAD.encode()])
def test_on_standard_input(data: bytes) -> None:
    left = command("check", "-", stdin=data)
    assert left.status in (1, 3)
    assert "<standard input>" in left.out + left.err


def test_a_closed_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", None)
    with pytest.raises(Mistakes, match="nothing came on standard input"):
        read_bytes("-")


@pytest.mark.parametrize("make", [_folder, _dangling, _circle, _device, _empty_device, _pipe])
@pytest.mark.parametrize("use", ["--against", "merge", "--from"])
def test_in_the_place_of_an_earlier_audit(
    make: Callable[[Path], None], use: str, tmp_path: Path
) -> None:
    if make is _empty_device and use == "--from":
        pytest.skip("a list of nothing is the answer of another program, and an answer")
    if make is _pipe:
        pytest.skip("a pipe is waited for, as every program does: it may be another's output")
    path = tmp_path / "earlier.jsonl"
    make(path)
    (tmp_path / "plan.yaml").write_text(HEAD, encoding="utf-8")
    if use == "merge":
        left = command("merge", path)
    elif use == "--from":
        left = command("audit", "--from", path)
    else:
        left = command("audit", tmp_path / "plan.yaml", use, path)
    assert left.status in (2, 3), left
    told_well(left.err)


@pytest.mark.parametrize("make", [_folder, _circle, _device, _empty_device])
def test_in_the_place_of_a_memory(make: Callable[[Path], None], tmp_path: Path) -> None:
    """An audit goes on without its memory, and says so."""
    path = tmp_path / "memory"
    make(path)
    (tmp_path / "plan.yaml").write_text(HEAD, encoding="utf-8")
    left = command("audit", tmp_path / "plan.yaml", "--memory", path)
    assert left.status == 1
    assert "not used" in left.err
    assert "every job is judged afresh" in left.err


def test_an_audit_is_honest_here() -> None:
    """What the files above are put in the place of does work."""
    assert b'"totals"' in honest_lines()
    assert len(honest_lines().splitlines()) == 4
