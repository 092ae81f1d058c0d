"""Charts read back: points, bars and strips lie where their numbers say."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.drawing.bars import draw_bar
from checker.drawing.chart import axis_for
from checker.drawing.fan_chart import draw_fan_chart
from checker.drawing.strip_chart import draw_strip_chart, stretches
from checker.findings import Curves, FieldWindow, RuleAcross, WorkingPoint

SVG = "{http://www.w3.org/2000/svg}"

CURVES = Curves(
    "m3/h", "Pa",
    fan=((0.0, 1600.0), (500.0, 1500.0), (1000.0, 1000.0), (1400.0, 400.0)),
    system_clean=((0.0, 0.0), (700.0, 250.0), (1400.0, 1000.0)),
    system_dirty=((0.0, 0.0), (700.0, 600.0), (1400.0, 2400.0)),
    working_points=(WorkingPoint("clean", 1130.0, 805.0), WorkingPoint("dirty", 920.0, 1080.0)),
    required_flow=650.0,
)  # fmt: skip


def numbers(text: str) -> list[float]:
    return [float(x) for x in re.findall(r"-?\d+(?:\.\d+)?", text)]


def test_curves_and_points_lie_where_their_numbers_say() -> None:
    root = ElementTree.fromstring(draw_fan_chart(CURVES))
    fan = next(p for p in root.iter(f"{SVG}path") if p.attrib.get("data-of") == "fan")
    points = numbers(fan.attrib["d"])
    (x0, y0), (x1, y1) = (points[0], points[1]), (points[-2], points[-1])
    # Two points of the fan's curve give the scales; every other mark must fit them.
    across, up = (x1 - x0) / 1400.0, (y1 - y0) / (400.0 - 1600.0)
    for (flow, pressure), x, y in zip(CURVES.fan, points[::2], points[1::2], strict=True):
        assert (x - x0) / across == pytest.approx(flow, abs=0.2)
        assert 1600.0 + (y - y0) / up == pytest.approx(pressure, abs=0.3)
    circles = list(root.iter(f"{SVG}circle"))
    for point, circle in zip(CURVES.working_points, circles, strict=True):
        assert (float(circle.attrib["cx"]) - x0) / across == pytest.approx(point.flow, abs=0.2)
        assert 1600.0 + (float(circle.attrib["cy"]) - y0) / up == pytest.approx(
            point.pressure, abs=0.3
        )
    required = next(
        e for e in root.iter(f"{SVG}line") if e.attrib.get("data-of") == "required flow"
    )
    assert (float(required.attrib["x1"]) - x0) / across == pytest.approx(650.0, abs=0.2)


def test_a_system_curve_is_cut_where_it_leaves_the_chart() -> None:
    root = ElementTree.fromstring(draw_fan_chart(CURVES))
    dirty = next(p for p in root.iter(f"{SVG}path") if p.attrib.get("data-of") == "system dirty")
    top = 12.0
    assert min(numbers(dirty.attrib["d"])[1::2]) == pytest.approx(top, abs=0.01)


def test_what_is_not_known_of_the_system_is_left_out() -> None:
    bare = Curves("m3/h", "Pa", CURVES.fan, (), (), (), None)
    drawn = draw_fan_chart(bare)
    assert "system, clean" not in drawn
    assert 'data-of="required flow"' not in drawn
    assert "<circle" not in drawn


@given(st.floats(1e-6, 1e9))
def test_an_axis_holds_its_values_in_few_even_steps(most: float) -> None:
    axis = axis_for("x", most)
    assert axis.end >= most * (1 - 1e-9)
    assert 4 <= len(axis.ticks) <= 11
    assert all(b - a == pytest.approx(axis.step) for a, b in pairwise(axis.ticks))


@given(st.floats(0, 20))
def test_a_bar_is_to_its_limit_as_demand_to_limit(utilisation: float) -> None:
    root = ElementTree.fromstring(draw_bar(utilisation))
    demand = next(r for r in root.iter("rect") if r.attrib["class"] == "bar-demand")
    limit = next(r for r in root.iter("rect") if r.attrib["class"] == "bar-limit")
    place = float(limit.attrib["x"]) + 0.6
    width = float(demand.attrib["width"])
    if utilisation <= 3:
        assert width / place == pytest.approx(utilisation, abs=2e-3)
        assert "cut" not in draw_bar(utilisation)
    else:
        # Cut off, and it shows.
        assert width == 100.0
        assert 'class="cut"' in draw_bar(utilisation)
    assert ("over" in root.attrib["class"]) == (utilisation > 1)


WINDOW = FieldWindow(
    "mount.post.wall", "3 mm", "mm", (1.0, 2.0, 3.0, 4.0, 5.0),
    (
        RuleAcross("load/post-bending", "", ("stop", "correct", "met", "met", "met")),
        RuleAcross("load/post-mass", " [1]", ("met", "met", "met", "met", "advise")),
    ),
    2.5, 4.5, "mount.post.wall between 2.5 mm and 4.5 mm meets all.",
)  # fmt: skip


def test_strips_change_half_way_between_the_values_that_differ() -> None:
    assert stretches(WINDOW, WINDOW.rules[0].grades) == [
        ("stop", 1, 1),
        ("correct", 2, 2),
        ("met", 3, 5),
    ]
    root = ElementTree.fromstring(draw_strip_chart(WINDOW, "w"))
    boxes = {
        r.attrib["data-of"]: r.attrib for r in root.iter(f"{SVG}rect") if "data-of" in r.attrib
    }
    left, right = 58.0, 159.0
    per = (right - left) / 4.0
    for name, start, end in (("stop load/post-bending", 1.0, 1.5), ("correct load/post-bending", 1.5, 2.5), ("met load/post-bending", 2.5, 5.0), ("advise load/post-mass", 4.5, 5.0)):  # fmt: skip
        box = boxes[name]
        assert float(box["x"]) == pytest.approx(left + (start - 1) * per, abs=0.011)
        assert float(box["width"]) == pytest.approx((end - start) * per, abs=0.011)
    marks = {
        e.attrib["data-of"]: e.attrib for e in root.iter(f"{SVG}line") if "data-of" in e.attrib
    }
    assert float(marks["stated mount.post.wall"]["x1"]) == pytest.approx(left + 2 * per, abs=0.011)
    window = marks["window of mount.post.wall"]
    assert (float(window["x1"]), float(window["x2"])) == pytest.approx(
        (left + 1.5 * per, left + 3.5 * per), abs=0.011
    )
    assert WINDOW.sentence in draw_strip_chart(WINDOW, "w")
