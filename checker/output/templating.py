"""Templates: everything escaped, nothing undefined, what stands in a page of our own making excepted."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from checker.drawing.grades import grade_icon
from checker.grades import Grade

__all__ = ["fill", "icon", "trusted"]

_TEMPLATES = Path(__file__).resolve().parent / "templates"
# The desk takes the colours and the drawings from the same files.
_STYLES = {
    "style": ("palette.css", "style.css", "drawing.css", "paper.css"),
    "sheet_style": ("sheet.css",),
    "rule_style": ("rule.css",),
}
# Between a number and its unit no line may break.
_NO_BREAK = "\N{NO-BREAK SPACE}"
# A number that stands alone, with the unit behind it where that is one of those used on site.
_UNITS = "m/s|Ω|Mohm|ohm|mm|cm|m|in|ft|kg|t|lb|dB|N·m|N\\*m|lbf·ft|lbf\\*ft|N|kN|lbf|V|A|Hz|kW|Pa|kPa|L|s|min|°C|°F|°|%|rpm|m³/h|ft³/min"
_FIGURE = re.compile(rf"((?<![\w.\[-])[0-9]+(?:[./][0-9]+)?(?: (?:{_UNITS})(?![\w/]))?(?![\w.-]))")


def trusted(svg: str) -> Markup:
    """A drawing made by checker.drawing, which has escaped every text in it."""
    return Markup(svg)  # noqa: S704


def fill(template: str, **values: Any) -> str:
    """A template filled in."""
    return _environment().get_template(template).render(**values)


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["kept"] = _kept_together
    environment.globals["icon"] = icon
    environment.filters["figures"] = _big_figures
    for name, files in _STYLES.items():
        parts = [(_TEMPLATES / file).read_text(encoding="utf-8") for file in files]
        environment.globals[name] = trusted("".join(parts))
    return environment


def icon(grade: Grade) -> Markup:
    """A grade's shape."""
    return trusted(grade_icon(grade))


def _big_figures(text: str) -> Markup:
    """A text whose numbers, with the units behind them, stand out."""
    parts = _FIGURE.split(text)
    return Markup("").join(
        Markup('<b class="figure">{}</b>').format(part.replace(" ", _NO_BREAK)) if i % 2 else part
        for i, part in enumerate(parts)
    )


def _kept_together(text: str) -> str:
    """A measure that stays on one line."""
    return text.replace(" ", _NO_BREAK) if len(text) < 24 else text
