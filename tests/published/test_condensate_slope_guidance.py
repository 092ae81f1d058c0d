"""International Mechanical Code 307.2 as told by secondary pages: slope of a condensate drain."""

from __future__ import annotations

import pytest

from checker.engineering.drain_traps import drain_slope

INCH = 0.0254
FOOT = 0.3048


# 307.2: one eighth unit in 12 units, about 1 per cent. checked in secondary texts
def test_one_eighth_inch_in_one_foot() -> None:
    assert drain_slope(INCH / 8.0, 0.0, FOOT) == pytest.approx(0.01, abs=0.0005)


# One page prints "1/8 inch fall for every 12 feet", 0.087 per cent: wrong by twelve. checked
def test_one_eighth_inch_in_twelve_feet_is_not_one_per_cent() -> None:
    slope = drain_slope(INCH / 8.0, 0.0, 12.0 * FOOT)
    assert slope != pytest.approx(0.01, abs=0.0005)
    assert slope == pytest.approx(0.00087, abs=0.000005)
