"""SCI Advisory Desk, AD 348: bolt resistance tables in the Eurocode Blue Book (2010).

Worked example: M16 class 8.8 in 18 mm holes, 10 mm of S275 (f_u 410 MPa). Confidence: checked.
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

HOLE = 0.018


# AD 348, α_b by the end distance of 32 mm, printed 0.593; checked.
def test_alpha_b_end():
    assert bearing_factor_end(0.032, HOLE, 800e6, 410e6) == pytest.approx(0.593, abs=0.0005)


# AD 348, α_b by the pitch of 45.5 mm, printed as the same 0.593; checked.
def test_alpha_b_pitch():
    assert bearing_factor_pitch(0.0455, HOLE, 800e6, 410e6) == pytest.approx(0.593, abs=0.0005)


# AD 348, k1 by the edge distance of 25 mm, printed 2.189; checked.
def test_k1_edge():
    assert bearing_factor_edge(0.025, HOLE) == pytest.approx(2.189, abs=0.0005)


# AD 348, k1 by the gauge of 50 mm, printed as the same 2.189; checked.
def test_k1_gauge():
    assert bearing_factor_gauge(0.050, HOLE) == pytest.approx(2.189, abs=0.0005)


# AD 348, F_b,Rd printed 68.1 kN; checked.
def test_bearing_resistance():
    found = bearing_resistance(2.189, 0.593, 410e6, 0.016, 0.010, 1.25)
    assert found / 1e3 == pytest.approx(68.1, abs=0.05)


# Printed table of that edition, easy to misread: the row shows e1 = 35 mm rounded up, its 68.1 kN
# belongs to 32 mm. With 35 mm as printed the formula gives more, and so must we.
def test_rounded_up_end_distance_gives_more():
    alpha_b = bearing_factor_end(0.035, HOLE, 800e6, 410e6)
    found = bearing_resistance(bearing_factor_edge(0.025, HOLE), alpha_b, 410e6, 0.016, 0.010, 1.25)
    assert found / 1e3 > 74.0
