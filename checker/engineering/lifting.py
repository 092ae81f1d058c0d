"""Slings and eyebolts for a lift.

The commonest error in public sling tables is the reference of the angle: the same
60° gives 2.0 from the vertical and 1.155 from the horizontal. Each function names
its reference, and none works beyond 60° from the vertical.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Angle, Force, Length, Number
from .limits import OutOfRange

__all__ = [
    "eyebolt_pair_factor",
    "sling_angle_from_vertical",
    "sling_factor_from_horizontal",
    "sling_factor_from_vertical",
    "sling_leg_tension_from_horizontal",
    "sling_leg_tension_from_vertical",
    "sling_uniform_load_factor",
]


def _refuse_flat_leg(angle_from_vertical: Angle) -> None:
    require_within(
        math.degrees(angle_from_vertical),
        0.0,
        60.0,
        "angle of the sling leg from the vertical",
        "degrees",
        "a sling's working load",
    )


def _refuse_impossible_count(carrying_legs: Number) -> None:
    require_within(carrying_legs, 1.0, 4.0, "number of carrying legs", "", "a sling")
    if carrying_legs != math.floor(carrying_legs):
        raise OutOfRange(f"The number of carrying legs is {carrying_legs:.6g}; it must be whole.")


def sling_angle_from_vertical(leg_length: Length, spread: Length) -> Angle:
    """Angle of a sling leg from the vertical, β, rad, from two lengths a tape can measure.

    Source: geometry of two equal legs, sin β = (spread/2)/length. Confidence: checked.

    leg_length: from the hook to the lifting point along the leg [m], > 0
    spread: between two opposite lifting points [m], >= 0 and less than two legs
    Returns [rad]. Valid for: legs of equal length, lifting points at one height.
    Raises OutOfRange: legs that do not reach.

    >>> math.degrees(sling_angle_from_vertical(1.0, 1.0))
    30.0
    """
    require_positive(leg_length, "length of the sling leg", "m")
    require_at_least(spread, 0.0, "spread of the lifting points", "m")
    if spread >= 2.0 * leg_length:
        raise OutOfRange(
            f"The spread of the lifting points is {spread:.6g} m; two legs of {leg_length:.6g} m "
            f"reach less than {2.0 * leg_length:.6g} m."
        )
    return math.asin(spread / 2.0 / leg_length)


def sling_factor_from_vertical(angle_from_vertical: Angle) -> Number:
    """Tension in a sling leg over its share of the load, 1/cos β.

    Source: statics; limit of 60° from the vertical as in published sling tables. Confidence:
    checked.

    angle_from_vertical: β, between the leg and the vertical [rad], 0 to 60°
    Returns [-]. Raises OutOfRange: angle outside its range.

    >>> sling_factor_from_vertical(math.radians(45.0))  # sling table: 1.414
    1.414
    """
    _refuse_flat_leg(angle_from_vertical)
    return 1.0 / math.cos(angle_from_vertical)


def sling_factor_from_horizontal(angle_from_horizontal: Angle) -> Number:
    """Tension in a sling leg over its share of the load, 1/sin θ.

    Source: statics; limit of 30° from the horizontal as in published sling tables. Confidence:
    checked.

    angle_from_horizontal: θ, between the leg and the horizontal [rad], 30° to 90°
    Returns [-]. Raises OutOfRange: angle outside its range.

    >>> sling_factor_from_horizontal(math.radians(60.0))  # sling table: 1.155
    1.155
    """
    require_within(
        math.degrees(angle_from_horizontal),
        30.0,
        90.0,
        "angle of the sling leg from the horizontal",
        "degrees",
        "a sling's working load",
    )
    return 1.0 / math.sin(angle_from_horizontal)


def sling_leg_tension_from_vertical(
    load: Force, carrying_legs: Number, angle_from_vertical: Angle
) -> Force:
    """Tension in each carrying leg of a sling, T = W/(n·cos β), N.

    Source: statics, as in published sling tables. Confidence: checked.

    load: weight on the hook W [N], > 0
    carrying_legs: n, legs counted as carrying, a whole number 1 to 4; of a stiff load's four legs
        count 2 unless they are equalised
    angle_from_vertical: β, of the flattest of these legs [rad], 0 to 60°
    Returns [N]. Valid for: equal legs about the centre of gravity. Raises OutOfRange: a value
    outside its range.

    >>> sling_leg_tension_from_vertical(1000.0, 2, math.radians(45.0))  # sling table: 707
    7.07e2
    """
    require_positive(load, "load on the hook", "N")
    _refuse_impossible_count(carrying_legs)
    return load / carrying_legs * sling_factor_from_vertical(angle_from_vertical)


def sling_leg_tension_from_horizontal(
    load: Force, carrying_legs: Number, angle_from_horizontal: Angle
) -> Force:
    """Tension in each carrying leg of a sling, T = W/(n·sin θ), N.

    Source: statics, as in published sling tables. Confidence: checked.

    load: weight on the hook W [N], > 0
    carrying_legs: n, legs counted as carrying, a whole number 1 to 4; of a stiff load's four legs
        count 2 unless they are equalised
    angle_from_horizontal: θ, of the flattest of these legs [rad], 30° to 90°
    Returns [N]. Valid for: equal legs about the centre of gravity. Raises OutOfRange: a value
    outside its range.

    >>> sling_leg_tension_from_horizontal(10e3, 2, math.radians(30.0))  # sling chart: 10 000 each
    10e3
    """
    require_positive(load, "load on the hook", "N")
    _refuse_impossible_count(carrying_legs)
    return load / carrying_legs * sling_factor_from_horizontal(angle_from_horizontal)


def sling_uniform_load_factor(
    legs: Literal["two", "three-or-four"], angle_from_vertical: Angle
) -> Number:
    """Rated load of a multi-leg sling over that of one leg, by the UK uniform load method.

    Source: published UK sling tables (EN 818-4). Confidence: checked for 1.4, 1.0 and 2.1;
    from-memory for the 1.5 of three or four legs between 45° and 60°. Each is n·cos β at the end of
    its band, cut to one decimal, with two or three legs counted.

    legs: "two" or "three-or-four" legs from one ring
    angle_from_vertical: β, of the flattest leg [rad], 0 to 60° (0 to 120° between two legs)
    Returns 1.4 or 2.1 up to 45°, 1.0 or 1.5 above [-]. Raises OutOfRange: angle outside its range.

    >>> sling_uniform_load_factor("two", math.radians(45.0))
    1.4
    """
    _refuse_flat_leg(angle_from_vertical)
    steep = math.degrees(angle_from_vertical) <= 45.0 + 1e-9
    if legs == "two":
        return 1.4 if steep else 1.0
    return 2.1 if steep else 1.5


def eyebolt_pair_factor(included_angle: Angle) -> Number:
    """Rated load of a pair of eyebolts over the axial rating of one.

    Source: AS 2317.1 / BS 4278, loading of eyebolts in pairs, as a fastener distributor prints it.
    Confidence: checked.

    included_angle: angle between the two sling legs at the hook [rad], above 0 up to 90°
    Returns 1.25 up to 30°, 0.8 up to 60°, 0.5 up to 90° [-]. Valid for: the load in the plane of
    both eyes, collars seated. Raises OutOfRange: angle outside its range.

    >>> eyebolt_pair_factor(math.radians(90.0)) * 0.40  # M12, 0.40 t axial: pair 0.20 t
    0.20
    """
    degrees = math.degrees(included_angle)
    require_positive(degrees, "included angle of the sling legs", "degrees")
    require_within(
        degrees,
        0.0,
        90.0,
        "included angle of the sling legs",
        "degrees",
        "the loading of eyebolts in pairs",
    )
    if degrees <= 30.0 + 1e-9:
        return 1.25
    return 0.8 if degrees <= 60.0 + 1e-9 else 0.5
