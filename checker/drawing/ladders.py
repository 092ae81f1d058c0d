"""Heights and free widths to one scale, side by side: clearances that have no place in a view."""

from __future__ import annotations

from checker.drawing.grades import draw_grade
from checker.drawing.sheet import (
    EDGE,
    PERSON,
    SIZE,
    WIDTH,
    Frame,
    Numbered,
    choose_scale,
    described,
    draw_dimension,
    draw_ground,
    draw_person,
)
from checker.drawing.svg import Svg, fitted, text_width
from checker.findings import Geometry

__all__ = ["draw_heights", "draw_widths"]


def draw_heights(geometry: Geometry, dimensions: list[Numbered]) -> tuple[int, Svg]:
    """Upright lines from the floor, a person and the ceiling beside them; the scale and the drawing."""
    reach = [d.extent.end for d in dimensions]
    reach += [d.standing.metres for d in dimensions if d.bad and d.standing and d.standing.metres]
    top = max([*reach, PERSON, geometry.ceiling or 0.0])
    scale = choose_scale(1.0, top, WIDTH, 115.0)
    title = "Heights above the floor"
    person = 700 / scale
    step = min(max((WIDTH - person - 2 * EDGE) / max(len(dimensions), 1), 8.0), 12.0)
    width = EDGE * 2 + person + step * len(dimensions) + 6
    floor = EDGE + top * 1000 / scale + 3
    svg = Svg(max(width, 80.0), floor + 8, "heights", title, described(title, scale, dimensions))
    frame = Frame(EDGE, floor, 0.0, scale)
    draw_ground(svg, frame, svg.width - 2)
    if geometry.ceiling is not None:
        y = frame.y(geometry.ceiling)
        svg.line((EDGE, y), (svg.width - 2, y), "outline")
        svg.text((EDGE, y - 1), "ceiling above the outlet", 2.4)
    draw_person(svg, frame, 0.35)
    for i, one in enumerate(dimensions):
        at = EDGE + person + step * (i + 0.7)
        draw_dimension(svg, frame, one, at, at - 2)
    return scale, svg


def draw_widths(dimensions: list[Numbered]) -> tuple[int, Svg]:
    """Level lines one below the other, each with its name before it; the scale and the drawing."""
    reach = [d.extent.end for d in dimensions]
    reach += [d.standing.metres for d in dimensions if d.bad and d.standing and d.standing.metres]
    label = 64.0
    scale = choose_scale(max(reach), 1.0, WIDTH - label - 16, 1e9)
    title = "Free widths"
    names = EDGE + label
    svg = Svg(WIDTH, EDGE * 2 + 9.0 * len(dimensions), "widths", title, described(title, scale, dimensions))  # fmt: skip
    frame = Frame(names, 0.0, 0.0, scale)
    for i, one in enumerate(dimensions):
        at = EDGE + 9.0 * (i + 0.7)
        stroke = "bad" if one.bad else "outline"
        start, end = frame.x(one.extent.start), frame.x(one.extent.end)
        svg.text(
            (names - 3, at + 1),
            fitted(f"{one.number}: {one.extent.name}", label, SIZE),
            SIZE,
            anchor="end",
        )
        for place in (start, end):
            svg.line((place, at - 2), (place, at + 2), "axis")
        svg.line((start, at), (end, at), stroke, one.extent.field)
        value = one.label.partition(": ")[2]
        room = text_width(value, SIZE) + 6
        after = end + 2 if end + room < svg.width else max(svg.width - room, start)
        if one.bad and one.standing is not None:
            if one.standing.metres is not None and frame.x(one.standing.metres) < svg.width - 2:
                x = frame.x(one.standing.metres)
                svg.line((x, at - 2.6), (x, at + 2.6), "limit", f"limit of {one.extent.field}")
            draw_grade(svg, (after + 1.5, at - 2.4), one.standing.grade)
            svg.text((after + 4, at - 1.4), value, SIZE, bold=True, halo=True)
        else:
            svg.text((after, at - 1.2 if after < end else at + 1), value, SIZE, halo=True)
    return scale, svg
