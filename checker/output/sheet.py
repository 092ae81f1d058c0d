"""The fitting sheet as text for a terminal and as Markdown.

On paper a line bears the number of the rule it comes from; the rules by number close the
sheet. Markdown, which is read on a screen, has the rule beside its line.
"""

from __future__ import annotations

import re
import textwrap
from itertools import groupby

from checker.output.text import VERDICT_MEANING
from checker.reporting.fitting_sheet import Entry, Sheet

__all__ = ["NOT_VERIFIED", "STAR", "has_unverified", "render_markdown", "render_text"]

# Stands behind a rule whose answer rests on something from memory.
STAR = "*"
NOT_VERIFIED = "Reference not verified: this rule rests on a figure or a text quoted from memory. Ask for it before you rely on the line."

_NOTE = "Figures are checks of what was stated. Local codes, the makers' instructions and licensed people prevail."
_SIGNS = (
    "[?] a figure is missing: state the field named.  [!] the rule is not met: put it right first."
)
# Where a person writes.
_ROOM = {"measure": " reads ________", "sign": " ________________"}
_LEAST_SIGNATURE = 24
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=[^\W\d]|[°%])")


def render_text(sheet: Sheet, *, width: int = 80) -> str:
    """The sheet as plain text: a box to tick before each line, its rule's number behind it."""
    numbers = _numbers(sheet)
    out = [*_wrap(f"FITTING SHEET {sheet.reference}: {sheet.title}".rstrip(": "), width), ""]
    out += _wrap(
        f"Verdict of the {sheet.stage}: {sheet.verdict.value}. {VERDICT_MEANING[sheet.verdict]}",
        width,
    )
    for line in sheet.open:
        out += _wrap(f"  {line}", width, "    ")
    if any(not e.complete or e.grade for part in sheet.parts for e in part.entries):
        out += _wrap(_SIGNS, width)
    for part in sheet.parts:
        out += ["", part.title.upper()]
        for number, entry in enumerate(part.entries, 1):
            box = _box(part.name, entry, number)
            grade = f": {entry.grade}" if entry.grade else ""
            text = f"{box} {entry.text} ({numbers[entry.rule]}{_star(entry)}{grade})"
            indent = " " * (len(box) + 1)
            out += _wrap(text, width, indent)
            if part.name == "sign":
                out += _signature(out, width, indent)
    out += ["", "RULES BEHIND THE LINES", *_index(numbers, width)]
    out += ["", *(line for note in _notes(sheet) for line in _wrap(note, width))]
    out += _wrap(_foot(sheet), width)
    return "\n".join(out) + "\n"


def render_markdown(sheet: Sheet) -> str:
    """The sheet as Markdown."""
    out = [f"# Fitting sheet {_plain(sheet.reference)}", "", _plain(sheet.title), ""]
    out += [
        f"**Verdict of the {sheet.stage}: {sheet.verdict.value}.** {VERDICT_MEANING[sheet.verdict]}",
        "",
    ]
    out += [f"- {_plain(line)}" for line in sheet.open]
    for part in sheet.parts:
        out += ["", f"## {part.title}", ""]
        mark = "1. [ ]" if part.name == "hold" else "- [ ]"
        room = _ROOM.get(part.name, "")
        out += [f"{mark} {_plain(e.text)} `{_source(e)}`{room}" for e in part.entries]
    for note in (*map(_plain, _notes(sheet)), _foot(sheet)):
        out += ["", note]
    return "\n".join(out) + "\n"


def _box(part: str, entry: Entry, number: int) -> str:
    """The place to tick a line off, or to write a reading in; a sign in it says that it is not ready."""
    sign = "?" if not entry.complete else "!" if entry.grade else " "
    if part == "hold":
        return f"{number:>2}. [{sign}]"
    return f"[{sign}        ]" if part == "measure" else f"[{sign}]"


def _signature(out: list[str], width: int, indent: str) -> list[str]:
    """Room to sign: on the last line if it leaves some, else on one of its own."""
    room = width - len(out[-1]) - 1
    if room >= _LEAST_SIGNATURE:
        out[-1] += " " + "_" * room
        return []
    return [indent + "_" * (width - len(indent))]


def _numbers(sheet: Sheet) -> dict[str, int]:
    """A number for each rule, family by family."""
    rules = sorted({entry.rule for part in sheet.parts for entry in part.entries})
    return {rule: number for number, rule in enumerate(rules, 1)}


def _index(numbers: dict[str, int], width: int) -> list[str]:
    out: list[str] = []
    for family, rules in groupby(numbers, key=lambda rule: rule.rpartition("/")[0]):
        names = ", ".join(f"{numbers[rule]} {rule.rpartition('/')[2]}" for rule in rules)
        out += _wrap(f"{family}/ {names}", width, "  ")
    return out


def _source(entry: Entry) -> str:
    grade = f": {entry.grade}" if entry.grade else ""
    return f"{entry.rule}{_star(entry)}{grade}"


def _star(entry: Entry) -> str:
    return STAR if entry.unverified else ""


def _notes(sheet: Sheet) -> list[str]:
    return [*([f"{STAR} {NOT_VERIFIED}"] if has_unverified(sheet) else []), _NOTE]


def has_unverified(sheet: Sheet) -> bool:
    """Whether any line rests on something from memory, so that the star must be explained."""
    return any(entry.unverified for part in sheet.parts for entry in part.entries)


def _foot(sheet: Sheet) -> str:
    local = f", local {', '.join(sheet.overlays)}" if sheet.overlays else ""
    return f"mistwright {sheet.tool}, rulebook {sheet.rulebook[:12]}, description {sheet.digest[:12]}{local}"


def _wrap(text: str, width: int, indent: str = "") -> list[str]:
    """A text in lines, no number parted from its unit."""
    kept = _BEFORE_UNIT.sub("\N{NO-BREAK SPACE}", text)
    lines = textwrap.wrap(
        kept, width, subsequent_indent=indent, break_on_hyphens=False, break_long_words=False
    )
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines] or [""]


def _plain(text: str) -> str:
    """A text with nothing in it that Markdown would act on."""
    for sign in "\\`*_{}[]<>#|":
        text = text.replace(sign, "\\" + sign)
    return " ".join(text.split())
