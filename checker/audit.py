"""Many descriptions against one rulebook: a row each, and the gravest status."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from checker.errors import Mistakes, Place, fault
from checker.grades import Grade, Verdict
from checker.running import Checker

__all__ = ["Row", "audit_paths", "exit_status", "render_audit"]

_SUFFIXES = (".yaml", ".yml", ".json")


class Row(NamedTuple):
    """One description's result; ``error`` where it could not be read."""

    path: str
    verdict: Verdict | None
    counts: dict[str, int]
    gravest: tuple[str, ...]
    error: str


def audit_paths(paths: Iterable[str], checker: Checker) -> list[Row]:
    """Check every description in the paths, in the order of their names.

    Raises Mistakes where a path holds none: a slip in a name must not look like success.
    """
    return [_row(path, checker) for path in _files(paths)]


def exit_status(rows: list[Row], accept: Grade) -> int:
    """The highest status of all the rows."""
    if any(row.error for row in rows):
        return 3
    worst = min(
        (Grade.of(w) for row in rows for w, n in row.counts.items() if n), default=Grade.MET
    )
    return 0 if worst >= accept else 1


def render_audit(rows: list[Row], form: str) -> str:
    """The result as a table or as JSON."""
    if form == "json":
        return (
            json.dumps(
                [
                    {
                        "path": r.path,
                        "verdict": r.verdict,
                        "counts": r.counts,
                        "gravest": list(r.gravest),
                        "error": r.error,
                    }
                    for r in rows
                ],
                indent=2,
                ensure_ascii=False,
            )
            + "\n"
        )
    out = [
        f"{'verdict':<9}{'stop':>5}{'correct':>8}{'confirm':>8}{'advise':>7}{'met':>5}  description"
    ]
    for row in rows:
        if row.verdict is None:
            out.append(f"{'unread':<9}{'':>33}  {row.path}")
            out.append(f"{'':<11}{row.error.splitlines()[0]}")
        else:
            c = row.counts
            out.append(
                f"{row.verdict.value:<9}{c['stop']:>5}{c['correct']:>8}{c['confirm']:>8}{c['advise']:>7}{c['met']:>5}  {row.path}"
            )
    verdicts = Counter(r.verdict.value if r.verdict else "unread" for r in rows)
    out += [
        "",
        f"{len(rows)} descriptions: " + ", ".join(f"{n} {v}" for v, n in sorted(verdicts.items())),
    ]
    failing = Counter(rule for row in rows for rule in dict.fromkeys(row.gravest))
    if failing:
        out += [
            "most often stop or correct:",
            *(
                f"  {n:>4}  {rule}"
                for rule, n in sorted(failing.items(), key=lambda x: (-x[1], x[0]))[:10]
            ),
        ]
    return "\n".join(out) + "\n"


def _files(paths: Iterable[str]) -> list[str]:
    found: dict[str, None] = {}
    for text in paths:
        path = Path(text)
        if path.is_dir():
            inside = [
                p.as_posix()
                for p in sorted(path.rglob("*"))
                if p.suffix in _SUFFIXES and p.is_file()
            ]
            if not inside:
                fault(
                    "no description in this folder",
                    Place(text),
                    expected="files ending in .yaml, .yml or .json",
                )
            found.update(dict.fromkeys(inside))
        else:
            found[path.as_posix()] = None
    return list(found)


def _row(path: str, checker: Checker) -> Row:
    try:
        report = checker.report(path)
    except Mistakes as error:
        return Row(path, None, {}, (), str(error))
    gravest = tuple(f.rule for f in report.findings if f.grade <= Grade.CORRECT)
    return Row(path, report.verdict, report.counts, gravest, "")
