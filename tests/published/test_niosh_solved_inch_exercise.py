"""A published solved exercise on the NIOSH lifting equation that leaves a multiplier out."""

from __future__ import annotations

import pytest

from checker.engineering.manual_handling import (
    lifting_coupling_multiplier,
    lifting_distance_multiplier,
    lifting_frequency_multiplier,
    lifting_horizontal_multiplier,
    lifting_vertical_multiplier,
    recommended_weight_limit,
)

# As in the manual's own pairing of its two sets of constants, 10 in with 25 cm and 51 lb with 23
# kg.
INCH = 0.025  # m
POUND = 23.0 / 51.0  # kg


def _limit(frequency_multiplier: float) -> float:
    """H 20, V 6, D 16 in, straight ahead, fair grip; in pounds."""
    kilograms = recommended_weight_limit(
        lifting_horizontal_multiplier(20 * INCH),
        lifting_vertical_multiplier(6 * INCH),
        lifting_distance_multiplier(16 * INCH),
        1.0,
        frequency_multiplier,
        lifting_coupling_multiplier("fair", 6 * INCH),
    )
    return kilograms / POUND


# Solved exercise: its multipliers .50, .82, .93 and .95. Confidence: checked.
def test_multipliers() -> None:
    assert lifting_horizontal_multiplier(20 * INCH) == pytest.approx(0.50, abs=0.005)
    assert lifting_vertical_multiplier(6 * INCH) == pytest.approx(0.82, abs=0.005)
    assert lifting_distance_multiplier(16 * INCH) == pytest.approx(0.93, abs=0.005)
    assert lifting_coupling_multiplier("fair", 6 * INCH) == 0.95


# Solved exercise: 2.4 lifts a minute over 8 h, yet it prints 18.4 lb, the limit without a frequency
# multiplier. 11.3 lb is arithmetic of the equation with .61, between .65 and .55 of Table 5.
# Confidence: checked, as an error.
def test_limit_is_not_that_without_the_frequency() -> None:
    multiplier = lifting_frequency_multiplier(2.4 / 60, "long", 6 * INCH)
    assert multiplier == pytest.approx(0.61)
    assert _limit(multiplier) == pytest.approx(11.3, abs=0.05)
    assert _limit(multiplier) != pytest.approx(18.4, rel=0.1)


# Solved exercise: how its 18.4 lb comes about, by multipliers of two decimals. Confidence: checked.
def test_printed_limit_is_reproduced_without_the_frequency() -> None:
    assert _limit(1.0) == pytest.approx(18.4, abs=0.15)
