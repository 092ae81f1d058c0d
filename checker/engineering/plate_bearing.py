"""Bearing resistance of a plate at a bolt hole.

EN 1993-1-8:2005 Table 3.4. The rule takes the smaller α_b of end and pitch and the
smaller k1 of edge and gauge, so that the working shows which distance governs.
Plates below 3 mm also need the bearing rules for sheet, see ``sheet``.
"""

from __future__ import annotations

from typing import Literal

from ._bounds import require_at_least, require_positive
from .dimensions import Force, Length, Number, Stress
from .limits import OutOfRange

__all__ = [
    "HoleKind",
    "bearing_factor_edge",
    "bearing_factor_end",
    "bearing_factor_gauge",
    "bearing_factor_pitch",
    "bearing_hole_reduction",
    "bearing_resistance",
    "single_lap_bearing_limit",
]

HoleKind = Literal["normal", "oversize", "short-slot", "long-slot"]

# The least distances of Table 3.3, below which Table 3.4 does not hold.
_LEAST_END = 1.2
_LEAST_EDGE = 1.2
_LEAST_PITCH = 2.2
_LEAST_GAUGE = 2.4
# 1.2 × 22 mm must not refuse the 26.4 mm that a drawing gives for it.
_ROUNDING = 1e-9


def _require_distance(distance: Length, hole: Length, multiple: float, what: str) -> None:
    require_positive(hole, "hole diameter", "m")
    if not distance >= multiple * hole * (1.0 - _ROUNDING):
        raise OutOfRange(
            f"The {what} is {distance * 1e3:.4g} mm; EN 1993-1-8 Table 3.4 holds from "
            f"{multiple:g} times the hole, {multiple * hole * 1e3:.4g} mm."
        )


def _strength_ratio(bolt_strength: Stress, plate_strength: Stress) -> float:
    require_positive(bolt_strength, "tensile strength of the bolt", "Pa")
    require_positive(plate_strength, "tensile strength of the plate", "Pa")
    return bolt_strength / plate_strength


def bearing_factor_end(
    end_distance: Length, hole_diameter: Length, bolt_strength: Stress, plate_strength: Stress
) -> Number:
    """Bearing factor α_b of an end bolt, min(e1/(3·d0), f_ub/f_u, 1), dimensionless.

    Source: EN 1993-1-8:2005, Table 3.4 (bearing resistance). Confidence: checked.

    end_distance: e1, hole centre to the end the bolt pushes towards [m], >= 1.2·d0
    hole_diameter: d0 [m], > 0
    bolt_strength: f_ub [Pa], > 0
    plate_strength: f_u of the plate [Pa], > 0
    Returns α_b.
    Valid for: distances of Table 3.3 or more.
    Raises OutOfRange: an end distance below 1.2·d0, a value not above zero.

    SCI advisory note AD 348, M16 in an 18 mm hole, printed 0.593:

    >>> bearing_factor_end(0.032, 0.018, 800e6, 410e6)
    0.593
    """
    _require_distance(end_distance, hole_diameter, _LEAST_END, "end distance")
    ratio = _strength_ratio(bolt_strength, plate_strength)
    return min(end_distance / (3.0 * hole_diameter), ratio, 1.0)


def bearing_factor_pitch(
    pitch: Length, hole_diameter: Length, bolt_strength: Stress, plate_strength: Stress
) -> Number:
    """Bearing factor α_b of an inner bolt, min(p1/(3·d0) − 1/4, f_ub/f_u, 1), dimensionless.

    Source: EN 1993-1-8:2005, Table 3.4 (bearing resistance). Confidence: checked.

    pitch: p1, spacing of bolts along the force [m], >= 2.2·d0
    hole_diameter: d0 [m], > 0
    bolt_strength: f_ub [Pa], > 0
    plate_strength: f_u of the plate [Pa], > 0
    Returns α_b.
    Valid for: distances of Table 3.3 or more.
    Raises OutOfRange: a pitch below 2.2·d0, a value not above zero.

    *Steel Buildings in Europe*, Multi-storey Part 5, p. 5-41, printed 0.81:

    >>> bearing_factor_pitch(0.070, 0.022, 800e6, 430e6)
    0.81
    """
    _require_distance(pitch, hole_diameter, _LEAST_PITCH, "pitch")
    ratio = _strength_ratio(bolt_strength, plate_strength)
    return min(pitch / (3.0 * hole_diameter) - 0.25, ratio, 1.0)


def bearing_factor_edge(edge_distance: Length, hole_diameter: Length) -> Number:
    """Bearing factor k1 of an edge bolt, min(2.8·e2/d0 − 1.7, 2.5), dimensionless.

    Source: EN 1993-1-8:2005, Table 3.4 (bearing resistance). Confidence: checked.

    edge_distance: e2, hole centre to the edge beside the force [m], >= 1.2·d0
    hole_diameter: d0 [m], > 0
    Returns k1; take the smaller of this and ``bearing_factor_gauge`` where there is a gauge.
    Valid for: distances of Table 3.3 or more.
    Raises OutOfRange: an edge distance below 1.2·d0, a hole not above zero.

    >>> bearing_factor_edge(0.025, 0.018)
    2.189
    """
    _require_distance(edge_distance, hole_diameter, _LEAST_EDGE, "edge distance")
    return min(2.8 * edge_distance / hole_diameter - 1.7, 2.5)


