"""Loss coefficients of elbows and bends.

A coefficient C multiplies the velocity pressure of the section named with it. It
has one significant figure: published tables for one elbow differ by 40 per cent,
so where two stand here a rule takes the larger. Nothing is read beyond the ends
of a table.
"""

from __future__ import annotations

import math

from ._bounds import interpolated, require_at_least, require_positive, require_within
from .dimensions import Angle, Number, Pressure
from .limits import OutOfRange

__all__ = [
    "bend_coefficient",
    "elbow_angle_factor",
    "elbow_coefficient",
    "fitting_loss",
    "mitred_elbow_coefficient",
    "segmented_elbow_coefficient",
    "smooth_elbow_coefficient",
]

_SMACNA = "SMACNA HVAC Systems Duct Design, table"
_SEGMENTED_RADII = (0.75, 1.0, 1.5, 2.0)
_SEGMENTED: dict[float, tuple[float, ...]] = {
    5: (0.46, 0.33, 0.24, 0.19),
    4: (0.50, 0.37, 0.27, 0.24),
    3: (0.54, 0.42, 0.34, 0.33),
}


def fitting_loss(coefficient: Number, pressure: Pressure) -> Pressure:
    """Loss dp = C VP of one fitting, Pa.

    Source: definition of the loss coefficient, textbook. Confidence: checked.

    coefficient: loss coefficient [1]; the branch of a junction may be negative
    pressure: velocity pressure of the section the coefficient belongs to [Pa], >= 0
    Returns [Pa].
    Valid for: fittings with straight duct before and after; two elbows within 3 D lose more.
    Raises OutOfRange: a negative velocity pressure.

    >>> fitting_loss(0.49, 53.549)  # arithmetic of the formula
    26.24
    """
    require_at_least(pressure, 0.0, "velocity pressure", "Pa")
    return coefficient * pressure


def elbow_coefficient(radius_ratio: Number) -> Number:
    """Loss coefficient C of a round 90 degree elbow, the cautious table, 1.

    Source: technical manual for ventilation units, table of C values, round elbow.
    Confidence: checked.

    radius_ratio: centre-line radius over bore r/D [1], 0.5 to 2.0
    Returns [1], on the velocity pressure in the elbow.
    Valid for: smooth round elbows.
    Raises OutOfRange: outside that range.

    >>> elbow_coefficient(1.5)  # printed: 0.17
    0.17
    """
    return interpolated(
        radius_ratio,
        (0.5, 0.75, 1.0, 1.5, 2.0),
        (0.73, 0.38, 0.26, 0.17, 0.15),
        "radius ratio of the elbow",
        "",
        "the table of round elbows",
    )


def smooth_elbow_coefficient(radius_ratio: Number) -> Number:
    """Loss coefficient C of a smooth round 90 degree elbow, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-7A. Confidence: checked.

    radius_ratio: centre-line radius over bore r/D [1], 0.5 to 2.5
    Returns [1], on the velocity pressure in the elbow.
    Valid for: smooth round elbows.
    Raises OutOfRange: outside that range.

    >>> smooth_elbow_coefficient(1.5)  # printed: 0.15
    0.15
    """
    return interpolated(
        radius_ratio,
        (0.5, 0.75, 1.0, 1.5, 2.0, 2.5),
        (0.71, 0.33, 0.22, 0.15, 0.13, 0.12),
        "radius ratio of the elbow",
        "",
        f"{_SMACNA} A-7A",
    )


def segmented_elbow_coefficient(pieces: Number, radius_ratio: Number) -> Number:
    """Loss coefficient C of a round 90 degree elbow made of straight pieces, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-7B. Confidence: checked.

    pieces: number of straight pieces [1], 3, 4 or 5
    radius_ratio: centre-line radius over bore r/D [1], 0.75 to 2.0
    Returns [1], on the velocity pressure in the elbow.
    Valid for: round elbows of straight pieces.
    Raises OutOfRange: another number of pieces, another radius.

    >>> segmented_elbow_coefficient(4, 1.5)  # printed: 0.27
    0.27
    """
    line = _SEGMENTED.get(pieces)
    if line is None:
        raise OutOfRange(
            f"The elbow has {pieces:.6g} pieces; {_SMACNA} A-7B holds for 3, 4 and 5 pieces."
        )
    return interpolated(
        radius_ratio, _SEGMENTED_RADII, line, "radius ratio of the elbow", "", f"{_SMACNA} A-7B"
    )


def mitred_elbow_coefficient(angle: Angle) -> Number:
    """Loss coefficient C of a mitred round elbow without vanes, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-7C. Confidence: checked.

    angle: change of direction [rad], 20 to 90 degrees
    Returns [1], on the velocity pressure in the elbow.
    Valid for: two straight pieces joined at an angle.
    Raises OutOfRange: outside that range.

    >>> import math
    >>> mitred_elbow_coefficient(math.radians(90.0))  # printed: 1.2
    1.2
    """
    return interpolated(
        math.degrees(angle),
        (20.0, 30.0, 45.0, 60.0, 75.0, 90.0),
        (0.08, 0.16, 0.34, 0.55, 0.81, 1.2),
        "angle of the elbow",
        "degrees",
        f"{_SMACNA} A-7C",
    )


def elbow_angle_factor(angle: Angle) -> Number:
    """Factor that turns the coefficient of a 90 degree elbow into that of another angle, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-7A, note; the same factors stand beside
    fitting CR3-1 in ASHRAE Handbook - Fundamentals 2005. Confidence: checked.

    angle: change of direction [rad], 20 to 180 degrees
    Returns [1].
    Valid for: smooth elbows. Hygiene manuals take angle/90 degrees, which is less at 45 and 30.
    Raises OutOfRange: outside that range.

    >>> import math
    >>> elbow_angle_factor(math.radians(45.0)) * elbow_coefficient(1.5)
    0.102
    """
    return interpolated(
        math.degrees(angle),
        (20.0, 30.0, 45.0, 60.0, 75.0, 90.0, 110.0, 130.0, 150.0, 180.0),
        (0.31, 0.45, 0.60, 0.78, 0.90, 1.0, 1.13, 1.20, 1.28, 1.40),
        "angle of the elbow",
        "degrees",
        "the table of angle factors",
    )


def bend_coefficient(radius_ratio: Number, angle: Angle, factor: Number) -> Number:
    """Loss coefficient C of a round bend with the friction along its arc, 1.

    Source: Rennels and Hudson, Pipe Flow, 1st edition 2012, by the library fluids.
    Confidence: from-memory.

    radius_ratio: centre-line radius over bore r/D [1], 0.5 to 20
    angle: change of direction [rad], above 0 to 180 degrees
    factor: Darcy friction factor in the bend [1], > 0
    Returns [1], on the velocity pressure in the bend.
    Valid for: smooth bends, turbulent flow; about twice the tables, which leave the arc out.
    Raises OutOfRange: outside those ranges.

    >>> import math
    >>> bend_coefficient(1.0, math.radians(90.0), 0.020747)  # independent: 0.350
    0.350
    """
    from fluids.fittings import bend_rounded  # noqa: PLC0415  # 0.1 s to import

    require_within(radius_ratio, 0.5, 20.0, "radius ratio of the bend", "", "the bend formula")
    require_within(math.degrees(angle), 0.0, 180.0, "angle of the bend", "degrees", "the formula")
    require_positive(angle, "angle of the bend", "rad")
    require_positive(factor, "friction factor")
    return float(
        bend_rounded(1.0, math.degrees(angle), fd=factor, rc=radius_ratio, method="Rennels")
    )
