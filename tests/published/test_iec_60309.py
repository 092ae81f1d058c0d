"""IEC 60309, industrial plugs: colours by voltage, ratings."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade
from checker.rulebook.model import Rulebook

# Colours as four connector makers and resellers print them alike: V from, V to. Confidence: checked.
COLOURS = [
    ("purple", 20, 25),
    ("white", 40, 50),
    ("yellow", 100, 130),
    ("blue", 200, 250),
    ("red", 380, 480),
    ("black", 500, 690),
]


@pytest.mark.parametrize(("colour", "lowest", "highest"), COLOURS)
def test_shipped_colours(shipped: Rulebook, colour: str, lowest: int, highest: int) -> None:
    table = shipped.tables["plug_colour"]
    assert table.columns["lowest"].look_up(colour) == pytest.approx(lowest)
    assert table.columns["highest"].look_up(colour) == pytest.approx(highest)
    assert len(table.rows) == len(COLOURS)


@pytest.mark.parametrize(
    ("colour", "voltage", "grade"),
    [
        ("red", 400, Grade.MET),
        ("blue", 230, Grade.MET),
        ("yellow", 120, Grade.MET),
        ("blue", 400, Grade.CORRECT),
        ("red", 230, Grade.CORRECT),
    ],
)
def test_shipped_rule(ask: Callable[..., Finding], colour: str, voltage: int, grade: Grade) -> None:
    found = ask(
        "electrical-protection/plug-colour",
        supply=f"{{wiring_code: iec, voltage: {voltage} V}}",
        protection=f"{{plug: {{fitted: true, standard: iec-60309, colour: {colour}}}}}",
    )
    assert found.grade is grade
