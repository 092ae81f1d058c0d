"""Starting, unbalance and currents of a motor against integration and complex phasors."""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from checker.engineering.motor_duty import (
    nema_voltage_unbalance,
    run_up_time,
    single_phase_locked_rotor_current,
    three_phase_locked_rotor_current,
    voltage_unbalance_factor,
)
from checker.engineering.motor_switching import inrush_rms_equivalent
from checker.engineering.motors import (
    single_phase_full_load_current,
    three_phase_full_load_current,
    winding_voltage,
)
from checker.engineering.supply_deviation import volts_per_hertz_ratio

TURN = cmath.exp(2j * math.pi / 3.0)


def test_run_up_under_a_steady_torque() -> None:
    inertia, speed, torque = 0.05, 48.0, 7.5

    def at_speed(_: float, state: np.ndarray) -> float:
        return float(state[0]) - 2.0 * math.pi * speed

    at_speed.terminal = True  # type: ignore[attr-defined]
    found = solve_ivp(lambda _t, _w: [torque / inertia], (0.0, 60.0), [0.0], events=at_speed)
    assert run_up_time(inertia, speed, torque) == pytest.approx(found.t_events[0][0], rel=1e-9)


def test_run_up_with_a_real_torque_curve() -> None:
    # Kloss' torque of a cage motor against a fan's square law, marched to 95 % of full speed.
    # The function wants the mean of the accelerating torque over the way up; the true mean
    # for the time is the harmonic one over speed, which is what is handed over here.
    inertia, full = 0.05, 48.5

    def accelerating(speed: float) -> float:
        slip = 1.0 - speed / 50.0
        return 2.0 * 26.0 / (slip / 0.2 + 0.2 / slip) - 7.0 * (speed / full) ** 2

    def rate(_: float, state: np.ndarray) -> list[float]:
        return [accelerating(float(state[0])) / (2.0 * math.pi * inertia)]

    def there(_: float, state: np.ndarray) -> float:
        return float(state[0]) - 0.95 * full

    there.terminal = True  # type: ignore[attr-defined]
    found = solve_ivp(rate, (0.0, 30.0), [0.0], events=there, rtol=1e-9, atol=1e-9)
    top = 0.95 * full
    mean = top / quad(lambda n: 1.0 / accelerating(n), 0.0, top)[0]
    assert run_up_time(inertia, top, mean) == pytest.approx(found.t_events[0][0], rel=1e-6)
    # The plain mean over speed, which is what a torque curve shows, is larger by the inequality
    # of the means and gives too short a time: an estimate, as the docstring says.
    plain = quad(accelerating, 0.0, top)[0] / top
    assert run_up_time(inertia, top, plain) < found.t_events[0][0]


@pytest.mark.parametrize(
    "lines",
    [(460.0, 467.0, 450.0), (400.0, 400.0, 388.0), (398.0, 401.5, 405.0), (400.0, 300.0, 200.0)],
)
def test_unbalance_by_symmetrical_components(lines: tuple[float, float, float]) -> None:
    # The triangle of the three readings is laid out by the law of cosines and split after
    # Fortescue into a positive and a negative sequence.
    a, b, c = lines
    angle = math.acos((a * a + b * b - c * c) / (2.0 * a * b))
    first = complex(a, 0.0)
    second = -b * cmath.exp(-1j * angle)
    third = -first - second
    assert abs(third) == pytest.approx(c, rel=1e-9)
    positive = (first + TURN * second + TURN**2 * third) / 3.0
    negative = (first + TURN**2 * second + TURN * third) / 3.0
    ratio = abs(negative) / abs(positive)
    ratio = min(ratio, 1.0 / ratio)
    assert voltage_unbalance_factor(a, b, c) == pytest.approx(ratio, rel=1e-9)
    mean = np.mean(lines)
    assert nema_voltage_unbalance(a, b, c) == pytest.approx(
        np.abs(np.array(lines) - mean).max() / mean, rel=1e-12
    )


def test_currents_from_power_as_phasors() -> None:
    # Output over efficiency is the active power; the current whose phasor carries it is found.
    output, power_factor, efficiency = 1500.0, 0.79, 0.84
    lag = cmath.rect(1.0, -math.acos(power_factor))

    def three(current: float) -> float:
        phase = 400.0 / math.sqrt(3.0)
        power = sum(phase * TURN**k * (current * lag * TURN**k).conjugate() for k in range(3))
        return power.real * efficiency - output

    assert three_phase_full_load_current(output, 400.0, power_factor, efficiency) == pytest.approx(
        brentq(three, 0.01, 100.0), rel=1e-9
    )

    def single(current: float) -> float:
        return (230.0 * (current * lag).conjugate()).real * efficiency - output

    assert single_phase_full_load_current(output, 230.0, power_factor, efficiency) == pytest.approx(
        brentq(single, 0.01, 100.0), rel=1e-9
    )


def test_locked_rotor_as_apparent_power() -> None:
    # One horsepower is 550 foot-pounds a second.
    horsepower = 550.0 * 0.3048 * 0.45359237 * 9.80665
    apparent = 7.99e3 * 3700.0 / horsepower

    def three(current: float) -> float:
        phase = 400.0 / math.sqrt(3.0)
        return (
            abs(sum(phase * TURN**k * (current * TURN**k).conjugate() for k in range(3))) - apparent
        )

    # The constant 745.7 W is that horsepower rounded to four figures.
    assert three_phase_locked_rotor_current(7.99e3, 3700.0, 400.0) == pytest.approx(
        brentq(three, 1.0, 1e4), rel=1e-5
    )
    assert single_phase_locked_rotor_current(7.99e3, 3700.0, 230.0) == pytest.approx(
        apparent / 230.0, rel=1e-5
    )


def test_winding_voltages_as_phasors() -> None:
    star = [400.0 / math.sqrt(3.0) * TURN**k for k in range(3)]
    assert winding_voltage(400.0, "star") == pytest.approx(abs(star[0]), rel=1e-9)
    assert winding_voltage(400.0, "delta") == pytest.approx(abs(star[0] - star[1]), rel=1e-9)


def test_flux_is_the_integral_of_the_voltage() -> None:
    # Peak flux of a half wave, at 400 V 50 Hz and at 440 V 60 Hz.
    def flux(volts: float, hertz: float) -> float:
        return quad(
            lambda t: math.sqrt(2.0) * volts * math.sin(2.0 * math.pi * hertz * t), 0.0, 0.5 / hertz
        )[0]

    ratio = flux(440.0, 60.0) / flux(400.0, 50.0)
    assert volts_per_hertz_ratio(440.0, 60.0, 400.0, 50.0) == pytest.approx(ratio, rel=1e-9)


def test_first_peak_as_a_sine() -> None:
    # A peak of 2.5 times the r.m.s. locked-rotor current is the peak of a sine whose r.m.s.
    # value is integrated over a period.
    locked, ratio = 30.0, 2.5
    wave = ratio * locked * np.sin(2.0 * np.pi * np.linspace(0.0, 1.0, 100_001))
    rms = math.sqrt(float(np.trapezoid(wave**2, dx=1e-5)))
    assert inrush_rms_equivalent(locked, ratio) == pytest.approx(rms, rel=1e-6)
