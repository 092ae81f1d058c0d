from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.fan_inlet import (
    fan_static_pressure,
    rectangular_inlet_elbow_coefficient,
    round_inlet_elbow_coefficient,
)
from checker.engineering.limits import OutOfRange


@given(st.floats(0.5, 1.9), st.floats(0.0, 4.9), st.floats(0.01, 0.1))
def test_more_straight_length_or_radius_never_costs_more(
    radius: float, length: float, step: float
) -> None:
    for function in (round_inlet_elbow_coefficient, rectangular_inlet_elbow_coefficient):
        here = function(radius, length)
        assert function(radius + step, length) <= here + 1e-12
        assert function(radius, length + step) <= here + 1e-12


# Arithmetic of the table: 0.67 and 1.20 velocity pressures of 53.5 Pa.
def test_loss_at_the_inlet() -> None:
    assert 53.5 * round_inlet_elbow_coefficient(1.0, 2.0) == pytest.approx(35.8, abs=0.05)
    assert 53.5 * round_inlet_elbow_coefficient(1.0, 0.0) == pytest.approx(64.2, abs=0.05)


@given(st.floats(0.0, 2000.0), st.floats(-200.0, 2000.0), st.floats(0.0, 300.0))
def test_fan_static_is_below_the_difference_of_the_readings(
    suction: float, outlet: float, velocity: float
) -> None:
    found = fan_static_pressure(suction, outlet, velocity)
    assert found <= suction + outlet
    assert found == pytest.approx(suction + outlet - velocity)


@pytest.mark.parametrize(("radius", "length"), [(0.4, 1.0), (4.1, 1.0), (1.0, -0.1), (1.0, 5.1)])
def test_out_of_the_round_table(radius: float, length: float) -> None:
    with pytest.raises(OutOfRange, match="the table of round fan inlets holds from"):
        round_inlet_elbow_coefficient(radius, length)


def test_other_refusals() -> None:
    with pytest.raises(OutOfRange, match="the table of rectangular fan inlets holds from"):
        rectangular_inlet_elbow_coefficient(2.1, 0.0)
    with pytest.raises(OutOfRange, match="suction at the fan inlet"):
        fan_static_pressure(-5.0, 10.0, 1.0)
    with pytest.raises(OutOfRange, match="velocity pressure at the fan inlet"):
        fan_static_pressure(5.0, 10.0, -1.0)
