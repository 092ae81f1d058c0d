"""What earlier audits found, so that an unchanged job under unchanged rules is not judged again.

A small SQLite file of packed JSON lines. A line is found by the digest of everything that
its answer depends on: the job's bytes, the rules' files, the overlays asked for, the
program's own files. Nothing in it is ever executed, and a file that is broken or not ours
is left alone: the audit then runs without it and says so in one line.
"""

from __future__ import annotations

import contextlib
import hashlib
import sqlite3
import zlib
from collections.abc import Iterator
from pathlib import Path

from checker.audit.results import FORMAT, JobResult, from_json, to_json

__all__ = ["Memory", "open_memory"]

_APPLICATION = 0x4D697374  # "Mist": tells our file from any other SQLite file
# What a kill in the middle costs at most; packed lines are a few kilobytes each.
_COMMIT_EVERY = 100
# Results under rules that were last asked for longer ago than this many sets of rules are
# forgotten, so that the file does not grow with every edition.
_RULES_KEPT = 4
_LONGEST = 16 * 1024 * 1024
# Seconds to wait for another audit that is just writing to the same file.
_PATIENCE = 5.0


class Memory:
    """The results of earlier audits under one set of rules, by key."""

    def __init__(self, connection: sqlite3.Connection, rules: bytes) -> None:
        self.connection = connection
        self.rules = rules
        self.waiting: list[tuple[bytes, bytes, bytes, bytes]] = []

    def recall(self, key: bytes, path: str) -> JobResult | None:
        """The result under a key, or None; a damaged line counts as none."""
        try:
            row = self.connection.execute(
                "SELECT line, sum FROM results WHERE key = ?", (key,)
            ).fetchone()
            if row is None or _sum(key, row[0]) != row[1]:
                return None
            found = from_json(zlib.decompressobj().decompress(row[0], _LONGEST))
        except (sqlite3.Error, zlib.error, ValueError, TypeError):
            return None
        # The same bytes may stand under another name now; a message names the file it is about.
        return found._replace(path=path) if found.path == path or not found.error else None

    def keep(self, key: bytes, result: JobResult) -> None:
        """Keep a result; it is written with the next few."""
        line = zlib.compress(to_json(result).encode(), 1)
        self.waiting.append((key, self.rules, line, _sum(key, line)))
        if len(self.waiting) >= _COMMIT_EVERY:
            self.flush()

    def flush(self) -> None:
        """Write what waits, in one transaction: all of it or nothing."""
        if self.waiting:
            # Without room for it the next audit judges again; this one goes on.
            with contextlib.suppress(sqlite3.Error), self.connection:
                self.connection.executemany(
                    "INSERT OR REPLACE INTO results VALUES (?, ?, ?, ?)", self.waiting
                )
            self.waiting.clear()


@contextlib.contextmanager
def open_memory(path: Path | None, rules: bytes) -> Iterator[tuple[Memory | None, str]]:
    """The memory in a file, and a line that says why it is not used ('' where it is).

    rules: the digest of the rules and the program that judge now.
    """
    if path is None:
        yield None, ""
        return
    connection = None
    try:
        connection = sqlite3.connect(path, timeout=_PATIENCE)
        why = _prepare(connection, rules)
    except sqlite3.Error as error:
        why = str(error)
    if connection is None or why:
        if connection is not None:
            connection.close()
        yield None, f"{path}: not used ({why}); every job is judged afresh"
        return
    memory = Memory(connection, rules)
    try:
        yield memory, ""
    finally:
        memory.flush()
        connection.close()


def _sum(key: bytes, line: bytes) -> bytes:
    return hashlib.sha256(key + line).digest()


def _prepare(connection: sqlite3.Connection, rules: bytes) -> str:
    mark = connection.execute("PRAGMA application_id").fetchone()[0]
    tables = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if mark != _APPLICATION and tables:
        return "it is another program's file"
    if connection.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
        return "it is damaged"
    version = connection.execute("PRAGMA user_version").fetchone()[0]
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = NORMAL")
    with connection:
        if tables and version != FORMAT:
            connection.execute("DROP TABLE IF EXISTS results")
            connection.execute("DROP TABLE IF EXISTS asked")
        connection.execute(f"PRAGMA application_id = {_APPLICATION}")
        connection.execute(f"PRAGMA user_version = {FORMAT}")
        connection.execute(
            "CREATE TABLE IF NOT EXISTS results (key BLOB PRIMARY KEY, rules BLOB NOT NULL, line BLOB NOT NULL, sum BLOB NOT NULL) WITHOUT ROWID"
        )
        connection.execute(
            "CREATE TABLE IF NOT EXISTS asked (rules BLOB PRIMARY KEY, turn INTEGER NOT NULL) WITHOUT ROWID"
        )
        connection.execute(
            "INSERT OR REPLACE INTO asked SELECT ?, ifnull(max(turn), 0) + 1 FROM asked", (rules,)
        )
        connection.execute(
            "DELETE FROM asked WHERE rules NOT IN (SELECT rules FROM asked ORDER BY turn DESC LIMIT ?)",
            (_RULES_KEPT,),
        )
        connection.execute("DELETE FROM results WHERE rules NOT IN (SELECT rules FROM asked)")
    return ""
