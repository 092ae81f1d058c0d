"""A post in compression and bending together, with the interaction factors of method 2.

EN 1993-1-1:2005, clause 6.3.3 and Annex B. The factors for sections that twist
easily are here only because the published worked examples use them; a tube does
not twist, so its χ_LT is 1 and Table B.1 applies, in its row for rectangular hollow
sections also for round ones, which the table does not name.
"""

from __future__ import annotations

import math
from typing import Literal, get_args

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Force, Moment, Number, SectionModulus, Stress
from .limits import OutOfRange

__all__ = [
    "SwayMode",
    "axial_utilisation",
    "beam_column_utilisation",
    "cantilever_post_utilisation",
    "cross_interaction_factor_major",
    "cross_interaction_factor_minor",
    "cross_interaction_factor_torsion",
    "equivalent_moment_factor",
    "interaction_factor",
    "interaction_factor_minor_i_section",
    "moment_resistance",
]

SwayMode = Literal["sway", "non-sway"]


def moment_resistance(
    section_modulus: SectionModulus, yield_strength: Stress, partial_factor: Number
) -> Moment:
    """Design moment resistance, M_Rd = W f_y/γ_M, N·m.

    Source: EN 1993-1-1:2005, 6.2.5(2), eqs. (6.13), (6.14); 6.3.3 with γ_M1. Confidence: checked.

    section_modulus: W_pl for class 1 and 2, W_el for class 3 [m³], > 0
    yield_strength: nominal yield strength f_y [Pa], > 0
    partial_factor: γ_M0 for a cross-section, γ_M1 for a member [1], > 0
    Returns [N·m].
    Valid for: sections of class 1 to 3 that do not buckle sideways (χ_LT = 1), as tubes.
    Raises OutOfRange: an argument not above 0.

    >>> moment_resistance(192e-6, 355e6, 1.0) / 1e6  # SHS 150 × 150 × 6.3, printed 68 kN·m
    0.068
    """
    require_positive(section_modulus, "section modulus", "m³")
    require_positive(yield_strength, "yield strength", "Pa")
    require_positive(partial_factor, "partial factor")
    return section_modulus * yield_strength / partial_factor


def axial_utilisation(axial_force: Force, resistance: Force) -> Number:
    """Share of the buckling resistance that the compression takes, n = N_Ed/N_b,Rd.

    Source: EN 1993-1-1:2005, Table B.1, N_Ed/(χ N_Rk/γ_M1). Confidence: checked.

    axial_force: design compression N_Ed [N], >= 0
    resistance: buckling resistance N_b,Rd about the axis in question [N], > 0
    Returns [1].
    Valid for: compression.
    Raises OutOfRange: compression below 0, resistance not above 0.

    >>> axial_utilisation(3440e3, 6450e3)  # printed 0.53
    0.53
    """
    require_at_least(axial_force, 0.0, "design compression", "N")
    require_positive(resistance, "buckling resistance", "N")
    return axial_force / resistance


def equivalent_moment_factor(mode: SwayMode, end_moment_ratio: Number) -> Number:
    """Equivalent uniform moment factor, C_m.

    Source: EN 1993-1-1:2005, Table B.3, linear moment diagram, and its note on sway. Confidence:
    checked.

    mode: "sway" where the ends can move sideways, as of a free-standing post; else "non-sway"
    end_moment_ratio: ψ, the smaller end moment over the larger one, with sign [1], −1 to 1;
        idle for "sway"
    Returns [1]: 0.9 for sway, else 0.6 + 0.4 ψ, not less than 0.4.
    Valid for: a moment that varies in a straight line between the ends.
    Raises OutOfRange: another mode, a ratio outside its range.

    >>> equivalent_moment_factor("sway", 0.0)
    0.9
    """
    require_within(end_moment_ratio, -1.0, 1.0, "ratio of the end moments", "", "Table B.3")
    if mode == "sway":
        return 0.9
    if mode == "non-sway":
        return max(0.4, 0.6 + 0.4 * end_moment_ratio)
    raise OutOfRange(f"The buckling mode is {mode!r}; it is one of {get_args(SwayMode)}.")


def interaction_factor(
    section_class: Number, moment_factor: Number, slenderness: Number, axial_ratio: Number
) -> Number:
    """Interaction factor of the moment about the axis that buckles, k_yy; k_zz for hollow sections.

    Source: EN 1993-1-1:2005, Annex B, Table B.1: C_m (1 + (λ̄ − 0.2) n) ≤ C_m (1 + 0.8 n) in class
    1 and 2, C_m (1 + 0.6 λ̄ n) ≤ C_m (1 + 0.6 n) in class 3. Confidence: checked.

    section_class: class of the section [1], 1, 2 or 3
    moment_factor: equivalent uniform moment factor C_m [1], 0.4 to 1
    slenderness: non-dimensional slenderness λ̄ about the axis [1], >= 0
    axial_ratio: n = N_Ed/N_b,Rd about the axis [1], >= 0
    Returns [1].
    Valid for: k_yy of any doubly symmetric section, k_zz of hollow ones.
    Raises OutOfRange: class 4, an argument outside its range.

    >>> interaction_factor(1.0, 0.9, 1.848, 0.0257)
    0.918
    """
    _refuse_outside_annex_b(section_class, moment_factor, slenderness, axial_ratio)
    plastic = min(slenderness - 0.2, 0.8)
    elastic = 0.6 * min(slenderness, 1.0)
    growth = plastic if section_class <= 2.0 else elastic
    return moment_factor * (1.0 + growth * axial_ratio)


