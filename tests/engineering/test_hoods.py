from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.airflow import bore_area, velocity_pressure
from checker.engineering.hoods import (
    bellmouth_entry_coefficient,
    coefficient_of_entry,
    entry_coefficient,
    flow_from_hood_pressure,
    hood_pressure,
    measured_coefficient_of_entry,
    tapered_hood_coefficient,
    velocity_pressure_from_hood_pressure,
)
from checker.engineering.limits import OutOfRange

losses = st.floats(0.0, 3.0)


@given(st.floats(1.0, 500.0), losses)
def test_both_ways_to_the_coefficient_of_entry_agree(pressure: float, loss: float) -> None:
    measured = measured_coefficient_of_entry(pressure, hood_pressure(pressure, loss))
    assert measured == pytest.approx(coefficient_of_entry(loss))


@given(st.floats(1.0, 30.0), st.floats(0.05, 0.4), losses, st.floats(0.7, 1.4))
def test_the_flow_comes_back(velocity: float, bore: float, loss: float, density: float) -> None:
    pressure = hood_pressure(velocity_pressure(velocity, density), loss)
    area = bore_area(bore)
    found = flow_from_hood_pressure(area, pressure, coefficient_of_entry(loss), density)
    assert found == pytest.approx(velocity * area)


@given(losses, st.floats(0.01, 1.0))
def test_a_worse_entry_never_has_a_larger_coefficient(loss: float, more: float) -> None:
    assert coefficient_of_entry(loss + more) < coefficient_of_entry(loss) <= 1.0


# Arithmetic of the formulas for 150 mm, 150 Pa: exact constant at 1.2 kg/m3, and 1.29.
@pytest.mark.parametrize(
    ("loss", "entry", "flow", "hygiene_flow"),
    [
        (0.93, 0.7198, 0.2011, 0.2010),
        (0.49, 0.8192, 0.2289, 0.2287),
        (0.04, 0.9806, 0.2740, 0.2738),
    ],
)
def test_flow_of_150_mm(loss: float, entry: float, flow: float, hygiene_flow: float) -> None:
    coefficient = coefficient_of_entry(loss)
    area = bore_area(0.150)
    assert coefficient == pytest.approx(entry, abs=0.00005)
    assert flow_from_hood_pressure(area, 150.0, coefficient, 1.2) == pytest.approx(
        flow, abs=0.00005
    )
    assert flow_from_hood_pressure(area, 150.0, coefficient, 2.0 / 1.29**2) == pytest.approx(
        hygiene_flow, abs=0.00005
    )


def test_entries_in_order_of_their_loss() -> None:
    kinds = ("bellmouth", "flanged", "flush", "plain")
    values = [entry_coefficient(kind) for kind in kinds]  # type: ignore[arg-type]
    assert values == sorted(values)


def test_forty_degrees_is_the_best_taper() -> None:
    best = tapered_hood_coefficient(math.radians(40.0))
    for degrees in (20.0, 30.0, 50.0, 90.0, 180.0):
        assert tapered_hood_coefficient(math.radians(degrees)) > best


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match="The entry 'square' is in no table"):
        entry_coefficient("square")  # type: ignore[arg-type]
    with pytest.raises(OutOfRange, match="accelerating the air alone"):
        measured_coefficient_of_entry(100.0, 90.0)
    with pytest.raises(OutOfRange, match="velocity pressure"):
        measured_coefficient_of_entry(0.0, 90.0)
    with pytest.raises(OutOfRange, match=r"coefficient of entry is 1.1"):
        flow_from_hood_pressure(0.01, 100.0, 1.1, 1.2)
    with pytest.raises(OutOfRange, match="coefficient of entry is 0"):
        velocity_pressure_from_hood_pressure(100.0, 0.0)
    with pytest.raises(OutOfRange, match="hood static pressure is -100 Pa"):
        flow_from_hood_pressure(0.01, -100.0, 0.8, 1.2)
    with pytest.raises(OutOfRange, match="area of the duct"):
        flow_from_hood_pressure(0.0, 100.0, 0.8, 1.2)
    with pytest.raises(OutOfRange, match="entry loss coefficient"):
        hood_pressure(100.0, -0.1)
    with pytest.raises(OutOfRange, match="entry loss coefficient"):
        coefficient_of_entry(-0.1)
    with pytest.raises(OutOfRange, match=r"radius ratio is 0.3"):
        bellmouth_entry_coefficient(0.3)
    with pytest.raises(OutOfRange, match="included angle of the hood is 10 degrees"):
        tapered_hood_coefficient(math.radians(10.0))


@pytest.mark.parametrize("hood", [0.0, -176.0])
def test_a_hood_without_suction_has_no_coefficient(hood: float) -> None:
    with pytest.raises(OutOfRange, match="hood static pressure"):
        measured_coefficient_of_entry(53.6, hood)
