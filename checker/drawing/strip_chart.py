"""A field's window: a strip a rule, the grade over the field's range, what meets all at the foot."""

from __future__ import annotations

from collections.abc import Callable
from itertools import groupby

from checker import units
from checker.drawing.grades import draw_grade
from checker.drawing.svg import Svg, fitted, text_width
from checker.findings import FieldWindow
from checker.grades import Grade
from checker.units import quantities
from checker.units.quantities import format_number

__all__ = ["draw_strip_chart", "stretches"]

_WIDTH, _LABEL, _STRIP = 165.0, 58.0, 8.0
_FILL = {
    "stop": "ink",
    "correct": "shade",
    "confirm": "tint",
    "advise": "tint",
    "met": "paper",
    "not-applicable": "none",
}


def stretches(window: FieldWindow, grades: tuple[str, ...]) -> list[tuple[str, float, float]]:
    """The grade and its first and last value, for each stretch of like grades."""
    found = []
    place = 0
    for grade, same in groupby(grades):
        length = len(list(same))
        found.append((grade, window.values[place], window.values[place + length - 1]))
        place += length
    return found


def draw_strip_chart(window: FieldWindow, name: str) -> str:
    """Draw one field's window; grades are words, shapes and shades."""
    height = 10 + _STRIP * (len(window.rules) + 1) + 18
    svg = Svg(
        _WIDTH,
        height,
        name,
        f"Window of {window.path}",
        f"{window.sentence} The table below says it rule by rule.",
    )
    low, high = window.values[0], window.values[-1]
    right = _WIDTH - 6

    def x_of(value: float) -> float:
        return _LABEL + (right - _LABEL) * (value - low) / ((high - low) or 1.0)

    for i, rule in enumerate(window.rules):
        top = 8 + _STRIP * i
        subject = f" {rule.subject}".rstrip()
        svg.text(
            (_LABEL - 2, top + 4.6), fitted(rule.rule + subject, _LABEL - 4, 2.6), 2.6, anchor="end"
        )
        edges = _edges(window, rule.grades)
        for grade, start, end in edges:
            left, width = x_of(start), x_of(end) - x_of(start)
            svg.rectangle(
                left, top + 0.8, width, _STRIP - 1.6, "axis", _FILL[grade], f"{grade} {rule.rule}"
            )
            if grade != "not-applicable" and width > 4:
                draw_grade(svg, (left + 2.4, top + _STRIP / 2), Grade.of(grade), 1.3)
            if width > text_width(grade, 2.4) + 6 and grade != "stop":
                svg.text((left + 5, top + 4.9), grade, 2.4)
            elif width > text_width(grade, 2.4) + 6:
                svg.rectangle(
                    left + 4.4, top + 2, text_width(grade, 2.4) + 1, _STRIP - 4, "none", "paper"
                )
                svg.text((left + 5, top + 4.9), grade, 2.4)
    foot = 8 + _STRIP * len(window.rules)
    svg.text((_LABEL - 2, foot + 4.6), "meets all", 2.6, anchor="end", bold=True)
    if window.low is not None and window.high is not None:
        svg.line(
            (x_of(window.low), foot + 4),
            (x_of(window.high), foot + 4),
            "bad",
            f"window of {window.path}",
        )
    unit = units.need(window.unit).shown if window.unit else ""
    for i in range(5):
        value = low + (high - low) * i / 4
        svg.line((x_of(value), foot + 7), (x_of(value), foot + 8.4), "axis")
        svg.text(
            (x_of(value), foot + 11.6),
            format_number(value),
            2.6,
            anchor="middle" if i < 4 else "end",
        )
    svg.line((_LABEL, foot + 7), (right, foot + 7), "axis")
    svg.text(
        ((_LABEL + right) / 2, foot + 15.4),
        f"{window.path}{', ' + unit if unit else ''}",
        2.8,
        anchor="middle",
    )
    _stated(svg, window, x_of, foot + 7)
    return str(svg)


def _edges(window: FieldWindow, grades: tuple[str, ...]) -> list[tuple[str, float, float]]:
    """Stretches that touch: the border lies half-way between the two values that differ."""
    found = stretches(window, grades)
    return [
        (
            grade,
            first if i == 0 else (found[i - 1][2] + first) / 2,
            last if i == len(found) - 1 else (last + found[i + 1][1]) / 2,
        )
        for i, (grade, first, last) in enumerate(found)
    ]


def _stated(svg: Svg, window: FieldWindow, x_of: Callable[[float], float], bottom: float) -> None:
    try:
        stated = quantities.parse(window.stated)
    except quantities.NotAQuantity:
        return
    unit = units.need(window.unit) if window.unit else stated.unit
    x = x_of((stated.value - unit.offset) / unit.factor)
    if _LABEL <= x <= svg.width - 6:
        svg.line((x, 5), (x, bottom), "limit", f"stated {window.path}")
        half = text_width(window.stated, 2.6) / 2
        svg.text((min(x, svg.width - half - 8), 4), f"stated {window.stated}", 2.6, anchor="middle")
