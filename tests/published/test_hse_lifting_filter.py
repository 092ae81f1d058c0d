"""HSE, L23 Manual handling (4th ed.), lifting and lowering risk filter: every cell."""

from __future__ import annotations

import pytest

from checker.engineering.manual_handling_limits import (
    HandsReach,
    HandsZone,
    lifting_filter_mass,
)


# HSE risk filter, men, as a training provider's table and an assessment form print it. Confidence:
# checked.
@pytest.mark.parametrize(
    ("zone", "reach", "printed_kg"),
    [
        ("above-shoulder", "close", 10),
        ("above-shoulder", "far", 5),
        ("elbow-to-shoulder", "close", 20),
        ("elbow-to-shoulder", "far", 10),
        ("knuckle-to-elbow", "close", 25),
        ("knuckle-to-elbow", "far", 15),
        ("mid-lower-leg-to-knuckle", "close", 20),
        ("mid-lower-leg-to-knuckle", "far", 10),
        ("below-mid-lower-leg", "close", 10),
        ("below-mid-lower-leg", "far", 5),
    ],
)
def test_men(zone: HandsZone, reach: HandsReach, printed_kg: float) -> None:
    assert lifting_filter_mass(zone, reach, "man") == printed_kg


# HSE risk filter, women, as a public assessment form redraws it. Confidence: checked.
@pytest.mark.parametrize(
    ("zone", "reach", "printed_kg"),
    [
        ("above-shoulder", "close", 7),
        ("above-shoulder", "far", 3),
        ("elbow-to-shoulder", "close", 13),
        ("elbow-to-shoulder", "far", 7),
        ("knuckle-to-elbow", "close", 16),
        ("knuckle-to-elbow", "far", 10),
        ("mid-lower-leg-to-knuckle", "close", 13),
        ("mid-lower-leg-to-knuckle", "far", 7),
        ("below-mid-lower-leg", "close", 7),
        ("below-mid-lower-leg", "far", 3),
    ],
)
def test_women(zone: HandsZone, reach: HandsReach, printed_kg: float) -> None:
    assert lifting_filter_mass(zone, reach, "woman") == printed_kg
