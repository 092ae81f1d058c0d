"""Axes of a chart: round steps, units, a grid that stays behind."""

from __future__ import annotations

from math import ceil, floor, log10
from typing import NamedTuple

from checker.drawing.svg import Svg
from checker.units.quantities import format_number

__all__ = ["Axis", "Plot", "axis_for"]


class Axis(NamedTuple):
    """An axis from nought to ``end`` in round steps, with its title and unit."""

    title: str
    end: float
    step: float

    @property
    def ticks(self) -> list[float]:
        """The values that the axis prints."""
        return [self.step * i for i in range(round(self.end / self.step) + 1)]


def axis_for(title: str, most: float) -> Axis:
    """An axis from nought that holds the greatest value, in four to ten round steps.

    >>> axis_for("flow, m3/h", 1400.0).ticks
    [0.0, 200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0, 1400.0]
    """
    if most <= 0:
        return Axis(title, 1.0, 0.25)
    decade = 10.0 ** floor(log10(most))
    step = next(s * decade for s in (0.1, 0.2, 0.5, 1.0, 2.0) if most / (s * decade) <= 8)
    return Axis(title, step * ceil(round(most / step, 9)), step)


class Plot:
    """A chart's frame in a drawing: values to millimetres of the paper."""

    def __init__(self, svg: Svg, x: Axis, y: Axis, left: float, top: float, right: float, bottom: float) -> None:  # fmt: skip
        self.svg = svg
        self.x_axis, self.y_axis = x, y
        self.left, self.top, self.right, self.bottom = left, top, right, bottom

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Where a pair of values lies."""
        return (
            self.left + (self.right - self.left) * x / self.x_axis.end,
            self.bottom - (self.bottom - self.top) * y / self.y_axis.end,
        )

    def draw_axes(self) -> None:
        """Draw grid, ticks, values and titles."""
        for value in self.x_axis.ticks:
            x, _ = self.at(value, 0.0)
            self.svg.line((x, self.top), (x, self.bottom), "grid")
            self.svg.text((x, self.bottom + 4), format_number(value, 4), 2.6, anchor="middle")
        for value in self.y_axis.ticks:
            _, y = self.at(0.0, value)
            self.svg.line((self.left, y), (self.right, y), "grid")
            self.svg.text((self.left - 1.2, y + 0.9), format_number(value, 4), 2.6, anchor="end")
        self.svg.path(
            [(self.left, self.top), (self.left, self.bottom), (self.right, self.bottom)], "axis"
        )
        self.svg.text(
            ((self.left + self.right) / 2, self.bottom + 8.5),
            self.x_axis.title,
            2.8,
            anchor="middle",
        )
        self.svg.text(
            (self.left - 11.5, (self.top + self.bottom) / 2),
            self.y_axis.title,
            2.8,
            anchor="middle",
            upright=True,
        )
