"""First frequency of a bare cantilever: an instrument maker's laboratory manual on beams."""

from __future__ import annotations

import math

import pytest

from checker.engineering.beams import tip_stiffness
from checker.engineering.vibration import moving_mass, natural_frequency


# Laboratory manual on the vibration of a cantilever beam: β1 L = 1.8751. Confidence: checked.
# Without a head Rayleigh's quotient with the static shape is 1.5 % above, its worst case.
def test_first_frequency_of_a_bare_cantilever():
    frequency = natural_frequency(tip_stiffness(1.0, 1.0, 1.0), moving_mass(0.0, 1.0, 1.0))
    squared = 2.0 * math.pi * frequency
    assert 1.8751**2 < squared == pytest.approx(1.8751**2, rel=0.016)
