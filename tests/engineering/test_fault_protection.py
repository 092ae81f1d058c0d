"""Behaviour of checker/engineering/fault_protection.py."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.fault_protection import (
    earth_fault_current,
    earth_fault_loop_impedance,
    iec_protective_conductor_size,
    iec_separate_protective_conductor_size,
    largest_cold_loop_reading,
    largest_electrode_resistance,
    largest_loop_impedance,
    longest_disconnection_time,
    nec_upsized_grounding_conductor,
    touch_voltage,
)
from checker.engineering.limits import OutOfRange
from checker.engineering.overcurrent_devices import magnetic_trip_highest_current

sizes = st.floats(0.5e-6, 300e-6)


def limit(curve: str, rated: float) -> float:
    return largest_loop_impedance(230.0, 0.95, magnetic_trip_highest_current(curve, rated))


# Arithmetic of Zs = Ze + (r1 + r2)·L·F by hand; which breakers clear it at 230 V, Cmin 0.95.
@pytest.mark.parametrize(
    ("length", "resistance", "impedance", "clears", "does_not_clear"),
    [
        (40.0, 7.41e-3, 1.061, [("C", 16.0)], []),
        (30.0, 12.1e-3, 1.221, [("C", 10.0), ("C", 16.0)], [("D", 16.0)]),
    ],
)
def test_loop(
    length: float,
    resistance: float,
    impedance: float,
    clears: list[tuple[str, float]],
    does_not_clear: list[tuple[str, float]],
) -> None:
    found = earth_fault_loop_impedance(0.35, resistance, resistance, length, 1.2)
    assert found == pytest.approx(impedance, abs=0.0005)
    assert all(found <= limit(*device) for device in clears)
    assert all(found > limit(*device) for device in does_not_clear)


def test_fault_current() -> None:
    loop = earth_fault_loop_impedance(0.35, 7.41e-3, 7.41e-3, 40.0, 1.2)
    assert earth_fault_current(230.0, loop) == pytest.approx(216.7, abs=0.05)


@given(st.floats(50.0, 400.0), st.floats(0.5, 1.0), st.floats(5.0, 1000.0))
def test_limit_gives_the_operating_current(u0: float, cmin: float, amps: float) -> None:
    impedance = largest_loop_impedance(u0, cmin, amps)
    assert earth_fault_current(cmin * u0, impedance) == pytest.approx(amps)
    assert largest_cold_loop_reading(impedance, 0.8) < impedance


@given(st.floats(0.01, 1.0), st.floats(10.0, 100.0))
def test_electrode_at_its_limit(residual: float, touch: float) -> None:
    resistance = largest_electrode_resistance(residual, touch)
    assert touch_voltage(resistance, residual) == pytest.approx(touch)


@given(st.floats(51.0, 1000.0), st.floats(51.0, 1000.0))
def test_higher_voltage_never_more_time(first: float, second: float) -> None:
    low, high = sorted((first, second))
    for system in ("TN", "TT"):
        times = [longest_disconnection_time(system, "final", u) for u in (low, high)]
        assert times[0] >= times[1]
        assert times[0] <= longest_disconnection_time(system, "distribution", low)
    assert longest_disconnection_time("TT", "final", low) < longest_disconnection_time(
        "TN", "final", low
    )


# The rule leaves least at 35 mm², where 16 mm² are asked.
@given(sizes, sizes)
def test_protective_conductor(first: float, second: float) -> None:
    small, large = sorted((first, second))
    assert iec_protective_conductor_size(small) <= iec_protective_conductor_size(large)
    assert 16.0 / 35.0 * (1 - 1e-8) <= iec_protective_conductor_size(small) / small <= 1.0


# A size read as mm² and carried to m² must fall on the right side of each step.
@pytest.mark.parametrize(
    ("line", "protective"), [(16.0, 16.0), (16.1, 16.0), (35.0, 16.0), (35.1, 17.55), (120.0, 60.0)]
)
def test_steps_of_the_rule(line: float, protective: float) -> None:
    assert iec_protective_conductor_size(line / 1e6) * 1e6 == pytest.approx(protective)


@pytest.mark.parametrize(
    ("line", "protected", "size"),
    [(1.5, True, 2.5), (1.5, False, 4.0), (4.0, True, 4.0), (25.0, False, 16.0)],
)
def test_separate_protective_conductor(line: float, protected: bool, size: float) -> None:
    found = iec_separate_protective_conductor_size(line * 1e-6, protected)
    assert found * 1e6 == pytest.approx(size)


@given(sizes, sizes, st.floats(1.0, 4.0))
def test_upsized_grounding_conductor(tabulated: float, required: float, growth: float) -> None:
    found = nec_upsized_grounding_conductor(tabulated, growth * required, required)
    assert found <= growth * required
    assert found == pytest.approx(min(tabulated * growth, growth * required))


@pytest.mark.parametrize(
    "call",
    [
        lambda: earth_fault_loop_impedance(0.0, 1e-3, 1e-3, 1.0, 1.2),
        lambda: earth_fault_loop_impedance(0.35, 0.0, 1e-3, 1.0, 1.2),
        lambda: earth_fault_loop_impedance(0.35, 1e-3, 0.0, 1.0, 1.2),
        lambda: earth_fault_loop_impedance(0.35, 1e-3, 1e-3, -1.0, 1.2),
        lambda: earth_fault_loop_impedance(0.35, 1e-3, 1e-3, 1.0, 0.99),
        lambda: earth_fault_current(230.0, 0.0),
        lambda: largest_loop_impedance(230.0, 1.05, 160.0),
        lambda: largest_loop_impedance(230.0, 0.0, 160.0),
        lambda: largest_loop_impedance(230.0, 0.95, 0.0),
        lambda: largest_cold_loop_reading(1.37, 1.05),
        lambda: largest_cold_loop_reading(1.37, 0.0),
        lambda: largest_cold_loop_reading(0.0, 0.8),
        lambda: longest_disconnection_time("IT", "final", 230.0),
        lambda: longest_disconnection_time("TN", "spur", 230.0),
        lambda: longest_disconnection_time("TN", "final", 50.0),
        lambda: longest_disconnection_time("TN", "final", 1001.0),
        lambda: touch_voltage(0.0, 0.03),
        lambda: largest_electrode_resistance(0.0, 50.0),
        lambda: iec_protective_conductor_size(0.0),
        lambda: iec_separate_protective_conductor_size(-1e-6, True),
        lambda: nec_upsized_grounding_conductor(2e-6, 3e-6, 4e-6),
        lambda: nec_upsized_grounding_conductor(0.0, 4e-6, 4e-6),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()


def test_ends_of_the_ranges_are_in_them() -> None:
    assert earth_fault_loop_impedance(0.35, 1e-3, 1e-3, 0.0, 1.0) == 0.35
    assert largest_loop_impedance(230.0, 0.05, 230.0) == pytest.approx(0.05)
    assert largest_cold_loop_reading(1.0, 0.05) == 0.05
    assert longest_disconnection_time("TN", "final", 1000.0) == 0.1
