"""Behaviour of checker/engineering/motor_overload.py."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.motor_overload import (
    nec_overload_largest_trip,
    nec_overload_largest_trip_for_rise,
    nec_overload_largest_trip_if_no_start,
    nec_thermal_protector_largest_trip,
    overload_dial_position,
    trip_class_longest_time,
    trip_class_longest_warm_time,
    trip_class_shortest_time,
    trip_time_at_multiple,
)

CLASSES = ["10A", "10", "20", "30"]
amperes = st.floats(0.1, 100.0)


# Arithmetic: ranges of an overload-relay data page; 4.9 A lies in the last tenth of 3.5-5 A and
# well inside 4.5-6.5 A; 3.3 A is not reached by 3.5-5 A.
@pytest.mark.parametrize(
    ("setting", "lowest", "highest", "position"),
    [(4.9, 3.5, 5.0, 0.933), (4.9, 4.5, 6.5, 0.2), (3.3, 3.5, 5.0, -0.133), (5.0, 3.5, 5.0, 1.0)],
)
def test_dial_position(setting: float, lowest: float, highest: float, position: float) -> None:
    assert overload_dial_position(setting, lowest, highest) == pytest.approx(position, abs=0.0005)


@pytest.mark.parametrize("trip_class", CLASSES)
def test_class_times_are_in_order(trip_class: str) -> None:
    shortest, longest = trip_class_shortest_time(trip_class), trip_class_longest_time(trip_class)
    assert shortest < longest < trip_class_longest_warm_time(trip_class)


# A run-up of 3 s may trip class 10A and not class 10; 12 s trips class 10 in any case.
def test_run_up_against_class() -> None:
    assert trip_class_shortest_time("10A") < 3.0 < trip_class_shortest_time("10")
    assert trip_class_longest_time("10") < 12.0


@given(st.floats(5.0, 9.0), st.floats(5.0, 9.0))
def test_more_current_trips_sooner(first: float, second: float) -> None:
    low, high = sorted((first, second))
    assert trip_time_at_multiple(4.0, low) >= trip_time_at_multiple(4.0, high)
    assert trip_time_at_multiple(4.0, low) * low**2 == pytest.approx(4.0 * 7.2**2)


def test_trip_time_at_the_multiple_of_the_classes() -> None:
    assert trip_time_at_multiple(6.0, 7.2) == pytest.approx(6.0)


@given(amperes, st.floats(1.0, 1.4))
def test_retry_allows_more_than_the_first_setting(plate: float, service_factor: float) -> None:
    first = nec_overload_largest_trip(plate, service_factor)
    assert plate < first < nec_overload_largest_trip_if_no_start(plate, service_factor)


@pytest.mark.parametrize(("service_factor", "factor"), [(1.14, 1.15), (1.15, 1.25), (1.25, 1.25)])
def test_step_of_the_service_factor(service_factor: float, factor: float) -> None:
    assert nec_overload_largest_trip(10.0, service_factor) == pytest.approx(10.0 * factor)


@given(amperes)
def test_builtin_protector_allows_more_than_a_relay(current: float) -> None:
    assert nec_thermal_protector_largest_trip(current) > nec_overload_largest_trip(current, 1.15)


@pytest.mark.parametrize(
    "call",
    [
        lambda: overload_dial_position(0.0, 3.5, 5.0),
        lambda: overload_dial_position(4.0, 5.0, 5.0),
        lambda: overload_dial_position(4.0, 5.0, 3.5),
        lambda: trip_class_shortest_time("5"),
        lambda: trip_class_longest_time("40"),
        lambda: trip_class_longest_warm_time("10a"),
        lambda: trip_time_at_multiple(4.0, 4.9),
        lambda: trip_time_at_multiple(4.0, 9.1),
        lambda: trip_time_at_multiple(0.0, 7.2),
        lambda: nec_overload_largest_trip(10.0, 0.9),
        lambda: nec_overload_largest_trip(0.0, 1.0),
        lambda: nec_overload_largest_trip_for_rise(10.0, 0.0),
        lambda: nec_overload_largest_trip_if_no_start(10.0, 0.0),
        lambda: nec_thermal_protector_largest_trip(0.0),
        lambda: nec_thermal_protector_largest_trip(float("nan")),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()
