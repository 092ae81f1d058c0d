from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from checker.engineering.fans import (
    fan_pressure,
    shut_off_pressure,
    system_pressure,
    working_point_count,
    working_point_flow,
    working_point_pressure,
)
from checker.engineering.limits import OutOfRange

CURVE = (
    [q / 3600.0 for q in (0.0, 200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0)],
    [900.0, 880.0, 820.0, 720.0, 570.0, 370.0, 0.0],
)
REFERENCE = 600.0 / 3600.0
RISING_FALLING = ([0.05, 0.1, 0.2, 0.3], [200.0, 500.0, 480.0, 100.0])
losses = st.floats(1.0, 2000.0)


@st.composite
def falling_curves(draw: st.DrawFn) -> tuple[list[float], list[float]]:
    steps = draw(st.lists(st.floats(0.01, 0.2), min_size=1, max_size=6))
    drops = draw(st.lists(st.floats(1.0, 300.0), min_size=len(steps), max_size=len(steps)))
    flows, pressures = [0.0], [math.fsum(drops)]
    for step, drop in zip(steps, drops, strict=True):
        flows.append(flows[-1] + step)
        pressures.append(max(0.0, pressures[-1] - drop))
    pressures[-1] = 0.0
    return flows, pressures


@given(falling_curves(), losses, losses)
def test_fan_and_system_agree_at_the_working_point(
    curve: tuple[list[float], list[float]], duct: float, media: float
) -> None:
    flow = working_point_flow(*curve, duct, media, REFERENCE)
    needs = system_pressure(flow, duct, media, REFERENCE)
    assert fan_pressure(flow, *curve) == pytest.approx(needs, rel=1e-6, abs=1e-6)
    assert working_point_pressure(*curve, duct, media, REFERENCE) == pytest.approx(
        needs, rel=1e-6, abs=1e-6
    )
    assert working_point_count(*curve, duct, media, REFERENCE) == 1.0


@given(falling_curves(), losses, losses, st.floats(1.001, 5.0))
def test_more_length_never_gives_more_flow(
    curve: tuple[list[float], list[float]], duct: float, media: float, factor: float
) -> None:
    short = working_point_flow(*curve, duct, media, REFERENCE)
    assert working_point_flow(*curve, duct * factor, media, REFERENCE) <= short * (1 + 1e-12)
    assert working_point_flow(*curve, duct, media * factor, REFERENCE) <= short * (1 + 1e-12)


@given(losses, losses, st.floats(0.1, 10.0), st.floats(0.1, 10.0))
def test_working_point_is_scale_free(
    duct: float, media: float, flow_scale: float, pressure_scale: float
) -> None:
    small = working_point_flow(*CURVE, duct, media, REFERENCE)
    large = working_point_flow(
        [flow * flow_scale for flow in CURVE[0]],
        [pressure * pressure_scale for pressure in CURVE[1]],
        duct * pressure_scale,
        media * pressure_scale,
        REFERENCE * flow_scale,
    )
    assert large == pytest.approx(small * flow_scale, rel=1e-9)


@given(losses, losses, st.floats(0.1, 3.0))
def test_the_reference_flow_is_only_a_label(duct: float, media: float, factor: float) -> None:
    same = working_point_flow(*CURVE, duct, media, REFERENCE)
    other = working_point_flow(*CURVE, duct * factor**2, media * factor, REFERENCE * factor)
    assert other == pytest.approx(same, rel=1e-9)


# Closed form for a parabolic fan p0 - a Q^2 on k Q^2: Q = sqrt(p0/(a + k)), exact.
# The tabulated parabola is 2000 straight pieces; their sag is below a (h/2)^2 = 0.06 mPa.
@pytest.mark.parametrize(
    ("duct", "flow", "pressure"),
    [(6000.0, 0.288675, 500.0), (9000.0, 0.258199, 600.0), (14_000.0, 0.223607, 700.0)],
)
def test_parabolic_fan(duct: float, flow: float, pressure: float) -> None:
    flows = [0.4 * step / 2000.0 for step in range(2001)]
    pressures = [1000.0 - 6000.0 * q**2 for q in flows]
    assert working_point_flow(flows, pressures, duct, 0.0, 1.0) == pytest.approx(flow, abs=1e-6)
    found = working_point_pressure(flows, pressures, duct, 0.0, 1.0)
    assert found == pytest.approx(pressure, abs=0.01)


