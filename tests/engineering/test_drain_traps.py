from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.drain_traps import (
    air_gap,
    drain_height_needed,
    drain_height_spare,
    drain_slope,
    draw_through_trap_depth,
    draw_through_trap_half_depth,
    fall,
    film_flooding_velocity,
    sag_blocked_share,
    sag_volume,
    trap_depth_needed,
    trap_seal_depth,
)
from checker.engineering.limits import OutOfRange

suctions = st.floats(0.0, 5000.0)
densities = st.floats(700.0, 1200.0)


# Arithmetic of h = p/(rho g), mm: water of 998.2 kg/m3 and oil of 870 kg/m3.
@pytest.mark.parametrize(
    ("suction", "water", "oil", "needed"),
    [(500.0, 51.1, 58.6, 87.9), (1000.0, 102.2, 117.2, 175.8), (1500.0, 153.2, 175.8, 263.7)],
)
def test_seal_depths(suction: float, water: float, oil: float, needed: float) -> None:
    assert 1e3 * trap_seal_depth(suction, 998.2) == pytest.approx(water, abs=0.05)
    assert 1e3 * trap_seal_depth(suction, 870.0) == pytest.approx(oil, abs=0.05)
    # 0.06: the list multiplies the unrounded depth and then cuts
    assert 1e3 * trap_depth_needed(suction, 870.0, 1.5, 0.025) == pytest.approx(needed, abs=0.06)


@given(suctions, densities, st.floats(1.01, 2.0))
def test_the_lighter_liquid_needs_the_deeper_trap(
    suction: float, density: float, factor: float
) -> None:
    heavy = trap_seal_depth(suction, density * factor)
    assert trap_seal_depth(suction, density) == pytest.approx(heavy * factor)


@given(suctions, densities, st.floats(1.0, 3.0), st.floats(0.0, 0.1))
def test_the_needed_depth_covers_both(
    suction: float, density: float, factor: float, allowance: float
) -> None:
    seal = trap_seal_depth(suction, density)
    needed = trap_depth_needed(suction, density, factor, allowance)
    assert needed >= factor * seal
    assert needed >= seal + allowance
    assert needed in (factor * seal, seal + allowance)


def test_the_allowance_governs_a_weak_fan() -> None:
    assert trap_depth_needed(100.0, 870.0, 1.5, 0.025) == pytest.approx(
        trap_seal_depth(100.0, 870.0) + 0.025
    )


@given(st.floats(-1.0, 1.0), st.floats(0.1, 20.0))
def test_fall_and_slope_are_inverse(slope: float, length: float) -> None:
    drop = fall(slope, length)
    assert drain_slope(drop, 0.0, length) == pytest.approx(slope)


def test_an_uphill_run_is_negative() -> None:
    assert drain_slope(1.00, 1.06, 3.0) == pytest.approx(-0.02)
    assert fall(-0.02, 3.0) == pytest.approx(-0.06)


# Arithmetic of the sum: oil trap for 500 Pa, 2 per cent of 3 m, gap of 50 mm.
def test_height_budget() -> None:
    trap = trap_depth_needed(500.0, 870.0, 1.5, 0.025)
    needed = drain_height_needed(trap, fall(0.02, 3.0), 0.050, 0.0)
    assert 1e3 * needed == pytest.approx(197.9, abs=0.05)
    assert drain_height_spare(1.0, 0.9, needed) < 0.0 < drain_height_spare(1.2, 0.9, needed)


@given(st.floats(0.001, 0.2), st.floats(0.0, 0.1))
def test_the_air_gap_covers_both(bore: float, least: float) -> None:
    gap = air_gap(bore, least)
    assert gap >= 2.0 * bore
    assert gap >= least


# Arithmetic of the segment: 30 mm in 150 mm block 14.2 per cent; over 1.5 m about 2.25 L stand.
def test_sag_of_thirty_millimetres() -> None:
    assert sag_blocked_share(0.030, 0.150) == pytest.approx(0.142, abs=0.0005)
    assert 1e3 * sag_volume(0.030, 1.5, 0.150) == pytest.approx(2.25, abs=0.01)


