"""Air on site against CoolProp, against fluids, and against the weight of the air above."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from CoolProp.HumidAirProp import HAPropsSI
from fluids.atmosphere import ATMOSPHERE_1976
from scipy.integrate import solve_ivp

from checker.engineering.air import (
    air_density,
    air_viscosity,
    atmospheric_pressure,
    gravity_effect,
    humid_air_density,
    saturation_vapour_pressure,
)

CELSIUS = [-10.0, 0.0, 20.0, 40.0, 60.0, 80.0]


@pytest.mark.parametrize("celsius", CELSIUS)
@pytest.mark.parametrize("pressure", [70e3, 101_325.0])
def test_dry_air_density(celsius: float, pressure: float) -> None:
    expected = PropsSI("D", "T", celsius + 273.15, "P", pressure, "Air")
    # Air is not quite ideal: 0.1 % in this range.
    assert air_density(pressure, celsius + 273.15) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("celsius", CELSIUS)
def test_viscosity(celsius: float) -> None:
    expected = PropsSI("V", "T", celsius + 273.15, "P", 101_325.0, "Air")
    # Sutherland's law of the standard atmosphere lies up to 0.6 % below measured air.
    assert air_viscosity(celsius + 273.15) == pytest.approx(expected, rel=7e-3)


@pytest.mark.parametrize("celsius", [-20.0, 0.0, 10.0, 20.0, 35.0, 50.0])
def test_saturation(celsius: float) -> None:
    if celsius >= 0.01:
        expected = PropsSI("P", "T", celsius + 273.15, "Q", 1, "Water")
        # The improved Magnus form claims 0.4 % over water.
        assert saturation_vapour_pressure(celsius + 273.15) == pytest.approx(expected, rel=4e-3)
    else:
        # Below freezing the formula is for supercooled water, CoolProp for ice: the ratio is
        # exp(L_f/R_v (1/T - 1/T0)) by Clausius and Clapeyron, 1.2 at -20 °C.
        ice = HAPropsSI("P_w", "T", celsius + 273.15, "P", 101_325.0, "R", 1.0)
        ratio = float(np.exp(334e3 / 461.5 * (1.0 / (celsius + 273.15) - 1.0 / 273.15)))
        assert saturation_vapour_pressure(celsius + 273.15) == pytest.approx(ice * ratio, rel=0.02)


@pytest.mark.parametrize("celsius", [5.0, 20.0, 40.0])
@pytest.mark.parametrize("humidity", [0.0, 0.5, 1.0])
def test_humid_air(celsius: float, humidity: float) -> None:
    expected = 1.0 / HAPropsSI("Vha", "T", celsius + 273.15, "P", 95e3, "R", humidity)
    # Ideal mixture against real gas: 0.1 %.
    assert humid_air_density(95e3, celsius + 273.15, humidity) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("altitude", [-400.0, 0.0, 500.0, 1500.0, 3000.0, 5000.0])
def test_pressure_at_an_altitude(altitude: float) -> None:
    # The library counts geopotential height, which at 5000 m is 4 m less: 0.05 %.
    assert atmospheric_pressure(altitude) == pytest.approx(ATMOSPHERE_1976(altitude).P, rel=6e-4)

    # And the weight of the air above, added up: p' = -ρ g with 6.5 K less per kilometre.
    def weight(height: float, state: np.ndarray) -> list[float]:
        return [-9.80665 * float(state[0]) / (287.05287 * (288.15 - 0.0065 * height))]

    found = solve_ivp(weight, (0.0, altitude), [101_325.0], rtol=1e-10, atol=1e-6)
    assert atmospheric_pressure(altitude) == pytest.approx(found.y[0, -1], rel=1e-5)


def test_warm_air_in_a_riser() -> None:
    # Two columns of air 18 m high, weighed by CoolProp's densities.
    room, duct = (PropsSI("D", "T", t, "P", 101_325.0, "Air") for t in (293.15, 393.15))
    heights = np.linspace(0.0, 18.0, 1001)
    difference = float(np.trapezoid(np.full_like(heights, (room - duct) * 9.80665), heights))
    ours = gravity_effect(air_density(101_325.0, 293.15), air_density(101_325.0, 393.15), 18.0)
    # The difference of two densities carries the 0.05 % of each four times.
    assert ours == pytest.approx(difference, rel=2e-3)