def bearing_factor_gauge(gauge: Length, hole_diameter: Length) -> Number:
    """Bearing factor k1 of an inner bolt, min(1.4·p2/d0 − 1.7, 2.5), dimensionless.

    Source: EN 1993-1-8:2005, Table 3.4 (bearing resistance). Confidence: checked.

    gauge: p2, spacing of bolt lines across the force [m], >= 2.4·d0
    hole_diameter: d0 [m], > 0
    Returns k1.
    Valid for: bolts in line, not staggered.
    Raises OutOfRange: a gauge below 2.4·d0, a hole not above zero.

    *Steel Buildings in Europe*, Multi-storey Part 5, p. 5-41, printed 2.12:

    >>> bearing_factor_gauge(0.060, 0.022)
    2.12
    """
    _require_distance(gauge, hole_diameter, _LEAST_GAUGE, "gauge")
    return min(1.4 * gauge / hole_diameter - 1.7, 2.5)


def bearing_resistance(
    k1: Number,
    alpha_b: Number,
    plate_strength: Stress,
    bolt_diameter: Length,
    thickness: Length,
    partial_factor: Number,
) -> Force:
    """Design bearing resistance at one bolt, F_b,Rd = k1·α_b·f_u·d·t/γ_M2, N.

    Source: EN 1993-1-8:2005, Table 3.4 (bearing resistance). Confidence: checked.

    k1: edge factor, 0 < k1 <= 2.5
    alpha_b: end factor, 0 < α_b <= 1
    plate_strength: f_u of the plate, never of the bolt [Pa], > 0
    bolt_diameter: d, the bolt, not the hole [m], > 0
    thickness: t of the plate; a countersunk bolt counts t less half the countersink [m], > 0
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N]; multiply by ``bearing_hole_reduction`` for wide or slotted holes.
    Valid for: the edition of 2005. The second generation of the standard changes the formula.
    Raises OutOfRange: a factor that Table 3.4 cannot give, a value not above zero.

    SCI advisory note AD 348, M16 in 10 mm of S275, printed 68.1 kN:

    >>> bearing_resistance(2.189, 0.593, 410e6, 0.016, 0.010, 1.25) / 1000
    68.1
    """
    if not 0.0 < k1 <= 2.5:
        raise OutOfRange(f"The factor k1 is {k1:g}; EN 1993-1-8 Table 3.4 gives at most 2.5.")
    if not 0.0 < alpha_b <= 1.0:
        raise OutOfRange(f"The factor α_b is {alpha_b:g}; EN 1993-1-8 Table 3.4 gives at most 1.")
    require_positive(plate_strength, "tensile strength of the plate", "Pa")
    require_positive(bolt_diameter, "bolt diameter", "m")
    require_positive(thickness, "thickness of the plate", "m")
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    return k1 * alpha_b * plate_strength * bolt_diameter * thickness / partial_factor


def single_lap_bearing_limit(
    plate_strength: Stress, bolt_diameter: Length, thickness: Length, partial_factor: Number
) -> Force:
    """Limit of bearing in a single lap joint with one bolt row, 1.5·f_u·d·t/γ_M2, N.

    Source: EN 1993-1-8:2005, clause 3.6.1(10), repeated in the notes of the UK Eurocode 3
    design tables. Confidence: checked (the limit), from-memory (the clause number).

    plate_strength: f_u of the plate [Pa], > 0
    bolt_diameter: d [m], > 0
    thickness: t of the plate [m], > 0
    partial_factor: γ_M2, 1.25 unless the National Annex says otherwise, >= 1
    Returns [N]; the joint bears the smaller of this and ``bearing_resistance``.
    Valid for: a bracket foot on one sheet with one row of bolts, washers under head and nut.
    Raises OutOfRange: a value not above zero, a partial factor below 1.

    Arithmetic of the formula, M10 in 1.5 mm of S235:

    >>> single_lap_bearing_limit(360e6, 0.010, 0.0015, 1.25)
    6480.0
    """
    require_positive(plate_strength, "tensile strength of the plate", "Pa")
    require_positive(bolt_diameter, "bolt diameter", "m")
    require_positive(thickness, "thickness of the plate", "m")
    require_at_least(partial_factor, 1.0, "partial factor for resistance")
    return 1.5 * plate_strength * bolt_diameter * thickness / partial_factor


def bearing_hole_reduction(hole_kind: HoleKind) -> Number:
    """Reduction of the bearing resistance for oversize and slotted holes, dimensionless.

    Source: EN 1993-1-8:2005, Table 3.4, note 1 (oversize 0.8, slot across the force 0.6);
    short slots as oversize after the notes of the UK Eurocode 3 design tables.
    Confidence: checked.

    hole_kind: ``normal``, ``oversize``, ``short-slot`` or ``long-slot``
    Returns 1, 0.8, 0.8 or 0.6.
    Valid for: force across the slot. Along the slot the bolt slides before it bears.
    Raises OutOfRange: another kind of hole.

    >>> bearing_hole_reduction("long-slot")
    0.6
    """
    if hole_kind == "normal":
        return 1.0
    if hole_kind in {"oversize", "short-slot"}:
        return 0.8
    if hole_kind == "long-slot":
        return 0.6
    raise OutOfRange(
        f"The hole is {hole_kind!r}; EN 1993-1-8 Table 3.4 covers normal and oversize holes, "
        "short slots and long slots."
    )
