"""Resistance of the anchor itself: its steel, its head, and both loads at once, by EN 1992-4.

The shear factor of a bolt between steel plates (EN 1993-1-8) does not carry over:
on concrete the class 8.8 bolt that has 0.6 there has 0.5 here.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Area, Force, Length, Number, Stress
from .limits import OutOfRange

__all__ = [
    "anchor_head_area",
    "anchor_interaction",
    "anchor_pull_out_resistance",
    "anchor_shear_factor",
    "anchor_shear_partial_factor",
    "anchor_shear_resistance",
    "anchor_tension_partial_factor",
    "anchor_tension_resistance",
]

# Strengths computed from other units must fall on the side of the limit they are written on.
_ROUNDING = 1.0 + 1e-9


def _refuse_impossible_steel(ultimate_strength: Stress, yield_strength: Stress) -> None:
    require_positive(yield_strength / 1e6, "yield strength of the anchor's steel", "MPa")
    if not yield_strength <= ultimate_strength * _ROUNDING < math.inf:
        raise OutOfRange(
            f"The anchor's steel has a yield strength of {yield_strength / 1e6:.6g} MPa and an "
            f"ultimate strength of {ultimate_strength / 1e6:.6g} MPa; the former cannot be higher."
        )


def anchor_tension_resistance(stress_area: Area, ultimate_strength: Stress) -> Force:
    """Characteristic steel resistance of one anchor in tension, N_Rk,s = A_s·f_uk, N.

    Source: EN 1992-4:2018, 7.2.1.3; CEN/TS 1992-4-2:2009, 6.2.3. Confidence: checked.

    stress_area: tensile stress area A_s [m²], > 0
    ultimate_strength: characteristic ultimate strength f_uk [Pa], > 0
    Returns [N]. Raises OutOfRange: a value not above 0.

    >>> anchor_tension_resistance(353e-6, 800e6)  # M24, class 8.8
    282.4e3
    """
    require_positive(stress_area, "stress area of the anchor", "m²")
    require_positive(ultimate_strength, "ultimate strength of the anchor's steel", "Pa")
    return stress_area * ultimate_strength


def anchor_tension_partial_factor(ultimate_strength: Stress, yield_strength: Stress) -> Number:
    """Partial factor for an anchor's steel in tension, γ_Ms = 1.2·f_uk/f_yk >= 1.4.

    Source: EN 1992-4:2018, Table 4.1. Confidence: checked.

    ultimate_strength: characteristic ultimate strength f_uk [Pa], >= f_yk
    yield_strength: characteristic yield strength f_yk [Pa], > 0
    Returns [-]. Raises OutOfRange: strengths that no steel has together.

    >>> anchor_tension_partial_factor(800e6, 640e6)
    1.5
    """
    _refuse_impossible_steel(ultimate_strength, yield_strength)
    return max(1.4, 1.2 * ultimate_strength / yield_strength)


def anchor_shear_factor(ultimate_strength: Stress) -> Number:
    """Factor of the steel shear resistance of an anchor, k6.

    Source: EN 1992-4:2018, 7.2.2.3, Formula (7.34). Confidence: checked.

    ultimate_strength: characteristic ultimate strength f_uk [Pa], above 0 up to 1000 MPa
    Returns 0.6 up to 500 MPa, 0.5 above [-]. Raises OutOfRange: strength outside its range.

    >>> anchor_shear_factor(800e6)
    0.5
    """
    require_positive(ultimate_strength, "ultimate strength of the anchor's steel", "Pa")
    require_within(
        ultimate_strength / 1e6,
        0.0,
        1000.0,
        "ultimate strength of the anchor's steel",
        "MPa",
        "the factor k6 of EN 1992-4",
    )
    return 0.6 if ultimate_strength <= 500e6 * _ROUNDING else 0.5


def anchor_shear_resistance(stress_area: Area, ultimate_strength: Stress) -> Force:
    """Characteristic steel resistance of one anchor in shear, V_Rk,s = k6·A_s·f_uk, N.

    Source: EN 1992-4:2018, 7.2.2.3, Formula (7.34). Confidence: checked; that brittle steel takes
    a further factor k7 = 0.8 is from-memory and not included.

    stress_area: tensile stress area A_s [m²], > 0
    ultimate_strength: characteristic ultimate strength f_uk [Pa], above 0 up to 1000 MPa
    Returns [N]. Valid for: no lever arm (plate on the concrete or on thin grout), ductile steel
    (rupture elongation above 8 %). Raises OutOfRange: a value outside its range.

    >>> anchor_shear_resistance(157e-6, 500e6)  # engineering brief: 47.1 kN
    47.1e3
    """
    factor = anchor_shear_factor(ultimate_strength)
    return factor * anchor_tension_resistance(stress_area, ultimate_strength)


def anchor_shear_partial_factor(ultimate_strength: Stress, yield_strength: Stress) -> Number:
    """Partial factor for an anchor's steel in shear, γ_Ms.

    Source: EN 1992-4:2018, Table 4.1. Confidence: checked.

    ultimate_strength: characteristic ultimate strength f_uk [Pa], >= f_yk
    yield_strength: characteristic yield strength f_yk [Pa], > 0
    Returns f_uk/f_yk, at least 1.25; 1.5 for f_uk above 800 MPa or f_yk/f_uk above 0.8 [-].
    Raises OutOfRange: strengths that no steel has together.

    >>> anchor_shear_partial_factor(500e6, 400e6)
    1.25
    """
    _refuse_impossible_steel(ultimate_strength, yield_strength)
    strong = ultimate_strength > 800e6 * _ROUNDING
    if strong or yield_strength > 0.8 * ultimate_strength * _ROUNDING:
        return 1.5
    return max(1.25, ultimate_strength / yield_strength)


def anchor_head_area(head_diameter: Length, shank_diameter: Length, head_thickness: Length) -> Area:
    """Bearing area under the round head of a cast-in bolt, A_h = π/4·(d_h² − d²), m².

    Source: EN 1992-4:2018, 7.2.1.5. Confidence: from-memory, with the limit that of a thin head
    only d + 6 t_h bears.

    head_diameter: diameter of the head d_h [m], > d
    shank_diameter: diameter of the shank d [m], > 0
    head_thickness: thickness of the head t_h [m], > 0
    Returns [m²]. Raises OutOfRange: a dimension outside its range.

    >>> anchor_head_area(0.080, 0.020, 0.010)  # π/4·(80² − 20²) mm²
    4712e-6
    """
    require_positive(shank_diameter, "diameter of the shank", "m")
    require_positive(head_thickness, "thickness of the head", "m")
    if not shank_diameter < head_diameter < math.inf:
        raise OutOfRange(
            f"The diameter of the head is {head_diameter:.6g} m; it must be greater than that of "
            f"the shank, {shank_diameter:.6g} m."
        )
    bearing = min(head_diameter, shank_diameter + 6.0 * head_thickness)
    return math.pi / 4.0 * (bearing**2 - shank_diameter**2)


def anchor_pull_out_resistance(cracked: bool, head_area: Area, cylinder_strength: Stress) -> Force:
    """Characteristic pull-out resistance of a headed bolt, N_Rk,p = k2·A_h·f_ck, N.

    Source: EN 1992-4:2018, 7.2.1.5, k2 7.5 in cracked and 10.5 in uncracked concrete. Confidence:
    checked; the range of strength refused is from-memory.

    cracked: whether the concrete may crack along the bolt; True unless shown otherwise
    head_area: bearing area of the head A_h [m²], > 0
    cylinder_strength: characteristic cylinder strength f_ck [Pa], 12 MPa to 90 MPa
    Returns [N]. Valid for: cast-in headed bolts; a drilled anchor's value is in its approval.
    Raises OutOfRange: a value outside its range.

    >>> anchor_pull_out_resistance(True, 1000e-6, 20e6)
    150e3
    """
    require_positive(head_area, "bearing area of the head", "m²")
    require_within(
        cylinder_strength / 1e6, 12.0, 90.0, "cylinder strength", "MPa", "the pull-out formula"
    )
    return (7.5 if cracked else 10.5) * head_area * cylinder_strength


def anchor_interaction(
    failure: Literal["steel", "concrete"],
    tension_utilisation: Number,
    shear_utilisation: Number,
) -> Number:
    """Tension and shear on an anchor together, β_N^x + β_V^x, to be at most 1.

    Source: EN 1992-4:2018, 7.2.3: x = 2 for steel, 1.5 for concrete. Confidence: checked.

    failure: "steel", or "concrete" for the worst of all other failures in either direction
    tension_utilisation: β_N = N_Ed/N_Rd [-], >= 0
    shear_utilisation: β_V = V_Ed/V_Rd [-], >= 0
    Returns [-]; above 1 whenever one load alone is more than its resistance. Valid for: both
    failures checked, each with its own utilisations. Raises OutOfRange: a utilisation below 0.

    >>> anchor_interaction("steel", 0.6, 0.8)
    1.0
    """
    require_at_least(tension_utilisation, 0.0, "utilisation in tension")
    require_at_least(shear_utilisation, 0.0, "utilisation in shear")
    exponent = 2.0 if failure == "steel" else 1.5
    return float(tension_utilisation**exponent + shear_utilisation**exponent)
