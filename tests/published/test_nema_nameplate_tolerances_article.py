"""Repair-trade association's article on nameplate tolerances (2013), NEMA MG 1-2011, 12.44.1."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.supply_deviation import (
    nema_combined_deviation,
    nema_deviation_utilisation,
)


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# Article, 230 V plate: limits 207 V and 253 V at rated frequency. Confidence: checked.
@pytest.mark.parametrize("voltage", [207.0, 253.0])
def test_limits_of_voltage(voltage: float) -> None:
    assert nema_deviation_utilisation(voltage, 230.0, 60.0, 60.0) == pytest.approx(1.0)


# Article, the same plate at -5.1 % of voltage and +1.6 % of frequency: 6.7 % of the 10 % allowed.
# Confidence: checked.
def test_voltage_and_frequency_together() -> None:
    given = (230.0 * 0.949, 230.0, 60.0 * 1.016, 60.0)
    assert 100 * nema_combined_deviation(*given) == printed("6.7")
    assert nema_deviation_utilisation(*given) < 1.0


# NEMA MG 1-2011 (condensed), p. 13, 12.44.1: frequency alone at most 5 %. Confidence: checked.
@pytest.mark.parametrize("frequency", [57.0, 63.0])
def test_limits_of_frequency(frequency: float) -> None:
    assert nema_deviation_utilisation(230.0, 230.0, frequency, 60.0) == pytest.approx(1.0)
