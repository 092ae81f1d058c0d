"""A post in compression: critical force, slenderness and buckling resistance.

EN 1993-1-1:2005, clauses 6.2.4 and 6.3.1, for sections of class 1 to 3. A post that
stands alone has twice its own length as buckling length.
"""

from __future__ import annotations

import math
from typing import Literal, get_args

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Area, Force, Length, Number, RotationalStiffness, SecondMoment, Stress
from .limits import OutOfRange
from .sections import Finish

__all__ = [
    "BucklingCurve",
    "buckling_auxiliary",
    "buckling_imperfection_factor",
    "buckling_may_be_ignored",
    "buckling_reduction",
    "buckling_resistance",
    "compression_resistance",
    "critical_force",
    "critical_force_flexible_base",
    "hollow_section_buckling_curve",
    "second_order_amplification",
    "slenderness",
]

BucklingCurve = Literal["a0", "a", "b", "c", "d"]

# EN 1993-1-1:2005, Table 6.1.
_IMPERFECTION: dict[str, Number] = {"a0": 0.13, "a": 0.21, "b": 0.34, "c": 0.49, "d": 0.76}


def critical_force(
    elastic_modulus: Stress, second_moment: SecondMoment, buckling_length: Length
) -> Force:
    """Elastic critical force of a compressed member, N_cr = π² E I/L_cr², N.

    Source: Euler's formula, as worked in Steel Buildings in Europe, Multi-storey steel buildings,
    Part 4, Appendix A.5, p. 4-95. Confidence: checked.

    elastic_modulus: elastic modulus E [Pa], > 0
    second_moment: second moment of area I about the axis of buckling [m⁴], > 0
    buckling_length: buckling length L_cr [m], > 0; twice the length of a free-standing post
    Returns [N].
    Valid for: flexural buckling of a uniform member. A free-standing post has L_cr = 2 L only on a
    rigid base; on a flexible one take ``critical_force_flexible_base``.
    Raises OutOfRange: an argument not above 0.

    >>> critical_force(210e9, 25170e-8, 8.0) / 1e3  # HE 300 B, printed 8151.2 kN
    8151.2
    """
    require_positive(elastic_modulus, "elastic modulus", "Pa")
    require_positive(second_moment, "second moment of area", "m⁴")
    require_positive(buckling_length, "buckling length", "m")
    return math.pi**2 * elastic_modulus * second_moment / buckling_length**2


def critical_force_flexible_base(
    elastic_modulus: Stress,
    second_moment: SecondMoment,
    length: Length,
    base_stiffness: RotationalStiffness,
) -> Force:
    """Elastic critical force of a free-standing post on a flexible base, N.

    Source: Föppl–Papkovich theorem, 1/N_cr = 4 L²/(π² E I) + L/k_θ. Confidence: from-memory; the
    exact buckling equation k L·tan(k L) = k_θ L/(E I) is never below it and at most 6 % above.

    elastic_modulus: elastic modulus E [Pa], > 0
    second_moment: second moment of area I about the axis of buckling [m⁴], > 0
    length: length L of the post, not its buckling length [m], > 0
    base_stiffness: rotational stiffness k_θ of the base [N·m/rad], > 0
    Returns [N], a lower bound.
    Valid for: a uniform post with its load at the free top.
    Raises OutOfRange: an argument not above 0.

    >>> critical_force_flexible_base(210e9, 35.1e-8, 2.0, 50e3) / 1e3  # 45.5 kN on a rigid base
    16.1
    """
    require_positive(length, "post's length", "m")
    require_positive(base_stiffness, "rotational stiffness of the base", "N·m/rad")
    rigid = critical_force(elastic_modulus, second_moment, 2.0 * length)
    return 1.0 / (1.0 / rigid + length / base_stiffness)


def slenderness(area: Area, yield_strength: Stress, critical: Force) -> Number:
    """Non-dimensional slenderness, λ̄ = √(A f_y/N_cr).

    Source: EN 1993-1-1:2005, 6.3.1.3, eq. (6.50). Confidence: checked.

    area: gross cross-sectional area A [m²], > 0
    yield_strength: nominal yield strength f_y [Pa], > 0
    critical: elastic critical force N_cr [N], > 0
    Returns [1].
    Valid for: sections of class 1 to 3.
    Raises OutOfRange: an argument not above 0.

    >>> slenderness(149e-4, 235e6, 8151.2e3)  # HE 300 B, printed 0.655
    0.655
    """
    require_positive(area, "cross-sectional area", "m²")
    require_positive(yield_strength, "yield strength", "Pa")
    require_positive(critical, "critical force", "N")
    return math.sqrt(area * yield_strength / critical)