# Closed form with a linear filter: 12 000 Q^2 + 800 Q = 1000.
def test_parabolic_fan_with_filter() -> None:
    flows = [0.4 * step / 2000.0 for step in range(2001)]
    pressures = [1000.0 - 6000.0 * q**2 for q in flows]
    exact = (-800.0 + math.sqrt(800.0**2 + 4.0 * 12_000.0 * 1000.0)) / 24_000.0
    found = working_point_flow(flows, pressures, 6000.0, 800.0, 1.0)
    assert found == pytest.approx(exact, abs=1e-6)
    assert found == pytest.approx(0.257260, abs=1e-6)
    assert 800.0 * found == pytest.approx(205.8, abs=0.05)
    assert working_point_pressure(flows, pressures, 6000.0, 800.0, 1.0) == pytest.approx(
        602.9, abs=0.05
    )


def test_a_rising_falling_curve_meets_the_system_twice() -> None:
    assert working_point_count(*RISING_FALLING, 1.0, 420.0, 0.1) == 2.0
    with pytest.raises(OutOfRange, match="meet 2 times, at"):
        working_point_flow(*RISING_FALLING, 1.0, 420.0, 0.1)
    with pytest.raises(OutOfRange, match="meet 2 times, at"):
        working_point_pressure(*RISING_FALLING, 1.0, 420.0, 0.1)


def test_two_crossings_inside_one_straight_piece_are_both_found() -> None:
    # Fan 100 Q - 5 between 0.05 and 1.2, below the system 80 Q^2 + 10 Q at both ends.
    # They meet where 80 Q^2 - 90 Q + 5 = 0.
    flows, pressures = [0.05, 1.2], [0.0, 115.0]
    low, high = ((90.0 + sign * math.sqrt(90.0**2 - 1600.0)) / 160.0 for sign in (-1.0, 1.0))
    assert 0.05 < low < high < 1.2
    assert working_point_count(flows, pressures, 80.0, 10.0, 1.0) == 2.0
    with pytest.raises(OutOfRange) as raised:
        working_point_flow(flows, pressures, 80.0, 10.0, 1.0)
    assert f"meet 2 times, at {low:.4g} m3/s, {high:.4g} m3/s" in str(raised.value)


def test_two_crossings_beside_the_middle_of_a_straight_piece_are_both_found() -> None:
    # Fan 900 Q - 130 between 0.2 and 1.2 against 1000 Q^2 + 100 Q: they meet where
    # 1000 Q^2 - 800 Q + 130 = 0, both below 0.6, so that the middle of the piece, 0.7, lies
    # beside them and only the top of the parabola, at 0.4, between.
    flows, pressures = [0.2, 1.2], [50.0, 950.0]
    low, high = ((800.0 + sign * math.sqrt(120_000.0)) / 2000.0 for sign in (-1.0, 1.0))
    assert 0.2 < low < 0.4 < high < 0.6
    with pytest.raises(OutOfRange) as raised:
        working_point_flow(flows, pressures, 1000.0, 100.0, 1.0)
    assert f"meet 2 times, at {low:.4g} m3/s, {high:.4g} m3/s" in str(raised.value)


def test_a_curve_with_a_dip_meets_the_system_three_times() -> None:
    flows = [0.0, 0.1, 0.2, 0.3, 0.4]
    pressures = [500.0, 260.0, 300.0, 310.0, 0.0]
    assert working_point_count(flows, pressures, 0.0, 280.0, 0.2) == 1.0
    assert working_point_count(flows, [500.0, 100.0, 300.0, 310.0, 0.0], 0.0, 280.0, 0.2) == 3.0


@given(
    st.lists(st.floats(0.0, 500.0), min_size=2, max_size=7),
    st.floats(0.0, 800.0),
    st.floats(0.0, 800.0),
)
def test_the_count_is_that_of_a_fine_scan(
    pressures: list[float], duct: float, media: float
) -> None:
    flows = [0.05 + 0.05 * step for step in range(len(pressures))]

    def surplus(flow: float) -> float:
        return fan_pressure(flow, flows, pressures) - system_pressure(flow, duct, media, 0.2)

    last = flows[-1]
    scan = [surplus(min(last, 0.05 + (last - 0.05) * n / 600.0)) for n in range(601)]
    # A curve that only touches the system counts once, and a scan sees it or not.
    assume(all(abs(value) > 1e-3 for value in scan))
    changes = sum((a > 0.0) != (b > 0.0) for a, b in pairwise(scan))
    found = working_point_count(flows, pressures, duct, media, 0.2)
    # A scan misses a pair of crossings inside one step, never a single one.
    assert found >= changes
    assert (found - changes) % 2 == 0


