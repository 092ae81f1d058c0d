"""Behaviour of checker/engineering/cables.py."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.cables import (
    ambient_temperature_factor,
    awg_conductor_area,
    iec_cable_capacity,
    iec_least_tabulated_capacity,
    least_bend_radius,
    nec_conductor_capacity,
    nec_motor_conductor_least_capacity,
)
from checker.engineering.limits import OutOfRange

ZERO = 273.15
shares = st.floats(0.05, 1.0)
amperes = st.floats(1.0, 500.0)


@given(st.floats(0.0, 69.0), st.floats(0.0, 69.0))
def test_hotter_air_never_more_current(first: float, second: float) -> None:
    cool, hot = sorted((first, second))
    factors = [ambient_temperature_factor(70 + ZERO, 30 + ZERO, t + ZERO) for t in (cool, hot)]
    assert factors[0] >= factors[1] > 0.0


# Two steps make one: from 30 °C to 40 °C and from 40 °C to 50 °C.
@given(st.floats(0.0, 60.0), st.floats(0.0, 60.0))
def test_factors_chain(middle: float, end: float) -> None:
    conductor = 90.0 + ZERO
    direct = ambient_temperature_factor(conductor, 30 + ZERO, end + ZERO)
    first = ambient_temperature_factor(conductor, 30 + ZERO, middle + ZERO)
    second = ambient_temperature_factor(conductor, middle + ZERO, end + ZERO)
    assert first * second == pytest.approx(direct)


def test_no_correction_at_the_base() -> None:
    assert ambient_temperature_factor(70 + ZERO, 30 + ZERO, 30 + ZERO) == 1.0


@given(amperes, st.floats(0.3, 1.2), shares, shares)
def test_table_there_and_back(amps: float, ambient: float, group: float, other: float) -> None:
    needed = iec_least_tabulated_capacity(amps, ambient, group, other)
    assert iec_cable_capacity(needed, ambient, group, other) == pytest.approx(amps)


@given(amperes, st.floats(0.3, 1.2), shares, amperes)
def test_terminals_always_cap(amps: float, ambient: float, group: float, terminals: float) -> None:
    found = nec_conductor_capacity(amps, ambient, group, terminals)
    assert found <= terminals
    assert found == terminals or found == pytest.approx(amps * ambient * group)


# Arithmetic: 90 °C insulation on 60 °C terminals pays off under derating only: 12 AWG, 30 A, at
# 40 °C and seven conductors 30 x 0.91 x 0.7 = 19.11 A, just under the 20 A of the terminals.
def test_ninety_degree_column_is_a_start_for_derating() -> None:
    assert nec_conductor_capacity(30.0, 0.91, 0.7, 20.0) == pytest.approx(19.11)
    assert nec_conductor_capacity(30.0, 0.91, 0.8, 20.0) == 20.0


# Definition of the gauge (from-memory): 36 AWG is 5 mils, 4/0 is 460 mils, 39 equal steps apart.
@pytest.mark.parametrize(("gauge", "mils"), [(36.0, 5.0), (-3.0, 460.0)])
def test_ends_of_the_gauge(gauge: float, mils: float) -> None:
    diameter = math.sqrt(4.0 * awg_conductor_area(gauge) / math.pi)
    assert diameter / 25.4e-6 == pytest.approx(mils)


@given(st.integers(-3, 39))
def test_gauge_steps_are_equal(gauge: int) -> None:
    ratio = awg_conductor_area(float(gauge)) / awg_conductor_area(float(gauge + 1))
    assert ratio == pytest.approx(92.0 ** (2.0 / 39.0))


# Arithmetic of n D: fixed cable of 10 mm, inlet of a movable machine and 14 mm.
@pytest.mark.parametrize(
    ("diameter", "multiple", "radius"), [(0.010, 3.0, 0.030), (0.014, 6.0, 0.084)]
)
def test_bend_radius(diameter: float, multiple: float, radius: float) -> None:
    assert least_bend_radius(diameter, multiple) == pytest.approx(radius)


@pytest.mark.parametrize(
    "call",
    [
        lambda: ambient_temperature_factor(70 + ZERO, 30 + ZERO, 70 + ZERO),
        lambda: ambient_temperature_factor(70 + ZERO, 70 + ZERO, 30 + ZERO),
        lambda: ambient_temperature_factor(70 + ZERO, 30 + ZERO, -10.0),
        lambda: ambient_temperature_factor(math.nan, 30 + ZERO, 40 + ZERO),
        lambda: iec_cable_capacity(0.0, 1.0, 1.0, 1.0),
        lambda: iec_cable_capacity(20.0, 0.0, 1.0, 1.0),
        lambda: iec_cable_capacity(20.0, 1.0, 1.05, 1.0),
        lambda: iec_least_tabulated_capacity(20.0, 1.0, 1.0, 0.0),
        lambda: iec_least_tabulated_capacity(0.0, 1.0, 1.0, 1.0),
        lambda: nec_conductor_capacity(25.0, 0.88, 80.0, 25.0),
        lambda: nec_conductor_capacity(25.0, 0.88, 1.0, 0.0),
        lambda: nec_motor_conductor_least_capacity(0.0),
        lambda: awg_conductor_area(12.5),
        lambda: awg_conductor_area(-4.0),
        lambda: awg_conductor_area(41.0),
        lambda: least_bend_radius(0.0, 3.0),
        lambda: least_bend_radius(0.01, 0.0),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()


def test_refusal_speaks_in_degrees_celsius() -> None:
    with pytest.raises(OutOfRange, match=r"air temperature is 75 °C .* may reach 70 °C; .*\."):
        ambient_temperature_factor(70 + ZERO, 30 + ZERO, 75 + ZERO)
