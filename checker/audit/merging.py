"""The parts of an audit put together again: the same answer as one run, to the byte."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import ExitStack
from itertools import zip_longest
from pathlib import Path
from typing import NamedTuple, TextIO

from checker.audit.comparing import Change
from checker.audit.results import JobResult, from_json, status_of
from checker.audit.totals import Totals
from checker.audit.writers import open_writer
from checker.errors import Place, fault
from checker.grades import Grade
from checker.writing import writing_whole

__all__ = ["merge_parts"]


class _Line(NamedTuple):
    result: JobResult
    changes: list[Change]


def merge_parts(
    parts: tuple[str, ...], form: str, output: Path | None, accept: Grade, out: TextIO
) -> int:
    """Write the jobs of all parts in the order of one run; the highest status of them all.

    Part K of N held every N-th job from the K-th on, so the parts are dealt out in turn.
    Raises Mistakes for a file that is not the JSON lines of an audit, or not whole.
    """
    totals = Totals()
    status = 0
    with ExitStack() as stack, writing_whole(output, out) as file:
        digests: dict[str, dict[str, str]] = {}
        lines = [_lines(part, stack, digests) for part in parts]
        writer = open_writer(form, file)
        for turn in zip_longest(*lines):
            for line in turn:
                if line is None:
                    continue
                writer.job(line.result, line.changes)
                totals.add(line.result)
                status = max(status, status_of(line.result, accept))
        totals.rule_digests = {d: r for d, r in digests.items() if d in totals.rulebooks}
        writer.end(totals)
    return status


def _lines(part: str, stack: ExitStack, digests: dict[str, dict[str, str]]) -> Iterator[_Line]:
    try:
        file = stack.enter_context(Path(part).open(encoding="utf-8"))  # noqa: SIM115 - the stack closes it
    except OSError as error:
        fault("the part cannot be read", Place(part), found=str(error.strerror))
    whole = False
    for number, text in enumerate(file, 1):
        try:
            data = json.loads(text)
            if "totals" in data:
                digests.update(data["totals"]["rule_digests"])
                whole = True
                continue
            yield _Line(from_json(text), [Change(*c) for c in data.get("changes", ())])
        except (ValueError, KeyError, TypeError, AttributeError) as error:
            fault(
                "the part is not the JSON lines of an audit",
                Place(part, number, 1),
                found=str(error)[:120],
            )
    if not whole:
        fault(
            "the part is not whole",
            Place(part),
            expected="a last line with the totals",
            hint="run that part again",
        )
