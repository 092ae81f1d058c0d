"""Velocity and velocity pressure of air in ducts, planned and measured.

The bore is always the internal diameter: hose is sold by outside as well as by
inside diameter, and ten per cent on the bore is half as much again on the loss.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ._bounds import require_at_least, require_positive
from .dimensions import (
    Area,
    Density,
    DynamicViscosity,
    Flow,
    Length,
    Number,
    Pressure,
    Speed,
)
from .limits import OutOfRange

__all__ = [
    "bore_area",
    "duct_velocity",
    "flow_in_duct",
    "hydraulic_diameter",
    "largest_bore",
    "reynolds_number",
    "stated_area_excess",
    "traverse_positions_symmetric",
    "traverse_velocity",
    "velocity_from_pressure",
    "velocity_pressure",
    "velocity_through",
]

_FASTEST = 100.0


def bore_area(bore: Length) -> Area:
    """Cross-section A = pi D^2/4 of a round duct or pipe, m2.

    Source: geometry. Confidence: checked.

    bore: internal diameter [m], > 0
    Returns [m2].
    Valid for: round ducts.
    Raises OutOfRange: a bore that is not positive.

    >>> bore_area(0.150)  # arithmetic of the formula
    0.0176715
    """
    require_positive(bore, "bore", "m")
    return math.pi * bore**2 / 4.0


def stated_area_excess(bore: Length, stated_area: Area) -> Number:
    """Relative excess A_stated/A(D) - 1 of a stated area over the area of the bore, 1.

    Source: geometry; it finds an area that belongs to another diameter. Confidence: checked.

    bore: internal diameter [m], > 0
    stated_area: area printed or entered beside it [m2], > 0
    Returns [1]: 0 where they agree.
    Valid for: round ducts.
    Raises OutOfRange: a bore or an area that is not positive.

    >>> stated_area_excess(0.100, 0.00785398)
    0.0000
    """
    require_positive(stated_area, "stated area", "m2")
    return stated_area / bore_area(bore) - 1.0


def hydraulic_diameter(area: Area, perimeter: Length) -> Length:
    """Hydraulic diameter D_h = 4 A/P of a duct that is not round, m.

    Source: ASHRAE Handbook - Fundamentals (SI), chapter 21 Duct Design, equation 24.
    Confidence: from-memory.

    area: cross-section [m2], > 0
    perimeter: length of the wetted wall [m], > 0
    Returns [m].
    Valid for: turbulent flow in shapes that are not very flat.
    Raises OutOfRange: an area that does not fit into the perimeter.

    >>> hydraulic_diameter(0.400 * 0.300, 2 * (0.400 + 0.300))
    0.342857
    """
    require_positive(area, "area", "m2")
    require_positive(perimeter, "perimeter", "m")
    if 4.0 * math.pi * area > perimeter**2 * (1.0 + 1e-9):
        raise OutOfRange(
            f"An area of {area:.6g} m2 does not fit into a perimeter of {perimeter:.6g} m; "
            "the area or the perimeter has the wrong unit."
        )
    return 4.0 * area / perimeter


def velocity_through(flow: Flow, area: Area) -> Speed:
    """Mean velocity V = Q/A through an area, m/s.

    Source: continuity, textbook. Confidence: checked.

    flow: volume flow [m3/s], >= 0
    area: open area [m2], > 0
    Returns [m/s].
    Valid for: the mean over the area; the fastest spot may be far above it.
    Raises OutOfRange: a negative flow, an area that is not positive.

    >>> velocity_through(0.060, 0.12)  # arithmetic of the formula
    0.5
    """
    require_at_least(flow, 0.0, "flow", "m3/s")
    require_positive(area, "area", "m2")
    return flow / area


def duct_velocity(flow: Flow, bore: Length) -> Speed:
    """Mean velocity V = 4 Q/(pi D^2) in a round duct, m/s.

    Source: continuity, textbook. Confidence: checked.

    flow: volume flow [m3/s], >= 0
    bore: internal diameter [m], > 0
    Returns [m/s].
    Valid for: round ducts running full.
    Raises OutOfRange: a negative flow, a bore that is not positive.

    >>> duct_velocity(600 / 3600, 0.150)  # arithmetic of the formula
    9.4314
    """
    return velocity_through(flow, bore_area(bore))


def flow_in_duct(velocity: Speed, bore: Length) -> Flow:
    """Volume flow Q = V pi D^2/4 in a round duct, m3/s.

    Source: continuity, textbook. Confidence: checked.

    velocity: mean velocity [m/s], >= 0
    bore: internal diameter [m], > 0
    Returns [m3/s].
    Valid for: round ducts running full.
    Raises OutOfRange: a negative velocity, a bore that is not positive.

    >>> flow_in_duct(9.4314, 0.150) * 3600
    600.00
    """
    require_at_least(velocity, 0.0, "velocity", "m/s")
    return velocity * bore_area(bore)


def largest_bore(flow: Flow, least_velocity: Speed) -> Length:
    """Largest bore D = sqrt(4 Q/(pi V)) that still keeps a velocity, m.

    Source: ACGIH Industrial Ventilation, velocity-pressure calculation sheet. Confidence: checked.

    flow: volume flow [m3/s], > 0
    least_velocity: velocity to be kept [m/s], > 0
    Returns [m].
    Valid for: round ducts; take the next smaller bore that is made.
    Raises OutOfRange: a flow or a velocity that is not positive.

    >>> largest_bore(390 * 4.71947e-4, 4000 * 0.00508) / 0.0254  # printed: 4.22 in
    4.2
    """
    require_positive(flow, "flow", "m3/s")
    require_positive(least_velocity, "least velocity", "m/s")
    return math.sqrt(4.0 * flow / (math.pi * least_velocity))


def velocity_pressure(velocity: Speed, density: Density) -> Pressure:
    """Velocity pressure VP = rho V^2/2, Pa.

    Source: Bernoulli, textbook. Confidence: checked.

    velocity: mean velocity [m/s], 0 to 100
    density: density of the air [kg/m3], > 0
    Returns [Pa].
    Valid for: velocities far below that of sound. Ducts run at 5 to 25 m/s; what lies above
    100 m/s is a slip of a unit, and no loss is computed from it.
    Raises OutOfRange: a velocity outside that range, a density that is not positive.

    >>> velocity_pressure(4467 * 0.00508, 1.2035) / 249.089  # printed: 1.24 in water
    1.24
    """
    require_at_least(velocity, 0.0, "velocity", "m/s")
    if velocity > _FASTEST:
        raise OutOfRange(
            f"The velocity would be {velocity:.4g} m/s; no duct runs above {_FASTEST:.0f} m/s, so a "
            "flow or a bore is written in the wrong unit."
        )
    require_positive(density, "density", "kg/m3")
    return density * velocity**2 / 2.0


def velocity_from_pressure(pressure: Pressure, density: Density) -> Speed:
    """Velocity V = sqrt(2 VP/rho) that a velocity pressure stands for, m/s.

    Source: Bernoulli, textbook; 1.29 sqrt(VP) of hygiene manuals belongs to 1.2018 kg/m3.
    Confidence: checked.

    pressure: velocity pressure [Pa], >= 0
    density: density of the air [kg/m3], > 0
    Returns [m/s].
    Valid for: velocities far below that of sound.
    Raises OutOfRange: a negative pressure, a density that is not positive.

    >>> velocity_from_pressure(900.0, 1.2018)  # printed: 38.7 m/s
    38.7
    """
    require_at_least(pressure, 0.0, "velocity pressure", "Pa")
    require_positive(density, "density", "kg/m3")
    return math.sqrt(2.0 * pressure / density)


def reynolds_number(
    velocity: Speed, bore: Length, density: Density, viscosity: DynamicViscosity
) -> Number:
    """Reynolds number Re = rho V D/mu, 1.

    Source: definition, textbook. Confidence: checked.

    velocity: mean velocity [m/s], >= 0
    bore: internal or hydraulic diameter [m], > 0
    density: density of the fluid [kg/m3], > 0
    viscosity: dynamic viscosity of the fluid [Pa s], > 0
    Returns [1].
    Valid for: any fluid of one phase.
    Raises OutOfRange: a value outside those ranges.

    >>> reynolds_number(9.4314, 0.150, 1.204, 18.2e-6)  # arithmetic of the formula
    93588.
    """
    require_at_least(velocity, 0.0, "velocity", "m/s")
    require_positive(bore, "bore", "m")
    require_positive(density, "density", "kg/m3")
    require_positive(viscosity, "dynamic viscosity", "Pa s")
    return density * velocity * bore / viscosity


def traverse_velocity(velocity_pressures: Sequence[Pressure], density: Density) -> Speed:
    """Mean velocity of a Pitot traverse from the mean of the square roots, m/s.

    Source: balancing-instrument manuals, Pitot traverse, worked reading. Confidence: checked.

    velocity_pressures: readings, one a point [Pa], each > 0
    density: density of the air [kg/m3], > 0
    Returns [m/s].
    Valid for: points of equal weight. The root of the mean pressure reads too high.
    Raises OutOfRange: no reading, or one that is zero or negative, which is back flow or a
    blocked tube and not a velocity.

    >>> readings = [0.16 * 249.089, 0.25 * 249.089, 0.36 * 249.089]
    >>> traverse_velocity(readings, 1.2035) / 0.00508  # printed: 2002.5 ft/min
    2002.
    """
    if not velocity_pressures:
        raise OutOfRange("A traverse without a reading has no mean velocity.")
    for reading in velocity_pressures:
        require_positive(reading, "velocity pressure at a point of the traverse", "Pa")
    velocities = [velocity_from_pressure(reading, density) for reading in velocity_pressures]
    return math.fsum(velocities) / len(velocities)


def traverse_positions_symmetric(positions: Sequence[Number], allowance: Number) -> bool:
    """Whether the points across a diameter lie symmetrically about its middle.

    Source: ISO 5802:2001, tables 2 and 3, every row of which is symmetric. Confidence: checked.

    positions: distances from the wall over the diameter [1], each 0 to 1
    allowance: largest sum error of a pair [1], half a printed digit is 0.001
    Returns true or false.
    Valid for: any traverse along a diameter; it finds a misprinted or misread point.
    Raises OutOfRange: fewer than two points, or one outside the duct.

    >>> traverse_positions_symmetric([0.032, 0.135, 0.321, 0.679, 0.865, 0.968], 0.001)
    True
    >>> traverse_positions_symmetric([0.32, 0.135, 0.321, 0.679, 0.865, 0.968], 0.001)
    False
    """
    if len(positions) < 2:
        raise OutOfRange(f"A traverse needs at least two points, not {len(positions)}.")
    for position in positions:
        if not 0.0 < position < 1.0:
            raise OutOfRange(
                f"A point of the traverse lies at {position:.6g} of the diameter, outside the duct."
            )
    pairs = zip(positions, reversed(positions), strict=True)
    return all(abs(near + far - 1.0) <= allowance + 1e-12 for near, far in pairs)
