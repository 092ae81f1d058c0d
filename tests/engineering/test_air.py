from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.air import (
    air_density,
    air_viscosity,
    atmospheric_pressure,
    gravity_effect,
    humid_air_density,
    pressure_at_density,
    saturation_vapour_pressure,
)
from checker.engineering.limits import OutOfRange

pressures = st.floats(50e3, 110e3)
temperatures = st.floats(240.0, 320.0)


@given(st.floats(-500.0, 4999.0), st.floats(0.1, 1.0))
def test_pressure_falls_with_altitude(altitude: float, step: float) -> None:
    assert atmospheric_pressure(altitude + step) < atmospheric_pressure(altitude)


@given(pressures, temperatures, st.floats(1.01, 1.2))
def test_density_rises_with_pressure_and_falls_with_warmth(
    pressure: float, temperature: float, factor: float
) -> None:
    density = air_density(pressure, temperature)
    assert air_density(pressure * factor, temperature) == pytest.approx(density * factor)
    assert air_density(pressure, temperature * factor) == pytest.approx(density / factor)


@given(pressures, temperatures, st.floats(0.0, 0.9), st.floats(0.01, 0.1))
def test_humidity_makes_air_lighter(
    pressure: float, temperature: float, humidity: float, step: float
) -> None:
    drier = humid_air_density(pressure, temperature, humidity)
    damper = humid_air_density(pressure, temperature, humidity + step)
    assert damper < drier <= air_density(pressure, temperature)


@given(temperatures, st.floats(0.1, 3.0))
def test_viscosity_and_vapour_rise_with_temperature(temperature: float, step: float) -> None:
    assert air_viscosity(temperature + step) > air_viscosity(temperature)
    warmer = saturation_vapour_pressure(temperature + step)
    assert warmer > saturation_vapour_pressure(temperature)


@given(st.floats(0.0, 5000.0), st.floats(0.5, 2.0), st.floats(0.5, 2.0))
def test_density_correction_goes_there_and_back(
    pressure: float, quoted: float, actual: float
) -> None:
    there = pressure_at_density(pressure, quoted, actual)
    assert pressure_at_density(there, actual, quoted) == pytest.approx(pressure)


def test_equal_densities_have_no_gravity_effect() -> None:
    assert gravity_effect(1.2, 1.2, 18.0) == 0.0
    assert gravity_effect(1.2, 0.9, 5.0) == -gravity_effect(0.9, 1.2, 5.0)


@pytest.mark.parametrize("altitude", [-501.0, 5001.0, math.nan, math.inf])
def test_altitude_out_of_range(altitude: float) -> None:
    with pytest.raises(OutOfRange, match=r"The altitude is .*holds from -500 m to 5000 m"):
        atmospheric_pressure(altitude)


@pytest.mark.parametrize("temperature", [20.0, 0.0, 500.0, math.nan])
def test_temperature_in_celsius_is_refused(temperature: float) -> None:
    with pytest.raises(OutOfRange, match="The air temperature is"):
        air_density(101_325.0, temperature)
    with pytest.raises(OutOfRange, match="The air temperature is"):
        air_viscosity(temperature)
    with pytest.raises(OutOfRange, match="The air temperature is"):
        saturation_vapour_pressure(temperature)


@pytest.mark.parametrize("pressure", [1013.25, 0.0, 3e5, math.nan])
def test_pressure_in_hectopascal_is_refused(pressure: float) -> None:
    with pytest.raises(OutOfRange, match="The absolute pressure is"):
        air_density(pressure, 293.15)


@pytest.mark.parametrize("humidity", [-0.01, 1.01, 50.0, math.nan])
def test_humidity_in_per_cent_is_refused(humidity: float) -> None:
    with pytest.raises(OutOfRange, match="The relative humidity is"):
        humid_air_density(101_325.0, 293.15, humidity)


@pytest.mark.parametrize("density", [0.0, -1.2, math.nan, math.inf])
def test_impossible_density(density: float) -> None:
    with pytest.raises(OutOfRange, match="quoted density"):
        pressure_at_density(100.0, density, 1.2)
    with pytest.raises(OutOfRange, match="actual density"):
        pressure_at_density(100.0, 1.2, density)
    with pytest.raises(OutOfRange, match="density of the room air"):
        gravity_effect(density, 1.2, 3.0)
    with pytest.raises(OutOfRange, match="density of the duct air"):
        gravity_effect(1.2, density, 3.0)
