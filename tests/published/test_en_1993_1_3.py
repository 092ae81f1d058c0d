"""EN 1993-1-3:2006, Cold-formed members and sheeting: Tables 8.2 (screws) and 8.4 (bolts).

The tables print formulas and ranges. Each case isolates one printed coefficient or limit;
results in newton are arithmetic of the formula.
"""

from __future__ import annotations

import pytest

from checker.engineering.limits import OutOfRange
from checker.engineering.sheet import (
    screw_bearing_factor,
    screw_minimum_edge_distance,
    screw_minimum_end_distance,
    screw_minimum_spacing,
    screw_pull_out_resistance,
    screw_pull_through_resistance,
)
from checker.engineering.sheet_bolts import (
    net_section_resistance,
    sheet_bolt_bearing_resistance,
    sheet_bolt_end_factor,
    sheet_bolt_minimum_edge_distance,
    sheet_bolt_minimum_spacing,
    sheet_bolt_thickness_factor,
)


# Table 8.2, pull-through under repeated load: 0.5·d_w·t·f_u/γ_M2; checked.
def test_pull_through_repeated():
    found = screw_pull_through_resistance(0.014, 0.0063, 0.001, 1e6, "repeated", 1.0)
    assert found == pytest.approx(0.5 * 14 * 1)


# Table 8.2, pull-through under static load: d_w·t·f_u/γ_M2; from-memory.
def test_pull_through_static():
    found = screw_pull_through_resistance(0.014, 0.0063, 0.001, 1e6, "static", 1.0)
    assert found == pytest.approx(14 * 1)


# Arithmetic of Table 8.2: 14 mm washer, 1.0 mm sheet with f_u 360 MPa, 4.03 and 2.02 kN.
@pytest.mark.parametrize(("loading", "expected_kn"), [("static", 4.03), ("repeated", 2.02)])
def test_pull_through_example(loading, expected_kn):
    found = screw_pull_through_resistance(0.014, 0.0063, 0.001, 360e6, loading, 1.25)
    assert found / 1e3 == pytest.approx(expected_kn, abs=0.005)


# Table 8.2, pull-out from a support as thick as the pitch: 0.65·d·t_sup·f_u,sup/γ_M2; checked.
def test_pull_out_thick():
    found = screw_pull_out_resistance(0.006, 0.002, 0.0018, 1e6, 1.0)
    assert found == pytest.approx(0.65 * 6 * 2)


# Table 8.2, pull-out from a support thinner than the pitch: 0.45 instead of 0.65; from-memory.
def test_pull_out_thin():
    found = screw_pull_out_resistance(0.006, 0.001, 0.0018, 1e6, 1.0)
    assert found == pytest.approx(0.45 * 6 * 1)


# Arithmetic of Table 8.2: 6.3 mm screw, f_u 360 MPa: 0.816 kN in 1.0 mm, 2.36 kN in 2.0 mm.
@pytest.mark.parametrize(("support_mm", "expected_kn"), [(1.0, 0.816), (2.0, 2.359)])
def test_pull_out_example(support_mm, expected_kn):
    found = screw_pull_out_resistance(0.0063, support_mm / 1e3, 0.0018, 360e6, 1.25)
    assert found / 1e3 == pytest.approx(expected_kn, abs=0.0006)


# Table 8.2, bearing of screws: α = 3.2·√(t/d) but at most 2.1 for t1 = t; checked.
@pytest.mark.parametrize(
    ("diameter_mm", "sheet_mm", "alpha"), [(4.0, 1.0, 1.6), (8.0, 0.5, 0.8), (4.0, 2.25, 2.1)]
)
def test_screw_bearing_alike(diameter_mm, sheet_mm, alpha):
    found = screw_bearing_factor(diameter_mm / 1e3, sheet_mm / 1e3, sheet_mm / 1e3)
    assert found == pytest.approx(alpha)


# Table 8.2, bearing of screws: α = 2.1 for t1 >= 2.5·t with t >= 1.0 mm; checked.
def test_screw_bearing_on_thick():
    assert screw_bearing_factor(0.0063, 0.001, 0.0025) == pytest.approx(2.1)


# Table 8.2, bearing of screws: 3.2·√(t/d) also for t1 >= 2.5·t when t < 1.0 mm; checked.
def test_screw_bearing_thin_on_thick():
    assert screw_bearing_factor(0.008, 0.0005, 0.003) == pytest.approx(0.8)


# Table 8.2, straight line between t1 = t and t1 = 2.5·t; checked. Half way: t1 = 1.75·t.
def test_screw_bearing_between():
    assert screw_bearing_factor(0.004, 0.001, 0.00175) == pytest.approx((1.6 + 2.1) / 2)


# Published wrongly: a public code set has 3.6·√(t/d) for screws and 2.1 on any thick support; those
# are the blind rivets of Table 8.1. For a 6.3 mm screw in 1.0 mm it would give 1.434.
def test_not_the_rivet_factor():
    assert screw_bearing_factor(0.0063, 0.001, 0.001) < 1.434 - 0.1


# Published wrongly: the same set has no branch for t below 1.0 mm on a thick support.
def test_not_2_1_below_one_millimetre():
    assert screw_bearing_factor(0.0063, 0.0008, 0.003) < 1.2


# Table 8.2, range of validity: e1, p1, p2 >= 3·d and e2 >= 1.5·d; checked.
@pytest.mark.parametrize(
    ("function", "factor"),
    [
        (screw_minimum_end_distance, 3.0),
        (screw_minimum_spacing, 3.0),
        (screw_minimum_edge_distance, 1.5),
    ],
)
def test_screw_distances(function, factor):
    assert function(0.005) == pytest.approx(factor * 0.005)


