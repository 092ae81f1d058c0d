"""Gardner and Nethercot, Designers' Guide to EN 1993-1-1 (2005) and to Eurocode 3 (2nd ed., 2011).

Printed values as quoted in public verification sets. The guide carries unrounded intermediates
and prints them to two digits; printed inputs are therefore fed in only where they are exact. Where
the guide prints a wrong number, the test says so and holds us to the right one.
"""

from __future__ import annotations

import pytest

from checker.engineering.beam_columns import (
    axial_utilisation,
    beam_column_utilisation,
    cross_interaction_factor_minor,
    cross_interaction_factor_torsion,
    equivalent_moment_factor,
    interaction_factor,
    interaction_factor_minor_i_section,
    moment_resistance,
)
from checker.engineering.members import (
    buckling_auxiliary,
    buckling_reduction,
    buckling_resistance,
    compression_resistance,
    critical_force,
    hollow_section_buckling_curve,
    slenderness,
)
from checker.engineering.section_classes import section_class, wall_slenderness
from checker.engineering.sections import (
    tube_area,
    tube_elastic_section_modulus,
    tube_plastic_section_modulus,
    tube_second_moment,
)

E = 210e9


def chain(area, second_moment, length, yield_strength, curve):
    """Buckling check of one axis, in the units the guide prints."""
    critical = critical_force(E, second_moment, length)
    lam = slenderness(area, yield_strength, critical)
    chi = buckling_reduction(lam, curve)
    return {
        "N_cr": critical / 1e3,
        "slenderness": lam,
        "Phi": buckling_auxiliary(lam, curve),
        "chi": chi,
        "N_b": buckling_resistance(chi, area, yield_strength, 1.0) / 1e3,
    }


# 2nd ed., Example 6.7, pp. 61-63, Figure 6.21: hot-finished CHS 244.5 × 10, A 7370 mm²,
# I 50 730 000 mm⁴, W_el 415 000 mm³, W_pl 550 000 mm³, three or four significant digits.
# Confidence: checked.
CHS = ("round", "hot-finished", 0.2445, 0.2445, 0.010)


@pytest.mark.parametrize(
    ("value", "printed", "half_unit"),
    [
        pytest.param(tube_area(*CHS) * 1e6, 7370, 5, id="A"),
        pytest.param(tube_second_moment(*CHS, "major") * 1e12, 50_730_000, 5_000, id="I"),
        pytest.param(tube_elastic_section_modulus(*CHS, "major") * 1e9, 415_000, 500, id="W_el"),
        pytest.param(tube_plastic_section_modulus(*CHS, "major") * 1e9, 550_000, 500, id="W_pl"),
    ],
)
def test_example_6_7_section(value, printed, half_unit):
    assert value == pytest.approx(printed, abs=half_unit)


# 2nd ed., Example 6.7, pp. 61-63: S355, L_cr 4 m, curve a. N_cr 6571 kN, λ̄ 0.63, Φ 0.74, χ 0.88,
# N_b,Rd 2297 kN. Confidence: checked.
@pytest.mark.parametrize(
    ("name", "printed", "half_unit"),
    [
        ("N_cr", 6571, 0.5),
        ("slenderness", 0.63, 0.005),
        ("Phi", 0.74, 0.005),
        ("chi", 0.88, 0.005),
        ("N_b", 2297, 0.5),
    ],
)
def test_example_6_7_buckling(name, printed, half_unit):
    curve = hollow_section_buckling_curve("hot-finished", 355e6)
    result = chain(7370e-6, 50_730_000e-12, 4.0, 355e6, curve)
    assert result[name] == pytest.approx(printed, abs=half_unit)


# 2nd ed., Example 6.7, p. 62: N_c,Rd 2616 kN. Confidence: checked.
def test_example_6_7_cross_section():
    assert compression_resistance(7370e-6, 355e6, 1.0) / 1e3 == pytest.approx(2616, abs=0.5)


# A public verification of Example 6.7 with 1630 kN, the force in the caption of Figure 6.20 (the
# text of the 2nd ed. has 2110 kN): utilisation 0.71. Confidence: checked.
def test_example_6_7_utilisation():
    assert axial_utilisation(1630e3, 2297e3) == pytest.approx(0.71, abs=0.005)


# 2nd ed., Example 6.7, p. 62, prints "50ε² = 40.7" for S355; 40.7 is 50ε, and Table 5.2, p. 41,
# gives 33.1. A tube of d/t 36 is class 1 by the misprint, class 2 in truth. Confidence: checked.
def test_example_6_7_misprinted_class_limit():
    assert section_class("round", 36.0, 355e6) == 2.0
    assert section_class("round", wall_slenderness("round", 0.2445, 0.2445, 0.010), 355e6) == 1.0


# 2005 ed., Example 6.7: the same tube in S275, N_c,Rd 2026.8 kN, λ̄ 0.56. Confidence: checked.
def test_example_6_7_of_2005_cross_section():
    assert compression_resistance(7370e-6, 275e6, 1.0) / 1e3 == pytest.approx(2026.8, abs=0.05)


