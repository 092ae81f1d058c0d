"""Independent results, not published values: properties of air by CoolProp 8.0.0.

Computed once and written down; CoolProp need not be installed.
"""

from __future__ import annotations

import pytest

from checker.engineering.air import (
    air_density,
    air_viscosity,
    atmospheric_pressure,
    humid_air_density,
    pressure_at_density,
)

# degC, kg/m3, uPa s of dry air at 101 325 Pa
DRY_AIR = [
    (0.0, 1.2931, 17.218),
    (10.0, 1.2472, 17.716),
    (20.0, 1.2046, 18.206),
    (30.0, 1.1647, 18.689),
    (40.0, 1.1274, 19.165),
    (50.0, 1.0925, 19.635),
    (60.0, 1.0596, 20.099),
]


# Dry air, density. Tolerance 0.1 per cent: the ideal gas leaves 0.05 per cent out.
@pytest.mark.parametrize(("celsius", "density", "_viscosity"), DRY_AIR)
def test_density(celsius: float, density: float, _viscosity: float) -> None:
    assert air_density(101_325.0, celsius + 273.15) == pytest.approx(density, rel=0.001)


# Dry air, viscosity. Tolerance 1 per cent: Sutherland's law is 0.2 to 0.5 per cent low here.
@pytest.mark.parametrize(("celsius", "_density", "viscosity"), DRY_AIR)
def test_viscosity(celsius: float, _density: float, viscosity: float) -> None:
    assert 1e6 * air_viscosity(celsius + 273.15) == pytest.approx(viscosity, rel=0.01)


# Humid air, density. Tolerance 0.1 per cent, as for dry air.
@pytest.mark.parametrize(
    ("celsius", "humidity", "density"), [(20.0, 0.5, 1.1994), (40.0, 0.6, 1.1089)]
)
def test_humid_density(celsius: float, humidity: float, density: float) -> None:
    found = humid_air_density(101_325.0, celsius + 273.15, humidity)
    assert found == pytest.approx(density, rel=0.001)


# Loss carried from the density of 20 to that of 40 degC: 53.553 Pa becomes 50.142 Pa.
def test_loss_at_another_density() -> None:
    assert pressure_at_density(53.553, 1.2041, 1.1274) == pytest.approx(50.142, abs=0.0005)


# Standard atmosphere at 1500 m by an independent library: 84 560 Pa, given to 10 Pa.
def test_pressure_at_1500_m() -> None:
    assert atmospheric_pressure(1500.0) == pytest.approx(84_560.0, abs=5.0)
