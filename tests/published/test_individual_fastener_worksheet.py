"""Published worksheet "Design resistance for individual fasteners as per EN 1993-1-8".

M20 class 4.6 in 22 mm holes, 8 mm of S235 (f_u 360 MPa). Its shear, tension, punching and
distances are right; its bearing takes the strength of the bolt for that of the plate.
Confidence: checked.
"""

from __future__ import annotations

import pytest

from checker.engineering.fasteners import (
    bolt_shear_resistance,
    bolt_tension_resistance,
    punching_resistance,
)
from checker.engineering.hole_spacing import minimum_edge_distance, minimum_gauge, minimum_pitch
from checker.engineering.plate_bearing import (
    bearing_factor_edge,
    bearing_factor_end,
    bearing_factor_gauge,
    bearing_factor_pitch,
    bearing_resistance,
)

HOLE = 0.022
END, EDGE, PITCH, GAUGE = 0.0264, 0.0264, 0.0484, 0.0528


# Worksheet, p. 2, F_v,Rd printed 47.04 kN; checked.
def test_shear():
    found = bolt_shear_resistance("4.6", "threads", 400e6, 245e-6, 1.25)
    assert found / 1e3 == pytest.approx(47.04, abs=0.005)


# Worksheet, p. 3, F_t,Rd printed 70.56 kN; checked.
def test_tension():
    found = bolt_tension_resistance("hexagon", 400e6, 245e-6, 1.25)
    assert found / 1e3 == pytest.approx(70.56, abs=0.005)


# Worksheet, p. 3, B_p,Rd with d_m 30 mm printed 130.288 kN; checked.
def test_punching():
    found = punching_resistance(0.030, 0.008, 360e6, 1.25)
    assert found / 1e3 == pytest.approx(130.288, abs=0.0005)


# Worksheet, p. 2, least distances printed 26.4, 48.4 and 52.8 mm; checked.
@pytest.mark.parametrize(
    ("found", "printed_mm"),
    [
        (minimum_edge_distance("round", HOLE), 26.4),
        (minimum_pitch(HOLE), 48.4),
        (minimum_gauge(HOLE), 52.8),
    ],
    ids=["e1-e2", "p1", "p2"],
)
def test_least_distances(found, printed_mm):
    assert found * 1e3 == pytest.approx(printed_mm, abs=0.05)


# Worksheet, p. 2, factors printed 0.4, 0.483, 1.66 and 1.66; checked.
@pytest.mark.parametrize(
    ("found", "printed"),
    [
        (bearing_factor_end(END, HOLE, 400e6, 360e6), 0.4),
        (bearing_factor_pitch(PITCH, HOLE, 400e6, 360e6), 0.483),
        (bearing_factor_edge(EDGE, HOLE), 1.66),
        (bearing_factor_gauge(GAUGE, HOLE), 1.66),
    ],
    ids=["alpha-end", "alpha-inner", "k1-edge", "k1-inner"],
)
def test_bearing_factors(found, printed):
    assert found == pytest.approx(printed, abs=0.0005)


# Published wrongly: bearing printed 33.997 (end) and 41.079 kN (inner), with f_ub = 400 MPa where
# Table 3.4 has f_u of the plate, 360 MPa. Arithmetic of Table 3.4: 30.597 and 36.97 kN.
@pytest.mark.parametrize(
    ("alpha_b", "printed_wrongly_kn", "table_3_4_kn"),
    [
        (bearing_factor_end(END, HOLE, 400e6, 360e6), 33.997, 30.597),
        (bearing_factor_pitch(PITCH, HOLE, 400e6, 360e6), 41.079, 36.971),
    ],
    ids=["end", "inner"],
)
def test_bearing_uses_the_plate(alpha_b, printed_wrongly_kn, table_3_4_kn):
    found = bearing_resistance(bearing_factor_edge(EDGE, HOLE), alpha_b, 360e6, 0.020, 0.008, 1.25)
    assert found / 1e3 == pytest.approx(table_3_4_kn, abs=0.001)
    assert found / 1e3 < printed_wrongly_kn - 3.0
