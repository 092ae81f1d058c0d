"""EN 1993-1-8:2005, Design of joints: the coefficients that Tables 3.3 and 3.4 print.

Each case isolates one printed coefficient by setting everything else to one.
"""

from __future__ import annotations

import math

import pytest

from checker.engineering.fasteners import (
    bolt_shear_factor,
    bolt_shear_tension_utilisation,
    bolt_tension_resistance,
    clearance_hole_shear_factor,
    punching_resistance,
)
from checker.engineering.hole_spacing import (
    maximum_edge_distance,
    maximum_inner_tension_pitch,
    maximum_pitch,
    minimum_edge_distance,
    minimum_gauge,
    minimum_pitch,
)
from checker.engineering.plate_bearing import (
    bearing_factor_edge,
    bearing_factor_end,
    bearing_factor_gauge,
    bearing_factor_pitch,
    bearing_hole_reduction,
    single_lap_bearing_limit,
)
from checker.rulebook.model import Rulebook


# EN 1993-1-8:2005, Table 3.4, tension resistance: k2 = 0.63 countersunk, 0.9 otherwise; checked.
@pytest.mark.parametrize(("head", "k2"), [("hexagon", 0.9), ("countersunk", 0.63)])
def test_table_3_4_k2(head, k2):
    assert bolt_tension_resistance(head, 1.0, 1.0, 1.0) == pytest.approx(k2)


# EN 1993-1-8:2005, Table 3.4, shear through threads: α_v by property class; checked.
@pytest.mark.parametrize(
    ("property_class", "alpha_v"),
    [
        ("4.6", 0.6),
        ("5.6", 0.6),
        ("8.8", 0.6),
        ("4.8", 0.5),
        ("5.8", 0.5),
        ("6.8", 0.5),
        ("10.9", 0.5),
    ],
)
def test_table_3_4_alpha_v_threads(property_class, alpha_v):
    assert bolt_shear_factor(property_class, "threads") == alpha_v


# EN 1993-1-8:2005, Table 3.4, shear through the unthreaded shank: α_v = 0.6; checked.
@pytest.mark.parametrize("property_class", ["4.6", "4.8", "8.8", "10.9"])
def test_table_3_4_alpha_v_shank(property_class):
    assert bolt_shear_factor(property_class, "shank") == 0.6


# EN 1993-1-4:2006, clause 6.2, stainless bolts through threads: α_v = 0.5; from-memory.
def test_stainless_alpha_v():
    assert bolt_shear_factor("A2-70", "threads") == 0.5


# EN 1993-1-8:2005, clause 3.6.1(5): 0.85 for M12 in 2 mm clearance; checked for 8.8 and 10.9.
@pytest.mark.parametrize("property_class", ["8.8", "10.9"])
def test_clause_3_6_1_wide_holes(property_class):
    assert clearance_hole_shear_factor(property_class, 0.012, 0.014, 0.013) == 0.85


# EN 1993-1-8:2005, clause 3.6.1(5): class 4.6 is not reduced; from-memory (the class list), and
# the UK design tables print 16.2 kN for M12 4.6 without it.
def test_clause_3_6_1_leaves_4_6_alone():
    assert clearance_hole_shear_factor("4.6", 0.012, 0.014, 0.013) == 1.0


# EN 1993-1-8:2005, Table 3.4, combined shear and tension: divisor 1.4, F_t,Ed <= F_t,Rd; checked.
@pytest.mark.parametrize(
    ("shear", "tension", "utilisation"), [(0.0, 1.0, 1.0), (1.0, 0.0, 1.0), (0.5, 0.7, 1.0)]
)
def test_table_3_4_interaction(shear, tension, utilisation):
    assert bolt_shear_tension_utilisation(shear, 1.0, tension, 1.0) == pytest.approx(utilisation)


# EN 1993-1-8:2005, Table 3.4, punching: 0.6·π·d_m·t_p·f_u/γ_M2; checked.
def test_table_3_4_punching():
    assert punching_resistance(1.0, 1.0, 1.0, 1.0) == pytest.approx(0.6 * math.pi)


# EN 1993-1-8:2005, Table 3.4, bearing: α_d = e1/(3·d0), at most 1; checked.
@pytest.mark.parametrize(
    ("end_over_hole", "alpha"), [(1.5, 0.5), (2.4, 0.8), (3.0, 1.0), (9.0, 1.0)]
)
def test_table_3_4_end_bolts(end_over_hole, alpha):
    assert bearing_factor_end(end_over_hole * 0.01, 0.01, 800e6, 360e6) == pytest.approx(alpha)


# EN 1993-1-8:2005, Table 3.4, bearing: α_b not above f_ub/f_u; checked.
def test_table_3_4_soft_bolt():
    assert bearing_factor_end(0.05, 0.01, 400e6, 500e6) == pytest.approx(0.8)


# EN 1993-1-8:2005, Table 3.4, bearing: α_d = p1/(3·d0) − 1/4 for inner bolts; checked.
@pytest.mark.parametrize(("pitch_over_hole", "alpha"), [(2.25, 0.5), (3.75, 1.0), (6.0, 1.0)])
def test_table_3_4_inner_bolts(pitch_over_hole, alpha):
    assert bearing_factor_pitch(pitch_over_hole * 0.01, 0.01, 800e6, 360e6) == pytest.approx(alpha)


