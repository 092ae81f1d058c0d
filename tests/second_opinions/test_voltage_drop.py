"""Voltage drop and short circuits against complex phasors and a network solved by nodes."""

from __future__ import annotations

import cmath
import math

import numpy as np
import pytest
from scipy.optimize import brentq

from checker.engineering.fault_protection import earth_fault_current, earth_fault_loop_impedance
from checker.engineering.prospective_current import (
    line_neutral_fault_current,
    network_impedance,
    three_phase_fault_current,
    three_phase_fault_current_at_transformer,
    three_phase_from_line_line_current,
    three_phase_from_line_neutral_current,
    transformer_impedance,
    transformer_rated_current,
)
from checker.engineering.voltage_drop import (
    conductor_resistance_at_temperature,
    resistance_per_length,
    single_phase_voltage_drop,
    three_phase_voltage_drop,
)

TURN = cmath.exp(2j * math.pi / 3.0)


def exact_drop(source: float, current: float, impedance: complex, power_factor: float) -> float:
    """Fall of the voltage's magnitude to a load that takes this current at this power factor.

    The load's voltage is the unknown: its current lags it by the load's own angle.
    """
    lag = cmath.rect(1.0, -math.acos(power_factor))

    def left(load: float) -> float:
        return abs(load + impedance * current * lag) - source

    return source - float(brentq(left, 0.5 * source, source, xtol=1e-12))


CABLES = [(3.6, 30.0, 15.0e-3, 0.08e-3, 0.8), (25.0, 60.0, 7.41e-3, 0.08e-3, 0.85), (90.0, 20.0, 3.08e-3, 0.1e-3, 0.35), (3.6, 30.0, 15.0e-3, 0.0, 1.0)]  # fmt: skip


@pytest.mark.parametrize(("current", "length", "resistance", "reactance", "power_factor"), CABLES)
def test_single_phase(
    current: float, length: float, resistance: float, reactance: float, power_factor: float
) -> None:
    loop = 2.0 * length * complex(resistance, reactance)
    true = exact_drop(230.0, current, loop, power_factor)
    ours = single_phase_voltage_drop(current, length, resistance, reactance, power_factor)
    # The formula of the standard counts the part in phase with the load's voltage. The part at
    # right angles adds its square over twice the voltage: with it the two agree to the third
    # order, without it the formula is low, by less than a thousandth of the voltage or so.
    across = abs((loop * current * cmath.rect(1.0, -math.acos(power_factor))).imag)
    assert ours + across**2 / (2.0 * 230.0) == pytest.approx(true, rel=1e-3)
    assert 0.0 <= true - ours < 0.0013 * 230.0


@pytest.mark.parametrize(("current", "length", "resistance", "reactance", "power_factor"), CABLES)
def test_three_phase(
    current: float, length: float, resistance: float, reactance: float, power_factor: float
) -> None:
    # Three star phasors, each with its own line; the drop is read between lines.
    impedance = length * complex(resistance, reactance)
    phase = 400.0 / math.sqrt(3.0)
    left = phase - exact_drop(phase, current, impedance, power_factor)
    lag = cmath.rect(1.0, -math.acos(power_factor))
    at_load = [left * TURN**k for k in range(3)]
    at_source = [v + impedance * current * lag * TURN**k for k, v in enumerate(at_load)]
    true = abs(at_source[0] - at_source[1]) - abs(at_load[0] - at_load[1])
    ours = three_phase_voltage_drop(current, length, resistance, reactance, power_factor)
    across = abs((impedance * current * lag).imag)
    assert ours + math.sqrt(3.0) * across**2 / (2.0 * phase) == pytest.approx(true, rel=1e-3)
    assert -1e-12 <= true - ours < 0.0013 * 400.0


def test_resistance_of_a_wire_slice_by_slice() -> None:
    # A conductor that warms from 20 °C at the board to 70 °C at the motor, in thin slices; the
    # mean temperature gives the same because the law is a straight line.
    at_20 = resistance_per_length(1.7241e-8, 2.5e-6)
    slices = np.linspace(293.15, 343.15, 1001)
    total = float(
        np.trapezoid(
            [conductor_resistance_at_temperature(at_20, float(t)) for t in slices], dx=30.0 / 1000
        )
    )
    assert conductor_resistance_at_temperature(at_20, 318.15) * 30.0 == pytest.approx(
        total, rel=1e-9
    )


