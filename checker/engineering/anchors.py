"""Concrete cone failure of anchors in tension, by EN 1992-4.

The resistance of one anchor far from edges and neighbours is found first; the
ratio of areas and the ψ factors then bring it to the group and the slab that are
there. Strengths are cylinder strengths: the older guideline and CEN/TS 1992-4 give
other factors for cube strength, and the two must never be mixed.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_at_least, require_positive, require_within
from .anchor_geometry import cone_characteristic_edge_distance, cone_characteristic_spacing
from .dimensions import Force, Length, Number, Stress

__all__ = [
    "AnchorKind",
    "SurfaceReinforcement",
    "cone_eccentricity_factor",
    "cone_edge_factor",
    "cone_group_resistance",
    "cone_partial_factor",
    "cone_resistance",
    "cone_shell_spalling_factor",
    "cone_strength_factor",
    "surface_reinforcement",
]

AnchorKind = Literal["post-installed", "cast-in"]
SurfaceReinforcement = Literal["dense", "open"]

# k1 of EN 1992-4:2018, 7.2.1.4, for cylinder strength: cracked, then uncracked concrete.
_CONE_FACTORS: dict[AnchorKind, tuple[float, float]] = {
    "post-installed": (7.7, 11.0),
    "cast-in": (8.9, 12.7),
}
# A spacing converted from inches or added up must not miss the limit it is written on.
_ROUNDING = 1.0 + 1e-9


def cone_strength_factor(kind: AnchorKind, cracked: bool) -> Number:
    """Factor of the concrete cone formula, k1 for N, MPa and mm.

    Source: EN 1992-4:2018, 7.2.1.4, as printed in a European Technical Assessment of a bonded
    anchor (2019), Table C1 (post-installed), and in a headed bolt's technical manual, Table 10
    (cast-in). Confidence: checked.

    kind: "post-installed" (drilled) or "cast-in" (headed bolt placed before the concrete)
    cracked: whether the concrete may crack along the anchor; True unless shown otherwise
    Returns [-]. Valid for: cylinder strength; a smaller factor in an approval prevails.

    >>> cone_strength_factor("post-installed", True)
    7.7
    """
    in_cracked, in_uncracked = _CONE_FACTORS[kind]
    return in_cracked if cracked else in_uncracked


def cone_resistance(
    kind: AnchorKind, cracked: bool, cylinder_strength: Stress, embedment: Length
) -> Force:
    """Characteristic cone resistance of one undisturbed anchor, N⁰_Rk,c = k1·√f_ck·h_ef^1.5, N.

    Source: EN 1992-4:2018, 7.2.1.4. Confidence: checked for the formula; from-memory for the two
    ranges refused.

    kind: "post-installed" or "cast-in"
    cracked: whether the concrete may crack along the anchor
    cylinder_strength: characteristic cylinder strength f_ck [Pa], 12 MPa to 90 MPa
    embedment: effective embedment h_ef, or h'_ef in a narrow member [m], >= 40 mm
    Returns [N]. Valid for: no edge within 1.5 h_ef, no neighbour within 3 h_ef.
    Raises OutOfRange: strength or embedment outside its range.

    >>> cone_resistance("post-installed", True, 20e6, 0.060)  # lecture on EN 1992-4: 16.0 kN
    16.0e3
    """
    strength = cylinder_strength / 1e6
    depth = embedment * 1e3
    require_within(strength, 12.0, 90.0, "cylinder strength", "MPa", "the cone formula")
    require_at_least(depth, 40.0, "effective embedment", "mm")
    return cone_strength_factor(kind, cracked) * math.sqrt(strength) * depth * math.sqrt(depth)


def cone_edge_factor(smallest_edge_distance: Length, embedment: Length) -> Number:
    """Factor for the stresses disturbed by an edge, ψ_s,N = 0.7 + 0.3 c/c_cr,N <= 1.

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, Equation (8). Confidence: checked.

    smallest_edge_distance: c, the smallest of all edge distances [m], > 0
    embedment: effective embedment h_ef, or h'_ef in a narrow member [m], > 0
    Returns [-]. Raises OutOfRange: a dimension not above 0.

    >>> cone_edge_factor(0.060, 0.060)  # 0.7 + 0.3·60/90
    0.90
    """
    require_positive(smallest_edge_distance, "smallest edge distance", "m")
    reach = cone_characteristic_edge_distance(embedment)
    return min(1.0, 0.7 + 0.3 * smallest_edge_distance / reach)


def surface_reinforcement(bar_spacing: Length, bar_diameter: Length) -> SurfaceReinforcement:
    """Whether the bars near the surface are close enough to split a shell off it.

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, 6.2.5.4 (whose text has "above" where
    the former has "at least" 100 mm). Confidence: checked.

    bar_spacing: distance between bars, centre to centre [m], > 0
    bar_diameter: bar diameter [m], > 0
    Returns "open" at 150 mm and wider, and at 100 mm and wider for bars up to 10 mm; else "dense".
    Concrete without bars is "open" too. Raises OutOfRange: a dimension not above 0.

    >>> surface_reinforcement(0.125, 0.012)
    'dense'
    """
    require_positive(bar_spacing, "spacing of the reinforcement", "m")
    require_positive(bar_diameter, "diameter of the reinforcement", "m")
    thin = bar_diameter <= 0.010 * _ROUNDING
    return "open" if bar_spacing * _ROUNDING >= (0.100 if thin else 0.150) else "dense"


def cone_shell_spalling_factor(embedment: Length, reinforcement: SurfaceReinforcement) -> Number:
    """Factor for a shell split off by dense bars, ψ_re,N = 0.5 + h_ef/200 mm <= 1.

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, Equation (9). Confidence: checked.

    embedment: effective embedment h_ef, or h'_ef in a narrow member [m], > 0
    reinforcement: "dense" or "open", by surface_reinforcement; "dense" when unknown
    Returns [-]; 1 from 100 mm of embedment on, and always for "open".
    Raises OutOfRange: embedment not above 0.

    >>> cone_shell_spalling_factor(0.060, "dense")
    0.80
    """
    require_positive(embedment, "effective embedment", "m")
    return 1.0 if reinforcement == "open" else min(1.0, 0.5 + embedment / 0.200)


def cone_eccentricity_factor(eccentricity: Length, embedment: Length) -> Number:
    """Factor for tension off the group's centre, ψ_ec,N = 1/(1 + 2 e_N/s_cr,N).

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, Equation (10). Confidence: checked.

    eccentricity: e_N, from the resultant tension to the centre of the tensioned anchors [m], >= 0
    embedment: effective embedment h_ef, or h'_ef in a narrow member [m], > 0
    Returns [-]. Valid for: one direction; for two, multiply both factors.
    Raises OutOfRange: eccentricity below 0, embedment not above 0.

    >>> cone_eccentricity_factor(0.060, 0.080)  # 1/(1 + 120/240)
    0.667
    """
    require_at_least(eccentricity, 0.0, "eccentricity of the tension", "m")
    return 1.0 / (1.0 + 2.0 * eccentricity / cone_characteristic_spacing(embedment))


def cone_group_resistance(
    single_resistance: Force,
    area_ratio: Number,
    edge_factor: Number,
    shell_spalling_factor: Number,
    eccentricity_factor: Number,
) -> Force:
    """Characteristic cone resistance of a group, N_Rk,c = N⁰·(A_c,N/A⁰_c,N)·ψ_s·ψ_re·ψ_ec, N.

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, Equation (4). Confidence: checked. The
    factor ψ_M,N for pressure under the base plate, which can only help, is taken as 1.

    single_resistance: N⁰_Rk,c, by cone_resistance [N], > 0
    area_ratio: A_c,N/A⁰_c,N, by cone_area_ratio [-], > 0
    edge_factor: ψ_s,N [-], above 0 up to 1
    shell_spalling_factor: ψ_re,N [-], above 0 up to 1
    eccentricity_factor: ψ_ec,N [-], above 0 up to 1
    Returns [N]. Raises OutOfRange: a value outside its range.

    >>> cone_group_resistance(253.3e3, 1.778, 1.0, 1.0, 1.0)  # engineering brief: 450.4 kN
    450.4e3
    """
    require_positive(single_resistance, "cone resistance of one anchor", "N")
    require_positive(area_ratio, "ratio of the cone areas")
    product = 1.0
    for value, name in (
        (edge_factor, "edge factor ψ_s,N"),
        (shell_spalling_factor, "shell spalling factor ψ_re,N"),
        (eccentricity_factor, "eccentricity factor ψ_ec,N"),
    ):
        require_positive(value, name)
        require_within(value, 0.0, 1.0, name, "", "the cone formula")
        product *= value
    return single_resistance * area_ratio * product


def cone_partial_factor(concrete_factor: Number, installation_factor: Number) -> Number:
    """Partial factor for concrete failure of an anchor, γ_Mc = γ_c·γ_inst.

    Source: EN 1992-4:2018, Table 4.1, as printed in a European Technical Assessment of a bonded
    anchor (2019), Table C1. Confidence: checked; the range refused for γ_inst is from-memory.

    concrete_factor: γ_c, 1.5 in EN 1992-1-1 [-], >= 1
    installation_factor: γ_inst of the approval, 1.0 to 1.4; 1.0 for cast-in bolts [-]
    Returns [-]. Raises OutOfRange: a factor outside its range.

    >>> cone_partial_factor(1.5, 1.2)
    1.8
    """
    require_at_least(concrete_factor, 1.0, "partial factor of concrete γ_c")
    require_within(
        installation_factor, 1.0, 1.4, "installation factor γ_inst", "", "Table 4.1 of EN 1992-4"
    )
    return concrete_factor * installation_factor
