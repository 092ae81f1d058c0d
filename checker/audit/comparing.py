"""What changed between two audits: new, worse, better, gone, by job and rule, and why."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple, NoReturn

from checker.audit.line_files import numbered_lines, rest_of
from checker.audit.results import Finding, JobResult, from_json, rule_digests_from, to_json
from checker.errors import Place, fault
from checker.grades import Grade

__all__ = ["Change", "Earlier", "change_from", "changes_between"]

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
            KINDS.index(c.kind),
            Grade.of(c.now) if c.now else Grade.NOT_APPLICABLE,
            c.rule,
        ),
    )


KINDS = ("worse", "new", "better", "gone")
_HALF = 32


def change_from(entry: list[str]) -> Change:
    """The change that a line of JSON holds; raises ValueError for anything else."""
    if len(entry) != len(Change._fields) or not all(type(part) is str for part in entry):
        raise ValueError("a change that is none")
    change = Change(*entry)
    if change.kind not in KINDS or not "".join(entry).isprintable():
        raise ValueError("a change that is none")
    return change


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
    if before.rulebook != now.rulebook:
        rule = key.partition("[")[0]
        old, new = digests_before.get(before.rulebook, {}), digests_now.get(now.rulebook, {})
        was, is_ = old.get(rule, ""), new.get(rule, "")
        if is_ and old and not was:
            reasons.append("rule added")
        elif was and new and not is_:
            reasons.append("rule removed")
        # A rule's digest has two halves: its files, and what overlays changed in them.
        elif was[:_HALF] != is_[:_HALF]:
            reasons.append("rule changed")
        if was[_HALF:] != is_[_HALF:] and before.overlays != now.overlays:
            reasons.append("overlay changed")
    return ", ".join(reasons) or "program changed"


class Earlier:
    """The results of an earlier audit, found by path; kept on disk, not in memory."""

    def __init__(self, path: Path) -> None:
        self.place = Place(str(path))
        # An empty name is a private file that SQLite deletes when it is closed.
        self.connection = sqlite3.connect("")
        self.connection.execute(
            "CREATE TABLE jobs (path TEXT PRIMARY KEY, verdict TEXT, line TEXT)"
        )
        self.digests: dict[str, dict[str, str]] = {}
        rows = ((r.path, r.verdict, to_json(r)) for r in self._results(path))
        with self.connection:
            self.connection.executemany("INSERT OR REPLACE INTO jobs VALUES (?, ?, ?)", rows)

    def job(self, path: str) -> JobResult | None:
        """The earlier result of a job, or None if it is new."""
        row = self.connection.execute("SELECT line FROM jobs WHERE path = ?", (path,)).fetchone()
        return None if row is None else from_json(row[0])

    def verdicts(self) -> Iterator[tuple[str, str]]:
        """Every job of the earlier audit with its verdict."""
        yield from self.connection.execute("SELECT path, verdict FROM jobs ORDER BY path")

    def close(self) -> None:
        """Let the private file go."""
        self.connection.close()

    def _results(self, path: Path) -> Iterator[JobResult]:
        whole = False
        try:
            lines = numbered_lines(path)
            for number, line in lines:
                text = line.strip().rstrip(",")
                if text.startswith('{"format"'):
                    yield self._result(text, number)
                elif '"totals":' in text:
                    # The last line, or the end of a whole JSON document: what follows
                    # belongs to the totals.
                    totals = "{" + text[text.index('"totals":') :] + rest_of(lines)
                    self._totals(totals, number)
                    whole = True
                elif text not in _FRAME:
                    self._refuse("neither a job nor the totals", number)
        except (OSError, ValueError) as error:
            fault("the earlier audit cannot be read", self.place, found=str(error)[:120])
        if not whole:
            fault(
                "the earlier audit is not whole",
                self.place,
                expected="totals at its end",
                hint="run it again",
            )

    def _result(self, text: str, number: int) -> JobResult:
        try:
            return from_json(text)
        except ValueError as error:
            self._refuse(str(error)[:120], number)

    def _totals(self, text: str, number: int) -> None:
        try:
            self.digests = rule_digests_from(json.loads(text)["totals"])
        except (ValueError, KeyError, TypeError, RecursionError) as error:
            self._refuse(str(error)[:120], number)

    def _refuse(self, found: str, number: int) -> NoReturn:
        fault(
            "the earlier audit is not one of ours",
            Place(self.place.file, number, 1),
            found=found,
            expected="the JSON or JSON lines that an audit of this version wrote",
        )


# What stands around the jobs in a whole JSON document.
_FRAME = ("", '{"jobs": [')
