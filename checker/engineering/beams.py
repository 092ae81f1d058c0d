"""A post as a cantilever: stress, lean and stiffness; and the mass of a duct.

A post fixed at its foot carries the collector at its top. The foot is rarely
rigid: sheet metal under a base plate turns like a spring, and that spring adds to
the lean. Its rotational stiffness is an argument wherever it matters. How the post
swings is in ``vibration``, whether it buckles in ``members``.
"""

from __future__ import annotations

import math

from ._bounds import require_positive, require_within
from .dimensions import (
    Angle,
    Area,
    Density,
    Force,
    Length,
    LinearMass,
    Moment,
    RotationalStiffness,
    SecondMoment,
    SectionModulus,
    Stiffness,
    Stress,
)
from .limits import OutOfRange

__all__ = [
    "base_rotation",
    "bending_stress",
    "combined_normal_stress",
    "duct_linear_mass",
    "tip_deflection_base_rotation",
    "tip_deflection_end_moment",
    "tip_deflection_side_force",
    "tip_rotation_end_moment",
    "tip_rotation_side_force",
    "tip_stiffness",
    "tip_stiffness_flexible_base",
]


def _require_finite(value: float, what: str, unit: str) -> None:
    if not math.isfinite(value):
        raise OutOfRange(f"The {what} is {value} {unit}; it must be a finite number.")


def _flexibility(length: Length, elastic_modulus: Stress, second_moment: SecondMoment) -> float:
    """1/(E I), after refusing what cannot be a post [1/(N·m²)]."""
    require_positive(length, "post's length", "m")
    require_positive(elastic_modulus, "elastic modulus", "Pa")
    require_positive(second_moment, "second moment of area", "m⁴")
    return 1.0 / (elastic_modulus * second_moment)


def bending_stress(moment: Moment, section_modulus: SectionModulus) -> Stress:
    """Bending stress in the outermost fibre, σ = M/W, Pa.

    Source: Shigley's Mechanical Engineering Design, 9th ed., section 3-10 (normal stresses in
    bending). Confidence: from-memory.

    moment: bending moment M [N·m], either sign
    section_modulus: elastic section modulus W_el [m³], > 0
    Returns [Pa], with the sign of the moment.
    Valid for: stresses below the yield strength.
    Raises OutOfRange: section modulus not above 0.

    >>> bending_stress(1089.3, 11.7e-6)
    93.1e6
    """
    _require_finite(moment, "bending moment", "N·m")
    require_positive(section_modulus, "section modulus", "m³")
    return moment / section_modulus


def combined_normal_stress(
    axial_force: Force,
    area: Area,
    major_moment: Moment,
    major_section_modulus: SectionModulus,
    minor_moment: Moment,
    minor_section_modulus: SectionModulus,
) -> Stress:
    """Largest normal stress from axial force and bending about both axes, Pa.

    Source: EN 1993-1-1:2005, 6.2.1(7), linear summation, written as a stress. Confidence: checked.

    axial_force: axial force N [N], either sign
    area: cross-sectional area A [m²], > 0
    major_moment: moment about the major axis [N·m], either sign
    major_section_modulus: elastic section modulus about the major axis [m³], > 0
    minor_moment: moment about the minor axis [N·m], either sign
    minor_section_modulus: elastic section modulus about the minor axis [m³], > 0
    Returns [Pa], the magnitude at the worst corner.
    Valid for: any section; for round tubes it is conservative, as no fibre sees both moments in
    full.
    Raises OutOfRange: area or a section modulus not above 0.

    >>> combined_normal_stress(6610.0, 6.61e-4, 1170.0, 11.7e-6, 234.0, 11.7e-6)
    130e6
    """
    _require_finite(axial_force, "axial force", "N")
    require_positive(area, "cross-sectional area", "m²")
    return (
        abs(axial_force) / area
        + abs(bending_stress(major_moment, major_section_modulus))
        + abs(bending_stress(minor_moment, minor_section_modulus))
    )