def nodal(
    branches: list[tuple[int, int, complex]], sources: dict[int, complex], nodes: int
) -> np.ndarray:
    """Voltages of a network's nodes, node 0 being earth; sources hold their node's voltage."""
    matrix = np.zeros((nodes, nodes), dtype=complex)
    right = np.zeros(nodes, dtype=complex)
    for a, b, z in branches:
        for i, j in ((a, b), (b, a)):
            matrix[i, i] += 1.0 / z
            matrix[i, j] -= 1.0 / z
    for node, voltage in {0: 0j, **sources}.items():
        matrix[node, :] = 0.0
        matrix[node, node] = 1.0
        right[node] = voltage
    return np.linalg.solve(matrix, right)


def test_three_phase_fault() -> None:
    # Source, network, transformer and cable of each phase; the three ends joined.
    rating, voltage, uk, fault_power = 400e3, 400.0, 0.04, 250e6
    # What the network's short-circuit power means: U and the fault current of three phases.
    behind = brentq(lambda x: 3.0 * (voltage / math.sqrt(3.0)) ** 2 / x - fault_power, 1e-6, 1.0)
    assert network_impedance(fault_power, voltage) == pytest.approx(behind, rel=1e-6)
    network = 1j * network_impedance(fault_power, voltage)
    transformer = 1j * transformer_impedance(rating, voltage, uk)
    cable = 50.0 * complex(0.524e-3, 0.08e-3)
    z = network + transformer + cable
    sources = {k + 1: voltage / math.sqrt(3.0) * TURN**k for k in range(3)}
    # Node 4 is the star point of the bolted fault, tied to earth by nothing but a huge resistor.
    found = nodal([(1, 4, z), (2, 4, z), (3, 4, z), (4, 0, 1e9)], sources, 5)
    current = abs((found[1] - found[4]) / z)
    assert three_phase_fault_current(voltage, z.real, z.imag) == pytest.approx(current, rel=1e-6)
    # Two lines joined: the reading from which the three-phase current is taken.
    pair = nodal([(1, 4, z), (2, 4, z), (3, 0, 1e9), (4, 0, 1e9)], sources, 5)
    between = abs((pair[1] - pair[4]) / z)
    assert three_phase_from_line_line_current(between) == pytest.approx(current, rel=1e-6)
    # Line and a neutral of the same size.
    alone = abs(sources[1] / (2.0 * z))
    assert three_phase_from_line_neutral_current(alone) == pytest.approx(current, rel=1e-6)


def test_transformer_bolted_at_its_terminals() -> None:
    # The plate's definition: uk of the voltage drives the rated current through the shorted
    # transformer, so the whole voltage drives 1/uk of it.
    rating, voltage, uk = 400e3, 420.0, 0.04
    z = transformer_impedance(rating, voltage, uk)
    rated = brentq(lambda i: 3.0 * voltage / math.sqrt(3.0) * i - rating, 1.0, 1e5)
    assert transformer_rated_current(rating, voltage) == pytest.approx(rated, rel=1e-9)
    assert z * rated == pytest.approx(uk * voltage / math.sqrt(3.0), rel=1e-9)
    found = nodal([(1, 0, 1j * z)], {1: voltage / math.sqrt(3.0)}, 2)
    current = abs(found[1] / (1j * z))
    assert three_phase_fault_current_at_transformer(rating, voltage, uk) == pytest.approx(
        current, rel=1e-9
    )


@pytest.mark.parametrize("reactive", [0.0, 0.5, 1.0])
def test_sums_of_magnitudes_never_promise_too_much_current(reactive: float) -> None:
    # Both functions add magnitudes and say so: the phasor sum is never larger.
    line, back = complex(0.05, 0.05 * reactive), complex(0.08, 0.01 * reactive)
    true = abs(230.0 / (line + back))
    assert line_neutral_fault_current(230.0, abs(line), abs(back)) <= true * (1.0 + 1e-12)
    external = 0.35 * cmath.exp(1j * reactive)
    loop = earth_fault_loop_impedance(abs(external), 7.41e-3, 7.41e-3, 40.0, 1.2)
    phasor = abs(external + 2.0 * 7.41e-3 * 40.0 * 1.2)
    assert loop >= phasor * (1.0 - 1e-12)
    assert earth_fault_current(230.0, loop) <= 230.0 / phasor * (1.0 + 1e-12)
    if reactive == 0.0:
        assert loop == pytest.approx(phasor, rel=1e-12)
