"""Behaviour of checker/engineering/adiabatic.py."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.adiabatic import (
    adiabatic_conductor_size,
    adiabatic_factor,
    adiabatic_time,
    adiabatic_withstand,
    conductor_size_for_let_through,
    let_through_energy,
)
from checker.engineering.limits import OutOfRange

ZERO = 273.15
amperes = st.floats(10.0, 50e3)
seconds = st.floats(0.1, 5.0)
factors = st.floats(40e6, 180e6)


# Arithmetic of √(I²t)/k: A, s, k per mm², mm².
@pytest.mark.parametrize(
    ("current", "time", "factor", "size"),
    [(600.0, 0.4, 143.0, 2.65), (200.0, 0.1, 115.0, 0.55)],
)
def test_size(current: float, time: float, factor: float, size: float) -> None:
    found = adiabatic_conductor_size(current, time, factor * 1e6)
    assert found * 1e6 == pytest.approx(size, abs=0.005)


# 2.65 mm² is more than 2.5 mm²: the size is not rounded down.
def test_two_and_a_half_does_not_bear_it() -> None:
    needed = let_through_energy(600.0, 0.4)
    assert adiabatic_withstand(143e6, 2.5e-6) < needed


@given(amperes, seconds, factors)
def test_size_bears_exactly_its_fault(current: float, time: float, factor: float) -> None:
    size = adiabatic_conductor_size(current, time, factor)
    assert adiabatic_time(factor, size, current) == pytest.approx(time)
    assert adiabatic_withstand(factor, size) == pytest.approx(let_through_energy(current, time))


# A current-limiting device lets less through than the sine would in the same time.
def test_let_through_of_the_device_asks_for_less() -> None:
    limited = conductor_size_for_let_through(18000.0, 115e6)
    assert limited < adiabatic_conductor_size(6000.0, 0.1, 115e6)


@given(st.floats(20.0, 120.0), st.floats(130.0, 300.0), st.floats(1.0, 50.0))
def test_hotter_start_bears_less(initial: float, final: float, more: float) -> None:
    cold = adiabatic_factor("copper", initial + ZERO, final + ZERO)
    assert adiabatic_factor("copper", initial + ZERO, final + more + ZERO) > cold
    assert adiabatic_factor("copper", initial + ZERO - 10.0, final + ZERO) > cold
    assert cold > adiabatic_factor("steel", initial + ZERO, final + ZERO)


@pytest.mark.parametrize(
    "call",
    [
        lambda: let_through_energy(4000.0, 0.09),
        lambda: let_through_energy(4000.0, 5.1),
        lambda: let_through_energy(0.0, 0.2),
        lambda: adiabatic_conductor_size(4000.0, 0.02, 115e6),
        lambda: adiabatic_conductor_size(4000.0, 0.2, 0.0),
        lambda: conductor_size_for_let_through(0.0, 115e6),
        lambda: adiabatic_withstand(115e6, 0.0),
        lambda: adiabatic_time(115e6, 10e-6, 0.0),
        lambda: adiabatic_factor("brass", 70 + ZERO, 160 + ZERO),
        lambda: adiabatic_factor("copper", 160 + ZERO, 70 + ZERO),
        lambda: adiabatic_factor("copper", 70.0, 160 + ZERO),
        lambda: adiabatic_factor("copper", -20.5 + ZERO, 160 + ZERO),
        lambda: adiabatic_factor("copper", 200.5 + ZERO, 250 + ZERO),
        lambda: adiabatic_factor("copper", 70 + ZERO, 500.5 + ZERO),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()


def test_refusal_speaks_in_degrees_celsius() -> None:
    with pytest.raises(OutOfRange, match=r"final temperature, 70 °C, is not above .* 160 °C\."):
        adiabatic_factor("copper", 160 + ZERO, 70 + ZERO)


@pytest.mark.parametrize(("initial", "final"), [(-20.0, 160.0), (200.0, 250.0), (70.0, 500.0)])
def test_ends_of_the_range_are_in_it(initial: float, final: float) -> None:
    assert adiabatic_factor("copper", initial + ZERO, final + ZERO) > 0.0


def test_a_metal_that_does_not_warm_is_refused() -> None:
    for final in (ZERO + 70.0, ZERO + 60.0):
        with pytest.raises(OutOfRange, match="is not above the initial one"):
            adiabatic_factor("copper", ZERO + 70.0, final)
