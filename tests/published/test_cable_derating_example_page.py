"""Page with a cable derating example, 70 °C PVC at 45 °C, grouped."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.cables import iec_cable_capacity


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# Worked example: 60 A x 0.79 x 0.70 = 33.18 A. The page says "three other circuits", which is four
# in all and 0.65 in the table; it is a check of the arithmetic only. Confidence: checked.
def test_worked_example() -> None:
    assert iec_cable_capacity(60.0, 0.79, 0.70, 1.0) == printed("33.18")
