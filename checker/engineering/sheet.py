"""Resistance of screws and bolts in sheet thinner than 3 mm.

EN 1993-1-3:2006 clause 8.3, Tables 8.2 (self-tapping screws) and 8.4 (bolts). A machine
panel that carries a fan is loaded again and again: the tables' factor for repeated
load is the one for it. Bolts in sheet are in ``sheet_bolts``.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_at_least, require_positive
from .dimensions import Force, Length, Number, Stress
from .limits import OutOfRange

__all__ = [
    "SheetLoading",
    "bolt_head_pull_through_resistance",
    "screw_bearing_factor",
    "screw_bearing_resistance",
    "screw_minimum_edge_distance",
    "screw_minimum_end_distance",
    "screw_minimum_spacing",
    "screw_pull_out_resistance",
    "screw_pull_through_resistance",
]

SheetLoading = Literal["static", "repeated"]

# A limit stated in millimetres is met by the value that a drawing gives for it.
_ROUNDING = 1e-9


def _require_screw(diameter: Length) -> None:
    if not 0.003 - _ROUNDING <= diameter <= 0.008 + _ROUNDING:
        raise OutOfRange(
            f"The screw is {diameter * 1e3:.4g} mm; EN 1993-1-3 Table 8.2 holds from 3 mm to 8 mm."
        )


def _require_tension_sheet(thickness: Length) -> None:
    if not 0.0005 - _ROUNDING <= thickness <= 0.0015 + _ROUNDING:
        raise OutOfRange(
            f"The sheet is {thickness * 1e3:.4g} mm; EN 1993-1-3 Table 8.2 holds in tension from "
            "0.5 mm to 1.5 mm."
        )


def _require_support(thickness: Length) -> None:
    if not 0.0009 - _ROUNDING <= thickness < math.inf:
        raise OutOfRange(
            f"The supporting part is {thickness * 1e3:.4g} mm; EN 1993-1-3 Table 8.2 holds in "
            "tension from 0.9 mm."
        )


def _pull_through(
    washer_diameter: Length,
    thickness: Length,
    sheet_strength: Stress,
    loading: SheetLoading,
    partial_factor: Number,
) -> Force:
    require_positive(washer_diameter, "washer diameter", "m")
    require_positive(sheet_strength, "tensile strength of the sheet", "Pa")
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    _require_tension_sheet(thickness)
    if loading not in {"static", "repeated"}:
        raise OutOfRange(f"The loading is {loading!r}; it is either static or repeated.")
    factor = 0.5 if loading == "repeated" else 1.0
    return factor * washer_diameter * thickness * sheet_strength / partial_factor


def screw_pull_through_resistance(
    washer_diameter: Length,
    screw_diameter: Length,
    thickness: Length,
    sheet_strength: Stress,
    loading: SheetLoading,
    partial_factor: Number,
) -> Force:
    """Design pull-through resistance of sheet under a screw, F_p,Rd, N.

    Source: EN 1993-1-3:2006, Table 8.2. Confidence: checked for repeated load
    (0.5·d_w·t·f_u/γ_M2); from-memory for static load (d_w·t·f_u/γ_M2).

    washer_diameter: d_w of washer or head, stiff enough not to dish [m], > 0
    screw_diameter: d [m], 3 mm to 8 mm
    thickness: t of the sheet under the head [m], 0.5 mm to 1.5 mm
    sheet_strength: f_u of the sheet [Pa], > 0
    loading: ``static`` or ``repeated``
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N]. The screw's own tension strength comes from its maker's tests.
    Valid for: the ranges above, spacings of ``screw_minimum_end_distance`` and its neighbours.
    Raises OutOfRange: outside them.

    Arithmetic of the formula, 14 mm washer on 1.0 mm sheet with f_u 360 MPa:

    >>> screw_pull_through_resistance(0.014, 0.0063, 0.001, 360e6, "repeated", 1.25)
    2016.0
    """
    _require_screw(screw_diameter)
    return _pull_through(washer_diameter, thickness, sheet_strength, loading, partial_factor)


def bolt_head_pull_through_resistance(
    washer_diameter: Length,
    thickness: Length,
    sheet_strength: Stress,
    loading: SheetLoading,
    partial_factor: Number,
) -> Force:
    """Pull-through resistance of sheet under the washer of a bolt, N.

    Source: the screw formula of EN 1993-1-3:2006, Table 8.2, carried over to bolts; Table 8.4
    leaves their pull-through to tests. Confidence: common-practice.

    washer_diameter: d_w, flat washer that does not dish [m], > 0
    thickness: t of the sheet under it [m], 0.5 mm to 1.5 mm
    sheet_strength: f_u of the sheet [Pa], > 0
    loading: ``static`` or ``repeated``
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N].
    Valid for: a first estimate without a backing plate; a test or a backing plate is better.
    Raises OutOfRange: a sheet outside the range, a value not above zero.

    Arithmetic of the formula, 20 mm washer on 1.5 mm sheet with f_u 360 MPa:

    >>> bolt_head_pull_through_resistance(0.020, 0.0015, 360e6, "repeated", 1.25)
    4320.0
    """
    return _pull_through(washer_diameter, thickness, sheet_strength, loading, partial_factor)


def screw_pull_out_resistance(
    screw_diameter: Length,
    support_thickness: Length,
    pitch: Length,
    support_strength: Stress,
    partial_factor: Number,
) -> Force:
    """Design pull-out resistance of a self-tapping screw, F_o,Rd, N.

    Source: EN 1993-1-3:2006, Table 8.2. Confidence: checked for a support as thick as the pitch
    (0.65·d·t_sup·f_u,sup/γ_M2); from-memory for a thinner one (0.45).

    screw_diameter: d [m], 3 mm to 8 mm
    support_thickness: t_sup of the part the thread holds in [m], >= 0.9 mm
    pitch: of the screw's thread [m], > 0
    support_strength: f_u,sup of that part [Pa], > 0
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N].
    Valid for: the ranges above, spacings of ``screw_minimum_end_distance`` and its neighbours.
    Raises OutOfRange: outside them.

    Arithmetic of the formula, 6.3 mm screw of 1.8 mm pitch in 1.0 mm and in 2.0 mm:

    >>> screw_pull_out_resistance(0.0063, 0.001, 0.0018, 360e6, 1.25)
    816.5
    >>> screw_pull_out_resistance(0.0063, 0.002, 0.0018, 360e6, 1.25)
    2358.7
    """
    _require_screw(screw_diameter)
    _require_support(support_thickness)
    require_positive(pitch, "pitch of the screw", "m")
    require_positive(support_strength, "tensile strength of the supporting part", "Pa")
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    factor = 0.65 if support_thickness >= pitch * (1.0 - _ROUNDING) else 0.45
    return factor * screw_diameter * support_thickness * support_strength / partial_factor


def screw_bearing_factor(
    screw_diameter: Length, thickness: Length, support_thickness: Length
) -> Number:
    """Bearing factor α of a self-tapping screw in shear, dimensionless.

    Source: EN 1993-1-3:2006, Table 8.2. Confidence: checked.

    screw_diameter: d [m], 3 mm to 8 mm
    thickness: t of the thinner part, the one under the head [m], > 0
    support_thickness: t1 of the thicker part [m], >= t
    Returns α: min(3.2·√(t/d), 2.1) for t1 = t, and for t1 >= 2.5·t with t below 1.0 mm; 2.1 for
    t1 >= 2.5·t with t from 1.0 mm; a straight line over t1/t between.
    Valid for: screws. The factor 3.6 that some texts print belongs to blind rivets (Table 8.1).
    Raises OutOfRange: a screw outside the range, a thicker part that is the thinner one.

    >>> screw_bearing_factor(0.0063, 0.001, 0.001)
    1.275
    """
    _require_screw(screw_diameter)
    require_positive(thickness, "thickness of the thinner part", "m")
    if not thickness * (1.0 - _ROUNDING) <= support_thickness < math.inf:
        raise OutOfRange(
            f"The thicker part is {support_thickness * 1e3:.4g} mm and the thinner "
            f"{thickness * 1e3:.4g} mm; EN 1993-1-3 Table 8.2 has the thinner one under the head."
        )
    alike = min(3.2 * math.sqrt(thickness / screw_diameter), 2.1)
    on_thick = alike if thickness < 0.001 - _ROUNDING else 2.1
    share = min((support_thickness / thickness - 1.0) / 1.5, 1.0)
    # The outer min keeps the last bit of the straight line from passing the table's own cap.
    return min(alike + (on_thick - alike) * share, 2.1)


def screw_bearing_resistance(
    alpha: Number,
    sheet_strength: Stress,
    screw_diameter: Length,
    thickness: Length,
    partial_factor: Number,
) -> Force:
    """Design bearing resistance of sheet at a screw in shear, F_b,Rd = α·f_u·d·t/γ_M2, N.

    Source: EN 1993-1-3:2006, Table 8.2. Confidence: checked.

    alpha: see ``screw_bearing_factor``, 0 < α <= 2.1
    sheet_strength: f_u of the thinner part [Pa], > 0
    screw_diameter: d [m], 3 mm to 8 mm
    thickness: t of the thinner part [m], > 0
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N]. The screw's own shear strength comes from its maker's tests.
    Valid for: spacings of ``screw_minimum_end_distance`` and its neighbours.
    Raises OutOfRange: a factor that Table 8.2 cannot give, a screw outside the range.

    >>> screw_bearing_resistance(1.275, 360e6, 0.0063, 0.001, 1.25)
    2313.4
    """
    if not 0.0 < alpha <= 2.1:
        raise OutOfRange(f"The factor α is {alpha:g}; EN 1993-1-3 Table 8.2 gives at most 2.1.")
    _require_screw(screw_diameter)
    require_positive(sheet_strength, "tensile strength of the sheet", "Pa")
    require_positive(thickness, "thickness of the thinner part", "m")
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    return alpha * sheet_strength * screw_diameter * thickness / partial_factor


def screw_minimum_end_distance(screw_diameter: Length) -> Length:
    """Least end distance of a self-tapping screw, e1 = 3·d, m.

    Source: EN 1993-1-3:2006, Table 8.2 (range of validity). Confidence: checked.

    screw_diameter: d [m], 3 mm to 8 mm
    Returns [m].
    Valid for: the resistances of Table 8.2.
    Raises OutOfRange: a screw outside the range.

    >>> screw_minimum_end_distance(0.0063) * 1000
    18.9
    """
    _require_screw(screw_diameter)
    return 3.0 * screw_diameter


def screw_minimum_edge_distance(screw_diameter: Length) -> Length:
    """Least edge distance of a self-tapping screw, e2 = 1.5·d, m.

    Source: EN 1993-1-3:2006, Table 8.2 (range of validity). Confidence: checked.

    screw_diameter: d [m], 3 mm to 8 mm
    Returns [m].
    Valid for: the resistances of Table 8.2.
    Raises OutOfRange: a screw outside the range.

    >>> screw_minimum_edge_distance(0.0063) * 1000
    9.45
    """
    _require_screw(screw_diameter)
    return 1.5 * screw_diameter


def screw_minimum_spacing(screw_diameter: Length) -> Length:
    """Least spacing of self-tapping screws, p1 = p2 = 3·d, m.

    Source: EN 1993-1-3:2006, Table 8.2 (range of validity). Confidence: checked.

    screw_diameter: d [m], 3 mm to 8 mm
    Returns [m].
    Valid for: the resistances of Table 8.2.
    Raises OutOfRange: a screw outside the range.

    >>> screw_minimum_spacing(0.0063) * 1000
    18.9
    """
    _require_screw(screw_diameter)
    return 3.0 * screw_diameter