@given(st.floats(0.0, 0.3), st.floats(0.01, 0.3))
def test_the_blocked_share_is_a_share(sag: float, bore: float) -> None:
    share = sag_blocked_share(sag, bore)
    assert 0.0 <= share <= 1.0
    half = sag_blocked_share(0.5 * bore, bore)
    assert half == pytest.approx(0.5)
    assert sag_blocked_share(bore, bore) == 1.0


@given(st.floats(0.001, 0.05), st.floats(1.0, 5.0), st.floats(0.05, 0.3), st.floats(0.1, 10.0))
def test_sag_volume_is_scale_free(sag: float, span: float, bore: float, scale: float) -> None:
    small = sag_volume(sag, span, bore)
    large = sag_volume(sag * scale, span * scale, bore * scale)
    assert large == pytest.approx(small * scale**3, rel=1e-9)
    full = span * math.pi * bore**2 / 4.0
    assert 0.0 < small < full * sag_blocked_share(sag, bore)


@given(st.floats(0.001, 0.04), st.floats(1.0, 5.0), st.floats(0.05, 0.3), st.floats(1.01, 2.0))
def test_a_deeper_sag_holds_more(sag: float, span: float, bore: float, factor: float) -> None:
    assert sag_volume(sag * factor, span, bore) > sag_volume(sag, span, bore)


@given(st.floats(0.02, 0.08), st.floats(800.0, 1100.0), st.floats(0.9, 1.3), st.floats(1.9, 3.2))
def test_denser_air_floods_earlier(
    tension: float, liquid: float, air: float, constant: float
) -> None:
    thin = film_flooding_velocity(tension, liquid, air, constant)
    assert film_flooding_velocity(tension, liquid, 1.1 * air, constant) < thin
    assert film_flooding_velocity(1.1 * tension, liquid, air, constant) > thin


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match="cannot be shorter than it falls"):
        drain_slope(3.1, 0.0, 3.0)
    with pytest.raises(OutOfRange, match="The length is 0 m"):
        drain_slope(1.0, 0.9, 0.0)
    with pytest.raises(OutOfRange, match="The slope is 2"):
        fall(2.0, 3.0)
    with pytest.raises(OutOfRange, match="The length is -3 m"):
        fall(0.02, -3.0)
    with pytest.raises(OutOfRange, match="suction at the drain port"):
        trap_seal_depth(-1.0, 870.0)
    with pytest.raises(OutOfRange, match="density of the liquid"):
        trap_seal_depth(500.0, 0.0)
    with pytest.raises(OutOfRange, match=r"factor on the seal depth is 0\.9"):
        trap_depth_needed(500.0, 870.0, 0.9, 0.025)
    with pytest.raises(OutOfRange, match="allowance on the seal depth"):
        trap_depth_needed(500.0, 870.0, 1.5, -0.025)
    for function in (draw_through_trap_depth, draw_through_trap_half_depth):
        with pytest.raises(OutOfRange, match="suction head"):
            function(-0.1)
    with pytest.raises(OutOfRange, match="least air gap"):
        air_gap(0.019, -0.02)
    with pytest.raises(OutOfRange, match="bore of the drain"):
        air_gap(0.0, 0.02)
    for heights in ((-1, 0, 0, 0), (0, -1, 0, 0), (0, 0, -1, 0), (0, 0, 0, -1)):
        with pytest.raises(OutOfRange, match="it must be at least 0 m"):
            drain_height_needed(*heights)
    with pytest.raises(OutOfRange, match="height the drain needs"):
        drain_height_spare(1.0, 0.5, -0.1)
    with pytest.raises(OutOfRange, match="The sag is -1 m"):
        sag_blocked_share(-1.0, 0.15)
    with pytest.raises(OutOfRange, match=r"sag over span is 0\.2"):
        sag_volume(0.2, 1.0, 0.15)
    with pytest.raises(OutOfRange, match="span between the supports"):
        sag_volume(0.01, 0.0, 0.15)
    with pytest.raises(OutOfRange, match="the liquid must be the heavier"):
        film_flooding_velocity(0.03, 1.0, 1.2, 3.1)
    with pytest.raises(OutOfRange, match="flooding constant is 5"):
        film_flooding_velocity(0.03, 870.0, 1.2, 5.0)
    with pytest.raises(OutOfRange, match="surface tension"):
        film_flooding_velocity(0.0, 870.0, 1.2, 3.1)
