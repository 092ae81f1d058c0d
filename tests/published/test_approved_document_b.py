"""Approved Document B, Fire safety, and its fire risk guides: width of escape routes."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


def found(
    ask: Callable[..., Finding], width_mm: float, people: int, wheelchair: str = "false"
) -> Finding:
    return ask(
        "clearance/escape-width-gb",
        job="{stage: plan, jurisdiction: GB}",
        surroundings="{escape_routes: [{name: aisle, "
        f"width: {width_mm} mm, people: {people}, wheelchair: {wheelchair}}}]}}",
    )


# Approved Document B: at least 750 mm for up to 60 people. Confidence: checked.
@pytest.mark.parametrize(("width_mm", "grade"), [(750, "met"), (740, "stop")])
def test_sixty_people(ask: Callable[..., Finding], width_mm: float, grade: str) -> None:
    assert found(ask, width_mm, 60).grade.word == grade


# The fire risk guides: 75 mm more for each further 15 people, begun groups counted whole; 900 mm
# where wheelchairs pass. Confidence: checked (the sums are arithmetic of that sentence).
@pytest.mark.parametrize(
    ("people", "wheelchair", "asked_mm"),
    [
        (1, "false", 750),
        (75, "false", 825),
        (76, "false", 900),
        (60, "true", 900),
        (120, "true", 1050),
    ],
)
def test_width_asked(
    ask: Callable[..., Finding], people: int, wheelchair: str, asked_mm: float
) -> None:
    demand = found(ask, 2000, people, wheelchair).demand
    assert demand is not None
    assert (demand.value, demand.unit) == (asked_mm, "mm")
