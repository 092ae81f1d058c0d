from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.liquids import (
    liquid_density,
    liquid_reynolds_number,
    liquid_viscosity,
    viscosity_temperature_constant,
    viscosity_temperature_slope,
)

WARM, HOT = 313.15, 373.15
grades = st.floats(15e-6, 320e-6)
thinning = st.floats(0.08, 0.2)
temperatures = st.floats(258.15, 368.15)


@given(grades, thinning)
def test_the_line_goes_through_its_points(at_40: float, share: float) -> None:
    at_100 = max(2.1e-6, at_40 * share)
    points = (at_40, WARM, at_100, HOT)
    assert liquid_viscosity(*points, WARM) == pytest.approx(at_40, rel=1e-9)
    assert liquid_viscosity(*points, HOT) == pytest.approx(at_100, rel=1e-9)


@given(grades, thinning, temperatures)
def test_the_order_of_the_points_does_not_matter(
    at_40: float, share: float, temperature: float
) -> None:
    at_100 = max(2.1e-6, at_40 * share)
    there = liquid_viscosity(at_40, WARM, at_100, HOT, temperature)
    back = liquid_viscosity(at_100, HOT, at_40, WARM, temperature)
    assert back == pytest.approx(there, rel=1e-6)


@given(grades, temperatures, st.floats(0.1, 5.0))
def test_colder_oil_is_never_thinner(at_40: float, temperature: float, step: float) -> None:
    points = (at_40, WARM, max(2.1e-6, 0.13 * at_40), HOT)
    warmer = liquid_viscosity(*points, temperature + step)
    assert liquid_viscosity(*points, temperature) > warmer


@given(grades, thinning, temperatures)
def test_constants_describe_the_same_line(at_40: float, share: float, temperature: float) -> None:
    points = (at_40, WARM, max(2.1e-6, at_40 * share), HOT)
    height = viscosity_temperature_constant(*points) - viscosity_temperature_slope(
        *points
    ) * math.log10(temperature)
    found = liquid_viscosity(*points, temperature)
    assert math.log10(math.log10(1e6 * found + 0.7)) == pytest.approx(height, abs=1e-9)


@given(st.floats(700.0, 1200.0), st.floats(0.0001, 0.002), st.floats(0.1, 90.0))
def test_density_falls_with_warmth_and_comes_back(
    density: float, expansion: float, difference: float
) -> None:
    warm = liquid_density(density, 288.15, expansion, 288.15 + difference)
    assert warm < density
    assert warm * (1.0 + expansion * difference) == pytest.approx(density)
    assert liquid_density(density, 288.15, expansion, 288.15) == density


def test_reynolds_number() -> None:
    assert liquid_reynolds_number(0.0, 0.02, 1e-6) == 0.0
    assert liquid_reynolds_number(1.0, 0.02, 2e-6) == pytest.approx(10_000.0)


@pytest.mark.parametrize("temperature", [20.0, 250.0, 430.0, math.nan])
def test_temperature_out_of_range(temperature: float) -> None:
    with pytest.raises(OutOfRange, match="The temperature is"):
        liquid_viscosity(46e-6, WARM, 6.8e-6, HOT, temperature)


@pytest.mark.parametrize("viscosity", [0.0, 1.1e-6, 46.0, -46e-6, math.nan])
def test_viscosity_out_of_range(viscosity: float) -> None:
    with pytest.raises(OutOfRange, match="The kinematic viscosity is"):
        liquid_viscosity(viscosity, WARM, 6.8e-6, HOT, 293.15)


def test_other_refusals() -> None:
    with pytest.raises(OutOfRange, match="needs two temperatures"):
        viscosity_temperature_slope(46e-6, WARM, 6.8e-6, WARM)
    with pytest.raises(OutOfRange, match="one of the values is wrong"):
        viscosity_temperature_slope(6.8e-6, WARM, 46e-6, HOT)
    with pytest.raises(OutOfRange, match="first temperature"):
        viscosity_temperature_slope(46e-6, 0.0, 6.8e-6, HOT)
    with pytest.raises(OutOfRange, match="viscosity at the temperature"):
        liquid_viscosity(3000e-6, WARM, 2.1e-6, HOT, 258.15)
    with pytest.raises(OutOfRange, match="viscosity at the temperature"):
        liquid_viscosity(5e-6, WARM, 2.1e-6, HOT, 420.0)
    with pytest.raises(OutOfRange, match=r"expansion coefficient is 0\.7 1/K"):
        liquid_density(870.0, 288.15, 0.7, 293.15)
    with pytest.raises(OutOfRange, match="difference of temperature"):
        liquid_density(870.0, 15.0, 0.0007, 293.15)
    with pytest.raises(OutOfRange, match="The density is 0"):
        liquid_density(0.0, 288.15, 0.0007, 293.15)
    with pytest.raises(OutOfRange, match="kinematic viscosity"):
        liquid_reynolds_number(1.0, 0.02, 0.0)
    with pytest.raises(OutOfRange, match="bore"):
        liquid_reynolds_number(1.0, 0.0, 1e-6)
