"""What changed between two audits: new, worse, better, gone, by job and rule, and why."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from checker.audit.results import Finding, JobResult, from_json, to_json
from checker.errors import Place, fault
from checker.grades import Grade

__all__ = ["Change", "Earlier", "changes_between"]

RuleDigests = Mapping[str, Mapping[str, str]]


class Change(NamedTuple):
    """One answer that is not what it was; ``kind`` is new, worse, better or gone."""

    rule: str
    kind: str
    before: str
    now: str
    why: str


def changes_between(
    before: JobResult, now: JobResult, digests_before: RuleDigests, digests_now: RuleDigests
) -> list[Change]:
    """The answers that differ, gravest first.

    digests: for each rulebook's digest the digest of each of its rules, which tells a
    change of the rule from one of the description.
    """
    if before.error or now.error:
        if bool(before.error) == bool(now.error):
            return []
        kind = "worse" if now.error else "better"
        return [
            Change(
                "description",
                kind,
                "unread" if before.error else before.verdict,
                "unread" if now.error else now.verdict,
                "description changed",
            )
        ]
    old = {f.key: f for f in before.findings}
    new = {f.key: f for f in now.findings}
    changes = []
    for key in dict.fromkeys([*new, *old]):
        was, is_ = old.get(key), new.get(key)
        if was is not None and is_ is not None and was.grade == is_.grade:
            continue
        why = _why(key, before, now, digests_before, digests_now)
        changes.append(
            Change(key, _kind(was, is_), was.grade if was else "", is_.grade if is_ else "", why)
        )
    return sorted(
        changes,
        key=lambda c: (
            _KINDS.index(c.kind),
            Grade.of(c.now) if c.now else Grade.NOT_APPLICABLE,
            c.rule,
        ),
    )


_KINDS = ("worse", "new", "better", "gone")


def _kind(was: Finding | None, now: Finding | None) -> str:
    if was is None:
        return "new"
    if now is None:
        return "gone"
    return "worse" if Grade.of(now.grade) < Grade.of(was.grade) else "better"


def _why(
    key: str,
    before: JobResult,
    now: JobResult,
    digests_before: RuleDigests,
    digests_now: RuleDigests,
) -> str:
    reasons = []
    if before.digest != now.digest:
        reasons.append("description changed")
    if before.overlays != now.overlays:
        reasons.append("overlay changed")
    if before.rulebook != now.rulebook:
        rule = key.partition("[")[0]
        was = digests_before.get(before.rulebook, {}).get(rule)
        is_ = digests_now.get(now.rulebook, {}).get(rule)
        if was is None and is_ is not None and digests_before.get(before.rulebook):
            reasons.append("rule added")
        elif was is not None and is_ is None:
            reasons.append("rule removed")
        elif was != is_:
            reasons.append("rule changed")
    return ", ".join(reasons) or "program changed"


class Earlier:
    """The results of an earlier audit, found by path; kept on disk, not in memory."""

    def __init__(self, path: Path) -> None:
        self.place = Place(str(path))
        # An empty name is a private file that SQLite deletes when it is closed.
        self.connection = sqlite3.connect("")
        self.connection.execute("CREATE TABLE jobs (path TEXT PRIMARY KEY, line TEXT)")
        self.digests: dict[str, dict[str, str]] = {}
        rows = ((result.path, to_json(result)) for result in self._results(path))
        with self.connection:
            self.connection.executemany("INSERT OR REPLACE INTO jobs VALUES (?, ?)", rows)

    def job(self, path: str) -> JobResult | None:
        """The earlier result of a job, or None if it is new."""
        row = self.connection.execute("SELECT line FROM jobs WHERE path = ?", (path,)).fetchone()
        return None if row is None else from_json(row[0])

    def paths(self) -> Iterator[str]:
        """Every job of the earlier audit."""
        for row in self.connection.execute("SELECT path FROM jobs ORDER BY path"):
            yield row[0]

    def close(self) -> None:
        """Let the private file go."""
        self.connection.close()

    def _results(self, path: Path) -> Iterator[JobResult]:
        try:
            with path.open(encoding="utf-8") as file:
                for number, line in enumerate(file, 1):
                    text = line.strip().rstrip(",")
                    if text.startswith('{"format"'):
                        yield self._result(text, number)
                    elif text.startswith('{"totals"'):
                        self._totals(text)
                    elif '"totals":' in text:
                        # The end of a whole JSON document: the rest of it is the totals.
                        self._totals("{" + text[text.index('"totals":') :] + file.read())
        except (OSError, UnicodeDecodeError) as error:
            fault("the earlier audit cannot be read", self.place, found=str(error)[:120])

    def _result(self, text: str, number: int) -> JobResult:
        try:
            return from_json(text)
        except ValueError as error:
            fault(
                "the earlier audit is not one of ours",
                Place(self.place.file, number, 1),
                found=str(error)[:120],
                expected="the JSON or JSON lines that an audit wrote",
            )

    def _totals(self, text: str) -> None:
        try:
            totals: Any = json.loads(text)["totals"]
            self.digests = {b: dict(r) for b, r in totals.get("rule_digests", {}).items()}
        except (ValueError, KeyError, AttributeError, TypeError):
            # Without them a change is still told, only the rule's part in it less exactly.
            self.digests = {}
