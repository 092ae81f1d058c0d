"""A shape for each grade, so that none rests on colour: the same on the page and in a drawing."""

from __future__ import annotations

from math import cos, pi, sin

from checker.drawing.svg import Svg, mm
from checker.grades import Grade

__all__ = ["draw_grade", "grade_icon"]


def _ring(corners: int, turn: float) -> list[tuple[float, float]]:
    return [(cos(2 * pi * (i + turn) / corners), sin(2 * pi * (i + turn) / corners)) for i in range(corners)]  # fmt: skip


_OUTLINES = {
    Grade.STOP: (_ring(8, 0.5), True),
    Grade.CORRECT: ([(0.0, -1.0), (1.0, 0.85), (-1.0, 0.85)], True),
    Grade.CONFIRM: (_ring(4, 0.0), False),
    Grade.ADVISE: (_ring(24, 0.0), False),
}
_SIGNS = {
    Grade.STOP: [[(-0.5, 0.0), (0.5, 0.0)]],
    Grade.CORRECT: [[(0.0, -0.35), (0.0, 0.5)]],
    Grade.CONFIRM: [[(-0.3, 0.0), (0.3, 0.0)]],
    Grade.ADVISE: [[(0.0, -0.45), (0.0, 0.45)]],
    Grade.MET: [[(-0.8, 0.1), (-0.25, 0.65), (0.85, -0.6)]],
    Grade.NOT_APPLICABLE: [[(-0.7, 0.0), (0.7, 0.0)]],
}


def draw_grade(svg: Svg, at: tuple[float, float], grade: Grade, radius: float = 1.4) -> None:
    """Draw a grade's shape round a point."""
    outline = _OUTLINES.get(grade)
    if outline is not None:
        points, filled = outline
        svg.path([(at[0] + x * radius, at[1] + y * radius) for x, y in points], "axis", "ink" if filled else "paper", closed=True)  # fmt: skip


def grade_icon(grade: Grade) -> str:
    """A grade's shape for a line of text; it says nothing to a screen reader, the word does."""
    parts = []
    outline = _OUTLINES.get(grade)
    inside = "currentColor"
    if outline is not None:
        points, filled = outline
        drawn = "M" + " L".join(f"{mm(x * 10)} {mm(y * 10)}" for x, y in points) + "Z"
        fill = "currentColor" if filled else "none"
        inside = "#fff" if filled else "currentColor"
        parts.append(f'<path d="{drawn}" fill="{fill}" stroke="currentColor" stroke-width="1.6"/>')
    width = "2.2" if outline is not None else "3"
    for sign in _SIGNS[grade]:
        drawn = "M" + " L".join(f"{mm(x * 10)} {mm(y * 10)}" for x, y in sign)
        parts.append(
            f'<path class="sign" d="{drawn}" fill="none" stroke="{inside}" stroke-width="{width}"/>'
        )
    return f'<svg class="grade-icon g-{grade.word}" aria-hidden="true" focusable="false" width="12" height="12" viewBox="-11 -11 22 22">{"".join(parts)}</svg>'
