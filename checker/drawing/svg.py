"""An SVG in millimetres, element by element: every text escaped, every number rounded alike.

Colours are set twice: as attributes, so that a drawing stands alone and on paper, and as
classes, which a page may colour for the dark.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

__all__ = ["Svg", "fitted", "mm", "text_width"]

Point = tuple[float, float]
_STROKES = {
    "outline": 'stroke="#000" stroke-width="0.4"',
    "thin": 'stroke="#000" stroke-width="0.15"',
    "missing": 'stroke="#000" stroke-width="0.3" stroke-dasharray="1.6 1.1"',
    "bad": 'stroke="#000" stroke-width="0.8"',
    "limit": 'stroke="#000" stroke-width="0.5" stroke-dasharray="0.5 0.7"',
    "axis": 'stroke="#000" stroke-width="0.25"',
    "grid": 'stroke="#bbb" stroke-width="0.15"',
    "curve": 'stroke="#000" stroke-width="0.6"',
    "curve-clean": 'stroke="#000" stroke-width="0.5" stroke-dasharray="3 1"',
    "curve-dirty": 'stroke="#000" stroke-width="0.5" stroke-dasharray="3 0.8 0.6 0.8"',
    "centre": 'stroke="#000" stroke-width="0.12" stroke-dasharray="3 0.6 0.5 0.6"',
    "person": 'stroke="#777" stroke-width="0.3"',
    "none": 'stroke="none"',
}
_FILLS = {"none": "none", "paper": "#fff", "tint": "#e8e8e8", "shade": "#bdbdbd", "ink": "#000"}
_ANCHORS = {"start": "", "middle": ' text-anchor="middle"', "end": ' text-anchor="end"'}


def mm(value: float) -> str:
    """A number to a hundredth of a millimetre.

    >>> mm(12.0), mm(0.126), mm(-0.001)
    ('12', '0.13', '0')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def escaped(text: str) -> str:
    """A text as SVG shows it; what XML cannot hold is made visible.

    >>> escaped('<b> "a" & ' + chr(27))
    '&lt;b&gt; &quot;a&quot; &amp; �'
    """
    for sign, written in (
        ("&", "&amp;"),
        ("<", "&lt;"),
        (">", "&gt;"),
        ('"', "&quot;"),
        ("'", "&#39;"),
    ):
        text = text.replace(sign, written)
    return "".join(c if c in "\t\n" or unicodedata.category(c) not in ("Cc", "Cs") else "\ufffd" for c in text)  # fmt: skip


def text_width(text: str, size: float) -> float:
    """About how wide a text is; on the wide side of what common sans-serif fonts need."""
    wide = sum(unicodedata.east_asian_width(c) in "WF" for c in text)
    return size * (0.62 * (len(text) - wide) + 1.05 * wide)


def fitted(text: str, width: float, size: float) -> str:
    """A text cut to what fits, with an ellipsis where something is left out.

    >>> fitted("suction hose at the unit", 20.0, 3.0)
    'suction h…'
    """
    if text_width(text, size) <= width:
        return text
    kept = ""
    for sign in text:
        if text_width(kept + sign + "…", size) > width:
            break
        kept += sign
    return kept.rstrip() + "…"


