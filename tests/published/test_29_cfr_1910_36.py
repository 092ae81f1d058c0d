"""29 CFR 1910.36(g), exit routes: width and headroom."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding

US = "{stage: plan, jurisdiction: US}"


# 29 CFR 1910.36(g)(2): exit access at least 28 in, printed as 71.1 cm. Confidence: checked.
@pytest.mark.parametrize(
    ("width", "grade"),
    [("28 in", "met"), ("27.9 in", "stop"), ("711 mm", "stop"), ("712 mm", "met")],
)
def test_width(ask: Callable[..., Finding], width: str, grade: str) -> None:
    route = f"{{escape_routes: [{{name: aisle, width: {width}}}]}}"
    assert ask("clearance/escape-width-us", job=US, surroundings=route).grade.word == grade


# 29 CFR 1910.36(g)(2): 28 in is printed as 71.1 cm. Confidence: checked.
def test_width_in_millimetres(ask: Callable[..., Finding]) -> None:
    route = "{escape_routes: [{name: aisle, width: 900 mm}]}"
    found = ask("clearance/escape-width-us", job=US, surroundings=route)
    assert found.demand is not None
    assert found.demand.value == pytest.approx(711, abs=0.5)


# 29 CFR 1910.36(g)(1): ceiling 7 ft 6 in (90 in, 2.3 m), projections 6 ft 8 in (80 in, 2.0 m).
# Confidence: checked.
@pytest.mark.parametrize(
    ("ceiling_in", "projection_in", "grade"),
    [(90, 80, "met"), (89.9, 80, "correct"), (90, 79.9, "correct")],
)
def test_headroom(
    ask: Callable[..., Finding], ceiling_in: float, projection_in: float, grade: str
) -> None:
    found = ask(
        "clearance/escape-headroom-us",
        job=US,
        surroundings="{escape_routes: [{name: aisle, "
        f"ceiling_height: {ceiling_in} in, projection_height: {projection_in} in}}]}}",
    )
    assert found.grade.word == grade
