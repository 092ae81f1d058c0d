"""NFPA 70 (NEC), 310.15 and Table 310.16: ambient factors and ampacities, and wire gauge."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest

from checker.engineering.cables import (
    ambient_temperature_factor,
    awg_conductor_area,
    nec_conductor_capacity,
)
from checker.engineering.voltage_drop import resistance_per_length, single_phase_voltage_drop

ZERO = 273.15
CIRCULAR_MIL = math.pi / 4.0 * 0.0254e-3**2
FOOT = 0.3048

# NEC 310.15, ambient correction at 30 °C base: hottest air of the band in °C, then the 60 °C, 75 °C
# and 90 °C columns. NEC 2014 copy and Residential Code 2021 (Colorado), E3705.2.
# Confidence: checked.
FACTORS = [
    (35, "0.91", "0.94", "0.96"),
    (40, "0.82", "0.88", "0.91"),
    (45, "0.71", "0.82", "0.87"),
    (50, "0.58", "0.75", "0.82"),
    (55, "0.41", "0.67", "0.76"),
]


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


@pytest.mark.parametrize(
    ("air", "conductor", "factor"),
    [
        (air, conductor, factor)
        for air, *row in FACTORS
        for conductor, factor in zip((60, 75, 90), row, strict=True)
    ],
)
def test_ambient_factor(air: int, conductor: int, factor: str) -> None:
    found = ambient_temperature_factor(conductor + ZERO, 30.0 + ZERO, air + ZERO)
    assert found == printed(factor)


# Page on Table 310.16: 12 AWG, 75 °C column 25 A, air of 40 °C: 22 A. Confidence: checked.
def test_twelve_gauge_at_40_degrees() -> None:
    assert nec_conductor_capacity(25.0, 0.88, 1.0, 25.0) == printed("22")


# Tables 310.16 and ambient factors: 12 AWG, 75 °C, air of 46 °C to 50 °C, 25 x 0.75.
# Confidence: checked; the product is arithmetic.
def test_twelve_gauge_at_50_degrees() -> None:
    assert nec_conductor_capacity(25.0, 0.75, 1.0, 25.0) == printed("18.75")


# Table 310.16: the 90 °C column serves as a start for derating only. 12 AWG, 90 °C insulation 30 A,
# 60 °C terminals 20 A: cool and alone it carries 20 A, not 30 A. Confidence: checked.
def test_terminals_cap_the_ampacity() -> None:
    assert nec_conductor_capacity(30.0, 1.0, 1.0, 20.0) == printed("20")


# Study notes: 120 V, 10 A, 100 ft of 12 AWG (6530 circular mils), K = 12.9 ohm circular mils per
# foot: 3.95 V, 3.29 %. Confidence: checked.
def test_voltage_drop_by_circular_mils() -> None:
    resistivity = 12.9 * CIRCULAR_MIL / FOOT
    resistance = resistance_per_length(resistivity, 6530 * CIRCULAR_MIL)
    drop = single_phase_voltage_drop(10.0, 100 * FOOT, resistance, 0.0, 1.0)
    assert drop == printed("3.95")
    assert 100 * drop / 120.0 == printed("3.29")


# The same notes: 12 AWG is 6530 circular mils, a table's figure to the next ten.
# Confidence: checked.
def test_area_of_twelve_gauge() -> None:
    assert awg_conductor_area(12.0) / CIRCULAR_MIL == pytest.approx(6530.0, abs=5.0)
