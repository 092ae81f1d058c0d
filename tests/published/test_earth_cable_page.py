"""Page on sizing an earth cable by the adiabatic equation."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.adiabatic import adiabatic_conductor_size


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# Worked example: 4000 A, 0.2 s, k 143: 12.5 mm². Confidence: checked.
def test_worked_example() -> None:
    assert adiabatic_conductor_size(4000.0, 0.2, 143e6) * 1e6 == printed("12.5")
