"""Bearing and net section of bolts in sheet thinner than 3 mm.

EN 1993-1-3:2006 clause 8.3 and Table 8.4. Where EN 1993-1-8 gives less for the same
hole (its single-lap limit often does), the smaller value counts.
"""

from __future__ import annotations

from ._bounds import require_at_least, require_positive
from .dimensions import Area, Force, Length, Number, Stress
from .limits import OutOfRange

__all__ = [
    "net_section_resistance",
    "sheet_bolt_bearing_resistance",
    "sheet_bolt_end_factor",
    "sheet_bolt_minimum_edge_distance",
    "sheet_bolt_minimum_end_distance",
    "sheet_bolt_minimum_spacing",
    "sheet_bolt_thickness_factor",
]

# A limit stated as a multiple of the hole is met by the value that a drawing gives for it.
_ROUNDING = 1e-9


def sheet_bolt_minimum_end_distance(hole_diameter: Length) -> Length:
    """Least end distance of a bolt in sheet, e1 = 1.2·d0, m.

    Source: EN 1993-1-8:2005, Table 3.3; the range of EN 1993-1-3:2006, Table 8.4 is printed as
    1.0·d0 by some and 1.2·d0 by others, so the larger is used. Confidence: checked.

    hole_diameter: d0 [m], > 0
    Returns [m].
    Valid for: the resistances of Table 8.4.
    Raises OutOfRange: a hole not above zero.

    >>> sheet_bolt_minimum_end_distance(0.011) * 1000
    13.2
    """
    require_positive(hole_diameter, "hole diameter", "m")
    return 1.2 * hole_diameter


def sheet_bolt_minimum_edge_distance(hole_diameter: Length) -> Length:
    """Least edge distance of a bolt in sheet, e2 = 1.5·d0, m.

    Source: EN 1993-1-3:2006, Table 8.4 (range of validity). Confidence: checked.

    hole_diameter: d0 [m], > 0
    Returns [m].
    Valid for: the resistances of Table 8.4.
    Raises OutOfRange: a hole not above zero.

    >>> sheet_bolt_minimum_edge_distance(0.011) * 1000
    16.5
    """
    require_positive(hole_diameter, "hole diameter", "m")
    return 1.5 * hole_diameter


def sheet_bolt_minimum_spacing(hole_diameter: Length) -> Length:
    """Least spacing of bolts in sheet, p1 = p2 = 3·d0, m.

    Source: EN 1993-1-3:2006, Table 8.4 (range of validity). Confidence: checked.

    hole_diameter: d0 [m], > 0
    Returns [m].
    Valid for: the resistances of Table 8.4.
    Raises OutOfRange: a hole not above zero.

    >>> sheet_bolt_minimum_spacing(0.011) * 1000
    33.0
    """
    require_positive(hole_diameter, "hole diameter", "m")
    return 3.0 * hole_diameter


def sheet_bolt_thickness_factor(thickness: Length) -> Number:
    """Thickness factor k_t for bearing of bolts in sheet, dimensionless.

    Source: EN 1993-1-3:2006, Table 8.4. Confidence: checked.

    thickness: t of the sheet [m], 0.75 mm to below 3 mm
    Returns (0.8·t + 1.5)/2.5 with t in mm up to 1.25 mm, 1 above.
    Valid for: the range above; from 3 mm use EN 1993-1-8.
    Raises OutOfRange: a sheet outside it.

    >>> sheet_bolt_thickness_factor(0.001)
    0.92
    """
    if not 0.00075 - _ROUNDING <= thickness < 0.003:
        raise OutOfRange(
            f"The sheet is {thickness * 1e3:.4g} mm; EN 1993-1-3 Table 8.4 holds from 0.75 mm to "
            "below 3 mm."
        )
    return min((0.8 * thickness * 1e3 + 1.5) / 2.5, 1.0)


def sheet_bolt_end_factor(
    end_distance: Length, bolt_diameter: Length, hole_diameter: Length
) -> Number:
    """End factor α_b for bearing of bolts in sheet, min(1, e1/(3·d)), dimensionless.

    Source: EN 1993-1-3:2006, Table 8.4. Confidence: checked.

    end_distance: e1, hole centre to the end the bolt pushes towards [m], >= 1.2·d0
    bolt_diameter: d, here the bolt, not the hole as in EN 1993-1-8 [m], >= 6 mm
    hole_diameter: d0 [m], > d
    Returns α_b.
    Valid for: bolts from M6, class 4.6 to 10.9.
    Raises OutOfRange: a smaller bolt, a hole below the bolt, an end distance below 1.2·d0.

    >>> sheet_bolt_end_factor(0.020, 0.010, 0.011)
    0.667
    """
    if not bolt_diameter >= 0.006 - _ROUNDING:
        raise OutOfRange(
            f"The bolt is {bolt_diameter * 1e3:.4g} mm; EN 1993-1-3 Table 8.4 holds from M6."
        )
    if not hole_diameter > bolt_diameter:
        raise OutOfRange(
            f"The hole is {hole_diameter * 1e3:.4g} mm; it must be wider than the "
            f"{bolt_diameter * 1e3:.4g} mm bolt."
        )
    least = sheet_bolt_minimum_end_distance(hole_diameter)
    if not end_distance >= least * (1.0 - _ROUNDING):
        raise OutOfRange(
            f"The end distance is {end_distance * 1e3:.4g} mm; bearing in sheet holds from 1.2 "
            f"times the hole, {least * 1e3:.4g} mm."
        )
    return min(1.0, end_distance / (3.0 * bolt_diameter))


