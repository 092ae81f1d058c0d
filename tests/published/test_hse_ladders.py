"""HSE INDG455 (LA455), Safe use of ladders and stepladders."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


def grade(ask: Callable[..., Finding], access: str, both: str, minutes: float, kg: float) -> str:
    found = ask(
        "clearance/ladder-work",
        surroundings=f"{{service_points: [{{name: filter, access: {access}, both_hands: {both}, "
        f"duration: {minutes} min, mass_handled: {kg} kg}}]}}",
    )
    return found.grade.word


# HSE ladder guidance, read in notes for a UK safety certificate: less than 30 min and less than
# 10 kg. Confidence: checked.
@pytest.mark.parametrize(
    ("minutes", "kg", "expected"),
    [(29, 9.9, "met"), (30, 5, "correct"), (5, 10, "correct")],
)
def test_short_and_light(
    ask: Callable[..., Finding], minutes: float, kg: float, expected: str
) -> None:
    assert grade(ask, "step-ladder", "false", minutes, kg) == expected


# HSE LA455: three points of contact; both hands on the filter leave two. Confidence: checked.
def test_three_points_of_contact(ask: Callable[..., Finding]) -> None:
    assert grade(ask, "leaning-ladder", "true", 5, 2) == "stop"
