"""What a load in service does to a bolt that was tightened before.

The parts are springs side by side with the bolt: while the joint stays closed the bolt
takes only the share C of the load.
"""

from __future__ import annotations

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Area, Force, Number, Stiffness, Stress
from .limits import OutOfRange

__all__ = ["bolt_stress_in_service", "joint_clamp_force", "joint_constant"]


def joint_constant(bolt_stiffness: Stiffness, member_stiffness: Stiffness) -> Number:
    """Share of a load in service that the bolt takes, C = k_b/(k_b + k_m), dimensionless.

    Source: Shigley, Mechanical Engineering Design, 9th ed., section 8-7. Confidence: checked.

    bolt_stiffness: k_b [N/m], > 0
    member_stiffness: k_m of the clamped parts [N/m], > 0
    Returns C.
    Valid for: a joint that stays closed.
    Raises OutOfRange: a stiffness not above zero.

    Example 8-3, k_b 6.50 and k_m 13.8 Mlbf/in, printed 0.320:

    >>> joint_constant(6.50, 13.8)
    0.320
    """
    require_positive(bolt_stiffness, "stiffness of the bolt", "N/m")
    require_positive(member_stiffness, "stiffness of the clamped parts", "N/m")
    return bolt_stiffness / (bolt_stiffness + member_stiffness)


def joint_clamp_force(preload: Force, constant: Number, load: Force) -> Force:
    """Clamp force left between the parts under a load, F_i − (1 − C)·P, N.

    Source: Shigley, Mechanical Engineering Design, 9th ed., section 8-7. Confidence: from-memory.

    preload: F_i, the smallest to be expected [N], > 0
    constant: C, see ``joint_constant``, 0 to 1
    load: P pulling the parts from each other, per bolt [N], >= 0
    Returns [N]; below zero the joint has opened and the bolt carries all of P.
    Valid for: static load along the bolt.
    Raises OutOfRange: a preload not above zero, a constant outside 0 to 1, a negative load.

    >>> joint_clamp_force(10000.0, 0.25, 4000.0)
    7000.0
    """
    require_positive(preload, "preload", "N")
    require_within(constant, 0.0, 1.0, "joint constant", "", "the share of a bolt")
    require_at_least(load, 0.0, "load on the joint", "N")
    return preload - (1.0 - constant) * load


def bolt_stress_in_service(
    preload: Force, constant: Number, load: Force, stress_area: Area
) -> Stress:
    """Tensile stress of a preloaded bolt under a load, σ_b = (F_i + C·P)/A_t, Pa.

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 8-24. Confidence: checked.

    preload: F_i, the largest to be expected [N], > 0
    constant: C, see ``joint_constant``, 0 to 1
    load: P pulling the parts from each other, per bolt [N], >= 0
    stress_area: A_t, tensile stress area [m²], > 0
    Returns [Pa].
    Valid for: a joint that stays closed, see ``joint_clamp_force``.
    Raises OutOfRange: an opened joint, a value outside the ranges above.

    >>> bolt_stress_in_service(10000.0, 0.25, 4000.0, 36.6e-6) / 1e6
    300.5
    """
    require_positive(stress_area, "tensile stress area", "m²")
    if joint_clamp_force(preload, constant, load) < 0.0:
        raise OutOfRange(
            f"The load of {load:.4g} N opens a joint of {preload:.4g} N preload; equation 8-24 of "
            "Shigley holds for a closed joint."
        )
    return (preload + constant * load) / stress_area
