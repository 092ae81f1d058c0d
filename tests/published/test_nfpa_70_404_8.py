"""NFPA 70, article 404.8(A), location of switches."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


def grade(ask: Callable[..., Finding], height: str) -> str:
    found = ask(
        "clearance/isolator-height-nec",
        supply="{wiring_code: nec}",
        surroundings=f"{{controls: {{isolator_handle_height: {height}}}}}",
    )
    return found.grade.word


# NFPA 70, 404.8(A): centre of the grip at most 2.0 m (6 ft 7 in = 79 in), no least height; read
# alike in three public texts. Confidence: checked.
@pytest.mark.parametrize(
    ("height", "expected"),
    [("2.0 m", "met"), ("79 in", "met"), ("80 in", "correct"), ("10 in", "met")],
)
def test_highest_position(ask: Callable[..., Finding], height: str, expected: str) -> None:
    assert grade(ask, height) == expected


# A published review of a machine with its handle at 2.07 m: too high by this article too.
# Confidence: checked.
def test_reviewed_handle(ask: Callable[..., Finding]) -> None:
    assert grade(ask, "2.07 m") == "correct"
