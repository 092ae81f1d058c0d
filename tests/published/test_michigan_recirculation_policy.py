"""Michigan's policy on recirculated exhaust air, rule 3101(10)."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# A tenth of the permissible limit in returned air. Confidence: checked.
@pytest.mark.parametrize(
    ("left", "grade"), [("0.5 mg/m3", Grade.MET), ("0.6 mg/m3", Grade.CORRECT)]
)
def test_a_tenth_of_the_limit(ask: Callable[..., Finding], left: str, grade: Grade) -> None:
    found = ask(
        "exposure/returned-air-share",
        job="{stage: plan, jurisdiction: US}",
        process="{exposure: {limit: 5 mg/m3}}",
        collector=f"{{discharge: room, outlet_concentration: {left}}}",
    )
    assert found.grade is grade


# At least 1 cubic foot a minute of air for each square foot of area, in its own units; the rule holds
# 18.3 m3/h per m2, which is the printed figure to three digits. Confidence: checked.
@pytest.mark.parametrize(("air", "grade"), [("1001 cfm", Grade.MET), ("990 cfm", Grade.ADVISE)])
def test_outdoor_air(ask: Callable[..., Finding], air: str, grade: Grade) -> None:
    found = ask(
        "exposure/returned-air-outdoor-air",
        job="{stage: plan, jurisdiction: US}",
        collector="{discharge: room}",
        surroundings=f"{{room: {{outdoor_air: {air}, floor_area: 1000 ft2}}}}",
    )
    assert found.grade is grade
