"""Flow of a liquid by gravity in a drain, by the kind of flow it really is.

The regime decides by a factor of thirty: oil runs laminar, thin emulsion turbulent.
Taken for the wrong one, Manning's formula promises oil 27 times its flow and the
laminar formula promises emulsion four times.

Between the two regimes no formula is reliable, and ``gravity_drain_flow`` refuses.
The answer on the cautious side is then the smaller of both formulas, which
``cautious_drain_flow`` returns at any Reynolds number. It alone never lets a colder
oil run faster: at the change of regime the laminar formula still gives more than
the turbulent one gives to a thinner liquid.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive, require_within
from .airflow import bore_area
from .dimensions import (
    Flow,
    KinematicViscosity,
    Length,
    Number,
    Speed,
)
from .limits import OutOfRange

__all__ = [
    "cautious_drain_flow",
    "drain_reynolds_number",
    "gravity_drain_flow",
    "half_full_drain_flow",
    "laminar_drain_flow",
    "manning_drain_flow",
    "turbulent_drain_flow",
]

_GRAVITY = 9.80665
_LAMINAR_UP_TO = 2300.0
_TURBULENT_FROM = 4000.0
# Below this Reynolds number the laminar velocity is the smaller for every wall, and in
# very thick oil Colebrook's equation turns to nonsense; it is not asked there.
_CERTAINLY_LAMINAR = 500.0
# Water at 0 degrees Celsius has 1.79 mm2/s; a water-mixed coolant is near 1.1.
_WATER_LIKE_UP_TO = 2e-6


def _require_drain(bore: Length, slope: Number, viscosity: KinematicViscosity) -> None:
    require_positive(bore, "bore of the drain", "m")
    if not slope > 0.0:
        raise OutOfRange(
            f"The drain falls by {slope:.4g} of its length; a drain that does not fall does "
            "not run by gravity."
        )
    require_within(slope, 0.0, 1.0, "slope of the drain", "", "flow by gravity")
    require_positive(viscosity, "kinematic viscosity", "m2/s")


def _laminar_velocity(bore: Length, slope: Number, viscosity: KinematicViscosity) -> Speed:
    return _GRAVITY * slope * bore**2 / (32.0 * viscosity)


def _turbulent_velocity(
    bore: Length, slope: Number, viscosity: KinematicViscosity, roughness: Length
) -> Speed:
    # Re sqrt(f) = D sqrt(2 g D S)/nu is known before the velocity, so that Colebrook's
    # equation gives the velocity without iteration.
    root = math.sqrt(2.0 * _GRAVITY * bore * slope)
    wall = roughness / (3.7 * bore) + 2.51 * viscosity / (bore * root)
    return -2.0 * root * math.log10(wall)


def drain_reynolds_number(flow: Flow, bore: Length, viscosity: KinematicViscosity) -> Number:
    """Reynolds number Re = 4 Q/(pi D nu) of a drain running full, 1.

    Source: definition, textbook. Confidence: checked.

    flow: volume flow [m3/s], >= 0
    bore: internal diameter [m], > 0
    viscosity: kinematic viscosity [m2/s], > 0
    Returns [1].
    Valid for: pipes running full.
    Raises OutOfRange: outside those ranges.

    >>> drain_reynolds_number(0.2812e-3 / 60, 0.019, 133.84e-6)  # arithmetic of the formula
    2.35
    """
    require_at_least(flow, 0.0, "flow", "m3/s")
    require_positive(viscosity, "kinematic viscosity", "m2/s")
    return flow / bore_area(bore) * bore / viscosity


def laminar_drain_flow(bore: Length, slope: Number, viscosity: KinematicViscosity) -> Flow:
    """Flow Q = pi g S D^4/(128 nu) of a full drain in laminar flow, m3/s.

    Source: Hagen and Poiseuille, textbook. Confidence: from-memory.

    bore: internal diameter [m], > 0
    slope: fall over length [1], above 0 to 1
    viscosity: kinematic viscosity at the coldest temperature [m2/s], > 0
    Returns [m3/s].
    Valid for: Reynolds numbers below 2300.
    Raises OutOfRange: a result with a larger Reynolds number; a drain that does not fall.

    >>> laminar_drain_flow(0.019, 0.02, 133.84e-6) * 60e3  # arithmetic, in L/min
    0.2812
    """
    _require_drain(bore, slope, viscosity)
    velocity = _laminar_velocity(bore, slope, viscosity)
    reynolds = velocity * bore / viscosity
    if reynolds >= _LAMINAR_UP_TO:
        raise OutOfRange(
            f"The laminar formula gives a Reynolds number of {reynolds:.4g}; it holds below 2300."
        )
    return velocity * bore_area(bore)


def turbulent_drain_flow(
    bore: Length, slope: Number, viscosity: KinematicViscosity, roughness: Length
) -> Flow:
    """Flow of a full drain in turbulent flow, S = f V^2/(2 g D), m3/s.

    Source: Darcy and Weisbach with Colebrook's equation, textbook. Confidence: from-memory.

    bore: internal diameter [m], > 0
    slope: fall over length [1], above 0 to 1
    viscosity: kinematic viscosity [m2/s], > 0
    roughness: absolute roughness of the wall [m], 0 to 0.05 bore
    Returns [m3/s].
    Valid for: Reynolds numbers from 4000 on.
    Raises OutOfRange: a result with a smaller Reynolds number; a drain that does not fall.

    >>> turbulent_drain_flow(0.019, 0.02, 1.1e-6, 0.0) * 60e3  # arithmetic, in L/min
    8.15
    """
    _require_drain(bore, slope, viscosity)
    require_within(roughness / bore, 0.0, 0.05, "relative roughness", "", "Colebrook's equation")
    velocity = 0.0
    if _laminar_velocity(bore, slope, viscosity) * bore / viscosity >= _CERTAINLY_LAMINAR:
        velocity = _turbulent_velocity(bore, slope, viscosity, roughness)
    if velocity * bore / viscosity < _TURBULENT_FROM:
        raise OutOfRange(
            f"The liquid of {viscosity * 1e6:.4g} mm2/s does not run turbulent in this drain; "
            "the turbulent formula holds from a Reynolds number of 4000 on."
        )
    return velocity * bore_area(bore)


def gravity_drain_flow(
    bore: Length, slope: Number, viscosity: KinematicViscosity, roughness: Length
) -> Flow:
    """Flow of a full drain by gravity, laminar or turbulent by its Reynolds number, m3/s.

    Source: Hagen and Poiseuille below Re 2300, Darcy and Weisbach with Colebrook's equation from
    4000 on, textbook. Confidence: from-memory.

    bore: internal diameter [m], > 0
    slope: fall over length [1], above 0 to 1
    viscosity: kinematic viscosity at the coldest temperature [m2/s], > 0
    roughness: absolute roughness of the wall [m], 0 to 0.05 bore
    Returns [m3/s].
    Valid for: clean round pipes running full, without entry and bend losses.
    Raises OutOfRange: in between, where neither formula confirms itself; the sentence names the
    flow on the cautious side, which cautious_drain_flow returns.

    >>> gravity_drain_flow(0.019, 0.02, 133.84e-6, 0.0) * 60e3  # oil, in L/min
    0.2812
    >>> gravity_drain_flow(0.019, 0.02, 1.1e-6, 0.0) * 60e3  # emulsion, in L/min
    8.15
    """
    _require_drain(bore, slope, viscosity)
    require_within(roughness / bore, 0.0, 0.05, "relative roughness", "", "Colebrook's equation")
    laminar = _laminar_velocity(bore, slope, viscosity)
    if laminar * bore / viscosity < _LAMINAR_UP_TO:
        return laminar * bore_area(bore)
    turbulent = _turbulent_velocity(bore, slope, viscosity, roughness)
    if turbulent * bore / viscosity >= _TURBULENT_FROM:
        return turbulent * bore_area(bore)
    smaller = min(laminar, turbulent) * bore_area(bore)
    raise OutOfRange(
        f"The liquid of {viscosity * 1e6:.4g} mm2/s runs neither laminar nor turbulent in this "
        f"drain; on the cautious side it carries {smaller * 60e3:.4g} L/min."
    )


def cautious_drain_flow(
    bore: Length, slope: Number, viscosity: KinematicViscosity, roughness: Length
) -> Flow:
    """Smaller of the laminar and the turbulent flow of a full drain, m3/s.

    Source: Hagen and Poiseuille; Darcy and Weisbach with Colebrook's equation, textbook. Taking
    the smaller is a choice. Confidence: common-practice.

    bore: internal diameter [m], > 0
    slope: fall over length [1], above 0 to 1
    viscosity: kinematic viscosity at the coldest temperature [m2/s], > 0
    roughness: absolute roughness of the wall [m], 0 to 0.05 bore
    Returns [m3/s].
    Valid for: any Reynolds number, up to 27 per cent below gravity_drain_flow near 2300.
    Raises OutOfRange: a drain that does not fall, a wall too rough.

    >>> cautious_drain_flow(0.019, 0.02, 133.84e-6, 0.0) * 60e3  # oil, in L/min
    0.2812
    >>> cautious_drain_flow(0.019, 0.02, 3e-6, 0.0) * 60e3  # where gravity_drain_flow refuses
    6.87
    """
    _require_drain(bore, slope, viscosity)
    require_within(roughness / bore, 0.0, 0.05, "relative roughness", "", "Colebrook's equation")
    velocity = _laminar_velocity(bore, slope, viscosity)
    if velocity * bore / viscosity >= _CERTAINLY_LAMINAR:
        velocity = min(velocity, _turbulent_velocity(bore, slope, viscosity, roughness))
    return velocity * bore_area(bore)


def half_full_drain_flow(full_flow: Flow) -> Flow:
    """Flow of a drain running half full, half that of the full pipe, m3/s.

    Source: the hydraulic radius of a half-full round pipe is that of the full one, textbook;
    exact in laminar flow by symmetry. Confidence: from-memory.

    full_flow: flow of the same pipe running full by gravity [m3/s], >= 0
    Returns [m3/s].
    Valid for: a free surface at mid-height, uniform fall.
    Raises OutOfRange: a negative flow.

    >>> half_full_drain_flow(0.2812)
    0.1406
    """
    require_at_least(full_flow, 0.0, "flow of the full drain", "m3/s")
    return full_flow / 2.0


def manning_drain_flow(
    bore: Length, slope: Number, coefficient: Number, viscosity: KinematicViscosity
) -> Flow:
    """Flow of a full drain by Manning's formula V = (1/n) R^(2/3) S^(1/2), for water only, m3/s.

    Source: Manning, textbook; n about 0.009 for smooth plastic. Confidence: from-memory.

    bore: internal diameter [m], > 0
    slope: fall over length [1], above 0 to 1
    coefficient: Manning's n in metric units [1], 0.005 to 0.05
    viscosity: kinematic viscosity [m2/s], up to 2e-6
    Returns [m3/s].
    Valid for: water and liquids as thin, in turbulent flow.
    Raises OutOfRange: an oil, whatever the pipe; Manning's formula knows no viscosity.

    >>> manning_drain_flow(0.019, 0.02, 0.009, 1.0e-6) * 60e3  # independent: 7.554 L/min
    7.554
    >>> manning_drain_flow(0.019, 0.02, 0.009, 133.84e-6)
    Traceback (most recent call last):
    checker.engineering.limits.OutOfRange: The liquid has 133.8 mm2/s; Manning's formula holds for
    liquids as thin as water, up to 2 mm2/s, and would promise an oil many times its flow.
    """
    _require_drain(bore, slope, viscosity)
    require_within(coefficient, 0.005, 0.05, "Manning coefficient", "", "Manning's formula")
    if viscosity > _WATER_LIKE_UP_TO:
        raise OutOfRange(
            f"The liquid has {viscosity * 1e6:.4g} mm2/s; Manning's formula holds for liquids "
            "as thin as water, up to 2 mm2/s, and would promise an oil many times its flow."
        )
    velocity = (bore / 4.0) ** (2.0 / 3.0) * math.sqrt(slope) / coefficient
    reynolds = velocity * bore / viscosity
    if reynolds < _TURBULENT_FROM:
        raise OutOfRange(
            f"Manning's formula gives a Reynolds number of {reynolds:.4g} in this drain; it holds "
            "from 4000 on."
        )
    return float(velocity * bore_area(bore))