def interaction_factor_minor_i_section(
    section_class: Number, moment_factor: Number, slenderness: Number, axial_ratio: Number
) -> Number:
    """Interaction factor of the minor-axis moment of an I-section, k_zz.

    Source: EN 1993-1-1:2005, Annex B, Table B.1: C_mz (1 + (2 λ̄_z − 0.6) n) ≤ C_mz (1 + 1.4 n) in
    class 1 and 2; class 3 as for hollow sections. Confidence: checked.

    section_class: class of the section [1], 1, 2 or 3
    moment_factor: equivalent uniform moment factor C_mz [1], 0.4 to 1
    slenderness: non-dimensional slenderness λ̄_z [1], >= 0
    axial_ratio: n = N_Ed/N_b,z,Rd [1], >= 0
    Returns [1].
    Valid for: I- and H-sections.
    Raises OutOfRange: class 4, an argument outside its range.

    >>> interaction_factor_minor_i_section(1.0, 0.6, 0.583, 0.533)  # printed 0.78
    0.78
    """
    _refuse_outside_annex_b(section_class, moment_factor, slenderness, axial_ratio)
    if section_class > 2.0:
        return interaction_factor(section_class, moment_factor, slenderness, axial_ratio)
    return moment_factor * (1.0 + min(2.0 * slenderness - 0.6, 1.4) * axial_ratio)


def cross_interaction_factor_minor(section_class: Number, minor_factor: Number) -> Number:
    """Interaction factor of the minor-axis moment in major-axis buckling, k_yz.

    Source: EN 1993-1-1:2005, Annex B, Table B.1: 0.6 k_zz in class 1 and 2, k_zz in class 3.
    Confidence: checked.

    section_class: class of the section [1], 1, 2 or 3
    minor_factor: interaction factor k_zz [1], > 0
    Returns [1].
    Valid for: doubly symmetric sections.
    Raises OutOfRange: class 4, a factor not above 0.

    >>> cross_interaction_factor_minor(1.0, 0.78)  # printed 0.47
    0.47
    """
    _refuse_class_4(section_class)
    require_positive(minor_factor, "interaction factor k_zz")
    return (0.6 if section_class <= 2.0 else 1.0) * minor_factor


def cross_interaction_factor_major(section_class: Number, major_factor: Number) -> Number:
    """Interaction factor of the major-axis moment in minor-axis buckling, k_zy, of a tube.

    Source: EN 1993-1-1:2005, Annex B, Table B.1: 0.6 k_yy in class 1 and 2, 0.8 k_yy in class 3.
    Confidence: checked.

    section_class: class of the section [1], 1, 2 or 3
    major_factor: interaction factor k_yy [1], > 0
    Returns [1].
    Valid for: sections that do not twist, as hollow ones.
    Raises OutOfRange: class 4, a factor not above 0.

    >>> cross_interaction_factor_major(1.0, 0.9)
    0.54
    """
    _refuse_class_4(section_class)
    require_positive(major_factor, "interaction factor k_yy")
    return (0.6 if section_class <= 2.0 else 0.8) * major_factor


def cross_interaction_factor_torsion(
    section_class: Number, moment_factor: Number, slenderness: Number, axial_ratio: Number
) -> Number:
    """Interaction factor of the major-axis moment in minor-axis buckling, k_zy, of an I-section.

    Source: EN 1993-1-1:2005, Annex B, Table B.2, members that can twist. Confidence: from-memory;
    the class 1 row gives the factor printed in the Designers' Guide, Example 6.10.

    section_class: class of the section [1], 1, 2 or 3
    moment_factor: equivalent uniform moment factor C_mLT [1], 0.4 to 1
    slenderness: non-dimensional slenderness λ̄_z [1], >= 0
    axial_ratio: n = N_Ed/N_b,z,Rd [1], >= 0
    Returns [1].
    Valid for: open sections; tubes take ``cross_interaction_factor_major``.
    Raises OutOfRange: class 4, an argument outside its range.

    >>> cross_interaction_factor_torsion(1.0, 0.4, 0.583, 0.533)  # printed 0.79
    0.79
    """
    _refuse_outside_annex_b(section_class, moment_factor, slenderness, axial_ratio)
    drop = (0.1 if section_class <= 2.0 else 0.05) / (moment_factor - 0.25) * axial_ratio
    factor = 1.0 - drop * min(slenderness, 1.0)
    if section_class <= 2.0 and slenderness < 0.4:
        return min(0.6 + slenderness, factor)
    return factor


