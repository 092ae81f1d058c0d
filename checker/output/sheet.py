"""The fitting sheet as text for a terminal and as Markdown."""

from __future__ import annotations

import textwrap

from checker.fitting_sheet import Sheet
from checker.output.text import VERDICT_MEANING

__all__ = ["render_markdown", "render_text"]

_NOTE = "Figures are checks of what was stated. Local codes, the makers' instructions and licensed people prevail."


def render_text(sheet: Sheet, *, width: int = 80) -> str:
    """The sheet as plain text: a box to tick before each line, its rule behind it."""
    out = [f"FITTING SHEET  {sheet.reference}  {sheet.title}".rstrip(), ""]
    out += _wrap(
        f"Verdict of the {sheet.stage}: {sheet.verdict.value}. {VERDICT_MEANING[sheet.verdict]}",
        width,
    )
    for line in sheet.open:
        out += _wrap(f"  {line}", width, "    ")
    for part in sheet.parts:
        out += ["", part.title.upper()]
        for number, entry in enumerate(part.entries, 1):
            box = f"{number:>2}. [ ]" if part.name == "hold" else "[ ]"
            out += _wrap(f"{box} {entry.text}  ({entry.rule})", width, " " * (len(box) + 1))
    out += ["", *_wrap(_NOTE, width), *_wrap(_foot(sheet), width)]
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
        out += [f"{mark} {_plain(e.text)} `{e.rule}`" for e in part.entries]
    out += ["", _NOTE, "", _foot(sheet)]
    return "\n".join(out) + "\n"


def _foot(sheet: Sheet) -> str:
    local = f", local {', '.join(sheet.overlays)}" if sheet.overlays else ""
    return f"mistwright {sheet.tool}, rulebook {sheet.rulebook[:12]}, description {sheet.digest[:12]}{local}"


def _wrap(text: str, width: int, indent: str = "") -> list[str]:
    return textwrap.wrap(
        text, width, subsequent_indent=indent, break_on_hyphens=False, break_long_words=False
    ) or [""]


def _plain(text: str) -> str:
    """A text with nothing in it that Markdown would act on."""
    for sign in "\\`*_{}[]<>#|":
        text = text.replace(sign, "\\" + sign)
    return " ".join(text.split())