class Svg:
    """One drawing. y runs down, as in SVG; whoever draws levels turns them round."""

    def __init__(
        self, width: float, height: float, name: str, title: str, description: str
    ) -> None:
        self.width = width
        self.height = height
        self.name = name
        self.title = title
        self.description = description
        self.parts: list[str] = []

    def __str__(self) -> str:
        name = escaped(self.name)
        return "\n".join(
            [
                f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="img" aria-labelledby="{name}-title {name}-desc" width="{mm(self.width)}mm" height="{mm(self.height)}mm" viewBox="0 0 {mm(self.width)} {mm(self.height)}" font-family="\'DejaVu Sans\', \'Segoe UI\', Roboto, Arial, sans-serif">',
                f'<title id="{name}-title">{escaped(self.title)}</title>',
                f'<desc id="{name}-desc">{escaped(self.description)}</desc>',
                *self.parts,
                "</svg>",
            ]
        )

    def line(self, start: Point, end: Point, stroke: str, data: str = "") -> None:
        """A straight line; ``data`` names what its length stands for."""
        named = f' data-of="{escaped(data)}"' if data else ""
        self.parts.append(
            f'<line class="s-{stroke}" x1="{mm(start[0])}" y1="{mm(start[1])}" x2="{mm(end[0])}" y2="{mm(end[1])}" {_STROKES[stroke]}{named}/>'
        )

    def rectangle(
        self, left: float, top: float, width: float, height: float, stroke: str, fill: str = "none", data: str = ""
    ) -> None:  # fmt: skip
        """An upright rectangle."""
        named = f' data-of="{escaped(data)}"' if data else ""
        self.parts.append(
            f'<rect class="s-{stroke} f-{fill}" x="{mm(left)}" y="{mm(top)}" width="{mm(width)}" height="{mm(height)}" fill="{_FILLS[fill]}" {_STROKES[stroke]}{named}/>'
        )

    def path(self, points: Sequence[Point], stroke: str, fill: str = "none", *, closed: bool = False, data: str = "") -> None:  # fmt: skip
        """A line through points."""
        named = f' data-of="{escaped(data)}"' if data else ""
        drawn = "M" + " L".join(f"{mm(x)} {mm(y)}" for x, y in points) + ("Z" if closed else "")
        self.parts.append(
            f'<path class="s-{stroke} f-{fill}" d="{drawn}" fill="{_FILLS[fill]}" stroke-linejoin="round" {_STROKES[stroke]}{named}/>'
        )

    def wall(self, points: Sequence[Point], bore: float, *, missing: bool) -> None:
        """The outside of a pipe as wide as its bore; its inside goes over it."""
        dashes = ' stroke-dasharray="1.6 1.1"' if missing else ""
        self._wide(points, "wall", "#000", max(bore, 0.8) + 0.4, dashes)

    def inside(self, points: Sequence[Point], bore: float) -> None:
        """The inside of a pipe, over its walls and those of its neighbours."""
        self._wide(points, "inside", "#fff", max(bore, 0.8) - 0.2, "")

    def _wide(
        self, points: Sequence[Point], name: str, colour: str, width: float, dashes: str
    ) -> None:
        drawn = "M" + " L".join(f"{mm(x)} {mm(y)}" for x, y in points)
        self.parts.append(
            f'<path class="{name}" d="{drawn}" fill="none" stroke="{colour}" stroke-linejoin="round" stroke-width="{mm(width)}"{dashes}/>'
        )

    def circle(self, centre: Point, radius: float, stroke: str, fill: str = "none") -> None:
        """A circle."""
        self.parts.append(
            f'<circle class="s-{stroke} f-{fill}" cx="{mm(centre[0])}" cy="{mm(centre[1])}" r="{mm(radius)}" fill="{_FILLS[fill]}" {_STROKES[stroke]}/>'
        )

    def text(
        self, at: Point, text: str, size: float = 3.0, *, anchor: str = "start", upright: bool = False,
        bold: bool = False, halo: bool = False,
    ) -> None:  # fmt: skip
        """A text on its baseline; ``upright`` reads from below, ``halo`` clears the lines behind it."""
        turned = f' transform="rotate(-90 {mm(at[0])} {mm(at[1])})"' if upright else ""
        weight = ' font-weight="bold"' if bold else ""
        if halo:
            # Paint order is not known to every reader of SVG, so the halo is a text of its own.
            self.parts.append(
                f'<text class="halo" aria-hidden="true" x="{mm(at[0])}" y="{mm(at[1])}" font-size="{mm(size)}" fill="#fff" stroke="#fff" stroke-width="0.9" stroke-linejoin="round"{_ANCHORS[anchor]}{weight}{turned}>{escaped(text)}</text>'
            )
        self.parts.append(
            f'<text class="t" x="{mm(at[0])}" y="{mm(at[1])}" font-size="{mm(size)}" fill="#000"{_ANCHORS[anchor]}{weight}{turned}>{escaped(text)}</text>'
        )
