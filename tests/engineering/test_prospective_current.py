"""Behaviour of checker/engineering/prospective_current.py."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
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

ratings = st.floats(50e3, 3000e3)
volts = st.floats(200.0, 700.0)
ohms = st.floats(1e-4, 2.0)


# Arithmetic: VA, V, uk, rated A, fault kA.
@pytest.mark.parametrize(
    ("rating", "voltage", "uk", "rated", "fault"),
    [(500e3, 400.0, 0.04, 721.7, 18.04), (400e3, 420.0, 0.04, 549.9, 13.75)],
)
def test_transformer(rating: float, voltage: float, uk: float, rated: float, fault: float) -> None:
    assert transformer_rated_current(rating, voltage) == pytest.approx(rated, abs=0.05)
    found = three_phase_fault_current_at_transformer(rating, voltage, uk) / 1000
    assert found == pytest.approx(fault, abs=0.005)


@given(ratings, volts, st.floats(0.02, 0.15))
def test_both_ways_agree(rating: float, voltage: float, uk: float) -> None:
    direct = three_phase_fault_current_at_transformer(rating, voltage, uk)
    impedance = transformer_impedance(rating, voltage, uk)
    assert three_phase_fault_current(voltage, 0.0, impedance) == pytest.approx(direct)


@given(volts, ohms, ohms, ohms)
def test_more_cable_never_more_current(u: float, r: float, x: float, more: float) -> None:
    near = three_phase_fault_current(u, r, x)
    assert three_phase_fault_current(u, r + more, x) < near
    assert three_phase_fault_current(u, r, x + more) < near


# A network of the short-circuit power S gives I = S/(√3 U) at its end.
@given(st.floats(1e6, 1e9), volts)
def test_network(power: float, u: float) -> None:
    current = three_phase_fault_current(u, 0.0, network_impedance(power, u))
    assert math.sqrt(3.0) * u * current == pytest.approx(power)


# Arithmetic: 0.05 Ω of line on 230/400 V: 4.60 kA between three lines. Half of it reaches the neutral
# that is like the line, √3/2 of it two lines.
def test_reading_of_a_tester() -> None:
    three = three_phase_fault_current(math.sqrt(3.0) * 230.0, 0.05, 0.0)
    assert three == pytest.approx(4600.0)
    to_neutral = line_neutral_fault_current(230.0, 0.05, 0.05)
    assert three_phase_from_line_neutral_current(to_neutral) == pytest.approx(three)
    between_lines = math.sqrt(3.0) * 230.0 / (2 * 0.05)
    assert three_phase_from_line_line_current(between_lines) == pytest.approx(three)


# Arithmetic: 3.2 kA to neutral is 6.4 kA between lines, more than a 6 kA breaker breaks.
def test_six_kiloamperes_are_not_enough() -> None:
    assert three_phase_from_line_neutral_current(3200.0) > 6000.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: transformer_rated_current(0.0, 400.0),
        lambda: transformer_impedance(500e3, 400.0, 4.0),
        lambda: transformer_impedance(500e3, 0.0, 0.04),
        lambda: transformer_impedance(500e3, 400.0, 1.0),
        lambda: network_impedance(0.0, 400.0),
        lambda: three_phase_fault_current_at_transformer(500e3, 400.0, 0.0),
        lambda: three_phase_fault_current(400.0, 0.0, 0.0),
        lambda: three_phase_fault_current(400.0, -0.1, 0.1),
        lambda: three_phase_fault_current(0.0, 0.1, 0.1),
        lambda: line_neutral_fault_current(230.0, 0.0, 0.05),
        lambda: line_neutral_fault_current(230.0, 0.05, -0.05),
        lambda: three_phase_from_line_neutral_current(0.0),
        lambda: three_phase_from_line_line_current(0.0),
    ],
)
def test_refusals(call) -> None:
    with pytest.raises(OutOfRange, match=r"^[A-Z].*\.$"):
        call()
