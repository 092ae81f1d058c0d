"""U.S. Standard Atmosphere 1976 (below 11 km the same as ISO 2533)."""

from __future__ import annotations

import pytest

from checker.engineering.air import air_density, air_viscosity, atmospheric_pressure


# Sea level: viscosity 1.7894e-5 Pa s at 288.15 K, equation 51. from-memory
def test_viscosity_at_sea_level() -> None:
    assert air_viscosity(288.15) == pytest.approx(1.7894e-5, abs=0.00005e-5)


# Sea level: density 1.225 kg/m3. from-memory
def test_density_at_sea_level() -> None:
    assert air_density(101_325.0, 288.15) == pytest.approx(1.225, abs=0.0005)


# Pressure at altitude, Pa. from-memory
# Tolerance 3 Pa: the constants of the formula are rounded to six figures.
@pytest.mark.parametrize(
    ("altitude", "pressure"),
    [
        (0.0, 101_325.0),
        (500.0, 95_461.0),
        (1000.0, 89_875.0),
        (1500.0, 84_556.0),
        (2000.0, 79_495.0),
    ],
)
def test_pressure(altitude: float, pressure: float) -> None:
    assert atmospheric_pressure(altitude) == pytest.approx(pressure, abs=3.0)
