"""Heating of cables against a march of the conductor's own temperature and a heat balance."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from checker.engineering.adiabatic import (
    adiabatic_conductor_size,
    adiabatic_factor,
    adiabatic_time,
    let_through_energy,
)
from checker.engineering.cables import ambient_temperature_factor, awg_conductor_area
from checker.engineering.motor_overload import trip_time_at_multiple

# Volumetric heat capacity [J/(K·m³)], resistivity at 20 °C [Ω·m], reciprocal coefficient at 0 °C
# [K]: the constants of IEC 60949 from which K = √(Qc (β + 20)/ρ20) is printed as 226 and 78.
METALS = {"copper": (3.45e6, 1.7241e-8, 234.5), "steel": (3.8e6, 13.8e-8, 202.0)}


@pytest.mark.parametrize("metal", ["copper", "steel"])
@pytest.mark.parametrize(("initial", "final"), [(70.0, 160.0), (90.0, 250.0), (30.0, 200.0)])
def test_fault_marched_through_time(
    metal: Literal["copper", "steel"], initial: float, final: float
) -> None:
    capacity, resistivity, beta = METALS[metal]
    area, current = 2.5e-6, 600.0

    def rate(_: float, state: np.ndarray) -> list[float]:
        warm = resistivity * (beta + float(state[0])) / (beta + 20.0)
        return [warm * (current / area) ** 2 / capacity]

    def hot(_: float, state: np.ndarray) -> float:
        return float(state[0]) - final

    hot.terminal = True  # type: ignore[attr-defined]
    found = solve_ivp(rate, (0.0, 100.0), [initial], events=hot, rtol=1e-9, atol=1e-9)
    factor = adiabatic_factor(metal, initial + 273.15, final + 273.15)
    # The printed constants have two or three digits; 1 % of K is 2 % of the time.
    assert adiabatic_time(factor, area, current) == pytest.approx(found.t_events[0][0], rel=0.02)


def test_size_that_just_bears_the_fault() -> None:
    factor = adiabatic_factor("copper", 343.15, 433.15)
    root = brentq(lambda s: adiabatic_time(factor, s, 900.0) - 0.4, 1e-7, 1e-4, xtol=1e-16)
    assert adiabatic_conductor_size(900.0, 0.4, factor) == pytest.approx(root, rel=1e-9)


def test_energy_of_a_sine_current() -> None:
    # A steady sine of 50 Hz for 0.4 s, squared and added up.
    time = np.linspace(0.0, 0.4, 400_001)
    wave = math.sqrt(2.0) * 900.0 * np.sin(2.0 * math.pi * 50.0 * time)
    assert let_through_energy(900.0, 0.4) == pytest.approx(
        float(np.trapezoid(wave**2, time)), rel=1e-6
    )


@pytest.mark.parametrize(("conductor", "reference"), [(70.0, 30.0), (90.0, 30.0), (70.0, 40.0)])
@pytest.mark.parametrize("air", [35.0, 45.0, 55.0])
def test_current_in_warmer_air_by_heat_balance(
    conductor: float, reference: float, air: float
) -> None:
    # Heat made, I² R, equals heat given off, h (θ - θa), at the conductor's limit: the current
    # is found in both airs, and their ratio is the factor.
    def current(surroundings: float) -> float:
        return float(brentq(lambda i: 0.01 * i**2 - 3.0 * (conductor - surroundings), 0.0, 1e3))

    ours = ambient_temperature_factor(conductor + 273.15, reference + 273.15, air + 273.15)
    assert ours == pytest.approx(current(air) / current(reference), rel=1e-9)


def test_wire_gauge_as_a_geometric_series() -> None:
    # 0000 is 0.46 in, 36 is 0.005 in, with 38 sizes between in even ratio.
    diameters = np.geomspace(0.46, 0.005, 40) * 0.0254
    for gauge, diameter in zip(range(-3, 37), diameters, strict=True):
        assert awg_conductor_area(float(gauge)) == pytest.approx(
            math.pi * diameter**2 / 4.0, rel=1e-9
        )


def test_overload_relay_as_stored_heat() -> None:
    # A relay without losses trips at a fixed heat: 10 s at 7.2 times, marched at 5 times.
    store = 7.2**2 * 10.0

    def tripped(_: float, state: np.ndarray) -> float:
        return float(state[0]) - store

    tripped.terminal = True  # type: ignore[attr-defined]
    found = solve_ivp(lambda _t, _y: [5.0**2], (0.0, 100.0), [0.0], events=tripped)
    assert trip_time_at_multiple(10.0, 5.0) == pytest.approx(found.t_events[0][0], rel=1e-9)