def beam_column_utilisation(
    axial_force: Force,
    axial_resistance: Force,
    major_factor: Number,
    major_moment: Moment,
    major_resistance: Moment,
    minor_factor: Number,
    minor_moment: Moment,
    minor_resistance: Moment,
) -> Number:
    """Utilisation of a member in compression and bending about both axes.

    Source: EN 1993-1-1:2005, 6.3.3(4), eq. (6.61) with k_yy, k_yz and the resistance to major-axis
    buckling; eq. (6.62) with k_zy, k_zz and the resistance to minor-axis buckling. The larger of
    the two counts. Confidence: checked.

    axial_force: design compression N_Ed [N], >= 0
    axial_resistance: buckling resistance χ N_Rk/γ_M1 about the axis of the equation [N], > 0
    major_factor: interaction factor of the major-axis moment, k_yy or k_zy [1], >= 0
    major_moment: largest design moment about the major axis M_y,Ed [N·m], either sign
    major_resistance: χ_LT M_y,Rk/γ_M1 [N·m], > 0
    minor_factor: interaction factor of the minor-axis moment, k_yz or k_zz [1], >= 0
    minor_moment: largest design moment about the minor axis M_z,Ed [N·m], either sign
    minor_resistance: M_z,Rk/γ_M1 [N·m], > 0
    Returns [1], not above 1 where the member suffices.
    Valid for: doubly symmetric sections of class 1 to 3.
    Raises OutOfRange: an argument outside its range.

    >>> beam_column_utilisation(  # Designers' Guide (2005), Example 6.10, (6.61), printed 0.66
    ...     3440e3, 8314e3, 0.406, 420e3, 1168e3, 0.470, 110e3, 536.5e3
    ... )
    0.66
    """
    require_at_least(major_factor, 0.0, "interaction factor of the major-axis moment")
    require_at_least(minor_factor, 0.0, "interaction factor of the minor-axis moment")
    require_positive(major_resistance, "moment resistance about the major axis", "N·m")
    require_positive(minor_resistance, "moment resistance about the minor axis", "N·m")
    if not (math.isfinite(major_moment) and math.isfinite(minor_moment)):
        raise OutOfRange(
            f"The design moments are {major_moment} N·m and {minor_moment} N·m; "
            f"they must be finite numbers."
        )
    return (
        axial_utilisation(axial_force, axial_resistance)
        + major_factor * abs(major_moment) / major_resistance
        + minor_factor * abs(minor_moment) / minor_resistance
    )


def cantilever_post_utilisation(
    axial_force: Force,
    axial_resistance: Force,
    interaction: Number,
    moment: Moment,
    resistance: Moment,
) -> Number:
    """Utilisation of a free-standing post in compression and bending about one axis.

    Source: EN 1993-1-1:2005, 6.3.3(4), eq. (6.61) without minor-axis moment. Confidence: checked.

    axial_force: design compression N_Ed [N], >= 0
    axial_resistance: N_b,Rd with L_cr = 2 L, about the weaker axis to be on the safe side [N], > 0
    interaction: interaction factor k_yy, with C_m = 0.9 for sway [1], >= 0
    moment: design moment at the foot M_Ed [N·m], either sign
    resistance: moment resistance W f_y/γ_M1 [N·m], > 0
    Returns [1], not above 1 where the post suffices.
    Valid for: tubes of class 1 to 3, moments of first order. With C_m below 1 it may count less
    than the whole moment; the section at the foot has to be checked as well.
    Raises OutOfRange: an argument outside its range.

    >>> cantilever_post_utilisation(894.7, 34.85e3, 0.918, 1089.3, 3290.0)
    0.330
    """
    return beam_column_utilisation(
        axial_force, axial_resistance, interaction, moment, resistance, 0.0, 0.0, resistance
    )


def _refuse_class_4(section_class: Number) -> None:
    if section_class not in (1.0, 2.0, 3.0):
        raise OutOfRange(
            f"The section's class is {section_class:g}; the interaction factors hold for class 1, "
            f"2 and 3 of EN 1993-1-1."
        )


def _refuse_outside_annex_b(
    section_class: Number, moment_factor: Number, slenderness: Number, axial_ratio: Number
) -> None:
    _refuse_class_4(section_class)
    require_within(moment_factor, 0.4, 1.0, "equivalent moment factor", "", "Table B.3")
    require_at_least(slenderness, 0.0, "non-dimensional slenderness")
    require_at_least(axial_ratio, 0.0, "share of the buckling resistance")
