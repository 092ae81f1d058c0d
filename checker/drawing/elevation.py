"""The elevation: side view with the duct, front view with the drain, heights, free widths.

All four are to scale from the same geometry. What is not stated is dashed and says so.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from checker.drawing.ladders import draw_heights, draw_widths
from checker.drawing.sheet import (
    EDGE,
    PERSON,
    WIDTH,
    Frame,
    Numbered,
    choose_scale,
    described,
    draw_dimension,
    draw_ground,
    draw_person,
)
from checker.drawing.standing import standings
from checker.drawing.svg import Svg, fitted
from checker.findings import Finding, Geometry, Mark, PipeRun, Shape

__all__ = ["Elevation", "View", "draw_elevation"]

_HEIGHT = 175.0
_COLUMN, _ROW = 8.0, 7.0
_UNTIL_CEILING = 0.9
_TITLES = {
    "side": ("Side view", "the duct unrolled into the plane of the paper"),
    "front": ("Front view", "the drain unrolled to the right"),
    "heights": ("Heights above the floor", "side by side; where each is across is not described"),
    "widths": ("Free widths", "one below the other, to one scale"),
}


class View(NamedTuple):
    """One drawing with its title, its scale, what it leaves out, and the dimensions it carries."""

    name: str
    title: str
    note: str
    scale: int
    svg: str
    dimensions: tuple[Numbered, ...]


class Elevation(NamedTuple):
    """All views, and what could not be drawn as stated."""

    views: tuple[View, ...]
    notes: tuple[str, ...]


def draw_elevation(
    geometry: Geometry, findings: Iterable[Finding] = (), *, tallest: float = _HEIGHT
) -> Elevation:
    """Draw an installation; the dimensions that a finding complains of are marked with their limit.

    tallest: how high a view may become, in millimetres of paper; the scale follows.
    """
    judged = standings(geometry.extents, tuple(findings))
    numbered = [Numbered(n, e, judged.get(e.field)) for n, e in enumerate(geometry.extents, 1)]
    views = []
    for name, (title, note) in _TITLES.items():
        chosen = [n for n in numbered if n.extent.view == name]
        if name in ("side", "front"):
            scale, svg = _draw_view(geometry, name, chosen, tallest)
        elif chosen:
            ladder = draw_heights(geometry, chosen) if name == "heights" else draw_widths(chosen)
            scale, svg = ladder
        else:
            continue
        views.append(View(name, title, note, scale, str(svg), tuple(chosen)))
    return Elevation(tuple(views), geometry.notes)


def _draw_view(
    geometry: Geometry, name: str, dimensions: list[Numbered], tallest: float
) -> tuple[int, Svg]:
    shapes = [s for s in geometry.shapes if s.view == name]
    runs = [r for r in geometry.runs if r.view == name]
    marks = [m for m in geometry.marks if m.view == name]
    xs = [x for s in shapes for x in (s.left, s.left + s.width)] + [x for r in runs for x, _ in r.points] + [m.x + 0.3 * m.part.startswith("outlet-s") for m in marks]  # fmt: skip
    zs = (
        [s.bottom + s.height for s in shapes]
        + [z + r.bore for r in runs for _, z in r.points]
        + [PERSON]
    )
    ceiling = geometry.ceiling if name == "side" else None
    upright = [d for d in dimensions if d.extent.axis == "vertical"]
    level = [d for d in dimensions if d.extent.axis == "horizontal"]
    near = ceiling is not None and ceiling <= max(zs) + _UNTIL_CEILING
    if near and ceiling is not None:
        zs.append(ceiling)
    elif ceiling is not None:
        # Too far up to be drawn without making all else small: said in words, and with the heights.
        upright = [d for d in upright if d.extent.field != "surroundings.outlet.ceiling_gap"]
    # The names of the drain's pieces stand to their right.
    left, right, top = min(xs) - 0.75, max(xs) + (0.4 if name == "front" else 0.12), max(zs) + 0.12
    below = min([0.0, *(s.bottom for s in shapes), *(z for r in runs for _, z in r.points)])
    columns = _COLUMN * len(upright) + 3
    rows = _ROW * len(level) + 6
    scale = choose_scale(right - left, top - below, WIDTH - columns - 2 * EDGE, tallest - rows - 2 * EDGE)  # fmt: skip
    wide, high = (right - left) * 1000 / scale, (top - below) * 1000 / scale
    width = max(wide + columns + 2 * EDGE, 80.0)
    title = _TITLES[name][0]
    svg = Svg(width, high + rows + 2 * EDGE, name, title, described(title, scale, dimensions))
    frame = Frame(EDGE, EDGE + top * 1000 / scale, left, scale)
    draw_ground(svg, frame, frame.x(right))
    _roof(svg, frame, ceiling, frame.x(right), near=near)
    draw_person(svg, frame, left + 0.35)
    for shape in sorted(shapes, key=lambda s: _DEPTH.index(s.part)):
        _shape(svg, frame, shape)
    _pipes(svg, frame, runs)
    _labels(svg, frame, shapes, runs, frame.x(right))
    for mark in marks:
        _mark(svg, frame, mark)
    edge = frame.x(right) + 1
    for i, one in enumerate(
        sorted(upright, key=lambda d: (abs(d.extent.end - d.extent.start), d.number))
    ):
        draw_dimension(svg, frame, one, edge + _COLUMN * (i + 1) - 2, edge)
    floor = frame.y(below) + 4
    for i, one in enumerate(sorted(level, key=lambda d: (d.extent.end - d.extent.start, d.number))):
        draw_dimension(svg, frame, one, floor + _ROW * (i + 1), floor)
    return scale, svg


_DEPTH = ("host", "wall", "receiver", "base", "post", "plate", "collector")
_FILL = {
    "host": "none", "wall": "tint", "base": "shade", "post": "shade", "plate": "shade",
    "collector": "tint", "receiver": "none",
}  # fmt: skip


def _roof(svg: Svg, frame: Frame, ceiling: float | None, right: float, *, near: bool) -> None:
    if ceiling is None:
        return
    if near:
        y = frame.y(ceiling)
        svg.line((frame.left, y), (right, y), "outline")
        for i in range(int((right - frame.left) / 3)):
            svg.line((frame.left + 3 * i, y), (frame.left + 3 * i + 1.2, y - 1.2), "thin")
        svg.text((frame.left + 1, y + 3.4), "ceiling", 2.4)
    else:
        text = f"ceiling at {ceiling:.2f} m, above this sheet"
        svg.text((frame.left, 4.4), f"↑ {text}", 2.4)


def _shape(svg: Svg, frame: Frame, shape: Shape) -> None:
    stroke = "missing" if shape.missing else "outline"
    svg.rectangle(
        frame.x(shape.left), frame.y(shape.bottom + shape.height), frame.length(shape.width),
        frame.length(shape.height), stroke, "none" if shape.missing and shape.part == "collector" else _FILL[shape.part],
        f"{shape.part} {shape.label}",
    )  # fmt: skip


def _axis(run: PipeRun) -> list[tuple[float, float]]:
    """The axis of a pipe whose levels are those of its bottom; upright, its levels are its ends'."""
    (x1, _), (x2, _) = run.points[0], run.points[-1]
    lift = run.bore / 2 if abs(x2 - x1) > run.bore and run.kind != "trap" else 0.0
    return [(x, z + lift) for x, z in run.points]


