"""Behaviour of checker/engineering/motor_duty.py."""

from __future__ import annotations

import cmath
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.motor_duty import (
    current_unbalance,
    derated_power,
    iec_temperature_rise_limit,
    nema_allowed_starts,
    nema_voltage_unbalance,
    rated_power_for_load,
    run_up_time,
    single_phase_locked_rotor_current,
    three_phase_locked_rotor_current,
    voltage_unbalance_factor,
)

volts = st.floats(350.0, 450.0)
LB_FT2 = 0.0421401101


# Arithmetic of the definition, by hand.
@pytest.mark.parametrize(
    ("voltages", "percent"),
    [((400.0, 400.0, 400.0), 0.0), ((415.0, 400.0, 392.0), 3.148), ((400.0, 395.0, 388.0), 1.606)],
)
def test_largest_deviation(voltages: tuple[float, float, float], percent: float) -> None:
    assert 100 * nema_voltage_unbalance(*voltages) == pytest.approx(percent, abs=0.0005)


@given(volts, volts, volts, st.floats(0.1, 10.0))
def test_unbalance_is_scale_free_and_symmetric(a: float, b: float, c: float, scale: float) -> None:
    for measure in (nema_voltage_unbalance, voltage_unbalance_factor, current_unbalance):
        found = measure(a, b, c)
        assert found >= 0.0
        assert measure(c * scale, a * scale, b * scale) == pytest.approx(found, abs=1e-9)


# An independent way: line voltages built from symmetrical components by complex numbers.
@given(st.floats(0.0, 0.3), st.floats(0.0, 2.0 * math.pi))
def test_negative_sequence_is_found_again(share: float, angle: float) -> None:
    turn = cmath.exp(2j * math.pi / 3)
    positive, negative = 400.0, 400.0 * share * cmath.exp(1j * angle)
    lines = [abs(positive * turn**-k + negative * turn**k) for k in range(3)]
    assert voltage_unbalance_factor(*lines) == pytest.approx(share, abs=1e-7)


def test_balance_is_exactly_none() -> None:
    assert voltage_unbalance_factor(400.0, 400.0, 400.0) == 0.0


# Two lines alike, the third the sum of both: a flat triangle, as much negative as positive.
def test_flat_triangle() -> None:
    assert voltage_unbalance_factor(200.0, 200.0, 400.0) == pytest.approx(1.0)


@given(st.floats(100.0, 1e5), st.floats(0.05, 1.0))
def test_derating_there_and_back(power: float, factor: float) -> None:
    assert derated_power(rated_power_for_load(power, factor), factor) == pytest.approx(power)
    assert derated_power(power, factor) <= power


# Arithmetic: 80 K at 40 °C and 1000 m; 10 K less at 50 °C; 10 % less at 2000 m.
@pytest.mark.parametrize(
    ("celsius", "altitude", "limit"),
    [
        (20.0, 0.0, 80.0),
        (40.0, 1000.0, 80.0),
        (50.0, 1000.0, 70.0),
        (40.0, 2000.0, 72.0),
        (60.0, 4000.0, 42.0),
        (-10.0, 0.0, 80.0),
    ],
)
def test_temperature_rise(celsius: float, altitude: float, limit: float) -> None:
    found = iec_temperature_rise_limit(80.0, celsius + 273.15, altitude)
    assert found == pytest.approx(limit)


@given(st.floats(0.01, 10.0), st.floats(0.01, 10.0))
def test_more_inertia_never_more_starts(first: float, second: float) -> None:
    light, heavy = sorted((first, second))
    allowed = [nema_allowed_starts(12.0 / 3600, 2.4 * LB_FT2, j * LB_FT2) for j in (light, heavy)]
    assert allowed[0] >= allowed[1]


# Arithmetic: starting a 2 hp 2-pole fan with every machine cycle of 3 min, 20 times an hour, is
# over the 11.5 of the table.
def test_start_with_every_cycle() -> None:
    assert nema_allowed_starts(11.5 / 3600, 2.4 * LB_FT2, 0.1 * LB_FT2) < 1.0 / 180.0


# Energy: the wheel's ½Jω² is what the mean torque gave over half the turns of full speed.
@given(st.floats(0.001, 1.0), st.floats(5.0, 60.0), st.floats(0.5, 50.0))
def test_run_up_keeps_energy(inertia: float, speed: float, torque: float) -> None:
    time = run_up_time(inertia, speed, torque)
    work = torque * 2.0 * math.pi * speed * time / 2.0
    assert work == pytest.approx(0.5 * inertia * (2.0 * math.pi * speed) ** 2)


def test_single_phase_is_root_three_of_three_phase() -> None:
    given_ = (7000.0, 1500.0, 230.0)
    ratio = single_phase_locked_rotor_current(*given_) / three_phase_locked_rotor_current(*given_)
    assert ratio == pytest.approx(math.sqrt(3.0))


@pytest.mark.parametrize(
    "call",
    [
        lambda: nema_voltage_unbalance(0.0, 400.0, 400.0),
        lambda: voltage_unbalance_factor(400.0, 400.0, -400.0),
        lambda: voltage_unbalance_factor(400.0, 100.0, 200.0),
        lambda: voltage_unbalance_factor(400.1, 200.0, 200.0),
        lambda: current_unbalance(4.9, 4.9, 0.0),
        lambda: derated_power(1.0, 0.0),
        lambda: derated_power(1.0, 1.05),
        lambda: derated_power(0.0, 0.9),
        lambda: rated_power_for_load(1.0, 0.0),
        lambda: iec_temperature_rise_limit(80.0, 40.0, 0.0),
        lambda: iec_temperature_rise_limit(80.0, 262.0, 0.0),
        lambda: iec_temperature_rise_limit(80.0, 335.0, 0.0),
        lambda: iec_temperature_rise_limit(80.0, 313.15, 4001.0),
        lambda: iec_temperature_rise_limit(15.0, 333.15, 0.0),
        lambda: nema_allowed_starts(0.01, 0.1, 0.0),
        lambda: run_up_time(0.1, 48.0, 0.0),
        lambda: run_up_time(0.1, 48.0, -2.0),
        lambda: three_phase_locked_rotor_current(7000.0, 1500.0, 0.0),
        lambda: single_phase_locked_rotor_current(0.0, 1500.0, 230.0),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()


def test_refusal_speaks_in_degrees_celsius() -> None:
    with pytest.raises(OutOfRange, match=r"Air of 60 °C leaves nothing .* of 20 K .*40 °C\."):
        iec_temperature_rise_limit(20.0, 60.0 + 273.15, 0.0)


# A hundredth of a kelvin is a limit still, if a useless one.
def test_least_rise_that_is_left() -> None:
    assert iec_temperature_rise_limit(20.01, 333.15, 0.0) == pytest.approx(0.01)


@pytest.mark.parametrize("most", [0.0, -1.0])
def test_a_motor_that_may_never_start_is_in_no_table(most: float) -> None:
    with pytest.raises(OutOfRange, match="number of starts in an hour"):
        nema_allowed_starts(most, 0.5, 0.1)
