"""The drawing says what the calculation says: lengths read back from the SVG itself."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from math import hypot
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
import yaml

from checker import units
from checker.drawing.elevation import Elevation, View, draw_elevation
from checker.findings import Geometry, Report
from checker.geometry import geometry_of
from checker.grades import Grade
from checker.installation.binding import bind
from checker.running import Checker

FIXTURES = Path(__file__).parents[2] / "fixtures"
DRAWN = [
    "turning-cell-side-post",
    "grinder-roof-plate",
    "milling-floor-stand-inch",
    "wall-bracket-old-lathe",
]
# What a drawing's numbers are rounded to, on paper, at both ends of a line.
ROUNDING = 0.011


@cache
def report_of(name: str) -> Report:
    return Checker().report(str(FIXTURES / f"{name}.yaml"))


@cache
def elevation_of(name: str) -> Elevation:
    report = report_of(name)
    return draw_elevation(report.geometry, report.findings)


def elements(view: View, kind: str) -> Iterator[ElementTree.Element]:
    yield from ElementTree.fromstring(view.svg).iter(f"{{http://www.w3.org/2000/svg}}{kind}")


def lines(view: View) -> dict[str, float]:
    """The length in metres of each line that stands for something, by what it stands for."""
    found = {}
    for line in elements(view, "line"):
        if "data-of" in line.attrib:
            x1, y1, x2, y2 = (float(line.attrib[k]) for k in ("x1", "y1", "x2", "y2"))
            found[line.attrib["data-of"]] = hypot(x2 - x1, y2 - y1) * view.scale / 1000
    return found


def stated(name: str) -> dict[str, Any]:
    return dict(yaml.safe_load((FIXTURES / f"{name}.yaml").read_text(encoding="utf-8")))


def in_metres(description: dict[str, Any], path: str) -> float:
    """A stated length, found in the file and converted here, apart from the program's own reading."""
    value: Any = description
    for step in re.findall(r"\w+", path):
        value = value[int(step)] if step.isdigit() else value[step]
    text = value["is"] if isinstance(value, dict) else value
    number, _, unit = str(text).partition(" ")
    return float(number) * {"m": 1, "mm": 1e-3, "cm": 1e-2, "in": 0.0254, "ft": 0.3048}[unit]


@pytest.mark.parametrize("name", DRAWN)
def test_every_dimension_line_is_as_long_as_was_stated(name: str) -> None:
    description = stated(name)
    seen = 0
    for view in elevation_of(name).views:
        drawn = lines(view)
        for one in view.dimensions:
            length = in_metres(description, one.extent.field)
            if one.extent.field not in drawn:
                # The ceiling may lie above the sheet; it then stands with the heights.
                assert one.extent.field == "surroundings.outlet.ceiling_gap"
                continue
            assert drawn[one.extent.field] == pytest.approx(
                length, abs=ROUNDING * view.scale / 1000
            )
            seen += 1
    assert seen > 20


@pytest.mark.parametrize("name", DRAWN)
def test_unit_and_post_are_drawn_to_scale(name: str) -> None:
    description = stated(name)
    for view in elevation_of(name).views:
        for box in elements(view, "rect"):
            part = box.attrib.get("data-of", "")
            if part == "collector unit":
                across = "collector.width" if view.name == "front" else "collector.depth"
                for attribute, path in (("height", "collector.height"), ("width", across)):
                    length = float(box.attrib[attribute]) * view.scale / 1000
                    assert length == pytest.approx(in_metres(description, path), abs=ROUNDING * view.scale / 1000)  # fmt: skip
            if part == "post post" and view.name == "side":
                width = float(box.attrib["width"]) * view.scale / 1000
                assert width == pytest.approx(in_metres(description, "mount.post.width"), abs=ROUNDING * view.scale / 1000)  # fmt: skip


@pytest.mark.parametrize("name", DRAWN)
def test_pipes_are_as_long_as_stated_and_run_between_their_levels(name: str) -> None:
    description = stated(name)
    parts = {("duct", p["name"]): p for p in description["duct"]["parts"]}
    parts |= {("drain", p["name"]): p for p in description["drain"]["segments"]}
    seen = 0
    for view in elevation_of(name).views:
        for path in elements(view, "path"):
            system, _, called = path.attrib.get("data-of", "").partition(" ")
            part = parts.get((system, called))
            if part is None or part["kind"] == "trap" or "length" not in part:
                continue
            points = [
                tuple(map(float, p.split()))
                for p in re.findall(r"-?[\d.]+ -?[\d.]+", path.attrib["d"])
            ]
            (x1, y1), (x2, y2) = points
            start, end = (
                ("level_start", "level_end") if system == "duct" else ("start_level", "end_level")
            )
            fall = in_metres(part, start) - in_metres(part, end)
            paper = view.scale / 1000
            assert (y2 - y1) * paper == pytest.approx(fall, abs=ROUNDING * paper)
            if in_metres(part, "length") >= abs(fall):
                assert hypot(x2 - x1, y2 - y1) * paper == pytest.approx(in_metres(part, "length"), abs=2 * ROUNDING * paper)  # fmt: skip
            seen += 1
    assert seen >= 3