def test_example_6_7_of_2005_slenderness():
    result = chain(7370e-6, 50_730_000e-12, 4.0, 275e6, "a")
    assert result["slenderness"] == pytest.approx(0.56, abs=0.005)


# 2nd ed., Example 6.2, p. 40: UC 254 × 254 × 73, S355, A 9310 mm², N_c,Rd 3305 kN.
# Confidence: checked.
def test_example_6_2_cross_section():
    assert compression_resistance(9310e-6, 355e6, 1.0) / 1e3 == pytest.approx(3305, abs=0.5)


# 2nd ed., Example 6.9, pp. 78-85: hot-finished RHS 200 × 100 × 16, S355, A 8300 mm², curve a;
# I_y 36 780 000 mm⁴ with 7.2 m, I_z 11 470 000 mm⁴ with 2.4 m. Confidence: checked.
# N_cr,y is 1470.50 and was cut, not rounded, to 1470: hence one unit there.
@pytest.mark.parametrize(
    ("second_moment", "length", "name", "printed", "tolerance"),
    [
        (36_780_000e-12, 7.2, "N_cr", 1470, 1.0),
        (36_780_000e-12, 7.2, "slenderness", 1.42, 0.005),
        (36_780_000e-12, 7.2, "Phi", 1.63, 0.005),
        (36_780_000e-12, 7.2, "chi", 0.41, 0.005),
        (36_780_000e-12, 7.2, "N_b", 1209, 0.5),
        (11_470_000e-12, 2.4, "N_cr", 4127, 0.5),
        (11_470_000e-12, 2.4, "slenderness", 0.84, 0.005),
        (11_470_000e-12, 2.4, "Phi", 0.92, 0.005),
        (11_470_000e-12, 2.4, "chi", 0.77, 0.005),
        (11_470_000e-12, 2.4, "N_b", 2266, 0.5),
    ],
)
def test_example_6_9_buckling(second_moment, length, name, printed, tolerance):
    curve = hollow_section_buckling_curve("hot-finished", 355e6)
    result = chain(8300e-6, second_moment, length, 355e6, curve)
    assert result[name] == pytest.approx(printed, abs=tolerance)


# 2nd ed., Example 6.9: N_Rk 2946.5 kN. Confidence: checked.
def test_example_6_9_cross_section():
    assert compression_resistance(8300e-6, 355e6, 1.0) / 1e3 == pytest.approx(2946.5, abs=0.05)


# Example 6.10: UC 305 × 305 × 240, A 30 600 mm², I_y 642.0e6 mm⁴ with 0.7 × 4.2 m on curve b,
# I_z 203.1e6 mm⁴ with 4.2 m on curve c, W_pl,z 1 951 000 mm³. W_pl,y 4 247 000 mm³ is from memory;
# it gives the printed moment resistance. The 2nd ed. takes 265 N/mm² for the 37.7 mm flange, the
# 2005 ed. 275 N/mm².
UC_AREA = 30_600e-6
UC = {"y": (642.0e-6, 0.7 * 4.2, "b"), "z": (203.1e-6, 4.2, "c")}


# 2nd ed., Example 6.10, pp. 86-93. Confidence: checked.
@pytest.mark.parametrize(
    ("axis", "name", "printed", "half_unit"),
    [
        ("y", "N_cr", 153_943, 0.5),
        ("y", "slenderness", 0.23, 0.005),
        ("y", "Phi", 0.53, 0.005),
        ("y", "chi", 0.99, 0.005),
        ("y", "N_b", 8024, 0.5),
        ("z", "N_cr", 23_863, 0.5),
        ("z", "slenderness", 0.58, 0.005),
        ("z", "Phi", 0.76, 0.005),
        ("z", "chi", 0.80, 0.005),
        ("z", "N_b", 6450, 0.5),
    ],
)
def test_example_6_10_buckling(axis, name, printed, half_unit):
    second_moment, length, curve = UC[axis]
    result = chain(UC_AREA, second_moment, length, 265e6, curve)
    assert result[name] == pytest.approx(printed, abs=half_unit)


# 2nd ed., Example 6.10: N_c,Rd 8109 kN; p. 89 prints 8415 for the same force, left over from the
# 275 N/mm² of the 2005 edition. Confidence: checked.
def test_example_6_10_cross_section_and_its_leftover():
    resistance = compression_resistance(UC_AREA, 265e6, 1.0) / 1e3
    assert resistance == pytest.approx(8109, abs=0.5)
    assert resistance != pytest.approx(8415, rel=0.01)


def example_6_10(yield_strength):
    """Annex B chain; the ratios of end moments are read back from the printed factors."""
    along = {axis: chain(UC_AREA, *UC[axis][:2], yield_strength, UC[axis][2]) for axis in UC}
    share = {axis: axial_utilisation(3440.0, along[axis]["N_b"]) for axis in along}
    major, minor = (equivalent_moment_factor("non-sway", ratio) for ratio in (-0.5, 0.0))
    k_zz = interaction_factor_minor_i_section(1.0, minor, along["z"]["slenderness"], share["z"])
    factors = {
        "k_yy": interaction_factor(1.0, major, along["y"]["slenderness"], share["y"]),
        "k_yz": cross_interaction_factor_minor(1.0, k_zz),
        "k_zy": cross_interaction_factor_torsion(1.0, major, along["z"]["slenderness"], share["z"]),
        "k_zz": k_zz,
    }
    bending = {
        "y": moment_resistance(4_247_000e-9, yield_strength, 1.0),
        "z": moment_resistance(1_951_000e-9, yield_strength, 1.0),
    }
    return along, factors, bending