def hollow_section_buckling_curve(finish: Finish, yield_strength: Stress) -> BucklingCurve:
    """Buckling curve of a hollow section, about either axis.

    Source: EN 1993-1-1:2005, Table 6.2, hollow sections. Confidence: checked.

    finish: "cold-formed" (EN 10219) or "hot-finished" (EN 10210)
    yield_strength: nominal yield strength f_y [Pa], 215 MPa to 460 MPa
    Returns "c" for cold-formed, "a0" for hot-finished S460, "a" for other hot-finished sections.
    Valid for: the structural steels of EN 1993-1-1:2005, Table 3.1. Thick S460, of lower nominal
    strength, gets the lower curve "a".
    Raises OutOfRange: another finish, a strength outside the range.

    >>> hollow_section_buckling_curve("cold-formed", 235e6)
    'c'
    """
    require_within(
        yield_strength / 1e6, 215.0, 460.0, "yield strength", "MPa", "EN 1993-1-1 Table 3.1"
    )
    if finish == "cold-formed":
        return "c"
    if finish == "hot-finished":
        return "a0" if yield_strength >= 460e6 * (1.0 - 1e-9) else "a"
    raise OutOfRange(f"The tube's finish is {finish!r}; it is one of {get_args(Finish)}.")


def buckling_imperfection_factor(curve: BucklingCurve) -> Number:
    """Imperfection factor of a buckling curve, α.

    Source: EN 1993-1-1:2005, Table 6.1. Confidence: checked.

    curve: "a0", "a", "b", "c" or "d"
    Returns [1].
    Valid for: flexural buckling.
    Raises OutOfRange: another curve.

    >>> buckling_imperfection_factor("c")
    0.49
    """
    if curve not in _IMPERFECTION:
        raise OutOfRange(
            f"The buckling curve is {curve!r}; it is one of {get_args(BucklingCurve)}."
        )
    return _IMPERFECTION[curve]


def buckling_auxiliary(slenderness: Number, curve: BucklingCurve) -> Number:
    """Auxiliary value of the buckling curve, Φ = 0.5 [1 + α (λ̄ − 0.2) + λ̄²].

    Source: EN 1993-1-1:2005, 6.3.1.2(1), below eq. (6.49). Confidence: checked.

    slenderness: non-dimensional slenderness λ̄ [1], >= 0
    curve: buckling curve, "a0", "a", "b", "c" or "d"
    Returns [1].
    Valid for: flexural buckling.
    Raises OutOfRange: slenderness below 0, another curve.

    >>> buckling_auxiliary(0.655, "b")  # HE 300 B, printed 0.792
    0.792
    """
    require_at_least(slenderness, 0.0, "non-dimensional slenderness")
    alpha = buckling_imperfection_factor(curve)
    return 0.5 * (1.0 + alpha * (slenderness - 0.2) + slenderness**2)


def buckling_reduction(slenderness: Number, curve: BucklingCurve) -> Number:
    """Reduction factor for flexural buckling, χ = 1/(Φ + √(Φ² − λ̄²)), at most 1.

    Source: EN 1993-1-1:2005, 6.3.1.2(1), eq. (6.49), and (4) for λ̄ up to 0.2. Confidence: checked.

    slenderness: non-dimensional slenderness λ̄ [1], >= 0
    curve: buckling curve, "a0", "a", "b", "c" or "d"
    Returns [1], 1 for λ̄ up to 0.2, where the clause lets buckling be ignored.
    Valid for: flexural buckling.
    Raises OutOfRange: slenderness below 0, another curve.

    >>> buckling_reduction(0.6554, "b")  # HE 300 B, printed 0.808
    0.808
    """
    auxiliary = buckling_auxiliary(slenderness, curve)
    if slenderness <= 0.2:
        return 1.0
    return 1.0 / (auxiliary + math.sqrt(auxiliary**2 - slenderness**2))


