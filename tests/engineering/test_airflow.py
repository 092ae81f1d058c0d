from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.airflow import (
    bore_area,
    duct_velocity,
    flow_in_duct,
    hydraulic_diameter,
    largest_bore,
    reynolds_number,
    stated_area_excess,
    traverse_positions_symmetric,
    traverse_velocity,
    velocity_from_pressure,
    velocity_pressure,
    velocity_through,
)
from checker.engineering.limits import OutOfRange

bores = st.floats(0.01, 1.0)
flows = st.floats(1e-4, 10.0)
velocities = st.floats(0.1, 40.0)
densities = st.floats(0.7, 1.4)


@given(flows, bores)
def test_flow_and_velocity_are_inverse(flow: float, bore: float) -> None:
    assert flow_in_duct(duct_velocity(flow, bore), bore) == pytest.approx(flow)


@given(flows, bores, st.floats(0.1, 10.0))
def test_velocity_is_scale_free(flow: float, bore: float, scale: float) -> None:
    larger = duct_velocity(flow * scale**2, bore * scale)
    assert larger == pytest.approx(duct_velocity(flow, bore))


@given(flows, velocities)
def test_largest_bore_keeps_the_velocity(flow: float, velocity: float) -> None:
    assert duct_velocity(flow, largest_bore(flow, velocity)) == pytest.approx(velocity)


@given(velocities, densities)
def test_velocity_and_pressure_are_inverse(velocity: float, density: float) -> None:
    pressure = velocity_pressure(velocity, density)
    assert velocity_from_pressure(pressure, density) == pytest.approx(velocity)


@given(bores)
def test_round_duct_is_its_own_hydraulic_diameter(bore: float) -> None:
    assert hydraulic_diameter(bore_area(bore), math.pi * bore) == pytest.approx(bore)


@given(st.lists(st.floats(1.0, 500.0), min_size=1, max_size=24), densities)
def test_traverse_never_reads_above_the_root_of_the_mean(
    readings: list[float], density: float
) -> None:
    mean = traverse_velocity(readings, density)
    root_of_mean = velocity_from_pressure(math.fsum(readings) / len(readings), density)
    assert mean <= root_of_mean * (1.0 + 1e-12)
    assert min(readings) <= velocity_pressure(mean, density) * (1.0 + 1e-9)


def test_traverse_of_twelve_points() -> None:
    readings = [52, 60, 64, 63, 61, 55, 50, 58, 65, 66, 60, 51]
    assert traverse_velocity(readings, 1.2) == pytest.approx(9.885, abs=0.0005)
    wrong = velocity_from_pressure(math.fsum(readings) / 12.0, 1.2)
    assert wrong == pytest.approx(9.895, abs=0.0005)


@given(st.lists(st.floats(0.001, 0.499), min_size=1, max_size=6, unique=True))
def test_a_mirrored_row_is_symmetric(half: list[float]) -> None:
    near = sorted(half)
    row = near + [1.0 - position for position in reversed(near)]
    assert traverse_positions_symmetric(row, 0.0)
    assert not traverse_positions_symmetric([row[0] + 0.01 * (0.5 - row[0]), *row[1:]], 0.0)


def test_reynolds_number_is_proportional() -> None:
    once = reynolds_number(10.0, 0.15, 1.2, 18e-6)
    assert reynolds_number(20.0, 0.15, 1.2, 18e-6) == pytest.approx(2.0 * once)
    assert reynolds_number(10.0, 0.15, 1.2, 36e-6) == pytest.approx(0.5 * once)


def test_area_of_the_next_size_is_found() -> None:
    assert stated_area_excess(0.100, bore_area(0.100)) == pytest.approx(0.0, abs=1e-12)
    assert stated_area_excess(0.100, bore_area(0.125)) == pytest.approx(0.5625)


@pytest.mark.parametrize("bore", [0.0, -0.1, math.nan, math.inf])
def test_impossible_bore(bore: float) -> None:
    with pytest.raises(OutOfRange, match=r"The bore is .*must be greater than 0 m"):
        bore_area(bore)
    with pytest.raises(OutOfRange, match="bore"):
        reynolds_number(1.0, bore, 1.2, 18e-6)


@pytest.mark.parametrize("flow", [-0.1, math.nan, math.inf])
def test_impossible_flow(flow: float) -> None:
    with pytest.raises(OutOfRange, match="The flow is"):
        velocity_through(flow, 0.1)


def test_no_flow_has_no_velocity_but_needs_an_area() -> None:
    assert velocity_through(0.0, 0.1) == 0.0
    with pytest.raises(OutOfRange, match="The area is 0 m2"):
        velocity_through(0.0, 0.0)


def test_other_refusals() -> None:
    with pytest.raises(OutOfRange, match="does not fit into a perimeter"):
        hydraulic_diameter(1.0, 1.0)
    with pytest.raises(OutOfRange, match="The velocity pressure is -5 Pa"):
        velocity_from_pressure(-5.0, 1.2)
    with pytest.raises(OutOfRange, match="The density is 0 kg/m3"):
        velocity_pressure(10.0, 0.0)
    with pytest.raises(OutOfRange, match=r"would be 400 m/s.*wrong unit"):
        velocity_pressure(400.0, 1.2)
    with pytest.raises(OutOfRange, match="The velocity is -1 m/s"):
        flow_in_duct(-1.0, 0.1)
    with pytest.raises(OutOfRange, match="least velocity"):
        largest_bore(0.1, 0.0)
    with pytest.raises(OutOfRange, match="dynamic viscosity"):
        reynolds_number(1.0, 0.1, 1.2, 0.0)
    with pytest.raises(OutOfRange, match="stated area"):
        stated_area_excess(0.1, 0.0)


@pytest.mark.parametrize("readings", [[], [10.0, 0.0], [10.0, -2.0], [math.nan]])
def test_a_reading_of_zero_is_no_velocity(readings: list[float]) -> None:
    with pytest.raises(OutOfRange, match="traverse"):
        traverse_velocity(readings, 1.2)


@pytest.mark.parametrize("positions", [[], [0.5], [0.0, 1.0], [32.0, 968.0]])
def test_impossible_traverse(positions: list[float]) -> None:
    with pytest.raises(OutOfRange, match="traverse"):
        traverse_positions_symmetric(positions, 0.001)


def test_an_area_a_little_too_large_for_its_perimeter_is_refused() -> None:
    perimeter = math.pi * 0.15
    assert hydraulic_diameter(0.999 * bore_area(0.15), perimeter) == pytest.approx(0.999 * 0.15)
    with pytest.raises(OutOfRange, match="does not fit into a perimeter"):
        hydraulic_diameter(1.001 * bore_area(0.15), perimeter)
