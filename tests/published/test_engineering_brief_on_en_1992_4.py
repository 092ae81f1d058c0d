"""Public engineering brief on EN 1992-4: worked example 1 and the steel formulas."""

from __future__ import annotations

import pytest

from checker.engineering.anchor_fasteners import (
    anchor_interaction,
    anchor_pull_out_resistance,
    anchor_shear_factor,
    anchor_shear_partial_factor,
    anchor_shear_resistance,
    anchor_tension_partial_factor,
    anchor_tension_resistance,
)
from checker.engineering.anchor_geometry import cone_area_ratio, cone_projected_length
from checker.engineering.anchors import (
    cone_group_resistance,
    cone_partial_factor,
    cone_resistance,
    cone_strength_factor,
)

DEPTH = 0.300  # m
SPACING = 0.300  # m
FAR = 10.0  # m; the example has no edge
M24_STRESS_AREA = 353e-6  # m², ISO 898-1


def _single() -> float:
    return cone_resistance("cast-in", True, 30e6, DEPTH)


def _ratio() -> float:
    side = cone_projected_length(DEPTH, 2, SPACING, FAR, FAR)
    return cone_area_ratio(side, side, DEPTH)


# Engineering brief on EN 1992-4, example 1: 4 M24 8.8 cast in C30/37, cracked, 300 × 300 mm, h_ef
# 300 mm; cone resistance of one anchor. Confidence: checked.
def test_cone_resistance_of_one_anchor() -> None:
    assert _single() / 1e3 == pytest.approx(253.3, abs=0.05)


# Engineering brief on EN 1992-4, example 1: ratio of areas. Confidence: checked.
def test_area_ratio() -> None:
    assert _ratio() == pytest.approx(1.778, abs=0.0005)


# Engineering brief on EN 1992-4, example 1: characteristic resistance of the group. The brief
# multiplies rounded figures (253.3 × 1.778), hence 0.15 kN instead of 0.05. Confidence: checked.
def test_characteristic_resistance_of_the_group() -> None:
    group = cone_group_resistance(_single(), _ratio(), 1.0, 1.0, 1.0)
    assert group / 1e3 == pytest.approx(450.4, abs=0.15)


# Engineering brief on EN 1992-4, example 1: design resistance of the group; tolerance as above.
# Confidence: checked.
def test_design_resistance_of_the_group() -> None:
    group = cone_group_resistance(_single(), _ratio(), 1.0, 1.0, 1.0)
    assert group / cone_partial_factor(1.5, 1.0) / 1e3 == pytest.approx(300.3, abs=0.1)


# Engineering brief on EN 1992-4, example 1: design resistance of one anchor's steel. Confidence:
# checked.
def test_design_resistance_of_one_anchor_in_steel() -> None:
    design = anchor_tension_resistance(M24_STRESS_AREA, 800e6) / anchor_tension_partial_factor(
        800e6, 640e6
    )
    assert design / 1e3 == pytest.approx(188.3, abs=0.05)


# Engineering brief on EN 1992-4, example 1: design resistance of four anchors' steel. Confidence:
# checked.
def test_design_resistance_of_the_group_in_steel() -> None:
    design = anchor_tension_resistance(M24_STRESS_AREA, 800e6) / anchor_tension_partial_factor(
        800e6, 640e6
    )
    assert 4 * design / 1e3 == pytest.approx(753, abs=0.5)


# Engineering brief on EN 1992-4, example 1: concrete governs by a factor. Confidence: checked.
def test_concrete_governs() -> None:
    concrete = cone_group_resistance(_single(), _ratio(), 1.0, 1.0, 1.0) / 1.5
    steel = 4 * anchor_tension_resistance(M24_STRESS_AREA, 800e6) / 1.5
    assert steel / concrete == pytest.approx(2.5, abs=0.05)


# Engineering brief on EN 1992-4, Formula (7.34): k6 by steel strength. Confidence: checked.
@pytest.mark.parametrize(("ultimate_mpa", "printed"), [(500, 0.6), (800, 0.5), (1000, 0.5)])
def test_shear_factor(ultimate_mpa: float, printed: float) -> None:
    assert anchor_shear_factor(ultimate_mpa * 1e6) == printed


# EN 1993-1-8:2005, Table 3.4, gives 0.6 to class 8.8 between steel plates; on concrete it is not
# 0.6. Confidence: checked.
def test_shear_factor_of_a_steel_connection_does_not_carry_over() -> None:
    assert anchor_shear_factor(800e6) != 0.6


# Engineering brief on EN 1992-4: M16, A_s 157 mm², f_uk 500 and f_yk 400 MPa, in shear. Confidence:
# checked.
def test_shear_resistance() -> None:
    assert anchor_shear_resistance(157e-6, 500e6) / 1e3 == pytest.approx(47.1, abs=0.05)


# The same: partial factor. Confidence: checked.
def test_shear_partial_factor() -> None:
    assert anchor_shear_partial_factor(500e6, 400e6) == pytest.approx(1.25)


# The same: design resistance. Confidence: checked.
def test_shear_design_resistance() -> None:
    design = anchor_shear_resistance(157e-6, 500e6) / anchor_shear_partial_factor(500e6, 400e6)
    assert design / 1e3 == pytest.approx(37.7, abs=0.05)


# Engineering brief on EN 1992-4: γ_Ms in shear is 1.5 above 800 MPa or above f_yk/f_uk 0.8.
# Confidence: checked.
@pytest.mark.parametrize(("ultimate_mpa", "yield_mpa"), [(1000, 900), (500, 450)])
def test_shear_partial_factor_of_strong_or_stiff_steel(
    ultimate_mpa: float, yield_mpa: float
) -> None:
    assert anchor_shear_partial_factor(ultimate_mpa * 1e6, yield_mpa * 1e6) == 1.5


# Engineering brief on EN 1992-4: γ_Ms in tension is at least 1.4. Confidence: checked.
def test_tension_partial_factor_has_a_least_value() -> None:
    assert anchor_tension_partial_factor(1000e6, 900e6) == 1.4


# Engineering brief on EN 1992-4: pull-out of a headed bolt, factor on A_h·f_ck. Confidence:
# checked.
@pytest.mark.parametrize(("cracked", "printed"), [(True, 7.5), (False, 10.5)])
def test_pull_out_factor(cracked: bool, printed: float) -> None:
    assert anchor_pull_out_resistance(cracked, 1e-6, 20e6) / (1e-6 * 20e6) == pytest.approx(printed)


# Engineering brief on EN 1992-4: exponents of the interaction. Confidence: checked.
def test_interaction_exponents() -> None:
    assert anchor_interaction("steel", 0.5, 0.0) == pytest.approx(0.5**2)
    assert anchor_interaction("concrete", 0.0, 0.5) == pytest.approx(0.5**1.5)


# Engineering brief on EN 1992-4, quoting a headed bolt's technical manual, Table 10: k1 of cast-in
# headed bolts for cylinder strength. Confidence: checked.
@pytest.mark.parametrize(("cracked", "printed"), [(True, 8.9), (False, 12.7)])
def test_cone_factor_of_cast_in_bolts(cracked: bool, printed: float) -> None:
    assert cone_strength_factor("cast-in", cracked) == printed