# Table 8.2, range of validity: 3.0 <= d <= 8.0 mm and in tension 0.5 <= t <= 1.5 mm; checked.
@pytest.mark.parametrize(
    ("diameter_mm", "sheet_mm", "inside"),
    [
        (3.0, 0.5, True),
        (8.0, 1.5, True),
        (2.9, 1.0, False),
        (8.1, 1.0, False),
        (6.0, 0.49, False),
        (6.0, 1.51, False),
    ],
)
def test_screw_range(diameter_mm, sheet_mm, inside):
    arguments = (0.014, diameter_mm / 1e3, sheet_mm / 1e3, 360e6, "repeated", 1.25)
    if inside:
        assert screw_pull_through_resistance(*arguments) > 0
    else:
        with pytest.raises(OutOfRange, match=r"Table 8\.2"):
            screw_pull_through_resistance(*arguments)


# Table 8.2, range of validity: t1 >= 0.9 mm in tension; checked.
@pytest.mark.parametrize(("support_mm", "inside"), [(0.9, True), (0.89, False)])
def test_support_range(support_mm, inside):
    arguments = (0.006, support_mm / 1e3, 0.0018, 360e6, 1.25)
    if inside:
        assert screw_pull_out_resistance(*arguments) > 0
    else:
        with pytest.raises(OutOfRange, match=r"0\.9 mm"):
            screw_pull_out_resistance(*arguments)


# Table 8.4, k_t = (0.8·t + 1.5)/2.5 up to 1.25 mm, 1.0 above; checked.
@pytest.mark.parametrize(
    ("sheet_mm", "k_t"), [(0.75, 0.84), (1.0, 0.92), (1.25, 1.0), (1.5, 1.0), (2.99, 1.0)]
)
def test_k_t(sheet_mm, k_t):
    assert sheet_bolt_thickness_factor(sheet_mm / 1e3) == pytest.approx(k_t)


# Table 8.4, range of validity: 0.75 <= t < 3 mm; checked.
@pytest.mark.parametrize("sheet_mm", [0.74, 3.0])
def test_sheet_range(sheet_mm):
    with pytest.raises(OutOfRange, match=r"Table 8\.4"):
        sheet_bolt_thickness_factor(sheet_mm / 1e3)


# Table 8.4, bearing: 2.5·α_b·k_t·f_u·d·t/γ_M2; checked.
def test_bolt_bearing():
    found = sheet_bolt_bearing_resistance(1.0, 1.0, 1e6, 0.010, 0.002, 1.0)
    assert found == pytest.approx(2.5 * 10 * 2)


# Table 8.4, α_b = min(1, e1/(3·d)): the bolt's diameter, not the hole's; checked.
@pytest.mark.parametrize(("end_mm", "alpha_b"), [(20.0, 0.6667), (30.0, 1.0), (60.0, 1.0)])
def test_bolt_end_factor(end_mm, alpha_b):
    assert sheet_bolt_end_factor(end_mm / 1e3, 0.010, 0.011) == pytest.approx(alpha_b, abs=5e-5)


# Arithmetic of Table 8.4: M10, e1 20 mm, f_u 360 MPa: 7.20 kN in 1.5 mm, 4.42 kN in 1.0 mm.
@pytest.mark.parametrize(("sheet_mm", "expected_kn"), [(1.5, 7.20), (1.0, 4.42)])
def test_bolt_bearing_example(sheet_mm, expected_kn):
    k_t = sheet_bolt_thickness_factor(sheet_mm / 1e3)
    alpha_b = sheet_bolt_end_factor(0.020, 0.010, 0.011)
    found = sheet_bolt_bearing_resistance(alpha_b, k_t, 360e6, 0.010, sheet_mm / 1e3, 1.25)
    assert found / 1e3 == pytest.approx(expected_kn, abs=0.005)


# Table 8.4, range of validity: f_u <= 550 MPa; checked.
@pytest.mark.parametrize(("strength", "inside"), [(550e6, True), (551e6, False)])
def test_bolt_strength_range(strength, inside):
    arguments = (1.0, 1.0, strength, 0.010, 0.0015, 1.25)
    if inside:
        assert sheet_bolt_bearing_resistance(*arguments) > 0
    else:
        with pytest.raises(OutOfRange, match="550 MPa"):
            sheet_bolt_bearing_resistance(*arguments)


# Table 8.4, range of validity: bolts from M6; checked.
def test_bolt_size_range():
    with pytest.raises(OutOfRange, match="M6"):
        sheet_bolt_end_factor(0.020, 0.005, 0.0055)


# Table 8.4, range of validity: e2 >= 1.5·d0, p1 and p2 >= 3·d0; checked.
@pytest.mark.parametrize(
    ("function", "factor"),
    [(sheet_bolt_minimum_edge_distance, 1.5), (sheet_bolt_minimum_spacing, 3.0)],
)
def test_bolt_distances(function, factor):
    assert function(0.011) == pytest.approx(factor * 0.011)


# Table 8.4, net section: (1 + 3·r·(d0/u − 0.3))·A_net·f_u/γ_M2, at most A_net·f_u/γ_M2; checked.
@pytest.mark.parametrize(
    ("share", "hole_over_strip", "factor"),
    [(1.0, 0.1, 0.4), (0.5, 0.1, 0.7), (1.0, 0.3, 1.0), (1.0, 0.5, 1.0)],
)
def test_net_section(share, hole_over_strip, factor):
    found = net_section_resistance(share, hole_over_strip * 0.1, 0.1, 1.0, 1.0, 1.0)
    assert found == pytest.approx(factor)
