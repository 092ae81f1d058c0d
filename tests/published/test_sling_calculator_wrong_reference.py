"""A public sling calculator that takes 1/cos of the angle from the horizontal, wrongly."""

from __future__ import annotations

import math

import pytest

from checker.engineering.lifting import (
    sling_factor_from_horizontal,
    sling_factor_from_vertical,
    sling_leg_tension_from_horizontal,
)

SIXTY = math.radians(60.0)


# Public sling calculator: factor 2.0 at 60° from the horizontal; sling tables print 1.155.
# Confidence: checked, as an error.
def test_factor_at_sixty_degrees_is_not_two() -> None:
    assert sling_factor_from_horizontal(SIXTY) != pytest.approx(2.0, abs=0.1)
    assert sling_factor_from_horizontal(SIXTY) == pytest.approx(1.155, abs=0.0005)


# The same calculator's 2.0 is right for 60° from the vertical only. Confidence: checked.
def test_two_belongs_to_the_other_reference() -> None:
    assert sling_factor_from_vertical(SIXTY) == pytest.approx(2.0, abs=1e-9)


# With the calculator's factor, 1000 lb on two legs would pull 1000 lb in each; tables print 577.
# Confidence: checked, as an error.
def test_tension_is_not_the_whole_load() -> None:
    assert sling_leg_tension_from_horizontal(1000.0, 2, SIXTY) != pytest.approx(1000.0, rel=0.1)
