"""UK sling tables, uniform load method: rated load of multi-leg slings by one leg's."""

from __future__ import annotations

import math
from typing import Literal

import pytest

from checker.engineering.lifting import sling_uniform_load_factor


# UK sling tables: two legs, 0° to 90° between them 1.4; 90° to 120° 1.0. Confidence: checked.
@pytest.mark.parametrize(
    ("included_degrees", "printed"), [(0, 1.4), (60, 1.4), (90, 1.4), (91, 1.0), (120, 1.0)]
)
def test_two_legs(included_degrees: float, printed: float) -> None:
    assert sling_uniform_load_factor("two", math.radians(included_degrees / 2)) == printed


# UK sling tables: three and four legs 2.1. Confidence: checked.
def test_three_or_four_legs() -> None:
    assert sling_uniform_load_factor("three-or-four", math.radians(45)) == 2.1


# EN 818-4: three and four legs above 45° from the vertical 1.5. Confidence: from-memory.
def test_three_or_four_flat_legs() -> None:
    assert sling_uniform_load_factor("three-or-four", math.radians(60)) == 1.5


# Arithmetic of n·cos β at the end of each band, with two or three legs counted: the printed factor
# never exceeds it, and is less than a tenth below.
@pytest.mark.parametrize(
    ("legs", "counted", "degrees"),
    [
        ("two", 2, 45),
        ("two", 2, 60),
        ("three-or-four", 3, 45),
        ("three-or-four", 3, 60),
    ],
)
def test_factors_are_cut_from_the_cosine(
    legs: Literal["two", "three-or-four"], counted: int, degrees: float
) -> None:
    exact = counted * math.cos(math.radians(degrees))
    factor = sling_uniform_load_factor(legs, math.radians(degrees))
    assert exact - 0.1 < factor <= exact + 1e-9
