"""A field's window on a terminal: a row a rule, a column a value."""

from __future__ import annotations

import textwrap

from checker.findings import FieldWindow
from checker.units.quantities import format_number

__all__ = ["LETTERS", "render"]

# A letter for each grade, so that it reads without colour and aloud.
LETTERS = {
    "stop": "S",
    "correct": "c",
    "confirm": "?",
    "advise": "a",
    "met": ".",
    "not-applicable": " ",
}


def render(window: FieldWindow, *, width: int = 80) -> str:
    """The chart: what every rule says across the field's range."""
    unit = f" {window.unit}" if window.unit else ""
    out = [f"{window.path}, stated {window.stated}", ""]
    rows = window.rules
    label = max((len(r.rule + r.subject) for r in rows), default=20) + 2
    columns = max(min(len(window.values), width - label - 1), 10)
    picked = (
        [round(i * (len(window.values) - 1) / (columns - 1)) for i in range(columns)]
        if len(window.values) > columns
        else list(range(len(window.values)))
    )
    for row in rows:
        out.append(
            f"{row.rule + row.subject:<{label}}" + "".join(LETTERS[row.grades[i]] for i in picked)
        )
    if rows:
        low, high = (f"{format_number(window.values[i])}{unit}" for i in (0, -1))
        out.append(f"{'':<{label}}{low}{high:>{max(len(picked) - len(low), len(high) + 1)}}")
    else:
        out.append("No rule changes its grade in the usual range of this field.")
    out += ["", "S stop, c correct, ? confirm, a advise, . met; blank: does not apply", ""]
    out += textwrap.wrap(window.sentence, width)
    return "\n".join(out) + "\n"