def buckling_may_be_ignored(slenderness: Number, axial_force: Force, critical: Force) -> bool:
    """Whether only the cross-section has to be checked: λ̄ ≤ 0.2 or N_Ed/N_cr ≤ 0.04.

    Source: EN 1993-1-1:2005, 6.3.1.2(4). Confidence: checked.

    slenderness: non-dimensional slenderness λ̄ [1], >= 0
    axial_force: design compression N_Ed [N], >= 0
    critical: elastic critical force N_cr [N], > 0
    Returns true or false.
    Valid for: flexural buckling under compression alone.
    Raises OutOfRange: slenderness or compression below 0, critical force not above 0.

    >>> buckling_may_be_ignored(1.848, 894.7, 45.47e3)
    True
    """
    require_at_least(slenderness, 0.0, "non-dimensional slenderness")
    require_at_least(axial_force, 0.0, "design compression", "N")
    require_positive(critical, "critical force", "N")
    return slenderness <= 0.2 or axial_force / critical <= 0.04


def compression_resistance(area: Area, yield_strength: Stress, partial_factor: Number) -> Force:
    """Design resistance of the cross-section to compression, N_c,Rd = A f_y/γ_M0, N.

    Source: EN 1993-1-1:2005, 6.2.4, eq. (6.10). Confidence: checked.

    area: gross cross-sectional area A [m²], > 0
    yield_strength: nominal yield strength f_y [Pa], > 0
    partial_factor: γ_M0 [1], 1.00 unless the National Annex says otherwise, > 0
    Returns [N].
    Valid for: sections of class 1 to 3.
    Raises OutOfRange: an argument not above 0.

    >>> compression_resistance(7370e-6, 355e6, 1.0) / 1e6  # CHS 244.5 × 10, printed 2616 kN
    2.616
    """
    require_positive(area, "cross-sectional area", "m²")
    require_positive(yield_strength, "yield strength", "Pa")
    require_positive(partial_factor, "partial factor")
    return area * yield_strength / partial_factor


def buckling_resistance(
    reduction: Number, area: Area, yield_strength: Stress, partial_factor: Number
) -> Force:
    """Design buckling resistance of a compressed member, N_b,Rd = χ A f_y/γ_M1, N.

    Source: EN 1993-1-1:2005, 6.3.1.1(3), eq. (6.47). Confidence: checked.

    reduction: reduction factor χ of the axis that buckles [1], above 0, at most 1
    area: gross cross-sectional area A [m²], > 0
    yield_strength: nominal yield strength f_y [Pa], > 0
    partial_factor: γ_M1 [1], 1.00 unless the National Annex says otherwise, > 0
    Returns [N].
    Valid for: sections of class 1 to 3.
    Raises OutOfRange: a reduction factor outside its range, another argument not above 0.

    >>> buckling_resistance(0.8779, 7370e-6, 355e6, 1.0) / 1e6  # printed 2297 kN
    2.297
    """
    require_positive(reduction, "reduction factor for buckling")
    require_within(reduction, 0.0, 1.0, "reduction factor for buckling", "", "EN 1993-1-1 6.3.1.2")
    return reduction * compression_resistance(area, yield_strength, partial_factor)


def second_order_amplification(axial_force: Force, critical: Force) -> Number:
    """Growth of the first-order moment of a sway post under its load, 1/(1 − N_Ed/N_cr).

    Source: EN 1993-1-1:2005, 5.2.2(5). Confidence: checked.

    axial_force: design compression N_Ed [N], >= 0
    critical: elastic critical force N_cr [N], > 0; at least three times the compression
    Returns [1].
    Valid for: N_cr/N_Ed of 3.0 or more; below that the clause asks for a second-order analysis.
    Raises OutOfRange: compression below 0, critical force below three times the compression.

    >>> second_order_amplification(894.7, 45.47e3)
    1.020
    """
    require_at_least(axial_force, 0.0, "design compression", "N")
    require_positive(critical, "critical force", "N")
    require_within(
        axial_force / critical, 0.0, 1.0 / 3.0, "ratio N_Ed/N_cr", "", "EN 1993-1-1 5.2.2(5)"
    )
    return 1.0 / (1.0 - axial_force / critical)
