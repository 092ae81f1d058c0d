"""A published solved exercise on the revised NIOSH lifting equation, in metric units."""

from __future__ import annotations

import pytest

from checker.engineering.manual_handling import (
    lifting_asymmetry_multiplier,
    lifting_coupling_multiplier,
    lifting_distance_multiplier,
    lifting_frequency_multiplier,
    lifting_horizontal_multiplier,
    lifting_index,
    lifting_vertical_multiplier,
    recommended_weight_limit,
)

THREE_A_MINUTE = 3.0 / 60.0  # Hz


def _multipliers() -> tuple[float, float, float, float, float, float]:
    return (
        lifting_horizontal_multiplier(0.25),
        lifting_vertical_multiplier(0.55),
        lifting_distance_multiplier(0.95),
        lifting_asymmetry_multiplier(0.0),
        lifting_frequency_multiplier(THREE_A_MINUTE, "short", 0.55),
        lifting_coupling_multiplier("fair", 0.55),
    )


# Solved metric exercise: 12 kg, H 25, V 55 to 150 cm, 3 a minute for 45 min, fair; multipliers.
# Confidence: checked.
@pytest.mark.parametrize(
    ("index", "printed"), [(0, 1.0), (1, 0.94), (2, 0.87), (3, 1.0), (4, 0.88), (5, 0.95)]
)
def test_multiplier(index: int, printed: float) -> None:
    assert _multipliers()[index] == pytest.approx(printed, abs=0.005)


# Solved metric exercise: recommended weight limit. Confidence: checked.
def test_recommended_weight_limit() -> None:
    assert recommended_weight_limit(*_multipliers()) == pytest.approx(15.7, abs=0.05)


# Solved metric exercise: lifting index. The exercise divides by the rounded 15.7; unrounded it is
# 0.766, hence one unit of the last digit. Confidence: checked.
def test_lifting_index() -> None:
    assert lifting_index(12.0, 15.7) == pytest.approx(0.76, abs=0.005)
    limit = recommended_weight_limit(*_multipliers())
    assert lifting_index(12.0, limit) == pytest.approx(0.76, abs=0.01)