# EN 1993-1-8:2005, Table 3.4, bearing: k1 = 2.8·e2/d0 − 1.7, at most 2.5, edge bolts; checked.
@pytest.mark.parametrize(("edge_over_hole", "k1"), [(1.2, 1.66), (1.5, 2.5), (4.0, 2.5)])
def test_table_3_4_edge_bolts(edge_over_hole, k1):
    assert bearing_factor_edge(edge_over_hole * 0.01, 0.01) == pytest.approx(k1)


# EN 1993-1-8:2005, Table 3.4, bearing: k1 = 1.4·p2/d0 − 1.7, at most 2.5, inner bolts; checked.
@pytest.mark.parametrize(("gauge_over_hole", "k1"), [(2.4, 1.66), (3.0, 2.5), (8.0, 2.5)])
def test_table_3_4_inner_lines(gauge_over_hole, k1):
    assert bearing_factor_gauge(gauge_over_hole * 0.01, 0.01) == pytest.approx(k1)


# EN 1993-1-8:2005, Table 3.4, note 1: oversize 0.8, slots across the force 0.6; checked.
@pytest.mark.parametrize(
    ("kind", "factor"),
    [("normal", 1.0), ("oversize", 0.8), ("short-slot", 0.8), ("long-slot", 0.6)],
)
def test_table_3_4_holes(kind, factor):
    assert bearing_hole_reduction(kind) == factor


# EN 1993-1-8:2005, clause 3.6.1(10), single lap with one bolt row: 1.5·f_u·d·t/γ_M2; checked.
def test_single_lap():
    assert single_lap_bearing_limit(1.0, 1.0, 1.0, 1.0) == 1.5


# EN 1993-1-8:2005, Table 3.3, least distances 1.2·d0, 1.5·d0 (slots), 2.2·d0, 2.4·d0; checked.
@pytest.mark.parametrize(
    ("least", "factor"),
    [
        (lambda: minimum_edge_distance("round", 1.0), 1.2),
        (lambda: minimum_edge_distance("slotted", 1.0), 1.5),
        (lambda: minimum_pitch(1.0), 2.2),
        (lambda: minimum_gauge(1.0), 2.4),
    ],
    ids=["e1-e2", "e3-e4", "p1", "p2"],
)
def test_table_3_3_least(least, factor):
    assert least() == factor


# EN 1993-1-8:2005, Table 3.3, greatest distances: 4·t + 40 mm exposed, the larger of 8·t and
# 125 mm for weathering steel; checked.
@pytest.mark.parametrize(
    ("exposure", "thickness_mm", "greatest_mm"),
    [("exposed", 10.0, 80.0), ("weathering-steel", 10.0, 125.0), ("weathering-steel", 20.0, 160.0)],
)
def test_table_3_3_greatest_edge(exposure, thickness_mm, greatest_mm):
    assert maximum_edge_distance(exposure, thickness_mm / 1e3) * 1e3 == pytest.approx(greatest_mm)


# EN 1993-1-8:2005, Table 3.3, greatest pitch: the smaller of 14·t and 200 mm; checked.
@pytest.mark.parametrize(("thickness_mm", "greatest_mm"), [(10.0, 140.0), (20.0, 200.0)])
def test_table_3_3_greatest_pitch(thickness_mm, greatest_mm):
    assert maximum_pitch(thickness_mm / 1e3) * 1e3 == pytest.approx(greatest_mm)


# EN 1993-1-8:2005, Table 3.3, inner rows in tension: the smaller of 28·t and 400 mm; checked.
@pytest.mark.parametrize(("thickness_mm", "greatest_mm"), [(10.0, 280.0), (20.0, 400.0)])
def test_table_3_3_greatest_inner_pitch(thickness_mm, greatest_mm):
    assert maximum_inner_tension_pitch(thickness_mm / 1e3) * 1e3 == pytest.approx(greatest_mm)


# EN 1993-1-8:2005, Table 3.1, nominal f_yb and f_ub in MPa, and the whole of the shipped rows; exact.
# Checked (public tables that quote it).
@pytest.mark.parametrize(
    ("strength_class", "yield_mpa", "tensile_mpa"),
    [
        ("4.6", 240, 400),
        ("4.8", 320, 400),
        ("5.6", 300, 500),
        ("5.8", 400, 500),
        ("6.8", 480, 600),
        ("8.8", 640, 800),
        ("10.9", 900, 1000),
    ],
)
def test_table_3_1(shipped: Rulebook, strength_class, yield_mpa, tensile_mpa):
    columns = shipped.tables["bolt_class"].columns
    assert columns["yield_strength"].look_up(strength_class) == pytest.approx(yield_mpa * 1e6)
    assert columns["tensile_strength"].look_up(strength_class) == pytest.approx(tensile_mpa * 1e6)


# Table 3.1 ends at 10.9: class 12.9 is not for structural joints; checked.
def test_table_3_1_has_no_12_9(shipped: Rulebook):
    assert "12.9" not in {row[0] for row in shipped.tables["bolt_class"].rows}
