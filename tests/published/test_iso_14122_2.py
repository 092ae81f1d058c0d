"""ISO 14122-2:2016, Permanent means of access to machinery, platforms and walkways, clause 4.2."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook


def passage(**fields: str) -> str:
    return "{passages: [{name: way, " + ", ".join(f"{k}: {v}" for k, v in fields.items()) + "}]}"


# ISO 14122-2:2016, 4.2, as published summaries print it: width in mm; exact. The 500 mm are for
# exceptional places whose conditions were not read. Confidence: checked.
@pytest.mark.parametrize(
    ("column", "use", "printed_mm"),
    [
        ("least", "machine-access", 600),
        ("preferred", "machine-access", 800),
        ("exceptional", "machine-access", 500),
        ("least", "shared-machine-access", 1000),
    ],
)
def test_width_table(shipped: Rulebook, column: str, use: str, printed_mm: float) -> None:
    found = shipped.tables["walkway_width"].columns[column].look_up(use)
    assert found * 1e3 == pytest.approx(printed_mm, rel=1e-12)


# ISO 14122-2:2016, 4.2: 600 mm is enough and 800 mm preferred, 1000 mm where several people pass.
# Below 500 mm nothing is allowed. Confidence: checked.
@pytest.mark.parametrize(
    ("use", "width_mm", "grade"),
    [
        ("machine-access", 800, "met"),
        ("machine-access", 799, "advise"),
        ("machine-access", 600, "advise"),
        ("machine-access", 599, "confirm"),
        ("machine-access", 500, "confirm"),
        ("machine-access", 499, "correct"),
        ("shared-machine-access", 1000, "met"),
        ("shared-machine-access", 999, "correct"),
    ],
)
def test_width(ask: Callable[..., Finding], use: str, width_mm: float, grade: str) -> None:
    found = ask("clearance/passage-width", surroundings=passage(use=use, width=f"{width_mm} mm"))
    assert found.grade.word == grade


# ISO 14122-2:2016, 4.2: headroom 2100 mm. Confidence: checked.
@pytest.mark.parametrize(("headroom_mm", "grade"), [(2100, "met"), (2099, "correct")])
def test_headroom(ask: Callable[..., Finding], headroom_mm: float, grade: str) -> None:
    way = passage(headroom=f"{headroom_mm} mm", obstacle_guarded="false")
    found = ask("clearance/headroom", surroundings=way)
    assert found.grade.word == grade
    assert found.demand is not None
    assert (found.demand.value, found.demand.unit) == (2.1, "m")


# ISO 14122-2:2016, 4.2: isolated obstacles are guarded or padded. Confidence: checked.
def test_padded_obstacle(ask: Callable[..., Finding]) -> None:
    way = passage(headroom="2050 mm", obstacle_guarded="true")
    assert ask("clearance/headroom", surroundings=way).grade.word == "advise"


# ISO 14122-2:2016, 4.2: a step in a level way is at most 4 mm. Confidence: checked.
@pytest.mark.parametrize(("step_mm", "grade"), [(4, "met"), (5, "correct")])
def test_step(ask: Callable[..., Finding], step_mm: float, grade: str) -> None:
    found = ask("clearance/trip-step", surroundings=passage(floor_step=f"{step_mm} mm"))
    assert found.grade.word == grade


# ISO 14122-2:2016, 4.2: a 35 mm ball does not pass the floor, nor a 20 mm ball above people.
# Confidence: checked.
@pytest.mark.parametrize(
    ("ball_mm", "people_below", "grade"),
    [
        (34, "false", "met"),
        (35, "false", "correct"),
        (19, "true", "met"),
        (20, "true", "correct"),
    ],
)
def test_floor_opening(
    ask: Callable[..., Finding], ball_mm: float, people_below: str, grade: str
) -> None:
    floor = (
        f"{{platforms: [{{name: p, floor_opening: {ball_mm} mm, people_below: {people_below}}}]}}"
    )
    assert ask("clearance/platform-floor", surroundings=floor).grade.word == grade
