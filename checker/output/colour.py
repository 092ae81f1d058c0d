"""Colour for a terminal: the grade words only, which carry the meaning themselves."""

from __future__ import annotations

import re
import sys

from rich.console import Console
from rich.text import Text

from checker.output.text import STYLES

__all__ = ["show_coloured"]

_WORD = re.compile(r"^(STOP|CORRECT|CONFIRM|ADVISE|MET|VERDICT)\b")


def show_coloured(text: str) -> None:
    """Print a report with its grade words in colour."""
    console = Console(
        file=sys.stdout,
        force_terminal=True,
        color_system="standard",  # Whether to colour has been decided; a dumb TERM is not asked again.
        markup=False,
        highlight=False,
        soft_wrap=True,
        no_color=False,
    )
    for line in text.splitlines():
        match = _WORD.match(line)
        shown = Text(line)
        if match:
            shown.stylize(STYLES.get(match[1], "bold"), 0, match.end())
        console.print(shown)