def sheet_bolt_bearing_resistance(
    end_factor: Number,
    thickness_factor: Number,
    sheet_strength: Stress,
    bolt_diameter: Length,
    thickness: Length,
    partial_factor: Number,
) -> Force:
    """Design bearing resistance of sheet at a bolt, F_b,Rd = 2.5·α_b·k_t·f_u·d·t/γ_M2, N.

    Source: EN 1993-1-3:2006, Table 8.4. Confidence: checked.

    end_factor: α_b, see ``sheet_bolt_end_factor``, 0 < α_b <= 1
    thickness_factor: k_t, see ``sheet_bolt_thickness_factor``, 0 < k_t <= 1
    sheet_strength: f_u of the sheet [Pa], at most 550 MPa
    bolt_diameter: d [m], >= 6 mm
    thickness: t of the sheet [m], 0.75 mm to below 3 mm
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N].
    Valid for: edge distance and spacing of ``sheet_bolt_minimum_edge_distance`` and
    ``sheet_bolt_minimum_spacing``.
    Raises OutOfRange: outside these ranges.

    Arithmetic of the formula, M10, e1 20 mm, 1.5 mm sheet with f_u 360 MPa:

    >>> sheet_bolt_bearing_resistance(2.0 / 3.0, 1.0, 360e6, 0.010, 0.0015, 1.25)
    7200.0
    """
    for factor, name in ((end_factor, "end factor α_b"), (thickness_factor, "factor k_t")):
        if not 0.0 < factor <= 1.0:
            raise OutOfRange(f"The {name} is {factor:g}; EN 1993-1-3 Table 8.4 gives at most 1.")
    require_positive(sheet_strength, "tensile strength of the sheet", "Pa")
    if sheet_strength > 550e6:
        raise OutOfRange(
            f"The sheet's strength is {sheet_strength / 1e6:.4g} MPa; EN 1993-1-3 Table 8.4 holds "
            "up to 550 MPa."
        )
    if not bolt_diameter >= 0.006 - _ROUNDING:
        raise OutOfRange(
            f"The bolt is {bolt_diameter * 1e3:.4g} mm; EN 1993-1-3 Table 8.4 holds from M6."
        )
    sheet_bolt_thickness_factor(thickness)  # refuses a sheet outside the range of the table
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    factors = 2.5 * end_factor * thickness_factor
    return factors * sheet_strength * bolt_diameter * thickness / partial_factor


def net_section_resistance(
    bolt_share: Number,
    hole_diameter: Length,
    strip_width: Length,
    net_area: Area,
    sheet_strength: Stress,
    partial_factor: Number,
) -> Force:
    """Design resistance of the net section of sheet at bolts, F_n,Rd, N.

    Source: EN 1993-1-3:2006, Table 8.4, (1 + 3·r·(d0/u − 0.3))·A_net·f_u/γ_M2, at most
    A_net·f_u/γ_M2. Confidence: checked.

    bolt_share: r, bolts in the section over bolts in the joint, 0 < r <= 1
    hole_diameter: d0 [m], > 0
    strip_width: u, the smaller of 2·e2 and p2 [m], > d0
    net_area: A_net of the section through the holes [m²], > 0
    sheet_strength: f_u of the sheet [Pa], at most 550 MPa
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N].
    Valid for: sheet of 0.75 mm to below 3 mm.
    Raises OutOfRange: a share that is none, a strip no wider than its hole.

    Arithmetic of the formula, one bolt in a 40 mm strip of 1.5 mm:

    >>> net_section_resistance(1.0, 0.011, 0.040, 43.5e-6, 360e6, 1.25)
    11588.4
    """
    if not 0.0 < bolt_share <= 1.0:
        raise OutOfRange(
            f"The share of bolts in the section is {bolt_share:g}; it lies above 0 and up to 1."
        )
    require_positive(hole_diameter, "hole diameter", "m")
    if not strip_width > hole_diameter:
        raise OutOfRange(
            f"The strip is {strip_width * 1e3:.4g} mm wide; it must be wider than its hole, "
            f"{hole_diameter * 1e3:.4g} mm."
        )
    require_positive(net_area, "net area", "m²")
    require_positive(sheet_strength, "tensile strength of the sheet", "Pa")
    if sheet_strength > 550e6:
        raise OutOfRange(
            f"The sheet's strength is {sheet_strength / 1e6:.4g} MPa; EN 1993-1-3 Table 8.4 holds "
            "up to 550 MPa."
        )
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    factor = min(1.0 + 3.0 * bolt_share * (hole_diameter / strip_width - 0.3), 1.0)
    return factor * net_area * sheet_strength / partial_factor
