"""Steel Buildings in Europe, Multi-storey steel buildings, Part 5: Joint design, p. 5-41.

Worked example of a fin plate: M20 class 8.8 in 22 mm holes, 10 mm of S275 (f_u 430 MPa).
Confidence: checked.
"""

from __future__ import annotations

import pytest

from checker.engineering.plate_bearing import (
    bearing_factor_edge,
    bearing_factor_end,
    bearing_factor_gauge,
    bearing_factor_pitch,
    bearing_resistance,
)

HOLE = 0.022


# Part 5, p. 5-41, vertical and horizontal bearing: the terms of k1; checked.
@pytest.mark.parametrize(
    ("found", "printed"),
    [
        (bearing_factor_gauge(0.060, HOLE), 2.12),
        (bearing_factor_edge(0.050, HOLE), 2.5),
        (bearing_factor_edge(0.040, HOLE), 2.5),
        (bearing_factor_gauge(0.070, HOLE), 2.5),
    ],
    ids=["p2-60", "e2-50", "e1-40", "p1-70"],
)
def test_k1(found, printed):
    assert found == pytest.approx(printed, abs=0.005)


# Part 5, p. 5-41: the terms of α_b, 40/66 = 0.61, 70/66 − 1/4 = 0.81, 60/66 − 1/4 = 0.66; checked.
# (50/66 is printed 0.75, cut instead of rounded, and governs nothing.)
@pytest.mark.parametrize(
    ("found", "printed"),
    [
        (bearing_factor_end(0.040, HOLE, 800e6, 430e6), 0.61),
        (bearing_factor_pitch(0.070, HOLE, 800e6, 430e6), 0.81),
        (bearing_factor_pitch(0.060, HOLE, 800e6, 430e6), 0.66),
    ],
    ids=["e1-40", "p1-70", "p2-60"],
)
def test_alpha_b(found, printed):
    assert found == pytest.approx(printed, abs=0.005)


# Part 5, p. 5-41, bearing of one bolt from the printed, rounded factors: 89 and 114 kN; checked.
@pytest.mark.parametrize(("k1", "alpha_b", "printed_kn"), [(2.12, 0.61, 89.0), (2.5, 0.66, 114.0)])
def test_bearing_resistance(k1, alpha_b, printed_kn):
    found = bearing_resistance(k1, alpha_b, 430e6, 0.020, 0.010, 1.25)
    assert found / 1e3 == pytest.approx(printed_kn, abs=0.5)
