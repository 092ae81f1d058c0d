"""Basic Electrical Installation Work, pp. 246 and 250: adiabatic equation, protective conductor."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.adiabatic import adiabatic_time
from checker.engineering.fault_protection import iec_protective_conductor_size


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# P. 250: 10 mm², k 115, 4000 A: 82.66 ms; a device that opens in 20 ms will do.
# Confidence: checked.
def test_time_a_conductor_bears() -> None:
    found = adiabatic_time(115e6, 10e-6, 4000.0)
    assert 1000 * found == printed("82.66")
    assert found > 0.020


# P. 246, BS 7671 Table 54.7: mm² of line and of protective conductor. Confidence: checked.
@pytest.mark.parametrize(
    ("line", "protective"), [("1.5", "1.5"), ("10", "10"), ("25", "16"), ("50", "25")]
)
def test_protective_conductor(line: str, protective: str) -> None:
    assert iec_protective_conductor_size(float(line) * 1e-6) * 1e6 == printed(protective)
