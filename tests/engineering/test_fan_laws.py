from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.fan_laws import (
    scaled_fan_flow,
    scaled_fan_power,
    scaled_fan_pressure,
    working_point_flow_at,
    working_point_position,
    working_point_pressure_at,
)
from checker.engineering.fans import working_point_flow, working_point_pressure
from checker.engineering.limits import OutOfRange

CURVE = ([0.0, 0.05, 0.1, 0.2, 0.3], [900.0, 890.0, 850.0, 600.0, 0.0])
ratios = st.floats(0.5, 1.5)
losses = st.floats(10.0, 2000.0)


@given(ratios, ratios, losses, losses)
def test_the_curve_moved_point_by_point_gives_the_same(
    speed: float, density: float, duct: float, media: float
) -> None:
    flows = [scaled_fan_flow(flow, speed, 1.0) for flow in CURVE[0]]
    pressures = [scaled_fan_pressure(p, speed, 1.0, density) for p in CURVE[1]]
    stated = (duct, media, 0.15)
    assert working_point_flow_at(*CURVE, *stated, speed, density) == pytest.approx(
        working_point_flow(flows, pressures, *stated), rel=1e-9
    )
    assert working_point_pressure_at(*CURVE, *stated, speed, density) == pytest.approx(
        working_point_pressure(flows, pressures, *stated), rel=1e-6
    )


@given(losses, losses, ratios, st.floats(1.01, 1.5))
def test_a_faster_fan_never_moves_less(
    duct: float, media: float, speed: float, factor: float
) -> None:
    slow = working_point_flow_at(*CURVE, duct, media, 0.15, speed, 1.0)
    assert working_point_flow_at(*CURVE, duct, media, 0.15, speed * factor, 1.0) > slow


@given(losses, ratios)
def test_without_filter_the_flow_follows_the_speed(duct: float, speed: float) -> None:
    base = working_point_flow_at(*CURVE, duct, 0.0, 0.15, 1.0, 1.0)
    found = working_point_flow_at(*CURVE, duct, 0.0, 0.15, speed, 1.0)
    assert found == pytest.approx(speed * base, rel=1e-9)


@given(losses, ratios)
def test_without_filter_density_leaves_the_flow(duct: float, density: float) -> None:
    # Duct loss and fan pressure follow the density together.
    base = working_point_flow_at(*CURVE, duct, 0.0, 0.15, 1.0, 1.0)
    found = working_point_flow_at(*CURVE, duct * density, 0.0, 0.15, 1.0, density)
    assert found == pytest.approx(base, rel=1e-9)


@given(st.floats(0.01, 10.0), ratios, ratios, ratios)
def test_power_is_flow_times_pressure(
    power: float, speed: float, diameter: float, density: float
) -> None:
    flow = scaled_fan_flow(1.0, speed, diameter)
    pressure = scaled_fan_pressure(1.0, speed, diameter, density)
    found = scaled_fan_power(power, speed, diameter, density)
    assert found == pytest.approx(power * flow * pressure)


# Arithmetic of the laws, 60 to 50 Hz.
def test_sixty_to_fifty_hertz() -> None:
    ratio = 50.0 / 60.0
    assert scaled_fan_flow(900.0, ratio, 1.0) == pytest.approx(750.0)
    assert scaled_fan_pressure(500.0, ratio, 1.0, 1.0) == pytest.approx(347.2, abs=0.05)
    assert scaled_fan_power(1000.0, ratio, 1.0, 1.0) == pytest.approx(578.7, abs=0.05)


def test_position_along_the_curve() -> None:
    assert working_point_position(0.0, CURVE[0]) == 0.0
    assert working_point_position(0.06, CURVE[0]) == pytest.approx(0.2)
    assert working_point_position(0.33, CURVE[0]) == pytest.approx(1.1)


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match="ratio of speeds"):
        working_point_flow_at(*CURVE, 100.0, 0.0, 0.15, 0.0, 1.0)
    with pytest.raises(OutOfRange, match="ratio of densities"):
        working_point_pressure_at(*CURVE, 100.0, 0.0, 0.15, 1.0, 0.0)
    with pytest.raises(OutOfRange, match="ratio of densities"):
        working_point_flow_at(*CURVE, 100.0, 0.0, 0.15, 1.0, -1.0)
    with pytest.raises(OutOfRange, match="ratio of wheel diameters"):
        scaled_fan_flow(1.0, 1.0, 0.0)
    with pytest.raises(OutOfRange, match="The power is -1 W"):
        scaled_fan_power(-1.0, 1.0, 1.0, 1.0)
    with pytest.raises(OutOfRange, match="The pressure is -1 Pa"):
        scaled_fan_pressure(-1.0, 1.0, 1.0, 1.0)
    with pytest.raises(OutOfRange, match="last flow of the fan curve"):
        working_point_position(0.1, [])
