from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.enclosures import (
    air_changes,
    clearance_time,
    enclosure_depression,
    flow_for_air_changes,
    flow_for_inward_velocity,
    gap_area,
    inward_velocity,
    remaining_share,
    stokes_terminal_velocity,
    terminal_velocity,
)
from checker.engineering.limits import OutOfRange

flows = st.floats(0.01, 2.0)
volumes = st.floats(0.1, 50.0)
OIL = (870.0, 1.2041, 1.82e-5)


@given(flows, st.floats(0.001, 1.0))
def test_flow_and_inward_velocity_are_inverse(flow: float, area: float) -> None:
    assert flow_for_inward_velocity(area, inward_velocity(flow, area)) == pytest.approx(flow)


@given(flows, volumes)
def test_flow_and_air_changes_are_inverse(flow: float, volume: float) -> None:
    assert flow_for_air_changes(air_changes(flow, volume), volume) == pytest.approx(flow)


@given(volumes, flows, st.floats(0.001, 0.999), st.floats(1.0, 10.0))
def test_clearance_and_remaining_share_are_inverse(
    volume: float, flow: float, share: float, mixing: float
) -> None:
    time = clearance_time(volume, flow, share, mixing)
    assert remaining_share(volume, flow, time, mixing) == pytest.approx(share)


@given(volumes, flows, st.floats(1.01, 5.0))
def test_more_flow_never_clears_later(volume: float, flow: float, factor: float) -> None:
    slow = clearance_time(volume, flow, 0.05, 1.5)
    assert clearance_time(volume, flow * factor, 0.05, 1.5) < slow
    assert clearance_time(volume * factor, flow, 0.05, 1.5) > slow


@given(volumes, flows, st.floats(0.1, 10.0))
def test_clearance_is_scale_free(volume: float, flow: float, scale: float) -> None:
    small = clearance_time(volume, flow, 0.05, 1.0)
    assert clearance_time(volume * scale, flow * scale, 0.05, 1.0) == pytest.approx(small)


# Arithmetic of the formula: time to 5 per cent for a number of air changes an hour.
@pytest.mark.parametrize(
    ("changes", "seconds", "half_digit"),
    [(60.0, 180.0, 0.5), (100.0, 108.0, 0.5), (200.0, 53.9, 0.05), (300.0, 35.9, 0.05)],
)
def test_time_by_air_changes(changes: float, seconds: float, half_digit: float) -> None:
    found = clearance_time(1.5, changes * 1.5 / 3600.0, 0.05, 1.0)
    assert found == pytest.approx(seconds, abs=half_digit)


# Arithmetic of the formulas: 0.12 m2 at 0.5 and 1.0 m/s, a labyrinth of 2 mm x 3 m.
def test_openings() -> None:
    assert flow_for_inward_velocity(0.12, 0.5) == pytest.approx(0.060)
    assert enclosure_depression(0.5, 0.6, 1.2) == pytest.approx(0.417, abs=0.0005)
    assert enclosure_depression(1.0, 0.6, 1.2) == pytest.approx(1.67, abs=0.005)
    labyrinth = flow_for_inward_velocity(gap_area(0.002, 3.0), 0.5)
    assert labyrinth * 3600.0 == pytest.approx(10.8, abs=0.05)


def test_nothing_left_over_needs_no_time() -> None:
    assert clearance_time(1.5, 0.06, 1.0, 1.0) == 0.0
    assert remaining_share(1.5, 0.0, 1000.0, 1.0) == 1.0


@given(st.floats(1e-6, 900e-6), st.floats(1.01, 1.1))
def test_larger_drops_fall_faster(diameter: float, factor: float) -> None:
    small = terminal_velocity(diameter, *OIL)
    assert terminal_velocity(diameter * factor, *OIL) > small


@given(st.floats(1e-6, 60e-6))
def test_stokes_is_never_below_the_full_drag(diameter: float) -> None:
    stokes = stokes_terminal_velocity(diameter, *OIL)
    full = terminal_velocity(diameter, *OIL)
    assert full <= stokes * (1.0 + 5e-3)
    assert stokes == pytest.approx(full, rel=0.1)


@pytest.mark.parametrize("diameter", [100e-6, 200e-6])
def test_stokes_refuses_large_drops(diameter: float) -> None:
    with pytest.raises(OutOfRange, match=r"Stokes' formula holds up to 0.5"):
        stokes_terminal_velocity(diameter, *OIL)


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match=r"drop diameter is 0.002 m"):
        terminal_velocity(2e-3, *OIL)
    with pytest.raises(OutOfRange, match="such a drop does not fall"):
        terminal_velocity(1e-5, 1.0, 1.2, 1.8e-5)
    with pytest.raises(OutOfRange, match="dynamic viscosity"):
        stokes_terminal_velocity(1e-5, 870.0, 1.2, 0.0)
    with pytest.raises(OutOfRange, match="drop diameter"):
        stokes_terminal_velocity(0.0, *OIL)
    with pytest.raises(OutOfRange, match="The area is 0 m2"):
        inward_velocity(0.1, 0.0)
    with pytest.raises(OutOfRange, match="free volume"):
        air_changes(0.1, 0.0)
    with pytest.raises(OutOfRange, match="The flow is 0 m3/s"):
        clearance_time(1.5, 0.0, 0.05, 1.0)
    with pytest.raises(OutOfRange, match="remaining share is 0"):
        clearance_time(1.5, 0.06, 0.0, 1.0)
    with pytest.raises(OutOfRange, match="remaining share is 5"):
        clearance_time(1.5, 0.06, 5.0, 1.0)
    with pytest.raises(OutOfRange, match=r"mixing factor is 0.5"):
        clearance_time(1.5, 0.06, 0.05, 0.5)
    with pytest.raises(OutOfRange, match="time is -1 s"):
        remaining_share(1.5, 0.06, -1.0, 1.0)
    with pytest.raises(OutOfRange, match="discharge coefficient is 0"):
        enclosure_depression(0.5, 0.0, 1.2)
    with pytest.raises(OutOfRange, match="discharge coefficient is nan"):
        enclosure_depression(0.5, math.nan, 1.2)
    with pytest.raises(OutOfRange, match="width of the gap"):
        gap_area(-0.1, 1.0)
    with pytest.raises(OutOfRange, match="inward velocity"):
        flow_for_inward_velocity(0.1, -0.1)
    with pytest.raises(OutOfRange, match="air changes"):
        flow_for_air_changes(-1.0, 1.0)


def test_air_that_blows_out_gives_no_depression() -> None:
    with pytest.raises(OutOfRange, match="inward velocity"):
        enclosure_depression(-0.1, 0.6, 1.2)