def tip_deflection_side_force(
    force: Force, length: Length, elastic_modulus: Stress, second_moment: SecondMoment
) -> Length:
    """Deflection of the top of a post under a side force there, δ = F L³/(3 E I), m.

    Source: Shigley's Mechanical Engineering Design, 9th ed., Table A-9, case 1 (cantilever,
    end load). Confidence: from-memory; an integration of the curvature gives the same.

    force: side force F at the top [N], either sign
    length: length L from the foot to the force [m], > 0
    elastic_modulus: elastic modulus E [Pa], > 0
    second_moment: second moment of area I about the axis of bending [m⁴], > 0
    Returns [m].
    Valid for: foot held rigidly, deflection small beside the length, shear neglected.
    Raises OutOfRange: length, modulus or second moment not above 0.

    >>> tip_deflection_side_force(100.0, 2.0, 210e9, 35.1e-8)
    3.62e-3
    """
    _require_finite(force, "side force", "N")
    return force * length**3 * _flexibility(length, elastic_modulus, second_moment) / 3.0


def tip_rotation_side_force(
    force: Force, length: Length, elastic_modulus: Stress, second_moment: SecondMoment
) -> Angle:
    """Rotation of the top of a post under a side force there, θ = F L²/(2 E I), rad.

    Source: Shigley's Mechanical Engineering Design, 9th ed., Table A-9, case 1 (cantilever,
    end load). Confidence: from-memory; an integration of the curvature gives the same.

    force: side force F at the top [N], either sign
    length: length L from the foot to the force [m], > 0
    elastic_modulus: elastic modulus E [Pa], > 0
    second_moment: second moment of area I about the axis of bending [m⁴], > 0
    Returns [rad].
    Valid for: foot held rigidly, small rotation.
    Raises OutOfRange: length, modulus or second moment not above 0.

    >>> tip_rotation_side_force(100.0, 2.0, 210e9, 35.1e-8)
    2.71e-3
    """
    _require_finite(force, "side force", "N")
    return force * length**2 * _flexibility(length, elastic_modulus, second_moment) / 2.0


def tip_deflection_end_moment(
    moment: Moment, length: Length, elastic_modulus: Stress, second_moment: SecondMoment
) -> Length:
    """Deflection of the top of a post under a moment there, δ = M L²/(2 E I), m.

    Source: Shigley's Mechanical Engineering Design, 9th ed., Table A-9, case 4 (cantilever,
    moment load). Confidence: from-memory; an integration of the curvature gives the same.

    moment: moment M at the top, as of a collector hung beside the post [N·m], either sign
    length: length L from the foot to the top [m], > 0
    elastic_modulus: elastic modulus E [Pa], > 0
    second_moment: second moment of area I about the axis of bending [m⁴], > 0
    Returns [m].
    Valid for: foot held rigidly, deflection small beside the length.
    Raises OutOfRange: length, modulus or second moment not above 0.

    >>> tip_deflection_end_moment(140.2, 2.0, 210e9, 35.1e-8)
    3.80e-3
    """
    _require_finite(moment, "end moment", "N·m")
    return moment * length**2 * _flexibility(length, elastic_modulus, second_moment) / 2.0


def tip_rotation_end_moment(
    moment: Moment, length: Length, elastic_modulus: Stress, second_moment: SecondMoment
) -> Angle:
    """Rotation of the top of a post under a moment there, θ = M L/(E I), rad.

    Source: Shigley's Mechanical Engineering Design, 9th ed., Table A-9, case 4 (cantilever,
    moment load). Confidence: from-memory; an integration of the curvature gives the same.

    moment: moment M at the top, as of a collector hung beside the post [N·m], either sign
    length: length L from the foot to the top [m], > 0
    elastic_modulus: elastic modulus E [Pa], > 0
    second_moment: second moment of area I about the axis of bending [m⁴], > 0
    Returns [rad].
    Valid for: foot held rigidly, small rotation.
    Raises OutOfRange: length, modulus or second moment not above 0.

    >>> tip_rotation_end_moment(140.2, 2.0, 210e9, 35.1e-8)
    3.80e-3
    """
    _require_finite(moment, "end moment", "N·m")
    return moment * length * _flexibility(length, elastic_modulus, second_moment)


def base_rotation(base_moment: Moment, base_stiffness: RotationalStiffness) -> Angle:
    """Rotation of the foot of a post on a flexible base, θ = M/k_θ, rad.

    Source: definition of a rotational stiffness. Confidence: checked.

    base_moment: moment M at the foot [N·m], either sign
    base_stiffness: rotational stiffness k_θ of the base [N·m/rad], > 0
    Returns [rad].
    Valid for: a base that springs back.
    Raises OutOfRange: stiffness not above 0.

    >>> base_rotation(1000.0, 50e3)
    0.02
    """
    _require_finite(base_moment, "moment at the foot", "N·m")
    require_positive(base_stiffness, "rotational stiffness of the base", "N·m/rad")
    return base_moment / base_stiffness


