"""Tightening torque and the preload it gives.

A torque is worth no more than its friction: the same wrench setting leaves a dry bolt
a third short of preload and over-stretches an oiled one. Torque tables of different
editions and friction columns must not be mixed.
"""

from __future__ import annotations

import math

from ._bounds import require_positive, require_within
from .dimensions import Area, Force, Length, Moment, Number, Stress
from .limits import OutOfRange

__all__ = [
    "mean_bearing_diameter",
    "nut_factor",
    "permissible_preload",
    "preload_from_torque",
    "preload_from_torque_by_nut_factor",
    "smallest_preload",
    "tightening_torque",
    "tightening_torque_by_nut_factor",
]


def _torque_arm(
    pitch: Length,
    pitch_diameter: Length,
    thread_friction: Number,
    bearing_diameter: Length,
    head_friction: Number,
) -> Length:
    require_positive(pitch, "thread pitch", "m")
    require_positive(pitch_diameter, "pitch diameter", "m")
    require_positive(bearing_diameter, "mean diameter of the bearing face", "m")
    for friction, place in ((thread_friction, "thread"), (head_friction, "head")):
        if not 0.0 < friction < 1.0:
            raise OutOfRange(
                f"The friction coefficient of the {place} is {friction:g}; bolts lie between "
                "0 and 1."
            )
    # 0.159 = 1/(2π) and 0.577 = 1/(2·cos 30°), printed to three digits in the guideline.
    return (
        0.159 * pitch
        + 0.577 * pitch_diameter * thread_friction
        + bearing_diameter / 2.0 * head_friction
    )


def mean_bearing_diameter(washer_face_diameter: Length, hole_diameter: Length) -> Length:
    """Mean diameter of the ring a bolt head bears on, D_Km = (d_w + d_h)/2, m.

    Source: VDI 2230 Part 1. Confidence: from-memory, reproduces the guideline's torque tables.

    washer_face_diameter: d_w of head or nut [m], > d_h
    hole_diameter: d_h of the clearance hole [m], > 0
    Returns [m].
    Valid for: hexagon and socket heads on a plain face.
    Raises OutOfRange: a hole no smaller than the head.

    >>> mean_bearing_diameter(0.01163, 0.009) * 1000
    10.315
    """
    require_positive(hole_diameter, "clearance hole", "m")
    if not hole_diameter < washer_face_diameter < math.inf:
        raise OutOfRange(
            f"The head bears on {washer_face_diameter * 1e3:.4g} mm; it must be wider than its "
            f"{hole_diameter * 1e3:.4g} mm hole."
        )
    return (washer_face_diameter + hole_diameter) / 2.0


def tightening_torque(
    preload: Force,
    pitch: Length,
    pitch_diameter: Length,
    thread_friction: Number,
    bearing_diameter: Length,
    head_friction: Number,
) -> Moment:
    """Tightening torque for a preload, F_M·(0.159·P + 0.577·d2·μ_G + D_Km/2·μ_K), N·m.

    Source: VDI 2230 Part 1. Confidence: from-memory, reproduces the guideline's torque tables.

    preload: F_M [N], > 0
    pitch: P [m], > 0
    pitch_diameter: d2 [m], > 0
    thread_friction: μ_G, 0 to 1
    bearing_diameter: D_Km, see ``mean_bearing_diameter`` [m], > 0
    head_friction: μ_K, 0 to 1
    Returns M_A [N·m].
    Valid for: 60° threads turned at the head or the nut on a hard face.
    Raises OutOfRange: a value not above zero, a friction outside 0 to 1.

    VDI 2230 based handbook table, M8×1, μ 0.12, F_M 20.2 kN, printed 26.1 N·m:

    >>> tightening_torque(20200.0, 0.001, 0.00735, 0.12, 0.010315, 0.12)
    26.0
    """
    require_positive(preload, "preload", "N")
    return preload * _torque_arm(
        pitch, pitch_diameter, thread_friction, bearing_diameter, head_friction
    )


def preload_from_torque(
    torque: Moment,
    pitch: Length,
    pitch_diameter: Length,
    thread_friction: Number,
    bearing_diameter: Length,
    head_friction: Number,
) -> Force:
    """Preload that a torque gives, the form of ``tightening_torque`` turned round, N.

    Source: VDI 2230 Part 1. Confidence: from-memory, reproduces the guideline's torque tables.

    torque: M_A [N·m], > 0
    pitch: P [m], > 0
    pitch_diameter: d2 [m], > 0
    thread_friction: μ_G, 0 to 1
    bearing_diameter: D_Km, see ``mean_bearing_diameter`` [m], > 0
    head_friction: μ_K, 0 to 1
    Returns F_M [N].
    Valid for: 60° threads turned at the head or the nut on a hard face.
    Raises OutOfRange: a value not above zero, a friction outside 0 to 1.

    >>> preload_from_torque(26.1, 0.001, 0.00735, 0.12, 0.010315, 0.12) / 1000
    20.3
    """
    require_positive(torque, "tightening torque", "N·m")
    return torque / _torque_arm(
        pitch, pitch_diameter, thread_friction, bearing_diameter, head_friction
    )