def test_beyond_the_last_point() -> None:
    curve = (CURVE[0], [*CURVE[1][:-1], 120.0])
    with pytest.raises(OutOfRange, match="the working point lies beyond the curve"):
        working_point_flow(*curve, 10.0, 15.0, REFERENCE)
    assert working_point_count(*curve, 10.0, 15.0, REFERENCE) == 0.0


def test_before_the_first_point() -> None:
    with pytest.raises(OutOfRange, match="the working point lies before the curve"):
        working_point_flow([0.1, 0.2], [300.0, 100.0], 400.0, 0.0, 0.1)


def test_free_air_is_found_only_where_it_was_measured() -> None:
    assert working_point_flow(*CURVE, 0.0, 0.0, REFERENCE) == CURVE[0][-1]
    with pytest.raises(OutOfRange, match="beyond the curve"):
        working_point_flow(CURVE[0][:-1], CURVE[1][:-1], 0.0, 0.0, REFERENCE)


def test_a_working_point_on_a_point_of_the_curve_is_counted_once() -> None:
    assert working_point_count([0.0, 0.1, 0.2], [300.0, 200.0, 0.0], 0.0, 200.0, 0.1) == 1.0
    assert working_point_flow([0.0, 0.1, 0.2], [300.0, 200.0, 0.0], 0.0, 200.0, 0.1) == 0.1


def test_a_curve_that_touches_the_system_is_counted() -> None:
    assert working_point_count([0.05, 0.1, 0.15], [1.0, 0.0, 1.0], 0.0, 0.0, 0.2) == 1.0


def test_nothing_is_read_beyond_the_curve() -> None:
    assert fan_pressure(0.0, *CURVE) == 900.0
    assert fan_pressure(CURVE[0][-1], *CURVE) == 0.0
    for flow in (-0.01, CURVE[0][-1] * 1.001, math.nan):
        with pytest.raises(OutOfRange, match="the fan curve holds from"):
            fan_pressure(flow, *CURVE)


def test_shut_off_pressure_is_the_largest() -> None:
    assert shut_off_pressure(*CURVE) == 900.0
    assert shut_off_pressure([0.0, 0.1], [900.0, 950.0]) == 950.0
    with pytest.raises(OutOfRange, match=r"starts at 0\.05 m3/s"):
        shut_off_pressure(*RISING_FALLING)


@pytest.mark.parametrize(
    ("flows", "pressures", "why"),
    [
        ([0.0], [100.0], "at least two points"),
        ([], [], "at least two points"),
        ([0.0, 0.1], [100.0], "each point needs both"),
        ([0.1, 0.0], [100.0, 50.0], "rising order of flow"),
        ([0.1, 0.1], [100.0, 50.0], "rising order of flow"),
        ([-0.1, 0.1], [100.0, 50.0], "flow of a point"),
        ([0.0, 0.1], [100.0, -50.0], "pressure of a point"),
        ([0.0, math.nan], [100.0, 50.0], "flow of a point"),
    ],
)
def test_lists_that_are_no_curve(flows: list[float], pressures: list[float], why: str) -> None:
    for call in (
        lambda: fan_pressure(0.05, flows, pressures),
        lambda: working_point_flow(flows, pressures, 100.0, 0.0, 0.1),
        lambda: working_point_count(flows, pressures, 100.0, 0.0, 0.1),
    ):
        with pytest.raises(OutOfRange, match=why):
            call()


def test_impossible_system() -> None:
    with pytest.raises(OutOfRange, match="duct loss"):
        working_point_flow(*CURVE, -1.0, 0.0, REFERENCE)
    with pytest.raises(OutOfRange, match="filter loss"):
        working_point_count(*CURVE, 1.0, -1.0, REFERENCE)
    with pytest.raises(OutOfRange, match="reference flow"):
        working_point_flow(*CURVE, 1.0, 0.0, 0.0)
    with pytest.raises(OutOfRange, match="The flow is -1 m3/s"):
        system_pressure(-1.0, 1.0, 1.0, 1.0)
