"""The fan's curve, the system's with clean and with dirty filters, and where they meet."""

from __future__ import annotations

from checker import units
from checker.drawing.chart import Plot, axis_for
from checker.drawing.svg import Svg, text_width
from checker.findings import Curves
from checker.units.quantities import format_number

__all__ = ["draw_fan_chart"]

_WIDTH, _HEIGHT = 140.0, 96.0
_BEYOND = 1.05


def draw_fan_chart(curves: Curves, name: str = "fan-curves") -> str:
    """Flow across, pressure upwards; the system's curves are cut off where they leave the chart."""
    flow, pressure = units.need(curves.flow_unit).shown, units.need(curves.pressure_unit).shown
    most_flow = max([f for f, _ in curves.fan] + [p.flow for p in curves.working_points] + [curves.required_flow or 0.0])  # fmt: skip
    most_pressure = max([p for _, p in curves.fan] + [p.pressure for p in curves.working_points])
    told = [f"With {p.filters} filters they meet at {format_number(p.flow)} {flow} and {format_number(p.pressure)} {pressure}." for p in curves.working_points]  # fmt: skip
    svg = Svg(_WIDTH, _HEIGHT, name, "Fan and system curves", " ".join(["Pressure over flow. The table below has the same numbers.", *told]))  # fmt: skip
    plot = Plot(
        svg, axis_for(f"flow, {flow}", most_flow), axis_for(f"pressure, {pressure}", most_pressure * _BEYOND),
        19.0, 12.0, _WIDTH - 6, _HEIGHT - 11,
    )  # fmt: skip
    plot.draw_axes()
    if curves.required_flow is not None:
        x, _ = plot.at(curves.required_flow, 0.0)
        svg.line((x, plot.top), (x, plot.bottom), "limit", "required flow")
        label = f"required {format_number(curves.required_flow)} {flow}"
        _label(svg, plot, x + 1, plot.bottom - 2, label)
    _curve(svg, plot, curves.system_dirty, "curve-dirty", "system dirty")
    _curve(svg, plot, curves.system_clean, "curve-clean", "system clean")
    _curve(svg, plot, curves.fan, "curve", "fan")
    for point in curves.working_points:
        at = plot.at(point.flow, point.pressure)
        svg.circle(at, 1.3, "outline", "ink" if point.filters == "dirty" else "paper")
        label = f"{point.filters}: {format_number(point.flow)} {flow}, {format_number(point.pressure)} {pressure}"
        _label(svg, plot, at[0] + 2.4, at[1] - (2.2 if point.filters == "dirty" else -4), label)
    _legend(svg, curves)
    return str(svg)


def _label(svg: Svg, plot: Plot, x: float, y: float, text: str) -> None:
    x = min(x, plot.right - text_width(text, 2.6))
    svg.text((x, y), text, 2.6, halo=True)


def _curve(svg: Svg, plot: Plot, points: tuple[tuple[float, float], ...], stroke: str, data: str) -> None:  # fmt: skip
    drawn: list[tuple[float, float]] = []
    for i, (x, y) in enumerate(points):
        if y > plot.y_axis.end:
            if i:
                x0, y0 = points[i - 1]
                drawn.append(
                    plot.at(x0 + (x - x0) * (plot.y_axis.end - y0) / (y - y0), plot.y_axis.end)
                )
            break
        drawn.append(plot.at(x, y))
    if len(drawn) > 1:
        svg.path(drawn, stroke, data=data)


def _legend(svg: Svg, curves: Curves) -> None:
    x = 19.0
    for stroke, label, shown in (
        ("curve", "fan", bool(curves.fan)),
        ("curve-clean", "system, clean filters", bool(curves.system_clean)),
        ("curve-dirty", "system, dirty filters", bool(curves.system_dirty)),
    ):
        if shown:
            svg.line((x, 5), (x + 9, 5), stroke)
            svg.text((x + 10.5, 6), label, 2.8)
            x += 15 + text_width(label, 2.8)