@pytest.mark.parametrize(
    ("name", "field", "rule", "limit"),
    [
        ("crush-gap-at-the-conveyor-lid", "surroundings.moving_parts[0].gap", "clearance/crush-gap", 0.5),
        ("no-room-to-draw-the-filter", "surroundings.service_points[0].free_length", "clearance/filter-withdrawal", 0.56),
        ("trap-sized-on-the-running-pressure", "drain.segments[1].seal_depth", "drainage/trap-depth", None),
    ],
)  # fmt: skip
def test_the_offending_dimension_is_marked_and_its_limit_is_the_findings(
    name: str, field: str, rule: str, limit: float | None
) -> None:
    report = report_of(f"defective/{name}")
    view, one = next((v, d) for v in elevation_of(f"defective/{name}").views for d in v.dimensions if d.extent.field == field)  # fmt: skip
    finding = next(f for f in report.findings if f.rule == rule and f.grade <= Grade.ADVISE)
    assert one.bad
    assert one.standing is not None
    assert (one.standing.rule, one.standing.grade) == (rule, finding.grade)
    strokes = {
        e.attrib["data-of"]: e.attrib["class"]
        for e in elements(view, "line")
        if "data-of" in e.attrib
    }
    assert strokes[field] == "s-bad"
    length = abs(one.extent.end - one.extent.start)
    measures = [
        m.value * units.need(m.unit).factor
        for m in (finding.demand, finding.limit)
        if m is not None
    ]
    assert any(m == pytest.approx(length, rel=1e-6) for m in measures)
    if limit is not None:
        assert one.standing.metres == pytest.approx(limit)
        assert any(m == pytest.approx(limit) for m in measures)
    shown = " ".join(t.text or "" for t in elements(view, "text"))
    assert one.standing.limit.split()[-2] in shown


@pytest.mark.parametrize("name", DRAWN)
def test_drawn_twice_it_is_the_same_to_the_byte(name: str) -> None:
    report = report_of(name)
    assert draw_elevation(report.geometry, report.findings) == elevation_of(name)


def geometry(text: str) -> Geometry:
    return geometry_of(bind(text.encode(), "plan.yaml"))


@pytest.mark.parametrize("kind", ["side-post", "floor-stand", "roof-plate", "wall-bracket"])
def test_what_is_not_stated_is_dashed_and_says_so(kind: str) -> None:
    found = geometry(f"job: {{stage: plan}}\nmount: {{kind: {kind}}}\n")
    units_drawn = [s for s in found.shapes if s.part == "collector"]
    assert all("height" in s.missing and "underside_height" in s.missing for s in units_drawn)
    assert found.extents == ()
    assert found.ceiling is None
    elevation = draw_elevation(found)
    assert [v.name for v in elevation.views] == ["side", "front"]
    for view in elevation.views:
        boxes = {b.attrib.get("data-of"): b.attrib["class"] for b in elements(view, "rect")}
        assert boxes["collector unit"].startswith("s-missing")
        assert "not stated" in view.svg


def test_levels_further_apart_than_the_part_is_long_are_told() -> None:
    found = geometry(
        "job: {stage: plan}\nmount: {kind: side-post, underside_height: 1.5 m}\n"
        "drain:\n  port_height: 1.4 m\n  segments:\n"
        "    - {name: short one, kind: pipe, bore: 25 mm, length: 0.2 m, start_level: 1.4 m, end_level: 1.0 m}\n"
    )
    run = found.runs[0]
    assert [z for _, z in run.points] == [1.4, 1.0]
    assert run.points[0][0] == run.points[1][0]
    assert "short one" in found.notes[0]


def test_a_tall_thing_is_drawn_smaller_and_never_cut_off() -> None:
    found = geometry("job: {stage: plan}\nmount: {kind: floor-stand, underside_height: 40 m}\n")
    side = draw_elevation(found).views[0]
    assert side.scale >= 200
    for box in elements(side, "rect"):
        assert float(box.attrib["y"]) >= 0
