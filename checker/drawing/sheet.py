"""A view to scale: metres to millimetres of paper, dimension lines, a person beside it."""

from __future__ import annotations

from typing import NamedTuple

from checker.drawing.grades import draw_grade
from checker.drawing.standing import Standing
from checker.drawing.svg import Svg, fitted, text_width
from checker.findings import Extent
from checker.grades import Grade

__all__ = [
    "EDGE", "PERSON", "SIZE", "WIDTH", "Frame", "Numbered", "choose_scale", "described", "draw_dimension",
    "draw_ground", "draw_person",
]  # fmt: skip

PERSON = 1.75
# The widest that a drawing becomes, and its margin, in millimetres of paper.
WIDTH, EDGE = 165.0, 6.0
SIZE = 2.8
_SCALES = (5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 300, 500, 1000)
_LABEL = 62.0


class Numbered(NamedTuple):
    """A dimension with the number that it carries in drawing and table, and how it stands."""

    number: int
    extent: Extent
    standing: Standing | None

    @property
    def bad(self) -> bool:
        """Whether something has to be done about it."""
        return self.standing is not None and self.standing.grade <= Grade.ADVISE

    @property
    def label(self) -> str:
        """The number, the value, and of an offending one the limit."""
        text = f"{self.number}: {self.extent.text}"
        if self.bad and self.standing is not None:
            limit = self.standing.limit
            text += f" ({limit})" if limit[:2] == "at" else f" (limit {limit})"
        return fitted(text, _LABEL, SIZE)


class Frame(NamedTuple):
    """Where metres lie on the paper: the point (x, z) of the left bottom corner, and the scale 1:n."""

    left: float
    floor: float
    origin: float
    scale: int

    def x(self, metres: float) -> float:
        """Across, in millimetres of the paper."""
        return self.left + self.length(metres - self.origin)

    def y(self, metres: float) -> float:
        """A level, in millimetres of the paper."""
        return self.floor - self.length(metres)

    def length(self, metres: float) -> float:
        """A length, in millimetres of the paper."""
        return metres * 1000 / self.scale

    def at(self, x: float, z: float) -> tuple[float, float]:
        """A point of the view on the paper."""
        return self.x(x), self.y(z)


def choose_scale(width: float, height: float, most_width: float, most_height: float) -> int:
    """The largest usual scale 1:n at which so many metres fit in so many millimetres."""
    for scale in _SCALES:
        if width * 1000 / scale <= most_width and height * 1000 / scale <= most_height:
            return scale
    # Beyond what stands on any shop floor; still drawn, to the next thousand.
    most = max(width * 1000 / most_width, height * 1000 / most_height)
    return (int(most / 1000) + 1) * 1000


def described(title: str, scale: int, dimensions: list[Numbered]) -> str:
    """What a screen reader says of a drawing: that it has a table, and what is wrong in it."""
    wrong = [f"{d.extent.name} {d.extent.text}" for d in dimensions if d.bad]
    told = f" Not as it should be: {'; '.join(wrong)}." if wrong else ""
    return f"{title} to scale 1:{scale}. The table below has every dimension in it.{told}"


def draw_ground(svg: Svg, frame: Frame, right: float) -> None:
    """Draw the floor, up to a place on the paper."""
    svg.line((frame.left - 3, frame.floor), (right, frame.floor), "outline")
    for i in range(int((right - frame.left + 2) / 3)):
        x = frame.left - 2 + 3 * i
        svg.line((x, frame.floor + 1.2), (x + 1.2, frame.floor), "thin")


def draw_person(svg: Svg, frame: Frame, x: float) -> None:
    """A person of 1.75 m, for scale."""
    outline = [
        (-0.09, 0.0), (-0.1, 0.85), (-0.2, 0.85), (-0.22, 1.3), (-0.17, 1.45), (0.17, 1.45), (0.22, 1.3),
        (0.2, 0.85), (0.1, 0.85), (0.09, 0.0), (0.01, 0.0), (0.0, 0.8), (-0.01, 0.0),
    ]  # fmt: skip
    svg.path([frame.at(x + dx, z) for dx, z in outline], "person", "tint", closed=True)
    svg.circle(frame.at(x, PERSON - 0.12), frame.length(0.12), "person", "tint")
    svg.text((frame.x(x), frame.floor + 3.4), "1.75 m", 2.4, anchor="middle")


def draw_dimension(svg: Svg, frame: Frame, one: Numbered, at: float, edge: float) -> None:
    """A dimension line; ``at`` is where it runs and ``edge`` where its extension lines begin, on the paper."""
    vertical = one.extent.axis == "vertical"
    along = frame.y if vertical else frame.x
    start, end = along(one.extent.start), along(one.extent.end)
    stroke = "bad" if one.bad else "thin"
    beyond = at + (1.2 if at >= edge else -1.2)
    for place in (start, end):
        if vertical:
            svg.line((edge, place), (beyond, place), "thin")
            svg.line((at - 0.8, place + 0.8), (at + 0.8, place - 0.8), "axis")
        else:
            svg.line((place, edge), (place, beyond), "thin")
            svg.line((place - 0.8, at + 0.8), (place + 0.8, at - 0.8), "axis")
    if vertical:
        svg.line((at, start), (at, end), stroke, one.extent.field)
    else:
        svg.line((start, at), (end, at), stroke, one.extent.field)
    if one.bad and one.standing is not None and one.standing.metres is not None:
        _draw_limit(svg, frame, one, at)
    _draw_label(svg, one, (start + end) / 2, at, vertical=vertical)


def _draw_limit(svg: Svg, frame: Frame, one: Numbered, at: float) -> None:
    assert one.standing is not None and one.standing.metres is not None  # noqa: S101, PT018
    reached = one.extent.start + one.standing.metres
    if one.extent.axis == "vertical":
        y = frame.y(reached)
        if y > 2:
            svg.line((at - 2.2, y), (at + 2.2, y), "limit", f"limit of {one.extent.field}")
    else:
        x = frame.x(reached)
        if x < svg.width - 2:
            svg.line((x, at - 2.2), (x, at + 2.2), "limit", f"limit of {one.extent.field}")


def _draw_label(svg: Svg, one: Numbered, middle: float, at: float, *, vertical: bool) -> None:
    """The label along its line, kept inside the paper."""
    half = text_width(one.label, SIZE) / 2
    longest = svg.height if vertical else svg.width
    if vertical:
        # It may lie below the floor: the numbers of short upright dimensions are longer than they are.
        middle = min(max(middle, half + 1), longest - half - 1)
        svg.text(
            (at - 1, middle),
            one.label,
            SIZE,
            anchor="middle",
            upright=True,
            bold=one.bad,
            halo=True,
        )
        if one.bad and one.standing is not None:
            draw_grade(svg, (at - 2, min(middle + half + 2.2, longest - 1.6)), one.standing.grade)
    else:
        middle = min(max(middle, half + 5), longest - half - 1)
        svg.text((middle, at - 1), one.label, SIZE, anchor="middle", bold=one.bad, halo=True)
        if one.bad and one.standing is not None:
            draw_grade(svg, (middle - half - 2.2, at - 2), one.standing.grade)