def permissible_preload(
    stress_area: Area,
    proof_strength: Stress,
    utilisation: Number,
    pitch: Length,
    pitch_diameter: Length,
    thread_friction: Number,
) -> Force:
    """Preload at which tension and twist together use a share of the bolt's yield, N.

    Source: VDI 2230 Part 1, permissible assembly preload:
    ν·R_p0.2·A/√(1 + 3·(3/2·d2/d_s·(P/(π·d2) + 1.155·μ_G))²), d_s = √(4·A/π).
    Confidence: from-memory, reproduces the guideline's preload tables.

    stress_area: A, tensile stress area of the thread [m²], > 0
    proof_strength: R_p0.2 of the bolt [Pa], > 0
    utilisation: ν, 0.9 in the guideline's tables, 0 < ν <= 1
    pitch: P [m], > 0
    pitch_diameter: d2 [m], > 0
    thread_friction: μ_G, 0 to 1
    Returns F_M [N].
    Valid for: bolts whose thread is their weakest section.
    Raises OutOfRange: a value not above zero, a friction outside 0 to 1.

    VDI 2230 based handbook example, M12 class 8.8, μ 0.14, printed 41.9 kN:

    >>> permissible_preload(84.3e-6, 640e6, 0.9, 0.00175, 0.010863, 0.14) / 1000
    41.9
    """
    require_positive(stress_area, "tensile stress area", "m²")
    require_positive(proof_strength, "proof strength of the bolt", "Pa")
    require_positive(pitch, "thread pitch", "m")
    require_positive(pitch_diameter, "pitch diameter", "m")
    if not 0.0 < utilisation <= 1.0:
        raise OutOfRange(f"The share of yield is {utilisation:g}; it lies above 0 and up to 1.")
    if not 0.0 < thread_friction < 1.0:
        raise OutOfRange(
            f"The friction coefficient of the thread is {thread_friction:g}; bolts lie between "
            "0 and 1."
        )
    stress_diameter = math.sqrt(4.0 * stress_area / math.pi)
    lead = pitch / (math.pi * pitch_diameter) + 1.155 * thread_friction
    twist = 1.5 * pitch_diameter / stress_diameter * lead
    return utilisation * proof_strength * stress_area / math.sqrt(1.0 + 3.0 * twist**2)


def smallest_preload(largest_preload: Force, tightening_factor: Number) -> Force:
    """Smallest preload to be expected, F_M,min = F_M,max/α_A, N.

    Source: VDI 2230 Part 1. Confidence: checked (the division), from-memory (the bands of α_A).

    largest_preload: F_M,max [N], > 0
    tightening_factor: α_A, 1 for no scatter; 1.6 to 1.8 for a torque wrench with estimated
    friction, up to 4 for an impact driver; 1 to 5
    Returns [N]; settling comes off this as well.
    Valid for: the tightening method that the factor belongs to.
    Raises OutOfRange: a factor outside 1 to 5.

    VDI 2230 based handbook example, M12 class 8.8, printed 23.3 kN:

    >>> smallest_preload(41900.0, 1.8) / 1000
    23.3
    """
    require_positive(largest_preload, "largest preload", "N")
    require_within(tightening_factor, 1.0, 5.0, "tightening factor", "", "a tightening method")
    return largest_preload / tightening_factor


def tightening_torque_by_nut_factor(factor: Number, diameter: Length, preload: Force) -> Moment:
    """Tightening torque by the nut factor, T = K·F_i·d, N·m.

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 8-27 and Table 8-15.
    Confidence: checked.

    factor: K, 0.30 black, 0.20 zinc plated, 0.18 lubricated; 0.05 to 0.5
    diameter: d, nominal [m], > 0
    preload: F_i [N], > 0
    Returns [N·m].
    Valid for: an estimate; ten bolts at one torque scattered by a third in Table 8-14.
    Raises OutOfRange: a factor outside the range, a value not above zero.

    >>> tightening_torque_by_nut_factor(0.20, 0.010, 25000.0)
    50.0
    """
    require_within(factor, 0.05, 0.5, "nut factor", "", "equation 8-27 with Table 8-15 of Shigley")
    require_positive(diameter, "bolt diameter", "m")
    require_positive(preload, "preload", "N")
    return factor * diameter * preload


def preload_from_torque_by_nut_factor(factor: Number, diameter: Length, torque: Moment) -> Force:
    """Preload that a torque gives by the nut factor, F_i = T/(K·d), N.

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 8-27 and Table 8-15.
    Confidence: checked.

    factor: K, 0.30 black, 0.20 zinc plated, 0.18 lubricated; 0.05 to 0.5
    diameter: d, nominal [m], > 0
    torque: T [N·m], > 0
    Returns [N].
    Valid for: an estimate; ten bolts at one torque scattered by a third in Table 8-14.
    Raises OutOfRange: a factor outside the range, a value not above zero.

    >>> preload_from_torque_by_nut_factor(0.30, 0.010, 50.0)
    16666.7
    """
    require_within(factor, 0.05, 0.5, "nut factor", "", "equation 8-27 with Table 8-15 of Shigley")
    require_positive(diameter, "bolt diameter", "m")
    require_positive(torque, "tightening torque", "N·m")
    return torque / (factor * diameter)


def nut_factor(torque: Moment, diameter: Length, preload: Force) -> Number:
    """Nut factor that a torque and the preload it gave imply, K = T/(F_i·d), dimensionless.

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 8-27. Confidence: checked.

    torque: T [N·m], > 0
    diameter: d, nominal [m], > 0
    preload: F_i [N], > 0
    Returns K.
    Valid for: the bolts and the finish it was measured on.
    Raises OutOfRange: a value not above zero.

    VDI 2230 based handbook table, M8×1, μ 0.12:

    >>> nut_factor(26.1, 0.008, 20200.0)
    0.1615
    """
    require_positive(torque, "tightening torque", "N·m")
    require_positive(diameter, "bolt diameter", "m")
    require_positive(preload, "preload", "N")
    return torque / (diameter * preload)
