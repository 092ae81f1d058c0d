"""Frequency of a cantilever with a mass at its tip.

"Frequency equation of flexural vibrating cantilever beam considering the rotary inertial moment of
an attached mass", Mathematical Problems in Engineering 2017, article 1568019, Table 1.
"""

from __future__ import annotations

import math

import pytest

from checker.engineering.beams import tip_stiffness
from checker.engineering.vibration import moving_mass, natural_frequency


# Table 1, last column, mass of the head equal to the mass of the beam, no rotary inertia:
# (β1 L)² = 1.557298. Confidence: checked. Rayleigh's quotient is an upper bound, 0.05 % above here,
# so the printed digits are not what it can give: 0.1 %, and never below.
def test_first_frequency_with_equal_tip_mass():
    length, elastic_modulus, second_moment, linear_mass = 1.0, 1.0, 1.0, 1.0
    stiffness = tip_stiffness(length, elastic_modulus, second_moment)
    frequency = natural_frequency(stiffness, moving_mass(1.0, linear_mass, length))
    squared = 2.0 * math.pi * frequency
    assert 1.557298 <= squared == pytest.approx(1.557298, rel=0.001)
