"""What earlier runs left, spoilt since: an audit's memory and the kept rules."""

from __future__ import annotations

import contextlib
import hashlib
import marshal
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from attacks import command, remembered
from test_bad_yaml import HEAD


def test_a_memory_of_another_shape(tmp_path: Path) -> None:
    """Ours by its mark, but with other columns: an older or a hostile one."""
    (tmp_path / "plan.yaml").write_text(HEAD, encoding="utf-8")
    for statement in (
        "CREATE TABLE results (key, value)",
        "CREATE VIEW results AS SELECT 1 AS key, 2 AS rules, 3 AS line, 4 AS sum",
        "CREATE TABLE results (key BLOB PRIMARY KEY, rules BLOB, line TEXT, sum BLOB)",
        "CREATE TABLE asked (rules TEXT)",
        "CREATE TRIGGER t AFTER INSERT ON asked BEGIN SELECT RAISE(ABORT, 'no'); END",
    ):
        path = tmp_path / "memory"
        path.unlink(missing_ok=True)
        with contextlib.closing(sqlite3.connect(path)) as connection:
            connection.execute("PRAGMA application_id = 1298756468")
            connection.execute("PRAGMA user_version = 2")
            with contextlib.suppress(sqlite3.Error):
                connection.execute(statement)
            connection.commit()
        left = command("audit", tmp_path / "plan.yaml", "--memory", path)
        assert left.status == 1, (statement, left.err)
        assert "confirm" in left.out


def _whole(content: object) -> bytes:
    """A kept file of something else, with the digest that belongs to it."""
    packed = marshal.dumps(content)
    return hashlib.sha256(packed).digest() + packed


_SPOILT: list[tuple[str, Callable[[Path], Any]]] = [
    ("nothing", lambda e: e.write_bytes(b"")),
    ("half of it", lambda e: e.write_bytes(e.read_bytes()[: e.stat().st_size // 2])),
    ("all but the last byte", lambda e: e.write_bytes(e.read_bytes()[:-1])),
    ("one byte more", lambda e: e.write_bytes(e.read_bytes() + b"\0")),
    ("one bit changed", lambda e: e.write_bytes(e.read_bytes()[:-9] + bytes([e.read_bytes()[-9] ^ 1]) + e.read_bytes()[-8:])),
    ("zeros", lambda e: e.write_bytes(bytes(e.stat().st_size))),
    ("a folder", lambda e: (e.unlink(), e.mkdir())),
    ("a link to a device", lambda e: (e.unlink(), e.symlink_to("/dev/null"))),
    ("a file that others may write to", lambda e: (e.write_bytes(_whole({})), e.chmod(0o666))),
]  # fmt: skip


@pytest.mark.parametrize("spoil", [c[1] for c in _SPOILT], ids=[c[0] for c in _SPOILT])
def test_a_cache_with_something_else_in_it(spoil: Callable[[Path], Any]) -> None:
    """The rules are read again from their files, which is slower, and no less right."""

    def every(home: Path) -> None:
        for entry in home.iterdir():
            spoil(entry)

    found = remembered(every)
    assert [rule.name for rule in found.rules] == ["load/capacity"]


def test_a_cache_that_others_may_write_to_is_not_used() -> None:
    def share(home: Path) -> None:
        for entry in home.iterdir():
            entry.write_bytes(_whole({"code": compile("raise SystemExit('run')", "x", "exec")}))
        home.chmod(0o777)

    assert [rule.name for rule in remembered(share).rules] == ["load/capacity"]
