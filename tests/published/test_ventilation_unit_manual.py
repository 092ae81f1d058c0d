"""A technical manual for ventilation units, table of C values (reproduction)."""

from __future__ import annotations

import math

import pytest

from checker.engineering.elbows import elbow_angle_factor, elbow_coefficient
from checker.engineering.transitions import (
    step_expansion_coefficient,
    tabulated_step_contraction_coefficient,
)


# Table of C values, round elbow. checked
@pytest.mark.parametrize(
    ("radius", "printed"), [(0.5, 0.73), (0.75, 0.38), (1.0, 0.26), (1.5, 0.17), (2.0, 0.15)]
)
def test_round_elbow(radius: float, printed: float) -> None:
    assert elbow_coefficient(radius) == pytest.approx(printed, abs=0.005)


# Round elbow r/D 1.5 with the angle factor 0.60 of 45 degrees: 0.102. arithmetic of both
def test_round_elbow_of_45_degrees() -> None:
    found = elbow_coefficient(1.5) * elbow_angle_factor(math.radians(45.0))
    assert found == pytest.approx(0.102, abs=0.0005)


# Table of C values, sudden expansion by V2/V1. checked
@pytest.mark.parametrize(("velocity_ratio", "printed"), [(0.2, 0.64), (0.4, 0.36), (0.6, 0.16)])
def test_sudden_expansion(velocity_ratio: float, printed: float) -> None:
    found = step_expansion_coefficient(math.sqrt(velocity_ratio), 1.0)
    assert found == pytest.approx(printed, abs=0.005)


# Table of C values, sudden contraction by V1/V2. checked
@pytest.mark.parametrize(
    ("velocity_ratio", "printed"), [(0.0, 0.50), (0.25, 0.45), (0.5, 0.32), (0.75, 0.18)]
)
def test_sudden_contraction(velocity_ratio: float, printed: float) -> None:
    found = tabulated_step_contraction_coefficient(velocity_ratio)
    assert found == pytest.approx(printed, abs=0.005)


# The textbook 0.5 (1 - A2/A1) gives 0.375 where the table prints 0.45: the larger stands. checked
def test_sudden_contraction_is_not_the_textbook_line() -> None:
    assert tabulated_step_contraction_coefficient(0.25) != pytest.approx(0.375, abs=0.005)
