"""The source register on a terminal, as JSON, or for a spreadsheet."""

from __future__ import annotations

import csv
import io
import json
import textwrap
from collections.abc import Sequence
from dataclasses import asdict, fields

from checker.rulebook.model import CONFIDENCES
from checker.rulebook.register import Entry, count_by

__all__ = ["FORMS", "render"]

FORMS = ("text", "json", "csv")
# What a spreadsheet would take for a formula.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def render(entries: Sequence[Entry], form: str, *, width: int = 80) -> str:
    """The register in one of the forms. Raises KeyError for a form that does not exist."""
    if form == "text":
        return _text(entries, width)
    return {"json": _json, "csv": _csv}[form](entries)


def _text(entries: Sequence[Entry], width: int) -> str:
    out: list[str] = []
    before = None
    for entry in entries:
        if (entry.family, entry.rule) != before:
            before = entry.family, entry.rule
            out += ["", entry.rule]
        shown = " ".join(x for x in (entry.value, entry.unit) if x)
        what = f"{entry.name} = {shown}" if entry.name else shown
        where = ", ".join(x for x in (entry.title, entry.edition, entry.clause) if x)
        for text, indent in ((what, "  "), (f"{entry.confidence}: {where}", "      ")):
            out += textwrap.wrap(
                text,
                width,
                initial_indent=indent,
                subsequent_indent=" " * (len(indent) + 2),
                break_on_hyphens=False,
                break_long_words=False,
            )
    out += ["", *_counted(entries, "family", "family"), "", *_counted(entries, "kind", "kind")]
    return "\n".join(out).lstrip("\n") + "\n"


def _counted(entries: Sequence[Entry], what: str, heading: str) -> list[str]:
    counts = count_by(entries, what)
    wide = max([len(heading), len("all"), *map(len, counts)]) + 2
    columns = [*CONFIDENCES, "all"]
    out = [f"{heading:<{wide}}" + "".join(f"{c:>17}" for c in columns)]
    whole = dict.fromkeys(CONFIDENCES, 0)
    for name, count in counts.items():
        out.append(
            f"{name:<{wide}}" + "".join(f"{n:>17}" for n in [*count.values(), sum(count.values())])
        )
        for word, number in count.items():
            whole[word] += number
    out.append(f"{'all':<{wide}}" + "".join(f"{n:>17}" for n in [*whole.values(), len(entries)]))
    return out


def _json(entries: Sequence[Entry]) -> str:
    data = {
        "entries": [asdict(entry) for entry in entries],
        "by_family": count_by(entries, "family"),
        "by_kind": count_by(entries, "kind"),
        "by_source": count_by(entries, "source"),
    }
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"


def _csv(entries: Sequence[Entry]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    names = [field.name for field in fields(Entry)]
    writer.writerow(names)
    for entry in entries:
        row = asdict(entry) | {"used_by": " ".join(entry.used_by)}
        writer.writerow([_guarded(str(row[name])) for name in names])
    return out.getvalue()


def _guarded(cell: str) -> str:
    return "'" + cell if cell.startswith(_FORMULA) else cell
