"""Behaviour of checker/engineering/motor_switching.py."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.motor_switching import (
    ac3_breaking_capacity,
    ac3_making_capacity,
    ac23_breaking_capacity,
    ac23_making_capacity,
    inrush_rms_equivalent,
    nec_assumed_locked_rotor_current,
    nec_disconnect_least_rating,
    nec_short_circuit_device_limit,
)
from checker.engineering.overcurrent_devices import magnetic_trip_lowest_current

amperes = st.floats(0.1, 1000.0)


@given(amperes)
def test_making_exceeds_breaking(rated: float) -> None:
    assert ac3_making_capacity(rated) > ac3_breaking_capacity(rated) > rated
    assert ac23_making_capacity(rated) > ac23_breaking_capacity(rated) > rated


# From-memory: IEC 60947-3, AC-23 makes 10 Ie and breaks 8 Ie.
def test_capacity_in_ac_23() -> None:
    assert ac23_making_capacity(4.9) == pytest.approx(49.0)
    assert ac23_breaking_capacity(4.9) == pytest.approx(39.2)


# EN/IEC 60034-12:2016, note 4 (checked): peaks of 1.8 to 2.8 times; as r.m.s. 1.27 to 1.98 times
# (arithmetic). Taking 2.8 itself for r.m.s. would ask 41 % too much of the breaker.
@pytest.mark.parametrize(("peak", "equivalent"), [(1.8, 1.27), (2.8, 1.98)])
def test_peak_becomes_rms(peak: float, equivalent: float) -> None:
    assert inrush_rms_equivalent(1.0, peak) == pytest.approx(equivalent, abs=0.005)


def test_no_offset_is_no_more_than_the_steady_current() -> None:
    assert inrush_rms_equivalent(34.3, math.sqrt(2.0)) == pytest.approx(34.3)


# Arithmetic: 4.9 A motor, 7 times on starting. B10 trips on the steady current, C10 may trip on the
# first peak, D10 and C16 carry both.
@pytest.mark.parametrize(
    ("curve", "rated", "carries_steady", "carries_peak"),
    [
        ("B", 10.0, False, False),
        ("C", 10.0, True, False),
        ("C", 16.0, True, True),
        ("D", 10.0, True, True),
    ],
)
def test_breaker_and_inrush(
    curve: str, rated: float, carries_steady: bool, carries_peak: bool
) -> None:
    threshold = magnetic_trip_lowest_current(curve, rated)
    locked = 7.0 * 4.9
    assert (threshold >= locked) is carries_steady
    assert (threshold >= inrush_rms_equivalent(locked, 2.8)) is carries_peak


# Arithmetic of 115 %.
@pytest.mark.parametrize(("current", "rating"), [(15.2, 17.48), (6.8, 7.82), (4.2, 4.83)])
def test_disconnect(current: float, rating: float) -> None:
    assert nec_disconnect_least_rating(current) == pytest.approx(rating)


@given(amperes, st.floats(1.0, 17.0))
def test_share_of_the_table_current(current: float, share: float) -> None:
    assert nec_short_circuit_device_limit(current, share) == pytest.approx(current * share)
    assert nec_assumed_locked_rotor_current(current) == pytest.approx(6 * current)


@pytest.mark.parametrize(
    "call",
    [
        lambda: ac3_making_capacity(0.0),
        lambda: ac3_breaking_capacity(-1.0),
        lambda: ac23_making_capacity(math.nan),
        lambda: ac23_breaking_capacity(math.inf),
        lambda: inrush_rms_equivalent(10.0, 1.41),
        lambda: inrush_rms_equivalent(10.0, 2.83),
        lambda: inrush_rms_equivalent(0.0, 2.0),
        lambda: nec_assumed_locked_rotor_current(0.0),
        lambda: nec_disconnect_least_rating(0.0),
        lambda: nec_short_circuit_device_limit(10.0, 0.25),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()
