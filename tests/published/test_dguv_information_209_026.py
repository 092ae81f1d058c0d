"""DGUV Information 209-026, fire and explosion protection at machine tools."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# Section 3.3.1: gap of the door's labyrinth at most 2 mm, overlapping on both sides.
# Confidence: checked.
@pytest.mark.parametrize(
    ("door", "grade"),
    [
        ("{gap: 2 mm, overlaps_both_sides: true, deflections: 3}", Grade.MET),
        ("{gap: 2.1 mm, overlaps_both_sides: true, deflections: 3}", Grade.CORRECT),
        ("{gap: 2 mm, overlaps_both_sides: false, deflections: 3}", Grade.CORRECT),
        ("{gap: 2 mm, overlaps_both_sides: true, deflections: 1}", Grade.CORRECT),
    ],
)
def test_door_labyrinth(ask: Callable[..., Finding], door: str, grade: Grade) -> None:
    found = ask("sealing/door-seam", process="{fluid: neat-oil}", seals=f"{{door: {door}}}")
    assert found.grade is grade


# Annex 2: pressure relief about 0.1 m2 for each m3 of work space, opening far below 5 mbar.
# Confidence: checked.
@pytest.mark.parametrize(
    ("area", "opens", "grade"),
    [
        ("0.2 m2", "2 mbar", Grade.MET),
        ("0.19 m2", "2 mbar", Grade.CONFIRM),
        ("0.2 m2", "5 mbar", Grade.CONFIRM),
    ],
)
def test_pressure_relief(ask: Callable[..., Finding], area: str, opens: str, grade: Grade) -> None:
    found = ask(
        "fire/pressure-relief",
        host="{enclosure: {volume: 2 m3}}",
        process="{fluid: neat-oil}",
        collector=f"{{fire: {{relief_area: {area}, relief_opens_at: {opens}, relief_to: ceiling}}}}",
    )
    assert found.grade is grade


# Annex 2: the extraction is stopped by a braked fan motor or an automatic damper.
# Confidence: checked.
@pytest.mark.parametrize(
    ("by", "grade"), [("braked-fan", Grade.MET), ("damper", Grade.MET), ("nothing", Grade.STOP)]
)
def test_extraction_is_stopped(ask: Callable[..., Finding], by: str, grade: Grade) -> None:
    found = ask(
        "fire/extraction-stops",
        process="{fluid: neat-oil}",
        work="{suppression: {fitted: true}}",
        collector=f"{{fire: {{stopped_by: {by}, in_extinguishing_plan: true}}}}",
    )
    assert found.grade is grade
