"""Published sling tables: load angle factors and worked leg tensions."""

from __future__ import annotations

import math

import pytest

from checker.engineering.lifting import (
    sling_factor_from_horizontal,
    sling_factor_from_vertical,
    sling_leg_tension_from_horizontal,
    sling_leg_tension_from_vertical,
)


# Rigging handbook's table of load angle factors, angle from the horizontal. The table divides by a
# sine of three decimals (35°: 1/0.574 = 1.742 where 1/sin 35° = 1.743), hence the tolerance: half a
# unit of that sine's last digit, and half a unit of the factor's. Confidence: checked.
@pytest.mark.parametrize(
    ("degrees", "printed"),
    [
        (90, 1.000),
        (75, 1.035),
        (60, 1.155),
        (50, 1.305),
        (45, 1.414),
        (40, 1.555),
        (35, 1.742),
        (30, 2.000),
    ],
)
def test_load_angle_factor(degrees: float, printed: float) -> None:
    factor = sling_factor_from_horizontal(math.radians(degrees))
    assert factor == pytest.approx(printed, abs=0.0005 * factor**2 + 0.0005)


# The same table read from the vertical, as eyebolt and chain tables count. Confidence: checked.
@pytest.mark.parametrize(("degrees", "printed"), [(0, 1.000), (30, 1.155), (45, 1.414), (60, 2.0)])
def test_load_angle_factor_from_the_vertical(degrees: float, printed: float) -> None:
    assert sling_factor_from_vertical(math.radians(degrees)) == pytest.approx(printed, abs=0.0005)


# Rigging handbook, worked example: 1000 lb on two legs. Confidence: checked.
@pytest.mark.parametrize(("degrees", "printed_lb"), [(60, 577), (45, 707)])
def test_thousand_pounds_on_two_legs(degrees: float, printed_lb: float) -> None:
    tension = sling_leg_tension_from_horizontal(1000.0, 2, math.radians(degrees))
    assert tension == pytest.approx(printed_lb, abs=0.5)


# Rigging supplier's chart: 10 000 lb on two legs. Printed as 5000 lb times a factor of three
# decimals, hence half a unit of the factor's last digit times 5000 lb. Confidence: checked.
@pytest.mark.parametrize(("degrees", "printed_lb"), [(60, 5775), (45, 7070), (30, 10_000)])
def test_ten_thousand_pounds_on_two_legs(degrees: float, printed_lb: float) -> None:
    tension = sling_leg_tension_from_horizontal(10e3, 2, math.radians(degrees))
    assert tension == pytest.approx(printed_lb, abs=2.5)


# The same chart, angle from the vertical. Confidence: checked.
def test_flattest_allowed_leg_carries_the_whole_load() -> None:
    tension = sling_leg_tension_from_vertical(10e3, 2, math.radians(60.0))
    assert tension == pytest.approx(10e3, abs=2.5)