def _pipes(svg: Svg, frame: Frame, runs: list[PipeRun]) -> None:
    """Walls first and insides over them, so that one part opens into the next; then each part's axis."""
    strands: list[tuple[list[tuple[float, float]], float, bool]] = []
    before: PipeRun | None = None
    for run in runs:
        points = [frame.at(*p) for p in _axis(run)]
        bore = frame.length(run.bore)
        if before is not None and strands and _continues(before, run):
            # A bend: its corner lies between the parts that it joins.
            strands[-1][0].extend(points)
        else:
            strands.append((points, bore, bool(run.missing)))
        before = run
    for points, bore, missing in strands:
        svg.wall(points, bore, missing=missing)
    for points, bore, _ in strands:
        svg.inside(points, bore)
    for run in runs:
        svg.path([frame.at(*p) for p in _axis(run)], "centre", data=f"{run.system} {run.name}")


def _continues(before: PipeRun, run: PipeRun) -> bool:
    (x1, z1), (x2, z2) = _axis(before)[-1], _axis(run)[0]
    near = abs(x2 - x1) + abs(z2 - z1) < 3 * run.bore
    alike = before.bore == run.bore and bool(before.missing) == bool(run.missing)
    return near and alike and before.system == run.system


def _labels(svg: Svg, frame: Frame, shapes: list[Shape], runs: list[PipeRun], right: float) -> None:
    for shape in shapes:
        if shape.part not in ("host", "collector", "wall", "receiver"):
            continue
        middle = frame.x(shape.left + shape.width / 2)
        room = frame.length(shape.width) - 2
        y = frame.y(shape.bottom + shape.height * (0.5 if shape.part == "collector" else 0.35))
        lines = [shape.label] + ([f"{m}: not stated" for m in shape.missing])
        for i, line in enumerate(lines[:4]):
            svg.text(
                (middle, y + 3.2 * i),
                fitted(line, max(room, 30.0), 2.6),
                2.6,
                anchor="middle",
                halo=True,
            )
    for run in runs:
        axis = _axis(run)
        (x1, z1), (x2, z2) = axis[0], axis[-1]
        missing = "".join(f", {m} not stated" for m in run.missing)
        upright = abs(x2 - x1) < abs(z2 - z1)
        x, y = frame.at((x1 + x2) / 2, (z1 + z2) / 2)
        aside = frame.length(run.bore) / 2 + 1.4
        if run.system == "duct" and upright:
            text = fitted(f"{run.name}{missing}", max(abs(frame.length(z2 - z1)), 14.0), 2.4)
            svg.text((x - aside, y), text, 2.4, anchor="middle", upright=True, halo=True)
        elif run.system == "duct":
            text = fitted(f"{run.name}{missing}", max(abs(frame.length(x2 - x1)), 18.0), 2.4)
            svg.text((x, y - aside), text, 2.4, anchor="middle", halo=True)
        else:
            # How far it falls: the difference of its levels, a trap's down to its overflow.
            fall = missing or f", falls {(z1 - z2) * 1000:.0f} mm"
            text = fitted(f"{run.name}{fall}", right - x - 2, 2.4)
            svg.text((x + 2.2, y), text, 2.4, halo=True)


