"""NFPA 70 (NEC), 310.15 and Table 310.16: ambient factors and ampacities, and wire gauge."""

from __future__ import annotations

import math
from collections.abc import Callable
from decimal import Decimal

import pytest

from checker.engineering.cables import (
    ambient_temperature_factor,
    awg_conductor_area,
    nec_conductor_capacity,
)
from checker.engineering.voltage_drop import resistance_per_length, single_phase_voltage_drop
from checker.findings import Finding
from checker.rulebook.model import Rulebook

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


# Table 310.16, copper, 30 °C, in three recent copies: gauge, A in the 60 °C, 75 °C and 90 °C columns.
# Confidence: checked.
TABLE_310_16 = [
    ("14 AWG", 15, 20, 25),
    ("12 AWG", 20, 25, 30),
    ("10 AWG", 30, 35, 40),
    ("8 AWG", 40, 50, 55),
]


@pytest.mark.parametrize(
    ("gauge", "rating", "cell"),
    [
        (gauge, rating, cell)
        for gauge, *row in TABLE_310_16
        for rating, cell in zip((60, 75, 90), row, strict=True)
    ],
)
def test_shipped_ampacity(shipped: Rulebook, gauge: str, rating: int, cell: int) -> None:
    table = shipped.tables["conductor_capacity_nec"]
    assert table.columns["capacity"].look_up(gauge, rating + ZERO) == pytest.approx(cell)
    assert len(table.rows) == 12


# Editions before 2011 print 20 A and 25 A in the 60 °C column: not shipped. Confidence: checked (read).
@pytest.mark.parametrize(("gauge", "old"), [("14 AWG", 20), ("12 AWG", 25)])
def test_old_column_is_not_shipped(shipped: Rulebook, gauge: str, old: int) -> None:
    found = shipped.tables["conductor_capacity_nec"].columns["capacity"].look_up(gauge, 60 + ZERO)
    assert found < old - 1


# Published wrongly: a trade article calls 10 AWG "30 A at 75 °C"; 30 A is the 60 °C column.
def test_ten_gauge_at_75(shipped: Rulebook) -> None:
    found = (
        shipped.tables["conductor_capacity_nec"].columns["capacity"].look_up("10 AWG", 75 + ZERO)
    )
    assert found != pytest.approx(30)


# A terminal or insulation between two columns takes the lower one.
def test_rating_between_columns(shipped: Rulebook) -> None:
    found = (
        shipped.tables["conductor_capacity_nec"].columns["capacity"].look_up("12 AWG", 70 + ZERO)
    )
    assert found == pytest.approx(20)


# 240.4(D): 15, 20 and 30 A. Wire maker's note and forum threads. Confidence: checked.
@pytest.mark.parametrize(("gauge", "device"), [("14 AWG", 15), ("12 AWG", 20), ("10 AWG", 30)])
def test_shipped_small_conductor_device(shipped: Rulebook, gauge: str, device: int) -> None:
    table = shipped.tables["small_conductor_device_nec"]
    assert table.columns["largest"].look_up(gauge) == pytest.approx(device)
    assert len(table.rows) == 3


@pytest.mark.parametrize(
    ("air", "rating", "factor"),
    [
        (air, rating, factor)
        for air, *row in [*FACTORS, (30, "1.00", "1.00", "1.00")]
        for rating, factor in zip((60, 75, 90), row, strict=True)
    ],
)
def test_shipped_ambient_factor(shipped: Rulebook, air: int, rating: int, factor: str) -> None:
    table = shipped.tables["ambient_factor_nec"]
    found = table.columns["factor"].look_up(rating + ZERO, air + ZERO)
    assert found == pytest.approx(float(factor))
    assert len(table.rows) == 18


# Bands as printed: 31-35, 36-40, 41-45, 46-50, 51-55 °C; both ends, 75 °C column. Confidence: checked.
@pytest.mark.parametrize(
    ("low", "high", "factor"),
    [
        (31, 35, "0.94"),
        (36, 40, "0.88"),
        (41, 45, "0.82"),
        (46, 50, "0.75"),
        (51, 55, "0.67"),
    ],
)
def test_both_ends_of_a_band(shipped: Rulebook, low: int, high: int, factor: str) -> None:
    look_up = shipped.tables["ambient_factor_nec"].columns["factor"].look_up
    assert look_up(75 + ZERO, low + ZERO) == pytest.approx(float(factor))
    assert look_up(75 + ZERO, high + ZERO) == pytest.approx(float(factor))


# Table 310.15(C)(1): 4-6 80 %, 7-9 70 %, 10-20 50 %, 21-30 45 %, 31-40 40 %, 41 and more 35 %.
# Residential Code 2021 (Colorado) and NEC 2014. Confidence: checked.
@pytest.mark.parametrize(
    ("low", "high", "percent"),
    [
        (1, 3, 100),
        (4, 6, 80),
        (7, 9, 70),
        (10, 20, 50),
        (21, 30, 45),
        (31, 40, 40),
        (41, 100, 35),
    ],
)
def test_shipped_adjustment(shipped: Rulebook, low: int, high: int, percent: int) -> None:
    look_up = shipped.tables["conductor_adjustment_nec"].columns["factor"].look_up
    assert 100 * look_up(float(low)) == pytest.approx(percent)
    assert 100 * look_up(float(high)) == pytest.approx(percent)


# Areas of wire gauges as shipped against the formula, three figures (half a digit of 21.2 is 0.24 %); 12 AWG also against the printed
# 6530 circular mils. The formula is from-memory, 6530 was read.
@pytest.mark.parametrize("gauge", [18, 16, 14, 12, 10, 8, 6, 4, 3])
def test_shipped_wire_gauge(shipped: Rulebook, gauge: int) -> None:
    found = shipped.tables["wire_gauge"].columns["area"].look_up(f"{gauge} AWG")
    assert found == pytest.approx(awg_conductor_area(float(gauge)), rel=0.0025)
    assert len(shipped.tables["wire_gauge"].rows) == 9


def test_shipped_twelve_gauge(shipped: Rulebook) -> None:
    found = shipped.tables["wire_gauge"].columns["area"].look_up("12 AWG")
    assert found / CIRCULAR_MIL == pytest.approx(6530.0, abs=5.0)


# Study notes, worked, through the shipped rule: 120 V, 10 A, 100 ft, 12 AWG: 3.29 %.
# Confidence: checked.
def test_shipped_voltage_drop(ask: Callable[..., Finding]) -> None:
    found = ask(
        "electrical-protection/voltage-drop-nec",
        supply="{wiring_code: nec, voltage: 120 V, upstream_drop: 0}",
        collector="{motor: {phases: single, marking: single-voltage, lower_voltage_current: 10 A}}",
        cable="{length: 100 ft, gauge: 12 AWG}",
    )
    assert found.demand is not None
    assert found.demand.value == printed("3.29")
