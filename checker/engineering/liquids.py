"""Oil and coolant as they run: viscosity and density at a temperature.

An oil is sold by its viscosity at 40 degrees Celsius and drains at the coldest
temperature of the shop, where it is several times as thick. Viscosities here are
kinematic, m2/s; 1 mm2/s (one centistoke) is 1e-6 m2/s.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import (
    Density,
    KinematicViscosity,
    Length,
    Number,
    Speed,
    Temperature,
    ThermalExpansion,
)
from .limits import OutOfRange

__all__ = [
    "liquid_density",
    "liquid_reynolds_number",
    "liquid_viscosity",
    "viscosity_temperature_constant",
    "viscosity_temperature_slope",
]

_CHART = "the viscosity-temperature chart as used here"


def _double_logarithm(viscosity: KinematicViscosity) -> float:
    require_within(viscosity, 2e-6, 1.0, "kinematic viscosity", "m2/s", _CHART)
    return math.log10(math.log10(1e6 * viscosity + 0.7))


def viscosity_temperature_slope(
    first: KinematicViscosity,
    first_temperature: Temperature,
    second: KinematicViscosity,
    second_temperature: Temperature,
) -> Number:
    """Slope B of log10 log10(nu + 0.7) = A - B log10 T through two points, 1.

    Source: ASTM D341, viscosity-temperature charts, worked example. Confidence: checked.

    first: kinematic viscosity at the first temperature [m2/s], 2e-6 to 1
    first_temperature: absolute temperature [K], > 0
    second: kinematic viscosity at the second temperature [m2/s], 2e-6 to 1
    second_temperature: absolute temperature [K], another than the first
    Returns [1].
    Valid for: petroleum oils above their cloud point.
    Raises OutOfRange: outside those ranges, or an oil that thickens with warmth.

    >>> viscosity_temperature_slope(32e-6, 313.0, 5.4e-6, 373.0)  # printed: 3.7449
    3.7449
    """
    require_positive(first_temperature, "first temperature", "K")
    require_positive(second_temperature, "second temperature", "K")
    if first_temperature == second_temperature:
        raise OutOfRange(
            f"Both viscosities are stated at {first_temperature:.6g} K; the line needs two "
            "temperatures."
        )
    slope = (_double_logarithm(first) - _double_logarithm(second)) / (
        math.log10(second_temperature) - math.log10(first_temperature)
    )
    if slope <= 0.0:
        raise OutOfRange(
            f"The liquid has {first * 1e6:.4g} mm2/s at {first_temperature:.5g} K and "
            f"{second * 1e6:.4g} mm2/s at {second_temperature:.5g} K; an oil thins with warmth, "
            "so one of the values is wrong."
        )
    return slope


def viscosity_temperature_constant(
    first: KinematicViscosity,
    first_temperature: Temperature,
    second: KinematicViscosity,
    second_temperature: Temperature,
) -> Number:
    """Constant A of log10 log10(nu + 0.7) = A - B log10 T through two points, 1.

    Source: ASTM D341, viscosity-temperature charts, worked example. Confidence: checked.

    first: kinematic viscosity at the first temperature [m2/s], 2e-6 to 1
    first_temperature: absolute temperature [K], > 0
    second: kinematic viscosity at the second temperature [m2/s], 2e-6 to 1
    second_temperature: absolute temperature [K], another than the first
    Returns [1].
    Valid for: petroleum oils above their cloud point.
    Raises OutOfRange: as for the slope.

    >>> viscosity_temperature_constant(32e-6, 313.0, 5.4e-6, 373.0)  # printed: 9.5259
    9.5259
    """
    slope = viscosity_temperature_slope(first, first_temperature, second, second_temperature)
    return _double_logarithm(first) + slope * math.log10(first_temperature)


def liquid_viscosity(
    first: KinematicViscosity,
    first_temperature: Temperature,
    second: KinematicViscosity,
    second_temperature: Temperature,
    temperature: Temperature,
) -> KinematicViscosity:
    """Kinematic viscosity nu of an oil at a temperature, from two stated points, m2/s.

    Source: ASTM D341, viscosity-temperature charts, worked example. Confidence: checked.

    first: kinematic viscosity at the first temperature, often 40 degC [m2/s], 2e-6 to 1
    first_temperature: absolute temperature [K], > 0
    second: kinematic viscosity at the second temperature, often 100 degC [m2/s], 2e-6 to 1
    second_temperature: absolute temperature [K], another than the first
    temperature: absolute temperature wanted [K], 253.15 to 423.15
    Returns [m2/s].
    Valid for: petroleum oils above their cloud point, results of 2 mm2/s and more. Used oil
    thickens; water-mixed coolant does not follow the chart. The temperature range is a choice.
    Raises OutOfRange: outside those ranges.

    >>> liquid_viscosity(32e-6, 313.0, 5.4e-6, 373.0, 353.0) * 1e6  # printed: 8.5
    8.5
    """
    require_within(temperature, 253.15, 423.15, "temperature", "K", _CHART)
    slope = viscosity_temperature_slope(first, first_temperature, second, second_temperature)
    height = _double_logarithm(first) - slope * math.log10(temperature / first_temperature)
    try:
        viscosity = 1e-6 * (math.pow(10.0, math.pow(10.0, height)) - 0.7)
    except OverflowError:
        viscosity = math.inf
    require_within(viscosity, 2e-6, 1.0, "kinematic viscosity at the temperature", "m2/s", _CHART)
    return viscosity


def liquid_density(
    density: Density,
    density_temperature: Temperature,
    expansion: ThermalExpansion,
    temperature: Temperature,
) -> Density:
    """Density rho = rho_0/(1 + beta (T - T_0)) of a liquid at a temperature, kg/m3.

    Source: thermal expansion, textbook. Confidence: from-memory.

    density: density on the data sheet [kg/m3], > 0
    density_temperature: temperature it belongs to, often 15 degC [K], > 0
    expansion: volume expansion coefficient [1/K], -0.001 to 0.002; mineral oil is near 0.0007
    temperature: temperature wanted [K], > 0
    Returns [kg/m3].
    Valid for: 100 K about the temperature of the data sheet.
    Raises OutOfRange: outside those ranges.

    >>> liquid_density(870.0, 288.15, 0.0007, 293.15)  # arithmetic of the formula
    866.97
    """
    require_positive(density, "density", "kg/m3")
    require_within(expansion, -0.001, 0.002, "expansion coefficient", "1/K", "this formula")
    require_positive(temperature, "temperature", "K")
    difference = temperature - density_temperature
    require_within(difference, -100.0, 100.0, "difference of temperature", "K", "this formula")
    return density / (1.0 + expansion * difference)


def liquid_reynolds_number(velocity: Speed, bore: Length, viscosity: KinematicViscosity) -> Number:
    """Reynolds number Re = V D/nu of a liquid in a full pipe, 1.

    Source: definition, textbook. Confidence: checked.

    velocity: mean velocity [m/s], >= 0
    bore: internal diameter [m], > 0
    viscosity: kinematic viscosity [m2/s], > 0
    Returns [1].
    Valid for: pipes running full.
    Raises OutOfRange: outside those ranges.

    >>> liquid_reynolds_number(1.5, 0.05, 1e-6)
    75000.0
    """
    require_at_least(velocity, 0.0, "velocity", "m/s")
    require_positive(bore, "bore", "m")
    require_positive(viscosity, "kinematic viscosity", "m2/s")
    return velocity * bore / viscosity
