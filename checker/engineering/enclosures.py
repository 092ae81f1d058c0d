"""Air through the openings of a closed machine enclosure, and how it clears.

The velocity through the gaps with the door shut is only a proxy for containment;
smoke, in the wettest cycle, is the proof.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive, require_within
from .airflow import velocity_through
from .dimensions import (
    Area,
    Density,
    DynamicViscosity,
    Flow,
    Frequency,
    Length,
    Number,
    Pressure,
    Speed,
    Time,
    Volume,
)
from .limits import OutOfRange

__all__ = [
    "air_changes",
    "clearance_time",
    "enclosure_depression",
    "flow_for_air_changes",
    "flow_for_inward_velocity",
    "gap_area",
    "inward_velocity",
    "remaining_share",
    "stokes_terminal_velocity",
    "terminal_velocity",
]

_GRAVITY = 9.80665


def gap_area(width: Length, length: Length) -> Area:
    """Area A = b L of a gap or slot, m2.

    Source: geometry. Confidence: checked.

    width: width of the gap, by feeler gauge, door shut [m], >= 0
    length: length along the gap [m], >= 0
    Returns [m2].
    Valid for: long narrow gaps and rectangular openings.
    Raises OutOfRange: a negative value.

    >>> gap_area(0.002, 3.0)  # arithmetic of the formula
    0.006
    """
    require_at_least(width, 0.0, "width of the gap", "m")
    require_at_least(length, 0.0, "length of the gap", "m")
    return width * length


def inward_velocity(flow: Flow, open_area: Area) -> Speed:
    """Mean inward velocity V = Q/A through the permanent openings, m/s.

    Source: continuity, textbook. Confidence: checked.

    flow: flow at the working point with the filter dirty [m3/s], >= 0
    open_area: all openings together, door shut [m2], > 0
    Returns [m/s].
    Valid for: air that enters through the openings only; leaks count as openings.
    Raises OutOfRange: outside those ranges.

    >>> inward_velocity(216 / 3600, 0.12)  # arithmetic of the formula
    0.5
    """
    return velocity_through(flow, open_area)


def flow_for_inward_velocity(open_area: Area, velocity: Speed) -> Flow:
    """Flow Q = A V that gives an inward velocity, m3/s.

    Source: continuity, textbook. Confidence: checked.

    open_area: all openings together, door shut [m2], >= 0
    velocity: velocity wanted through them [m/s], >= 0
    Returns [m3/s].
    Valid for: air that enters through the openings only.
    Raises OutOfRange: a negative value.

    >>> flow_for_inward_velocity(0.12, 0.5) * 3600  # arithmetic of the formula
    216.0
    """
    require_at_least(open_area, 0.0, "open area", "m2")
    require_at_least(velocity, 0.0, "inward velocity", "m/s")
    return open_area * velocity


def enclosure_depression(velocity: Speed, discharge: Number, density: Density) -> Pressure:
    """Depression dp = (rho/2) (V/C_d)^2 in an enclosure, as a magnitude, Pa.

    Source: orifice equation, textbook; C_d about 0.6 for sharp edges. Confidence: from-memory.

    velocity: mean inward velocity [m/s], >= 0
    discharge: discharge coefficient C_d of the openings [1], above 0 to 1
    density: density of the room air [kg/m3], > 0
    Returns [Pa].
    Valid for: openings that are not labyrinths.
    Raises OutOfRange: outside those ranges.

    >>> enclosure_depression(0.5, 0.6, 1.2)  # arithmetic of the formula
    0.417
    """
    require_at_least(velocity, 0.0, "inward velocity", "m/s")
    require_positive(discharge, "discharge coefficient")
    require_within(discharge, 0.0, 1.0, "discharge coefficient", "", "the orifice equation")
    require_positive(density, "density", "kg/m3")
    return density / 2.0 * (velocity / discharge) ** 2


def air_changes(flow: Flow, volume: Volume) -> Frequency:
    """Air changes n = Q/V of an enclosure or room, 1/s.

    Source: definition, textbook. Confidence: checked.

    flow: flow of fresh or extracted air [m3/s], >= 0
    volume: free internal volume [m3], > 0
    Returns [1/s].
    Valid for: any volume; sizing on air changes alone leaves the openings out.
    Raises OutOfRange: outside those ranges.

    >>> air_changes(0.060, 1.5) * 3600  # arithmetic of the formula
    144.0
    """
    require_at_least(flow, 0.0, "flow", "m3/s")
    require_positive(volume, "free volume", "m3")
    return flow / volume


def flow_for_air_changes(changes: Frequency, volume: Volume) -> Flow:
    """Flow Q = n V for a number of air changes, m3/s.

    Source: definition, textbook. Confidence: checked.

    changes: air changes in a time [1/s], >= 0
    volume: free internal volume [m3], > 0
    Returns [m3/s].
    Valid for: any volume.
    Raises OutOfRange: outside those ranges.

    >>> flow_for_air_changes(6 / 60, 20.0 * 15.0 * 10.0)  # printed: 300, in cubic feet and minutes
    300.0
    """
    require_at_least(changes, 0.0, "number of air changes", "1/s")
    require_positive(volume, "free volume", "m3")
    return changes * volume


def clearance_time(volume: Volume, flow: Flow, remaining: Number, mixing: Number) -> Time:
    """Time t = K (V/Q) ln(C_0/C_t) until a share of the mist is left, s.

    Source: first-order wash-out, industrial-hygiene practice examination. Confidence: checked.

    volume: free internal volume [m3], > 0
    flow: flow at the working point with the filter dirty [m3/s], > 0
    remaining: share of the concentration that may be left C_t/C_0 [1], above 0 to 1
    mixing: mixing factor K [1], 1 (ideal) to 10
    Returns [s].
    Valid for: no source after the start; smoke takes longer where air by-passes the door.
    Raises OutOfRange: outside those ranges.

    >>> clearance_time(1.5, 0.060, 0.05, 1.0)  # arithmetic of the formula
    74.893
    """
    require_positive(volume, "free volume", "m3")
    require_positive(flow, "flow", "m3/s")
    require_positive(remaining, "remaining share")
    require_within(remaining, 0.0, 1.0, "remaining share", "", "the wash-out formula")
    require_within(mixing, 1.0, 10.0, "mixing factor", "", "the wash-out formula")
    return -mixing * volume / flow * math.log(remaining)


def remaining_share(volume: Volume, flow: Flow, time: Time, mixing: Number) -> Number:
    """Share C_t/C_0 = exp(-Q t/(K V)) of the mist left after a time, 1.

    Source: first-order wash-out, textbook. Confidence: checked.

    volume: free internal volume [m3], > 0
    flow: flow at the working point with the filter dirty [m3/s], >= 0
    time: time since the source stopped [s], >= 0
    mixing: mixing factor K [1], 1 (ideal) to 10
    Returns [1].
    Valid for: no source after the start.
    Raises OutOfRange: outside those ranges.

    >>> remaining_share(1.5, 0.060, 74.893, 1.0)
    0.05
    """
    require_positive(volume, "free volume", "m3")
    require_at_least(flow, 0.0, "flow", "m3/s")
    require_at_least(time, 0.0, "time", "s")
    require_within(mixing, 1.0, 10.0, "mixing factor", "", "the wash-out formula")
    return math.exp(-flow * time / (mixing * volume))


def _require_drop(diameter: Length, liquid: Density, air: Density) -> None:
    require_positive(diameter, "drop diameter", "m")
    require_positive(air, "density of the air", "kg/m3")
    if not liquid > air:
        raise OutOfRange(
            f"The liquid has {liquid:.6g} kg/m3 and the air {air:.6g} kg/m3; "
            "such a drop does not fall."
        )


def terminal_velocity(
    diameter: Length, liquid: Density, air: Density, viscosity: DynamicViscosity
) -> Speed:
    """Terminal velocity of a falling drop, m/s.

    Source: drag of a sphere at any Reynolds number, by the library fluids. Confidence:
    from-memory.

    diameter: diameter of the drop [m], above 0 to 0.001
    liquid: density of the liquid [kg/m3], above that of the air
    air: density of the air [kg/m3], > 0
    viscosity: dynamic viscosity of the air [Pa s], > 0
    Returns [m/s].
    Valid for: round drops; larger ones than 1 mm flatten.
    Raises OutOfRange: outside those ranges.

    >>> terminal_velocity(200e-6, 870.0, 1.2041, 1.82e-5)  # independent: 0.6103
    0.6103
    """
    from fluids.drag import v_terminal  # noqa: PLC0415  # 0.1 s to import

    _require_drop(diameter, liquid, air)
    require_positive(viscosity, "dynamic viscosity", "Pa s")
    require_within(diameter, 0.0, 1e-3, "drop diameter", "m", "the drag of a round drop")
    return float(v_terminal(diameter, liquid, air, viscosity))


def stokes_terminal_velocity(
    diameter: Length, liquid: Density, air: Density, viscosity: DynamicViscosity
) -> Speed:
    """Terminal velocity v = (rho_l - rho_g) g d^2/(18 mu) of a small drop, m/s.

    Source: Stokes, textbook. Confidence: from-memory.

    diameter: diameter of the drop [m], > 0
    liquid: density of the liquid [kg/m3], above that of the air
    air: density of the air [kg/m3], > 0
    viscosity: dynamic viscosity of the air [Pa s], > 0
    Returns [m/s].
    Valid for: Reynolds numbers up to 0.5, oil drops in air up to about 70 micrometres.
    Raises OutOfRange: a larger Reynolds number, where the formula reads too high.

    >>> stokes_terminal_velocity(10e-6, 870.0, 1.2041, 1.82e-5)  # independent: 0.00260
    0.00260
    """
    _require_drop(diameter, liquid, air)
    require_positive(viscosity, "dynamic viscosity", "Pa s")
    velocity = (liquid - air) * _GRAVITY * diameter**2 / (18.0 * viscosity)
    reynolds = air * velocity * diameter / viscosity
    if reynolds > 0.5:
        raise OutOfRange(
            f"The Reynolds number of the drop is {reynolds:.3g}; Stokes' formula holds up to 0.5."
        )
    return velocity
