"""Behaviour of checker/engineering/supply_deviation.py."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.supply_deviation import (
    fan_flow_at_frequency,
    fan_power_at_frequency,
    fan_pressure_at_frequency,
    fan_speed_at_frequency,
    iec_zone_a_utilisation,
    iec_zone_b_utilisation,
    nema_combined_deviation,
    nema_deviation_utilisation,
    volts_per_hertz_ratio,
)

frequencies = st.floats(30.0, 90.0)
around = st.floats(0.8, 1.2)


# Arithmetic: 415 V on 400 V is in zone A, 480 V on 460 V too, 208 V on 230 V in B, and 208 V less
# 5 % of drop outside both.
@pytest.mark.parametrize(
    ("voltage", "rated", "in_a", "in_b"),
    [
        (415.0, 400.0, True, True),
        (480.0, 460.0, True, True),
        (208.0, 230.0, False, True),
        (197.6, 230.0, False, False),
    ],
)
def test_zones_at_rated_frequency(voltage: float, rated: float, in_a: bool, in_b: bool) -> None:
    assert (iec_zone_a_utilisation(voltage, rated, 60.0, 60.0) <= 1.0) is in_a
    assert (iec_zone_b_utilisation(voltage, rated, 60.0, 60.0) <= 1.0) is in_b


@pytest.mark.parametrize(
    ("frequency", "in_b"), [(47.6, True), (47.4, False), (51.4, True), (51.6, False)]
)
def test_zone_b_reaches_further_down_than_up(frequency: float, in_b: bool) -> None:
    assert (iec_zone_b_utilisation(400.0, 400.0, frequency, 50.0) <= 1.0) is in_b


@given(around, around)
def test_zone_a_lies_inside_zone_b(in_voltage: float, in_frequency: float) -> None:
    given_ = (400.0 * in_voltage, 400.0, 50.0 * in_frequency, 50.0)
    assert iec_zone_b_utilisation(*given_) <= iec_zone_a_utilisation(*given_) + 1e-12


# Arithmetic of (U/f)/(Un/fn).
@pytest.mark.parametrize(
    ("voltage", "frequency", "rated", "ratio"),
    [(480.0, 60.0, 400.0, 1.000), (460.0, 60.0, 400.0, 0.958), (208.0, 60.0, 230.0, 0.754)],
)
def test_fifty_hertz_motor_at_sixty(
    voltage: float, frequency: float, rated: float, ratio: float
) -> None:
    found = volts_per_hertz_ratio(voltage, frequency, rated, 50.0)
    assert found == pytest.approx(ratio, abs=0.0005)


@given(around, around)
def test_nema_sum_covers_the_voltage_alone(in_voltage: float, in_frequency: float) -> None:
    given_ = (230.0 * in_voltage, 230.0, 60.0 * in_frequency, 60.0)
    together = nema_combined_deviation(*given_)
    assert together == pytest.approx(abs(in_voltage - 1) + abs(in_frequency - 1), abs=1e-9)
    assert nema_deviation_utilisation(*given_) >= abs(in_voltage - 1) / 0.10 - 1e-9


# 6 % of frequency alone breaks NEMA's allowance though the sum is under 10 %.
def test_nema_frequency_alone() -> None:
    assert nema_combined_deviation(230.0, 230.0, 63.6, 60.0) < 0.10
    assert nema_deviation_utilisation(230.0, 230.0, 63.6, 60.0) > 1.0


@given(frequencies, frequencies)
def test_fan_there_and_back(first: float, second: float) -> None:
    for law in (
        fan_speed_at_frequency,
        fan_flow_at_frequency,
        fan_pressure_at_frequency,
        fan_power_at_frequency,
    ):
        assert law(law(3.0, first, second), second, first) == pytest.approx(3.0)


@given(frequencies, frequencies)
def test_power_is_flow_times_pressure(first: float, second: float) -> None:
    flow = fan_flow_at_frequency(1.0, first, second)
    pressure = fan_pressure_at_frequency(1.0, first, second)
    assert fan_power_at_frequency(1.0, first, second) == pytest.approx(flow * pressure)
    assert fan_speed_at_frequency(1.0, first, second) == pytest.approx(flow)


# Arithmetic of the cube: a 50 Hz fan takes 73 % more power at 60 Hz.
def test_fifty_hertz_fan_at_sixty() -> None:
    assert fan_power_at_frequency(750.0, 60.0, 50.0) == pytest.approx(1296.0)


@pytest.mark.parametrize(
    "call",
    [
        lambda: volts_per_hertz_ratio(400.0, 0.0, 400.0, 50.0),
        lambda: volts_per_hertz_ratio(400.0, 50.0, 0.0, 50.0),
        lambda: iec_zone_a_utilisation(-400.0, 400.0, 50.0, 50.0),
        lambda: iec_zone_b_utilisation(400.0, 400.0, 50.0, 0.0),
        lambda: nema_combined_deviation(230.0, 230.0, float("nan"), 60.0),
        lambda: nema_deviation_utilisation(230.0, 0.0, 60.0, 60.0),
        lambda: fan_speed_at_frequency(0.0, 50.0, 50.0),
        lambda: fan_flow_at_frequency(-1.0, 50.0, 50.0),
        lambda: fan_pressure_at_frequency(-1.0, 50.0, 50.0),
        lambda: fan_power_at_frequency(-1.0, 50.0, 50.0),
        lambda: fan_power_at_frequency(1.0, 50.0, 0.0),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()
