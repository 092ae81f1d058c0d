"""ISO 13854:2017 (values of EN 349), minimum gaps to avoid crushing: table and rule."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook

# ISO 13854:2017, table of minimum gaps, as the safety lexicon of the Austrian workers' compensation
# board lists EN 349. Confidence: checked.
PRINTED_MM = {
    "body": 500,
    "head": 300,
    "leg": 180,
    "foot": 120,
    "toes": 50,
    "arm": 120,
    "hand": 100,
    "finger": 25,
}


def part(gap_mm: float, body_part: str) -> str:
    return f"{{moving_parts: [{{name: door, gap: {gap_mm} mm, body_part: {body_part}, checked_by: slow-jog}}]}}"


# ISO 13854:2017, every row; exact. Confidence: checked.
@pytest.mark.parametrize(("body_part", "printed_mm"), PRINTED_MM.items())
def test_table(shipped: Rulebook, body_part: str, printed_mm: float) -> None:
    found = shipped.tables["crush_gap"].columns["gap"].look_up(body_part)
    assert found * 1e3 == pytest.approx(printed_mm, rel=1e-12)


# ISO 13854:2017: the printed gap does not crush, a millimetre less does. Confidence: checked.
@pytest.mark.parametrize(("body_part", "printed_mm"), PRINTED_MM.items())
def test_rule(ask: Callable[..., Finding], body_part: str, printed_mm: float) -> None:
    enough = ask("clearance/crush-gap", surroundings=part(printed_mm, body_part))
    short = ask("clearance/crush-gap", surroundings=part(printed_mm - 1, body_part))
    assert (enough.grade.word, short.grade.word) == ("met", "stop")


# The table must not run on to parts that the list does not hold.
def test_the_table_holds_the_listed_parts_only(shipped: Rulebook) -> None:
    assert {row[0] for row in shipped.tables["crush_gap"].rows} == set(PRINTED_MM)
