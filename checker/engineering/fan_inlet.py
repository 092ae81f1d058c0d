"""What the fan loses by its inlet, and what its static pressure really is.

An elbow at the inlet makes the air swirl or crowd one side of the wheel. The loss
is written as a coefficient on the inlet's velocity pressure, but it changes the
fan itself: more pressure elsewhere does not buy it back.
"""

from __future__ import annotations

from ._bounds import interpolated_twice, require_at_least
from .dimensions import Number, Pressure

__all__ = [
    "fan_static_pressure",
    "rectangular_inlet_elbow_coefficient",
    "round_inlet_elbow_coefficient",
]

_ROUND_LENGTHS = (0.0, 2.0, 5.0)
_ROUND_RADII = (0.5, 0.75, 1.0, 1.5, 2.0, 4.0)
_ROUND = (
    (1.80, 1.00, 0.53),
    (1.40, 0.80, 0.40),
    (1.20, 0.67, 0.33),
    (1.10, 0.60, 0.33),
    (1.00, 0.53, 0.33),
    (0.67, 0.40, 0.22),
)
_RECTANGULAR_RADII = (0.5, 1.0, 2.0)
_RECTANGULAR = (
    (2.5, 1.6, 0.8),
    (1.2, 0.66, 0.33),
    (0.8, 0.47, 0.26),
)


def round_inlet_elbow_coefficient(radius_ratio: Number, length_ratio: Number) -> Number:
    """System effect coefficient C of a four-piece elbow before a round fan inlet, 1.

    Source: ASHRAE Handbook - Fundamentals (SI), chapter 21 Duct Design, table 7, fitting ED7-2.
    Confidence: checked.

    radius_ratio: centre-line radius of the elbow over its bore r/D [1], 0.5 to 4.0
    length_ratio: straight length between elbow and inlet over the bore L/D [1], 0 to 5
    Returns [1], on the velocity pressure at the inlet.
    Valid for: round inlets; the source calls the values approximations.
    Raises OutOfRange: outside those ranges.

    >>> round_inlet_elbow_coefficient(1.0, 2.0)  # printed: 0.67
    0.67
    """
    return interpolated_twice(
        radius_ratio,
        length_ratio,
        _ROUND_RADII,
        _ROUND_LENGTHS,
        _ROUND,
        ("radius ratio of the elbow", "length ratio before the inlet"),
        "the table of round fan inlets",
    )


def rectangular_inlet_elbow_coefficient(radius_ratio: Number, length_ratio: Number) -> Number:
    """System effect coefficient C of an elbow without vanes before a rectangular inlet, 1.

    Source: ASHRAE Handbook 1988, system-effect table, elbow at the fan inlet. Confidence: checked.

    radius_ratio: centre-line radius over the height of the duct r/H [1], 0.5 to 2.0
    length_ratio: straight length between elbow and inlet over the duct diameter [1], 0 to 5
    Returns [1], on the velocity pressure at the inlet.
    Valid for: rectangular ducts without turning vanes.
    Raises OutOfRange: outside those ranges.

    >>> rectangular_inlet_elbow_coefficient(1.0, 0.0) * 53.5  # arithmetic: 1.2 x 53.5
    64.2
    """
    return interpolated_twice(
        radius_ratio,
        length_ratio,
        _RECTANGULAR_RADII,
        _ROUND_LENGTHS,
        _RECTANGULAR,
        ("radius ratio of the elbow", "length ratio before the inlet"),
        "the table of rectangular fan inlets",
    )


def fan_static_pressure(
    inlet_suction: Pressure, outlet_pressure: Pressure, inlet_velocity_pressure: Pressure
) -> Pressure:
    """Fan static pressure FSP = SP_out - SP_in - VP_in, Pa.

    Source: ACGIH Industrial Ventilation, fan static pressure; fan total less the outlet's velocity
    pressure in ASHRAE Handbook - Fundamentals (SI), chapter 21. Confidence: checked.

    inlet_suction: static pressure at the inlet below the room's, as a magnitude [Pa], >= 0
    outlet_pressure: static pressure at the outlet above the room's [Pa]
    inlet_velocity_pressure: velocity pressure at the inlet [Pa], >= 0
    Returns [Pa].
    Valid for: readings close to the fan. The difference of the static readings alone is too much.
    Raises OutOfRange: a negative suction or velocity pressure.

    >>> fan_static_pressure(5.0, 10.0, 1.0)  # printed: 14
    14.0
    """
    require_at_least(inlet_suction, 0.0, "suction at the fan inlet", "Pa")
    require_at_least(inlet_velocity_pressure, 0.0, "velocity pressure at the fan inlet", "Pa")
    return outlet_pressure + inlet_suction - inlet_velocity_pressure
