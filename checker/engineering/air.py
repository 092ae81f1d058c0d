"""Properties of the air in a duct: pressure, density and viscosity.

A pressure loss and a fan's pressure follow the density of the air, and the curve
on a data sheet belongs to one density. At altitude, or in a warm enclosure, both
are corrected from the values computed here.
"""

from __future__ import annotations

import math

from ._bounds import require_positive, require_within
from .dimensions import Density, DynamicViscosity, Length, Number, Pressure, Temperature

__all__ = [
    "air_density",
    "air_viscosity",
    "atmospheric_pressure",
    "gravity_effect",
    "humid_air_density",
    "pressure_at_density",
    "saturation_vapour_pressure",
]

_GRAVITY = 9.80665
_DRY_AIR_CONSTANT = 287.05
_ZERO_CELSIUS = 273.15


def atmospheric_pressure(altitude: Length) -> Pressure:
    """Pressure p of the standard atmosphere at an altitude, Pa.

    Source: ASHRAE Handbook - Fundamentals (2017), chapter 1, equation 3, as two open libraries quote
    it: the troposphere of ISO 2533:1975. Confidence: checked.

    altitude: height of the site above sea level [m], -500 to 5000
    Returns [Pa].
    Valid for: the standard atmosphere; weather moves the pressure by some 3 %. The formula
    reaches 11 000 m; the upper limit here is the highest place a machine shop is likely.
    Raises OutOfRange: outside that range.

    >>> atmospheric_pressure(0.0)
    101325.0
    >>> atmospheric_pressure(1500.0)  # an independent library gives 84 560 Pa
    84556.
    """
    require_within(altitude, -500.0, 5000.0, "altitude", "m", "the atmosphere formula as used here")
    return float(101_325.0 * (1.0 - 2.25577e-5 * altitude) ** 5.25588)


def air_density(pressure: Pressure, temperature: Temperature) -> Density:
    """Density rho = p / (287.05 T) of dry air, kg/m3.

    Source: ideal gas law with the specific gas constant of dry air, textbook; tests hold it
    against CoolProp. Confidence: checked.

    pressure: absolute pressure [Pa], 30 000 to 200 000
    temperature: absolute temperature [K], 223.15 to 473.15
    Returns [kg/m3].
    Valid for: dry air; humid air is lighter, see humid_air_density.
    Raises OutOfRange: outside those ranges.

    >>> air_density(101_325.0, 293.15)  # an independent library gives 1.2046
    1.204
    """
    require_within(pressure, 30e3, 200e3, "absolute pressure", "Pa", "the density formula")
    require_within(temperature, 223.15, 473.15, "air temperature", "K", "the density formula")
    return pressure / (_DRY_AIR_CONSTANT * temperature)


def saturation_vapour_pressure(temperature: Temperature) -> Pressure:
    """Pressure e_s of water vapour over water at saturation, Pa.

    Source: Alduchov and Eskridge, Improved Magnus form approximation of saturation vapor
    pressure, Journal of Applied Meteorology 35 (1996). Confidence: checked.

    temperature: absolute temperature [K], 233.15 to 323.15
    Returns [Pa].
    Valid for: saturation over water. The coefficients were read in a copy; the range is remembered.
    Raises OutOfRange: outside that range.

    >>> saturation_vapour_pressure(293.15)
    2333.
    """
    require_within(temperature, 233.15, 323.15, "air temperature", "K", "the saturation formula")
    celsius = temperature - _ZERO_CELSIUS
    return 610.94 * math.exp(17.625 * celsius / (243.04 + celsius))


def humid_air_density(
    pressure: Pressure, temperature: Temperature, relative_humidity: Number
) -> Density:
    """Density rho = (p - 0.378 e) / (287.05 T) of humid air, kg/m3.

    Source: ideal gas mixture of dry air and water vapour, textbook; tests hold it against
    CoolProp. Confidence: checked.

    pressure: absolute pressure [Pa], 30 000 to 200 000
    temperature: absolute temperature [K], 233.15 to 323.15
    relative_humidity: vapour pressure over saturation pressure [1], 0 to 1
    Returns [kg/m3].
    Valid for: air without droplets; the oil in a mist adds less than 0.1 % at 1 g/m3.
    Raises OutOfRange: outside those ranges.

    >>> humid_air_density(101_325.0, 293.15, 0.5)  # an independent library gives 1.1994
    1.199
    """
    require_within(relative_humidity, 0.0, 1.0, "relative humidity", "", "the density formula")
    vapour = relative_humidity * saturation_vapour_pressure(temperature)
    return air_density(pressure, temperature) * (1.0 - 0.378 * vapour / pressure)


def air_viscosity(temperature: Temperature) -> DynamicViscosity:
    """Dynamic viscosity mu of air, Pa s.

    Source: U.S. Standard Atmosphere 1976, equation 51 (Sutherland's law). Confidence: checked.

    temperature: absolute temperature [K], 223.15 to 473.15
    Returns [Pa s].
    Valid for: pressures near one atmosphere. About 0.4 % below tables of measured values at
    room temperature.
    Raises OutOfRange: outside that range.

    >>> air_viscosity(293.15)  # an independent library gives 1.8206e-5
    1.81e-05
    """
    require_within(temperature, 223.15, 473.15, "air temperature", "K", "the viscosity formula")
    return float(1.458e-6 * temperature**1.5 / (temperature + 110.4))


def pressure_at_density(
    pressure: Pressure, quoted_density: Density, actual_density: Density
) -> Pressure:
    """Pressure loss or fan pressure dp2 = dp1 rho2/rho1 at the same volume flow, Pa.

    Source: proportionality of turbulent losses and of fan pressure to density, textbook.
    Confidence: from-memory.

    pressure: loss or fan pressure at the quoted density [Pa]
    quoted_density: density the value belongs to [kg/m3], > 0
    actual_density: density of the air on site [kg/m3], > 0
    Returns [Pa].
    Valid for: turbulent losses and fans; a fibre filter follows viscosity, not density.
    Raises OutOfRange: a density that is not positive.

    >>> pressure_at_density(53.553, 1.2041, 1.1274)  # arithmetic of the formula
    50.142
    """
    require_positive(quoted_density, "quoted density", "kg/m3")
    require_positive(actual_density, "actual density", "kg/m3")
    return pressure * actual_density / quoted_density


def gravity_effect(room_density: Density, duct_density: Density, rise: Length) -> Pressure:
    """Pressure g (rho_room - rho_duct) z that warm air in a vertical duct gives, Pa.

    Source: ASHRAE Handbook - Fundamentals (SI), chapter 21 Duct Design, example 4.
    Confidence: checked.

    room_density: density of the air around the duct [kg/m3], > 0
    duct_density: density of the air in the duct [kg/m3], > 0
    rise: height of the outlet above the inlet [m]; negative where the air flows down
    Returns [Pa]: positive where it helps the fan, negative where it hinders.
    Valid for: one temperature along the duct.
    Raises OutOfRange: a density that is not positive.

    >>> gravity_effect(1.204, 0.898, 18.0)  # printed: 54 Pa
    54.0
    """
    require_positive(room_density, "density of the room air", "kg/m3")
    require_positive(duct_density, "density of the duct air", "kg/m3")
    return _GRAVITY * (room_density - duct_density) * rise
