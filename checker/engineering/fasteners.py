"""Resistance of a bolt itself: tension, shear, both together, punching of the plate.

EN 1993-1-8:2005 clause 3.6 and Table 3.4. Bearing of the plate is in
``plate_bearing``, hole positions in ``hole_spacing``, sheet below 3 mm in
``sheet``. All are static resistances: they say nothing about loosening or fatigue.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_at_least, require_positive
from .dimensions import Area, Force, Length, Number, Stress
from .limits import OutOfRange

__all__ = [
    "BoltHead",
    "PropertyClass",
    "ShearPlane",
    "bolt_shear_factor",
    "bolt_shear_resistance",
    "bolt_shear_tension_utilisation",
    "bolt_tension_resistance",
    "clearance_hole_shear_factor",
    "mean_head_diameter",
    "punching_resistance",
]

PropertyClass = Literal[
    "4.6",
    "4.8",
    "5.6",
    "5.8",
    "6.8",
    "8.8",
    "10.9",
    "A2-50",
    "A2-70",
    "A2-80",
    "A4-50",
    "A4-70",
    "A4-80",
]
ShearPlane = Literal["threads", "shank"]
BoltHead = Literal["hexagon", "countersunk"]

_DUCTILE_CLASSES = ("4.6", "5.6", "8.8")
_BRITTLER_CLASSES = ("4.8", "5.8", "6.8", "10.9")
_STAINLESS_CLASSES = ("A2-50", "A2-70", "A2-80", "A4-50", "A4-70", "A4-80")
_NOT_REDUCED_IN_WIDE_HOLES = ("4.6", "5.6")


def bolt_tension_resistance(
    head: BoltHead, tensile_strength: Stress, stress_area: Area, partial_factor: Number
) -> Force:
    """Design tension resistance of one bolt, F_t,Rd = k2·f_ub·A_s/γ_M2, N.

    Source: EN 1993-1-8:2005, Table 3.4 (tension resistance). Confidence: checked.

    head: ``hexagon`` (k2 = 0.9; socket and other full heads too) or ``countersunk`` (k2 = 0.63)
    tensile_strength: f_ub, ultimate tensile strength of the bolt [Pa], > 0
    stress_area: A_s, tensile stress area of the thread [m²], > 0
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N].
    Valid for: bolts whose property class is marked and whose nut matches it.
    Raises OutOfRange: another head, a value not above zero, a partial factor below 1.

    UK Eurocode 3 design tables, M12 class 8.8, printed 48.6 kN:

    >>> bolt_tension_resistance("hexagon", 800e6, 84.3e-6, 1.25) / 1000
    48.6
    """
    require_positive(tensile_strength, "tensile strength of the bolt", "Pa")
    require_positive(stress_area, "tensile stress area", "m²")
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    if head == "hexagon":
        k2 = 0.9
    elif head == "countersunk":
        k2 = 0.63
    else:
        raise OutOfRange(
            f"The bolt head is {head!r}; EN 1993-1-8 Table 3.4 knows hexagon and countersunk heads."
        )
    return k2 * tensile_strength * stress_area / partial_factor


def bolt_shear_factor(property_class: PropertyClass, shear_plane: ShearPlane) -> Number:
    """Shear factor α_v of a bolt by its property class, dimensionless.

    Source: EN 1993-1-8:2005, Table 3.4 (shear resistance per shear plane). Confidence: checked.
    Stainless classes: EN 1993-1-4:2006, clause 6.2. Confidence: from-memory.

    property_class: head marking, ``4.6`` to ``10.9`` or ``A2-50`` to ``A4-80``
    shear_plane: ``threads`` or ``shank``, what the joint face cuts through
    Returns α_v: 0.6 through the shank; through threads 0.6 for 4.6, 5.6, 8.8 and 0.5 for
    4.8, 5.8, 6.8, 10.9 and stainless.
    Valid for: steel against steel. In concrete a class 8.8 anchor takes 0.5 (EN 1992-4).
    Raises OutOfRange: a class or a plane that the tables do not know, 12.9 for one.

    >>> bolt_shear_factor("8.8", "threads"), bolt_shear_factor("10.9", "threads")
    (0.6, 0.5)
    """
    if property_class not in _DUCTILE_CLASSES + _BRITTLER_CLASSES + _STAINLESS_CLASSES:
        raise OutOfRange(
            f"The property class is {property_class!r}; EN 1993-1-8 Table 3.4 and EN 1993-1-4 "
            "cover 4.6 to 10.9 and stainless A2-50 to A4-80."
        )
    if shear_plane == "shank":
        return 0.6
    if shear_plane != "threads":
        raise OutOfRange(
            f"The shear plane is {shear_plane!r}; EN 1993-1-8 Table 3.4 knows threads and shank."
        )
    return 0.6 if property_class in _DUCTILE_CLASSES else 0.5


def bolt_shear_resistance(
    property_class: PropertyClass,
    shear_plane: ShearPlane,
    tensile_strength: Stress,
    area: Area,
    partial_factor: Number,
) -> Force:
    """Design shear resistance of one bolt per shear plane, F_v,Rd = α_v·f_ub·A/γ_M2, N.

    Source: EN 1993-1-8:2005, Table 3.4 (shear resistance per shear plane). Confidence: checked.

    property_class: head marking, see ``bolt_shear_factor``
    shear_plane: ``threads`` or ``shank``
    tensile_strength: f_ub, ultimate tensile strength of the bolt [Pa], > 0
    area: tensile stress area A_s for ``threads``, gross area of the shank for ``shank`` [m²], > 0
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N] for one plane; multiply by ``clearance_hole_shear_factor`` for a wide hole.
    Valid for: holes of normal clearance, no packing thicker than a third of the bolt.
    Raises OutOfRange: an unknown class or plane, a value not above zero.

    UK Eurocode 3 design tables, M16 class 10.9, printed 62.8 kN:

    >>> bolt_shear_resistance("10.9", "threads", 1000e6, 157e-6, 1.25) / 1000
    62.8
    """
    require_positive(tensile_strength, "tensile strength of the bolt", "Pa")
    require_positive(area, "area of the bolt in the shear plane", "m²")
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    alpha_v = bolt_shear_factor(property_class, shear_plane)
    return alpha_v * tensile_strength * area / partial_factor


def clearance_hole_shear_factor(
    property_class: PropertyClass,
    bolt_diameter: Length,
    hole_diameter: Length,
    normal_hole_diameter: Length,
) -> Number:
    """Reduction of the bolt's shear resistance for a hole wider than normal, dimensionless.

    Source: EN 1993-1-8:2005, clause 3.6.1(5). Confidence: checked (the factor 0.85 for 8.8 and
    10.9); the list of classes, 4.6 and 5.6 left out, from-memory.

    property_class: head marking, see ``bolt_shear_factor``
    bolt_diameter: d [m], > 0
    hole_diameter: d0 as measured [m], > d
    normal_hole_diameter: hole of normal clearance for that bolt, EN 1090-2 Table 11 [m], > d
    Returns 1 in a normal or tighter hole; 0.85 for M12 and M14 of class 4.8, 5.8, 6.8, 8.8, 10.9
    or stainless in a hole up to 2 mm wider than the bolt; 1 there for 4.6 and 5.6.
    Valid for: M12 and M14 above normal clearance; the group must fail in bearing before shear.
    Raises OutOfRange: another size in a hole above normal, any hole beyond d + 2 mm above normal.

    M12 class 8.8 in a 14 mm hole, the UK design tables' 27.5 kN instead of 32.4 kN:

    >>> clearance_hole_shear_factor("8.8", 0.012, 0.014, 0.013)
    0.85
    """
    require_positive(bolt_diameter, "bolt diameter", "m")
    bolt_shear_factor(property_class, "threads")  # refuses a class that the clause does not name
    for diameter, name in ((hole_diameter, "hole"), (normal_hole_diameter, "normal hole")):
        if not (math.isfinite(diameter) and diameter > bolt_diameter):
            raise OutOfRange(
                f"The {name} is {diameter * 1e3:.4g} mm; it must be wider than the "
                f"{bolt_diameter * 1e3:.4g} mm bolt."
            )
    if hole_diameter <= normal_hole_diameter + 1e-9:
        return 1.0
    covered = any(abs(bolt_diameter - size) < 1e-9 for size in (0.012, 0.014))
    if not covered or hole_diameter - bolt_diameter > 0.002 + 1e-9:
        raise OutOfRange(
            f"The hole is {hole_diameter * 1e3:.4g} mm for a {bolt_diameter * 1e3:.4g} mm bolt; "
            "EN 1993-1-8 clause 3.6.1 gives a shear resistance for holes of normal clearance, "
            "and for M12 and M14 up to 2 mm."
        )
    return 1.0 if property_class in _NOT_REDUCED_IN_WIDE_HOLES else 0.85


def bolt_shear_tension_utilisation(
    shear: Force, shear_resistance: Force, tension: Force, tension_resistance: Force
) -> Number:
    """Utilisation of a bolt in shear and tension together, dimensionless.

    Source: EN 1993-1-8:2005, Table 3.4 (combined shear and tension). Confidence: checked.

    shear: F_v,Ed on the bolt [N], >= 0
    shear_resistance: F_v,Rd [N], > 0
    tension: F_t,Ed on the bolt, prying included [N], >= 0
    tension_resistance: F_t,Rd [N], > 0
    Returns the larger of F_v,Ed/F_v,Rd + F_t,Ed/(1.4·F_t,Rd) and F_t,Ed/F_t,Rd; the bolt is
    used up at 1.
    Valid for: one bolt, one shear plane or the sum of its planes.
    Raises OutOfRange: a negative force, a resistance not above zero.

    >>> bolt_shear_tension_utilisation(199.0, 14054.0, 818.0, 21082.0)
    0.042
    """
    require_at_least(shear, 0.0, "shear on the bolt", "N")
    require_at_least(tension, 0.0, "tension on the bolt", "N")
    require_positive(shear_resistance, "shear resistance", "N")
    require_positive(tension_resistance, "tension resistance", "N")
    tension_ratio = tension / tension_resistance
    return max(shear / shear_resistance + tension_ratio / 1.4, tension_ratio)


def mean_head_diameter(across_flats: Length, across_points: Length) -> Length:
    """Mean of across flats and across points of a bolt head or nut, d_m, m.

    Source: EN 1993-1-8:2005, clause 1.5 (symbols) and Table 3.4. Confidence: checked.

    across_flats: s [m], > 0
    across_points: e [m], >= s, at most 1.2·s
    Returns d_m [m]; take the smaller of head and nut.
    Valid for: hexagons, e = 1.10·s to 1.155·s with rounded or sharp corners.
    Raises OutOfRange: sizes that are no hexagon's.

    >>> mean_head_diameter(0.016, 0.01777) * 1000
    16.9
    """
    require_positive(across_flats, "width across flats", "m")
    if not across_flats <= across_points <= 1.2 * across_flats:
        raise OutOfRange(
            f"The width across points is {across_points * 1e3:.4g} mm; a hexagon of "
            f"{across_flats * 1e3:.4g} mm across flats has between one and 1.2 times that."
        )
    return (across_flats + across_points) / 2.0


def punching_resistance(
    head_diameter: Length, thickness: Length, plate_strength: Stress, partial_factor: Number
) -> Force:
    """Design punching resistance under a bolt head or nut, B_p,Rd = 0.6·π·d_m·t_p·f_u/γ_M2, N.

    Source: EN 1993-1-8:2005, Table 3.4 (punching shear resistance). Confidence: checked.

    head_diameter: d_m, the smaller of head and nut, see ``mean_head_diameter`` [m], > 0
    thickness: t_p of the plate under the head or nut [m], > 0
    plate_strength: f_u of the plate [Pa], > 0
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N].
    Valid for: plates; sheet below 3 mm pulls over the head first, see ``sheet``.
    Raises OutOfRange: a value not above zero, a partial factor below 1.

    Worksheet "Design resistance for individual fasteners", printed 130.288 kN:

    >>> punching_resistance(0.030, 0.008, 360e6, 1.25) / 1000
    130.288
    """
    require_positive(head_diameter, "mean diameter of head or nut", "m")
    require_positive(thickness, "thickness of the plate", "m")
    require_positive(plate_strength, "tensile strength of the plate", "Pa")
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    return 0.6 * math.pi * head_diameter * thickness * plate_strength / partial_factor
