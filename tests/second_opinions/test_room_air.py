"""Mist in a room, a machine and a shift against time-marching by scipy."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from checker.engineering.enclosures import (
    clearance_time,
    enclosure_depression,
    remaining_share,
)
from checker.engineering.exposure import (
    concentration_from_returned_air,
    penetration_hidden_by_escape,
    shift_average_concentration,
    steady_concentration_discharged,
    steady_concentration_returned,
)
from checker.engineering.filtration import outlet_concentration, series_efficiency
from checker.engineering.mist_fire import mean_mist_concentration

HOUR = 3600.0
MILLIGRAM = 1e-6
ROOMS = [(20e-3 / HOUR, 0.98, 0.95, 1000.0, 5000.0), (8e-3 / HOUR, 0.7, 0.9995, 1500.0, 0.0), (50e-3 / HOUR, 0.9, 0.5, 600.0, 12000.0)]  # fmt: skip


def marched(room: Any, *, returned: bool) -> float:
    generation, capture, kept, unit, outdoor = room
    unit, outdoor, volume = unit / HOUR, outdoor / HOUR, 800.0

    def rate(_: float, state: Any) -> list[float]:
        inside = state[0]
        into_unit = capture * generation + unit * inside
        back = (1.0 - kept) * into_unit if returned else 0.0
        return [((1.0 - capture) * generation + back - (unit + outdoor) * inside) / volume]

    # Sixty changes of the slowest room's air: exp(-60) is nothing.
    end = 60.0 * volume / (kept * unit + outdoor)
    found = solve_ivp(rate, (0.0, end), [0.0], method="LSODA", rtol=1e-10, atol=1e-16)
    return float(found.y[0, -1])


@pytest.mark.parametrize("room", ROOMS)
def test_returned_air(room: Any) -> None:
    generation, capture, kept, unit, outdoor = room
    ours = steady_concentration_returned(
        generation, capture, kept, unit / HOUR, outdoor / HOUR, 1.0
    )
    assert ours == pytest.approx(marched(room, returned=True), rel=1e-6)


@pytest.mark.parametrize("room", ROOMS)
def test_air_blown_outdoors(room: Any) -> None:
    generation, capture, _, unit, outdoor = room
    ours = steady_concentration_discharged(generation, capture, unit / HOUR, outdoor / HOUR, 1.0)
    assert ours == pytest.approx(marched(room, returned=False), rel=1e-6)


def test_returned_air_alone_is_an_upper_bound() -> None:
    # Six units that each return 1 mg/m³ into a room, which they clean at 90 %, or not at all:
    # without the cleaning the bound is what the room comes to.
    def settled(cleaning: float) -> float:
        unit, outdoor = 800.0 / HOUR, 12000.0 / HOUR

        def rate(_: float, state: Any) -> list[float]:
            return [(6.0 * unit * (MILLIGRAM - cleaning * state[0]) - outdoor * state[0]) / 2000.0]

        return float(solve_ivp(rate, (0.0, 40_000.0), [0.0], rtol=1e-10, atol=1e-16).y[0, -1])

    bound = concentration_from_returned_air(MILLIGRAM, 800.0 / HOUR, 6.0, 12000.0 / HOUR, 1.0)
    assert bound == pytest.approx(settled(0.0), rel=1e-6)
    assert settled(0.9) <= bound <= 1.5 * settled(0.9)


def test_penetration_that_escape_hides() -> None:
    # The penetration at which the two terms of the marched room are equal, by a root finder.
    capture = 0.97
    root = brentq(lambda p: capture * p - (1.0 - capture), 0.0, 1.0)
    assert penetration_hidden_by_escape(capture) == pytest.approx(root, rel=1e-9)


@pytest.mark.parametrize("mixing", [1.0, 3.0])
def test_clearing_of_an_enclosure(mixing: float) -> None:
    volume, flow = 1.5, 0.060

    def rate(_: float, state: Any) -> list[float]:
        return [-flow / (mixing * volume) * state[0]]

    def cleared(_: float, state: Any) -> float:
        return float(state[0]) - 0.05

    cleared.terminal = True  # type: ignore[attr-defined]
    found = solve_ivp(rate, (0.0, 2000.0), [1.0], events=cleared, rtol=1e-10, atol=1e-13)
    ours = clearance_time(volume, flow, 0.05, mixing)
    assert ours == pytest.approx(float(found.t_events[0][0]), rel=1e-6)
    assert remaining_share(volume, flow, ours, mixing) == pytest.approx(0.05, rel=1e-9)


def test_shift_average_as_an_integral() -> None:
    periods = [(0.4, 2.0), (1.3, 3.5), (0.2, 4.0)]
    time = np.linspace(0.0, 9.5 * HOUR, 950_001)
    steps = np.cumsum([hours * HOUR for _, hours in periods])
    level = np.array([c for c, _ in periods])[
        np.minimum(np.searchsorted(steps, time, side="right"), 2)
    ]
    expected = float(np.trapezoid(level, time)) / (8.0 * HOUR)
    ours = shift_average_concentration([c for c, _ in periods], [h * HOUR for _, h in periods])
    # The trapezium smears the two steps over one of 950 000 intervals.
    assert ours == pytest.approx(expected, rel=1e-5)


def test_filters_in_series_by_counting_droplets() -> None:
    # A million droplets, each stage keeping its share by lot; the count is within four of its
    # own standard deviations.
    stages, droplets = [0.6, 0.85, 0.95], 1_000_000
    rng = np.random.default_rng(3)
    left = droplets
    for share in stages:
        left -= int(rng.binomial(left, share))
    passed = 1.0 - series_efficiency(stages)
    assert abs(left - droplets * passed) < 4.0 * np.sqrt(droplets * passed * (1.0 - passed))
    assert outlet_concentration(50.0, series_efficiency(stages)) == pytest.approx(
        50.0 * passed, rel=1e-12
    )


def test_depression_by_the_orifice() -> None:
    # The suction at which the openings, thinned to their vena contracta, pass the flow.
    velocity, discharge, density = 0.5, 0.62, 1.19
    root = brentq(lambda p: discharge * np.sqrt(2.0 * p / density) - velocity, 0.0, 100.0)
    assert enclosure_depression(velocity, discharge, density) == pytest.approx(root, rel=1e-9)


def test_oil_into_air() -> None:
    # A minute of air and a minute of oil, added up in steps.
    oil, air = 7.5e-3 / HOUR, 600.0 / HOUR
    assert mean_mist_concentration(oil, air) == pytest.approx(
        np.full(6000, oil).sum() / np.full(6000, air).sum(), rel=1e-9
    )
