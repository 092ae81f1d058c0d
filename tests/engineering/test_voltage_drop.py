"""Behaviour of checker/engineering/voltage_drop.py."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.voltage_drop import (
    bonding_resistance_expected,
    conductor_resistance_at_temperature,
    resistance_per_length,
    single_phase_voltage_drop,
    three_phase_voltage_drop,
    voltage_drop_from_table,
    voltage_drop_limit,
)

REACTANCE = 0.08e-3
HOT_COPPER = 0.0225e-6
amperes = st.floats(0.0, 200.0)
metres = st.floats(0.0, 500.0)
power_factors = st.floats(0.0, 1.0)


# Arithmetic of Annex G by hand: amperes, metres, mm², power factor, volts in one line, percent.
@pytest.mark.parametrize(
    ("current", "length", "size", "power_factor", "one_line", "percent"),
    [(3.6, 30.0, 1.5, 0.8, 1.301, 0.563), (8.5, 80.0, 1.5, 0.82, 8.395, 3.635)],
)
def test_three_phase_on_400_volts(
    current: float,
    length: float,
    size: float,
    power_factor: float,
    one_line: float,
    percent: float,
) -> None:
    resistance = resistance_per_length(HOT_COPPER, size * 1e-6)
    drop = three_phase_voltage_drop(current, length, resistance, REACTANCE, power_factor)
    assert drop / math.sqrt(3.0) == pytest.approx(one_line, abs=0.0005)
    # The percentage is of 400/√3, as Annex G refers to the nominal voltage to neutral; 230.9 V
    # and 230 V differ by 0.4 %.
    assert 100 * drop / (math.sqrt(3.0) * 230.9) == pytest.approx(percent, abs=0.002)


# Independent way: the drop of Annex G is the in-phase part of Z·I, by complex numbers.
@given(st.floats(0.1, 100.0), metres, power_factors)
def test_in_phase_part(current: float, length: float, power_factor: float) -> None:
    phasor = current * complex(power_factor, -math.sqrt(1.0 - power_factor**2))
    expected = 2.0 * (complex(5e-3, REACTANCE) * length * phasor).real
    found = single_phase_voltage_drop(current, length, 5e-3, REACTANCE, power_factor)
    assert found == pytest.approx(expected, abs=1e-9)


@given(amperes, metres, power_factors)
def test_three_phase_against_single_phase(amps: float, length: float, pf: float) -> None:
    three = three_phase_voltage_drop(amps, length, 5e-3, REACTANCE, pf)
    one = single_phase_voltage_drop(amps, length, 5e-3, REACTANCE, pf)
    assert three == pytest.approx(one * math.sqrt(3.0) / 2.0)
    assert one <= 2.0 * amps * length * math.hypot(5e-3, REACTANCE) * (1 + 1e-12)


# At start the current is seven times as large and the power factor smaller: the drop grows, though
# by less than seven times.
def test_starting() -> None:
    resistance = resistance_per_length(HOT_COPPER, 1.5e-6)
    running = three_phase_voltage_drop(4.9, 60.0, resistance, REACTANCE, 0.8)
    starting = three_phase_voltage_drop(7 * 4.9, 60.0, resistance, REACTANCE, 0.35)
    assert running < starting < 7 * running


# IEC 60228 resistances of 1.5 mm² (checked), class 5 against class 2: 9.9 % more drop (arithmetic).
def test_flexible_cable_drops_more() -> None:
    drops = [single_phase_voltage_drop(5.0, 20.0, r, 0.0, 1.0) for r in (12.1e-3, 13.3e-3)]
    assert 100 * (drops[1] / drops[0] - 1) == pytest.approx(9.9, abs=0.05)


# Annex G's 0.0225 Ω·mm²/m lies a little under the 90 °C resistance of 2.5 mm² (7.41 Ω/km, checked).
def test_annex_g_is_cooler_than_90_degrees() -> None:
    hot = conductor_resistance_at_temperature(7.41e-3, 363.15)
    ratio = resistance_per_length(HOT_COPPER, 2.5e-6) / hot
    assert 0.94 < ratio < 0.97


# Arithmetic: 1.1965 at 70 °C, 1.2751 at 90 °C.
@pytest.mark.parametrize(("celsius", "factor"), [(20.0, 1.0), (70.0, 1.1965), (90.0, 1.2751)])
def test_warm_copper(celsius: float, factor: float) -> None:
    found = conductor_resistance_at_temperature(1e-3, celsius + 273.15)
    assert 1000 * found == pytest.approx(factor)


def test_bonding_path() -> None:
    assert bonding_resistance_expected(1.80e-8, 10.0, 2.5e-6, 0.0) == pytest.approx(0.072)
    assert bonding_resistance_expected(1.80e-8, 0.0, 2.5e-6, 0.01) == pytest.approx(0.01)


@given(amperes, metres)
def test_table_value_is_linear(current: float, length: float) -> None:
    found = voltage_drop_from_table(18e-3, current, length)
    assert found == pytest.approx(single_phase_voltage_drop(current, length, 9e-3, 0.0, 1.0))


# Arithmetic of the note: nothing up to 100 m, the whole half percent from 200 m.
@pytest.mark.parametrize(
    ("length", "limit"),
    [(0.0, 0.05), (100.0, 0.05), (150.0, 0.0525), (200.0, 0.055), (900.0, 0.055)],
)
def test_limit_of_long_installations(length: float, limit: float) -> None:
    assert voltage_drop_limit(0.05, length) == pytest.approx(limit)


@pytest.mark.parametrize(
    "call",
    [
        lambda: resistance_per_length(0.0, 1e-6),
        lambda: resistance_per_length(1.8e-8, 0.0),
        lambda: conductor_resistance_at_temperature(12.1e-3, 90.0),
        lambda: conductor_resistance_at_temperature(0.0, 363.15),
        lambda: bonding_resistance_expected(1.8e-8, -1.0, 2.5e-6, 0.0),
        lambda: bonding_resistance_expected(1.8e-8, 1.0, 2.5e-6, -0.1),
        lambda: three_phase_voltage_drop(1.0, 1.0, 5e-3, 0.0, 1.1),
        lambda: three_phase_voltage_drop(-1.0, 1.0, 5e-3, 0.0, 1.0),
        lambda: single_phase_voltage_drop(1.0, -1.0, 5e-3, 0.0, 1.0),
        lambda: single_phase_voltage_drop(1.0, 1.0, 0.0, 0.0, 1.0),
        lambda: single_phase_voltage_drop(1.0, 1.0, 5e-3, -1e-3, 1.0),
        lambda: voltage_drop_from_table(0.0, 1.0, 1.0),
        lambda: voltage_drop_limit(0.0, 1.0),
        lambda: voltage_drop_limit(0.05, -1.0),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()
