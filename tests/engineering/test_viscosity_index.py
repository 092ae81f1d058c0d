from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.liquids import liquid_viscosity
from checker.engineering.viscosity_index import (
    viscosity_at_100_celsius,
    viscosity_grade_lower_limit,
    viscosity_grade_upper_limit,
    viscosity_index,
)

grades = st.floats(22e-6, 680e-6)


@given(grades, st.floats(20.0, 250.0))
def test_the_index_comes_back(at_40: float, index: float) -> None:
    at_100 = viscosity_at_100_celsius(at_40, index)
    # Half a unit: the parabolas of the published table do not quite meet at their ends.
    assert viscosity_index(at_40, at_100) == pytest.approx(index, abs=0.5)


@given(grades, st.floats(20.0, 240.0), st.floats(3.0, 10.0))
def test_a_higher_index_never_thins_more(at_40: float, index: float, step: float) -> None:
    lower = viscosity_at_100_celsius(at_40, index)
    assert lower < viscosity_at_100_celsius(at_40, index + step)


@given(st.floats(22e-6, 320e-6), st.floats(20.0, 200.0), st.floats(5.0, 30.0))
def test_a_higher_index_is_never_thicker_in_the_cold(
    at_40: float, index: float, step: float
) -> None:
    def cold(value: float) -> float:
        at_100 = viscosity_at_100_celsius(at_40, value)
        return liquid_viscosity(at_40, 313.15, at_100, 373.15, 283.15)

    assert cold(index + step) < cold(index)


@given(st.floats(2e-6, 3200e-6))
def test_grade_limits_enclose_the_grade(grade: float) -> None:
    assert viscosity_grade_lower_limit(grade) < grade < viscosity_grade_upper_limit(grade)


def test_both_procedures_meet_at_one_hundred() -> None:
    at_100 = 8e-6
    high = 1e-6 * (0.05794 * 64.0 + 10.5156 * 8.0 - 28.24)
    assert viscosity_index(high, at_100) == pytest.approx(100.0, abs=1e-6)
    assert viscosity_index(high * (1.0 - 1e-9), at_100) == pytest.approx(100.0, abs=1e-3)


def limits(at_100: float) -> tuple[float, float]:
    """L and H in mm2/s: in procedure A the index is a straight line 100 (L - U) / (L - H) of U."""
    first, second = 100.0 * at_100, 200.0 * at_100
    one, two = (viscosity_index(1e-6 * cool, 1e-6 * at_100) for cool in (first, second))
    slope = (two - one) / (second - first)
    low = first - one / slope
    return low, low + 100.0 / slope


# One smooth table was cut into these ranges, so L and H just below the bound of two and just
# above it belong together: a wrong coefficient of either range parts them. The published
# coefficients leave a thousandth between, H at 7.7 two.
@pytest.mark.parametrize(
    "bound",
    [3.8, 4.4, 5.0, 6.4, 7.0, 7.7, 9.0, 12.0, 15.0, 18.0, 22.0, 28.0, 40.0, 55.0, 70.0],
)
def test_the_ranges_of_the_coefficients_meet(bound: float) -> None:
    below, above = limits(bound * (1.0 - 1e-9)), limits(bound * (1.0 + 1e-9))
    assert below[0] == pytest.approx(above[0], rel=0.001)
    assert below[1] == pytest.approx(above[1], rel=0.002 if bound == 7.7 else 0.001)


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match="viscosity at 100 degrees Celsius"):
        viscosity_index(5e-6, 1.9e-6)
    with pytest.raises(OutOfRange, match="viscosity at 100 degrees Celsius"):
        viscosity_index(5e-6, math.nan)
    with pytest.raises(OutOfRange, match="the first must be the larger"):
        viscosity_index(8e-6, 8e-6)
    with pytest.raises(OutOfRange, match="The viscosity index is -1"):
        viscosity_at_100_celsius(46e-6, -1.0)
    with pytest.raises(OutOfRange, match="The viscosity index is 401"):
        viscosity_at_100_celsius(46e-6, 401.0)
    with pytest.raises(OutOfRange, match="No viscosity at 100 degrees"):
        viscosity_at_100_celsius(3e-6, 20.0)
    with pytest.raises(OutOfRange, match="No viscosity at 100 degrees"):
        viscosity_at_100_celsius(1.5e-6, 100.0)
    with pytest.raises(OutOfRange, match="viscosity grade"):
        viscosity_grade_upper_limit(0.0)
    with pytest.raises(OutOfRange, match="viscosity grade"):
        viscosity_grade_lower_limit(-1.0)
