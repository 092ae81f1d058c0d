"""What earlier audits found, so that an unchanged job under an unchanged rulebook is not judged again.

A small SQLite file of JSON lines. A line is found by the digest of everything that its
answer depends on: the job's bytes, the rules' files, the overlays asked for, the
program's own version. Nothing in it is ever executed, and a file that is broken or not
ours is left alone: the audit then runs without it and says so in one line.
"""

from __future__ import annotations

import contextlib
import hashlib
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from checker.audit.results import FORMAT, JobResult, from_json, to_json

__all__ = ["Memory", "open_memory"]

_APPLICATION = 0x4D697374  # "Mist": tells our file from any other SQLite file
_COMMIT_EVERY = 500


class Memory:
    """The results of earlier audits, by key."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection
        self.waiting: list[tuple[bytes, str, str]] = []

    def recall(self, key: bytes, path: str) -> JobResult | None:
        """The result under a key, or None; a damaged line counts as none."""
        try:
            row = self.connection.execute(
                "SELECT result, sum FROM results WHERE key = ?", (key,)
            ).fetchone()
            if row is None or hashlib.sha256(row[0].encode()).hexdigest() != row[1]:
                return None
            found = from_json(row[0])
        except (sqlite3.Error, ValueError, AttributeError):
            return None
        # The same bytes may stand under another name now.
        return found._replace(path=path) if found.path == path or not found.error else None

    def keep(self, key: bytes, result: JobResult) -> None:
        """Keep a result; it is written with the next few hundred."""
        line = to_json(result)
        self.waiting.append((key, line, hashlib.sha256(line.encode()).hexdigest()))
        if len(self.waiting) >= _COMMIT_EVERY:
            self.flush()

    def flush(self) -> None:
        """Write what waits, in one transaction: all of it or nothing."""
        if self.waiting:
            with contextlib.suppress(sqlite3.Error), self.connection:
                self.connection.executemany(
                    "INSERT OR REPLACE INTO results VALUES (?, ?, ?)", self.waiting
                )
            self.waiting.clear()


@contextlib.contextmanager
def open_memory(path: Path | None) -> Iterator[tuple[Memory | None, str]]:
    """The memory in a file, and a line that says why it is not used ('' where it is)."""
    if path is None:
        yield None, ""
        return
    try:
        connection = sqlite3.connect(path, timeout=5)
        why = _prepare(connection)
    except sqlite3.Error as error:
        yield None, f"{path}: not used ({error}); every job is judged afresh"
        return
    if why:
        connection.close()
        yield None, f"{path}: not used ({why}); every job is judged afresh"
        return
    memory = Memory(connection)
    try:
        yield memory, ""
    finally:
        memory.flush()
        connection.close()


def _prepare(connection: sqlite3.Connection) -> str:
    mark = connection.execute("PRAGMA application_id").fetchone()[0]
    tables = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if mark != _APPLICATION and tables:
        return "it is another program's file"
    if connection.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
        return "it is damaged"
    version = connection.execute("PRAGMA user_version").fetchone()[0]
    with connection:
        if tables and version != FORMAT:
            connection.execute("DROP TABLE IF EXISTS results")
        connection.execute(f"PRAGMA application_id = {_APPLICATION}")
        connection.execute(f"PRAGMA user_version = {FORMAT}")
        connection.execute(
            "CREATE TABLE IF NOT EXISTS results (key BLOB PRIMARY KEY, result TEXT NOT NULL, sum TEXT NOT NULL) WITHOUT ROWID"
        )
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = NORMAL")
    return ""
