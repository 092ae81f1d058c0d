"""HSE, INDG143 rev. 4, Manual handling at work: reductions of the filter's figures."""

from __future__ import annotations

import math

import pytest

from checker.engineering.limits import OutOfRange
from checker.engineering.manual_handling_limits import (
    lifting_filter_frequency_factor,
    lifting_filter_mass,
    lifting_filter_twist_factor,
)


# INDG143, twisting: 10 % less beyond 45°, 20 % less beyond 90°. Confidence: checked.
@pytest.mark.parametrize(
    ("degrees", "less_percent"), [(0, 0), (45, 0), (46, 10), (90, 10), (91, 20)]
)
def test_twist(degrees: float, less_percent: float) -> None:
    factor = lifting_filter_twist_factor(math.radians(degrees))
    assert factor == pytest.approx(1 - less_percent / 100)


# INDG143, frequent lifting: as printed up to 30 an hour, 30 % less once or twice a minute, 50 %
# less 5 to 8 times, 80 % less more than 12 times. Confidence: checked.
@pytest.mark.parametrize(
    ("a_minute", "less_percent"), [(0.5, 0), (1, 30), (2, 30), (5, 50), (8, 50), (13, 80)]
)
def test_frequency(a_minute: float, less_percent: float) -> None:
    factor = lifting_filter_frequency_factor(a_minute / 60)
    assert factor == pytest.approx(1 - less_percent / 100)


# INDG143 prints nothing between those bands. Confidence: checked.
@pytest.mark.parametrize("a_minute", [0.51, 0.99, 2.01, 4.99, 8.01, 12])
def test_frequency_between_the_bands(a_minute: float) -> None:
    with pytest.raises(OutOfRange):
        lifting_filter_frequency_factor(a_minute / 60)


# INDG143 with the filter: a man, hands above the shoulder and outstretched, twisted 50°. Arithmetic
# of 5 kg less 10 %.
def test_twisted_lift_above_the_shoulder() -> None:
    mass = lifting_filter_mass("above-shoulder", "far", "man")
    assert mass * lifting_filter_twist_factor(math.radians(50)) == pytest.approx(4.5)
