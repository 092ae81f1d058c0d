"""IEC 60947-4-1, contactors and motor starters: utilization category AC-3, trip classes."""

from __future__ import annotations

import pytest

from checker.engineering.motor_overload import (
    trip_class_longest_time,
    trip_class_longest_warm_time,
    trip_class_shortest_time,
)
from checker.engineering.motor_switching import ac3_breaking_capacity, ac3_making_capacity


# Contactor data sheets to IEC 60947-4-1: AC-3 rating, making and breaking capacity in A.
# Confidence: checked.
@pytest.mark.parametrize(
    ("rated", "making", "breaking"), [(80.0, 800.0, 640.0), (400.0, 4000.0, 3200.0)]
)
def test_capacity_in_ac_3(rated: float, making: float, breaking: float) -> None:
    assert ac3_making_capacity(rated) == pytest.approx(making)
    assert ac3_breaking_capacity(rated) == pytest.approx(breaking)


# Trip classes at 7.2 times the setting from cold, in switchgear makers' questions and answers and
# an overload-relay data page: s from, s to. Confidence: checked.
@pytest.mark.parametrize(
    ("trip_class", "shortest", "longest"),
    [("10A", 2.0, 10.0), ("10", 4.0, 10.0), ("20", 6.0, 20.0), ("30", 9.0, 30.0)],
)
def test_trip_class_from_cold(trip_class: str, shortest: float, longest: float) -> None:
    assert trip_class_shortest_time(trip_class) == shortest
    assert trip_class_longest_time(trip_class) == longest


# Trip classes at 1.5 times the setting from warm, soft starter's operating instructions, p. 14 (table
# to EN 60947-4-2): trips within 2, 4, 8, 12 min. Confidence: checked.
@pytest.mark.parametrize(
    ("trip_class", "minutes"), [("10A", 2.0), ("10", 4.0), ("20", 8.0), ("30", 12.0)]
)
def test_trip_class_from_warm(trip_class: str, minutes: float) -> None:
    assert trip_class_longest_warm_time(trip_class) == 60.0 * minutes