# 2nd ed., Example 6.10, p. 89: M_pl,y,Rd 1125 kN·m. Confidence: checked.
def test_example_6_10_moment_resistance():
    assert moment_resistance(4_247_000e-9, 265e6, 1.0) / 1e3 == pytest.approx(1125, abs=0.5)


# 2nd ed., Example 6.10, p. 92: k_yz 0.47, k_zz 0.78. Confidence: checked.
@pytest.mark.parametrize(("name", "printed"), [("k_yz", 0.47), ("k_zz", 0.78)])
def test_example_6_10_interaction_factors(name, printed):
    assert example_6_10(265e6)[1][name] == pytest.approx(printed, abs=0.005)


# 2005 ed., Example 6.10: k_zy 0.79, k_zz 0.78. Confidence: checked.
@pytest.mark.parametrize(("name", "printed"), [("k_zy", 0.79), ("k_zz", 0.78)])
def test_example_6_10_of_2005_interaction_factors(name, printed):
    assert example_6_10(275e6)[1][name] == pytest.approx(printed, abs=0.005)


# 2005 ed., Example 6.10: N_Ed 3440 kN, M_y 420 kN·m, M_z 110 kN·m; (6.61) 0.66, (6.62) 0.97.
# Confidence: checked. The quotations name no yield strength: only the 275 N/mm² of the 2005 edition
# gives these results, the 265 N/mm² of the 2nd gives 0.68 and 1.00.
# A hundredth is allowed, for (6.62) adds three terms rounded to two digits:
# 0.52 + 0.29 + 0.16 = 0.97, where the unrounded sum is 0.964.
@pytest.mark.parametrize(
    ("axis", "on_major", "on_minor", "printed"),
    [("y", "k_yy", "k_yz", 0.66), ("z", "k_zy", "k_zz", 0.97)],
)
def test_example_6_10_of_2005_utilisation(axis, on_major, on_minor, printed):
    along, factors, bending = example_6_10(275e6)
    whole = beam_column_utilisation(
        3440e3,
        along[axis]["N_b"] * 1e3,
        factors[on_major],
        420e3,
        bending["y"],
        factors[on_minor],
        110e3,
        bending["z"],
    )
    assert whole == pytest.approx(printed, abs=0.01)
    terms = (
        axial_utilisation(3440.0, along[axis]["N_b"]),
        factors[on_major] * 420e3 / bending["y"],
        factors[on_minor] * 110e3 / bending["z"],
    )
    assert sum(round(term, 2) for term in terms) == pytest.approx(printed, abs=1e-9)


# 2nd ed., Example 13.3, pp. 146-148: channel 100 × 50 × 3, pinned over 1.5 m, I_y 85.41e4 mm⁴,
# I_z 13.76e4 mm⁴: 787 and 127 kN. Confidence: checked.
@pytest.mark.parametrize(("second_moment", "printed"), [(85.41e-8, 787), (13.76e-8, 127)])
def test_example_13_3_critical_force(second_moment, printed):
    assert critical_force(E, second_moment, 1.5) / 1e3 == pytest.approx(printed, abs=0.5)


# 2nd ed., Example 13.3: A_eff 549 mm², f_y 280 N/mm², N_cr 114 kN (torsional-flexural), curve c:
# λ̄ 1.16, Φ 1.41, χ 0.45. Confidence: checked.
def test_example_13_3_slenderness():
    assert slenderness(549e-6, 280e6, 114e3) == pytest.approx(1.16, abs=0.005)


def test_example_13_3_auxiliary_value():
    lam = slenderness(549e-6, 280e6, 114e3)
    assert buckling_auxiliary(lam, "c") == pytest.approx(1.41, abs=0.005)


def test_example_13_3_reduction():
    assert buckling_reduction(slenderness(549e-6, 280e6, 114e3), "c") == pytest.approx(
        0.45, abs=0.005
    )


# 2nd ed., Example 6.8, pp. 71-76: lateral-torsional buckling by eq. (6.56), the same function of
# slenderness as eq. (6.49), curve b. λ̄ 0.54: Φ 0.70, χ 0.87; λ̄ 0.62: Φ 0.76, χ 0.83.
# Confidence: checked.
@pytest.mark.parametrize(("lam", "auxiliary", "chi"), [(0.54, 0.70, 0.87), (0.62, 0.76, 0.83)])
def test_example_6_8_curve(lam, auxiliary, chi):
    assert buckling_auxiliary(lam, "b") == pytest.approx(auxiliary, abs=0.005)
    assert buckling_reduction(lam, "b") == pytest.approx(chi, abs=0.005)
