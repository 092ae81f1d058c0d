"""How a post swings: moving mass and first natural frequency.

Rayleigh's method: the post is taken to swing in the shape that a side force at its
top would bend it into. What follows from a guessed shape is never below the true
frequency. The stiffness comes from ``beams``.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive
from .beams import tip_stiffness, tip_stiffness_flexible_base
from .dimensions import (
    Frequency,
    Length,
    LinearMass,
    Mass,
    RotationalStiffness,
    SecondMoment,
    Stiffness,
    Stress,
)

__all__ = ["moving_mass", "moving_mass_flexible_base", "natural_frequency"]


def moving_mass(tip_mass: Mass, linear_mass: LinearMass, length: Length) -> Mass:
    """Mass that swings with the top of a post, M + (33/140) m' L, kg.

    Source: Rayleigh's method with the static shape of a cantilever under a force at its tip;
    Timoshenko, Vibration Problems in Engineering, 3rd ed. Confidence: from-memory; it gives the
    frequencies of Mathematical Problems in Engineering 2017, article 1568019, Table 1.

    tip_mass: mass at the top M [kg], >= 0
    linear_mass: mass per metre of the post m' [kg/m], > 0
    length: length L of the post [m], > 0
    Returns [kg].
    Valid for: foot held rigidly, head small beside the post's length.
    Raises OutOfRange: a negative tip mass, linear mass or length not above 0.

    >>> moving_mass(57.18, 5.19, 2.0)
    59.63
    """
    return _swinging(tip_mass, linear_mass, length, 33.0 / 140.0)


def moving_mass_flexible_base(
    tip_mass: Mass,
    linear_mass: LinearMass,
    length: Length,
    elastic_modulus: Stress,
    second_moment: SecondMoment,
    base_stiffness: RotationalStiffness,
) -> Mass:
    """Mass that swings with the top of a post on a flexible base, kg.

    Source: Rayleigh's method with the static shape under a force at the tip, a share r of turning
    base and 1 − r of bending post: M + [(1−r)² 33/140 + 2 r (1−r) 11/40 + r²/3] m' L.
    Confidence: from-memory; the exact roots of the frequency equation agree.

    tip_mass: mass at the top M [kg], >= 0
    linear_mass: mass per metre of the post m' [kg/m], > 0
    length: length L of the post [m], > 0
    elastic_modulus: elastic modulus E [Pa], > 0
    second_moment: second moment of area I about the axis of bending [m⁴], > 0
    base_stiffness: rotational stiffness k_θ of the base [N·m/rad], > 0
    Returns [kg].
    Valid for: a base that springs back, head small beside the post's length.
    Raises OutOfRange: a negative tip mass, another argument not above 0.

    >>> moving_mass_flexible_base(57.18, 5.19, 2.0, 210e9, 35.1e-8, 50e3)
    60.28
    """
    rigid = tip_stiffness(length, elastic_modulus, second_moment)
    whole = tip_stiffness_flexible_base(length, elastic_modulus, second_moment, base_stiffness)
    turning = 1.0 - whole / rigid
    bending = whole / rigid
    # Integrals of the squared shape: cantilever 33/140, mixed 11/40, rigid turning 1/3.
    share = bending**2 * 33.0 / 140.0 + 2.0 * turning * bending * 11.0 / 40.0 + turning**2 / 3.0
    return _swinging(tip_mass, linear_mass, length, share)


def _swinging(tip_mass: Mass, linear_mass: LinearMass, length: Length, share: float) -> Mass:
    require_at_least(tip_mass, 0.0, "mass at the top", "kg")
    require_positive(linear_mass, "post's mass per metre", "kg/m")
    require_positive(length, "post's length", "m")
    return tip_mass + share * linear_mass * length


def natural_frequency(stiffness: Stiffness, mass: Mass) -> Frequency:
    """First natural frequency of a mass on a spring, f = √(k/m)/(2π), Hz.

    Source: Rayleigh's method, compared with the exact frequencies of Mathematical Problems in
    Engineering 2017, article 1568019, Table 1. Confidence: checked.

    stiffness: stiffness k against the motion [N/m], > 0
    mass: moving mass m [kg], > 0
    Returns [Hz].
    Valid for: Rayleigh's quotient is an upper bound, by 1.5 % for a bare post and less than 0.1 %
    once the head weighs as much as the post; rotary inertia of the head and the softening by its
    weight are neglected and lower the true value.
    Raises OutOfRange: an argument not above 0.

    >>> natural_frequency(27.64e3, 59.63)
    3.43
    """
    require_positive(stiffness, "stiffness", "N/m")
    require_positive(mass, "moving mass", "kg")
    return math.sqrt(stiffness / mass) / (2.0 * math.pi)