def _mark(svg: Svg, frame: Frame, mark: Mark) -> None:
    at = frame.at(mark.x, mark.z)
    radius = max(frame.length(0.05), 1.6)
    if mark.part.startswith("outlet"):
        ahead = {"outlet-up": (0, -1), "outlet-sideways": (1, 0), "outlet-down": (0, 1)}[mark.part]
        tip = (at[0] + 7 * ahead[0], at[1] + 7 * ahead[1])
        svg.line(at, tip, "outline")
        for turn in (-1, 1):
            svg.line(tip, (tip[0] - 2 * ahead[0] + turn * ahead[1], tip[1] - 2 * ahead[1] + turn * ahead[0]), "outline")  # fmt: skip
        svg.text((tip[0] + 1.4, tip[1] + 1), mark.label, 2.4, halo=True)
        return
    stroke = "outline" if "height" not in str(mark.missing) else "missing"
    svg.line(at, (frame.x(0.0), at[1]), "missing")
    if mark.part == "gauge":
        svg.circle(at, radius, stroke, "paper")
        svg.line(at, (at[0] + radius * 0.6, at[1] - radius * 0.6), "axis")
    else:
        svg.rectangle(at[0] - radius, at[1] - radius, 2 * radius, 2 * radius, stroke, "paper")
        svg.line((at[0], at[1] + radius * 0.5), (at[0], at[1] - radius * 0.7), "outline")
    words = mark.label if stroke == "outline" else f"{mark.label}: height not stated"
    # One above its mark and one below, so that two at one height do not write over each other.
    level = at[1] - radius - 1 if mark.part == "gauge" else at[1] + radius + 2.8
    svg.text((at[0], level), words, 2.4, anchor="middle", halo=True)
