"""Sound levels against sums of pressures sample by sample and integrals over a shift."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from checker.engineering.acoustics import (
    free_field_level,
    level_of_equal_sources,
    level_sum,
    level_without_background,
    peak_level,
    power_level_from_pressure_level,
    pressure_level_from_power_level,
    room_constant,
    room_pressure_level,
)
from checker.engineering.noise_exposure import (
    average_level_of_dose,
    daily_exposure_level,
    exposure_points,
    noise_dose,
    permitted_duration,
    weekly_exposure_level,
)

HOUR = 3600.0
REFERENCE = 20e-6


def noise(level: float, rng: np.random.Generator, samples: int) -> np.ndarray:
    return rng.normal(0.0, REFERENCE * 10.0 ** (level / 20.0), samples)


def level_of(pressure: np.ndarray) -> float:
    return float(10.0 * np.log10(np.mean(pressure**2) / REFERENCE**2))


def test_noises_added_sample_by_sample() -> None:
    rng = np.random.default_rng(1)
    levels = [62.0, 70.0, 73.0]
    heard = sum(noise(level, rng, 4_000_000) for level in levels)
    # Four million samples know a level to 0.003 dB.
    assert level_sum(levels) == pytest.approx(level_of(heard), abs=0.01)
    four = sum(noise(75.0, rng, 2_000_000) for _ in range(4))
    assert level_of_equal_sources(75.0, 4.0) == pytest.approx(level_of(four), abs=0.02)


def test_background_taken_out() -> None:
    root = brentq(lambda level: level_sum([level, 50.0]) - 55.0, 0.0, 55.0)
    assert level_without_background(55.0, 50.0) == pytest.approx(root, abs=1e-9)


def test_power_through_a_sphere() -> None:
    # Intensity of the level, p²/(400 kg/(m²·s)), integrated over the sphere about the source.
    level, distance = 72.0, 1.5
    intensity = (REFERENCE * 10.0 ** (level / 20.0)) ** 2 / 400.0
    power = quad(lambda t: 2.0 * np.pi * distance**2 * np.sin(t) * intensity, 0.0, np.pi)[0]
    assert power_level_from_pressure_level(level, distance, 1.0) == pytest.approx(
        10.0 * np.log10(power / 1e-12), abs=1e-6
    )
    half = quad(lambda t: 2.0 * np.pi * distance**2 * np.sin(t) * intensity, 0.0, np.pi / 2.0)[0]
    assert power_level_from_pressure_level(level, distance, 2.0) == pytest.approx(
        10.0 * np.log10(half / 1e-12), abs=1e-6
    )
    # The same power through a larger sphere.
    farther = power / (4.0 * np.pi * 4.0**2)
    assert free_field_level(level, distance, 4.0) == pytest.approx(
        10.0 * np.log10(farther * 400.0 / REFERENCE**2), abs=1e-6
    )


def test_room_by_balance_of_power() -> None:
    # Reverberant field: energy density w of which c w/4 falls on every square metre and a share
    # is kept; it settles where what is kept equals what the first reflection leaves over.
    surface, absorption, power, sound_speed = 120.0, 0.25, 1e-3, 343.0
    density = brentq(
        lambda w: sound_speed * w / 4.0 * surface * absorption - power * (1.0 - absorption),
        0.0,
        1.0,
        xtol=1e-18,
    )
    direct = power * 2.0 / (4.0 * np.pi * 3.0**2)
    # In a diffuse field p² = w ρ c², and a wave's is I ρ c: with ρ c taken out both add.
    total = direct + density * sound_speed
    ours = room_pressure_level(90.0, 3.0, 2.0, room_constant(surface, absorption))
    assert ours == pytest.approx(10.0 * np.log10(total / 1e-12), abs=1e-6)
    alone = pressure_level_from_power_level(90.0, 3.0, 2.0)
    assert alone == pytest.approx(10.0 * np.log10(direct / 1e-12), abs=1e-6)


def test_exposure_as_an_integral() -> None:
    periods = [(88.0, 2.0), (93.0, 0.5), (79.0, 4.0)]
    edges = np.cumsum([0.0, *[h for _, h in periods]])

    def energy(t: float) -> float:
        index = min(int(np.searchsorted(edges, t, side="right")) - 1, 2)
        return float(10.0 ** (periods[index][0] / 10.0))

    total = quad(energy, 0.0, float(edges[-1]), points=[float(e) for e in edges[1:-1]])[0]
    levels, durations = [p[0] for p in periods], [p[1] * HOUR for p in periods]
    assert daily_exposure_level(levels, durations) == pytest.approx(
        10.0 * np.log10(total / 8.0), abs=1e-6
    )
    week = [daily_exposure_level(levels, durations)] * 3 + [82.0, 84.0]
    mean = np.sum(10.0 ** (np.array(week) / 10.0)) / 5.0
    assert weekly_exposure_level(week) == pytest.approx(10.0 * np.log10(mean), abs=1e-9)
    # A hundred points are eight hours of 85 dB: the time at 91 dB that makes a hundred.
    time = brentq(lambda t: 10.0**9.1 * t - 10.0**8.5 * 8.0 * HOUR, 1.0, 8.0 * HOUR)
    assert exposure_points(91.0, time) == pytest.approx(100.0, rel=0.01)


@pytest.mark.parametrize(
    ("criterion", "exchange", "threshold"), [(90.0, 5.0, 80.0), (85.0, 3.0, 80.0)]
)
def test_dose_of_a_level_that_rises(criterion: float, exchange: float, threshold: float) -> None:
    # From 78 dB to 98 dB in eight hours, in a thousand steps and as an integral.
    steps = 1000
    levels = (78.0 + 20.0 * (np.arange(steps) + 0.5) / steps).tolist()
    ours = noise_dose(levels, [8.0 * HOUR / steps] * steps, criterion, exchange, threshold)
    start = (threshold - 78.0) / 20.0 * 8.0

    def rate(t: float) -> float:
        return float(2.0 ** ((78.0 + 20.0 * t / 8.0 - criterion) / exchange) / 8.0)

    # The step in which the threshold lies is a thousandth of the shift.
    assert ours == pytest.approx(quad(rate, start, 8.0)[0], rel=1e-3)
    level = brentq(
        lambda level_: 8.0 * HOUR / permitted_duration(level_, criterion, exchange) - ours,
        70.0,
        110.0,
    )
    assert average_level_of_dose(ours, criterion, exchange) == pytest.approx(level, abs=1e-6)


def test_peak() -> None:
    assert peak_level(140.0) == pytest.approx(20.0 * np.log10(140.0 / REFERENCE), abs=1e-9)