def tip_deflection_base_rotation(rotation: Angle, length: Length) -> Length:
    """Deflection of the top of a post whose foot turns, δ = θ L, m.

    Source: geometry of small angles. Confidence: checked.

    rotation: rotation of the foot [rad], −0.1 to 0.1
    length: length L from the foot to the top [m], > 0
    Returns [m].
    Valid for: small angles.
    Raises OutOfRange: a rotation above 0.1 rad in magnitude, length not above 0.

    >>> tip_deflection_base_rotation(0.02, 2.0)
    0.04
    """
    require_positive(length, "post's length", "m")
    require_within(rotation, -0.1, 0.1, "rotation of the foot", "rad", "small-angle geometry")
    return rotation * length


def tip_stiffness(
    length: Length, elastic_modulus: Stress, second_moment: SecondMoment
) -> Stiffness:
    """Stiffness of a post against a side force at its top, k = 3 E I/L³, N/m.

    Source: Shigley's Mechanical Engineering Design, 9th ed., Table A-9, case 1 (cantilever,
    end load). Confidence: from-memory; an integration of the curvature gives the same.

    length: length L from the foot to the force [m], > 0
    elastic_modulus: elastic modulus E [Pa], > 0
    second_moment: second moment of area I about the axis of bending [m⁴], > 0
    Returns [N/m].
    Valid for: foot held rigidly.
    Raises OutOfRange: an argument not above 0.

    >>> tip_stiffness(2.0, 210e9, 35.1e-8)
    27.6e3
    """
    return 3.0 / (_flexibility(length, elastic_modulus, second_moment) * length**3)


def tip_stiffness_flexible_base(
    length: Length,
    elastic_modulus: Stress,
    second_moment: SecondMoment,
    base_stiffness: RotationalStiffness,
) -> Stiffness:
    """Stiffness of a post on a flexible base, 1/k = L³/(3 E I) + L²/k_θ, N/m.

    Source: two springs in series: the post of the rigid base and the base's own turning.
    Confidence: from-memory; the exact frequency equation of a post on such a base agrees.

    length: length L from the foot to the force [m], > 0
    elastic_modulus: elastic modulus E [Pa], > 0
    second_moment: second moment of area I about the axis of bending [m⁴], > 0
    base_stiffness: rotational stiffness k_θ of the base [N·m/rad], > 0
    Returns [N/m].
    Valid for: a base that springs back, small rotation.
    Raises OutOfRange: an argument not above 0.

    >>> tip_stiffness_flexible_base(2.0, 210e9, 35.1e-8, 50e3)
    8.61e3
    """
    require_positive(base_stiffness, "rotational stiffness of the base", "N·m/rad")
    rigid = tip_stiffness(length, elastic_modulus, second_moment)
    return 1.0 / (1.0 / rigid + length**2 / base_stiffness)


def duct_linear_mass(diameter: Length, wall: Length, density: Density) -> LinearMass:
    """Mass of a thin-walled round duct per metre of length, m' = π d t ρ, kg/m.

    Source: geometry of a thin cylinder. Confidence: checked.

    diameter: mean diameter d; the nominal one serves, the wall being thin [m], > 0
    wall: wall thickness t [m], > 0, at most a twentieth of the diameter
    density: density of the duct's material [kg/m³], > 0
    Returns [kg/m].
    Valid for: plain wall; seams, couplings and insulation are to be added.
    Raises OutOfRange: an argument not above 0, a wall thicker than a twentieth of the diameter.

    >>> duct_linear_mass(0.160, 0.0005, 7850.0)
    1.973
    """
    require_positive(diameter, "duct's diameter", "m")
    require_positive(wall, "duct's wall", "m")
    require_positive(density, "density", "kg/m³")
    require_within(
        wall * 1e3, 0.0, diameter / 20.0 * 1e3, "duct's wall", "mm", "the thin-wall formula"
    )
    return math.pi * diameter * wall * density
