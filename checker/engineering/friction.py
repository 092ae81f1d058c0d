"""Friction factors and the friction loss of straight ducts, rigid and flexible.

All factors are Darcy's, four times Fanning's. Air in an extraction duct runs at
Reynolds numbers near 1e5; between laminar and turbulent flow no formula is
reliable, and ``friction_factor`` says so instead of picking a side.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive, require_within
from .airflow import duct_velocity, reynolds_number, velocity_pressure
from .dimensions import (
    Density,
    DynamicViscosity,
    Flow,
    Length,
    Number,
    Pressure,
)
from .limits import OutOfRange

__all__ = [
    "churchill_friction_factor",
    "colebrook_friction_factor",
    "duct_friction_loss",
    "flexible_duct_factor",
    "flexible_duct_loss",
    "friction_factor",
    "friction_loss",
    "haaland_friction_factor",
    "hose_compression",
    "laminar_friction_factor",
]

_LAMINAR_UP_TO = 2300.0
_TURBULENT_FROM = 4000.0


def _require_turbulent(reynolds: Number, relative_roughness: Number, formula: str) -> None:
    require_within(reynolds, _TURBULENT_FROM, 1e8, "Reynolds number", "", formula)
    require_within(relative_roughness, 0.0, 0.05, "relative roughness", "", formula)


def laminar_friction_factor(reynolds: Number) -> Number:
    """Darcy friction factor f = 64/Re of laminar flow in a round pipe, 1.

    Source: Hagen and Poiseuille, textbook; tests work it out from the profile of the flow.
    Confidence: checked.

    reynolds: Reynolds number [1], > 0, below 2300
    Returns [1].
    Valid for: round pipes, laminar flow.
    Raises OutOfRange: from a Reynolds number of 2300 on.

    >>> laminar_friction_factor(1000.0)  # an independent library gives 0.06400
    0.064
    """
    require_positive(reynolds, "Reynolds number")
    if reynolds >= _LAMINAR_UP_TO:
        raise OutOfRange(
            f"The Reynolds number is {reynolds:.6g}; the laminar friction factor holds below 2300."
        )
    return 64.0 / reynolds


def colebrook_friction_factor(reynolds: Number, relative_roughness: Number) -> Number:
    """Darcy friction factor f of turbulent flow from Colebrook's equation, 1.

    Source: Colebrook, 1/sqrt(f) = -2 log10(e/(3.7 D) + 2.51/(Re sqrt(f))), solved to the last
    digits; tests hold it against the library fluids. Confidence: checked.

    reynolds: Reynolds number [1], 4000 to 1e8
    relative_roughness: roughness over bore [1], 0 to 0.05
    Returns [1].
    Valid for: turbulent flow in commercial pipes and ducts.
    Raises OutOfRange: outside those ranges.

    >>> colebrook_friction_factor(1e5, 6e-4)  # arithmetic of the equation
    0.0207266
    """
    _require_turbulent(reynolds, relative_roughness, "the Colebrook equation")
    wall, film = relative_roughness / 3.7, 2.51 / reynolds
    # x = 1/sqrt(f) by Newton on x + 2 log10(wall + film x), which rises and bends one way only:
    # from any start above nought a few steps reach the last bits. Solved here and not by a
    # library, because every duct needs it and the library takes half a second to load.
    root = 1.0 / math.sqrt(0.02)
    for _ in range(20):
        argument = wall + film * root
        step = (root + 2.0 * math.log10(argument)) / (
            1.0 + 2.0 * film / (math.log(10.0) * argument)
        )
        root -= step
        if abs(step) <= 1e-14 * root:
            break
    return 1.0 / root**2


def haaland_friction_factor(reynolds: Number, relative_roughness: Number) -> Number:
    """Darcy friction factor f of turbulent flow from Haaland's formula, 1.

    Source: Haaland, 1/sqrt(f) = -1.8 log10((e/(3.7 D))^1.11 + 6.9/Re). Confidence: from-memory.

    reynolds: Reynolds number [1], 4000 to 1e8
    relative_roughness: roughness over bore [1], 0 to 0.05
    Returns [1].
    Valid for: turbulent flow; within about 2 % of Colebrook. A second opinion on it.
    Raises OutOfRange: outside those ranges.

    >>> haaland_friction_factor(1e5, 6e-4)  # an independent library gives 0.0204762
    0.0204762
    """
    _require_turbulent(reynolds, relative_roughness, "Haaland's formula")
    return 1.0 / (-1.8 * math.log10((relative_roughness / 3.7) ** 1.11 + 6.9 / reynolds)) ** 2


def churchill_friction_factor(reynolds: Number, relative_roughness: Number) -> Number:
    """Darcy friction factor f by Churchill, one formula for all flow, 1.

    Source: Churchill 1977, f = 8 ((8/Re)^12 + (A + B)^-1.5)^(1/12). Confidence: from-memory.

    reynolds: Reynolds number [1], 1 to 1e8
    relative_roughness: roughness over bore [1], 0 to 0.05
    Returns [1].
    Valid for: laminar and turbulent flow; between 2300 and 4000 only a smooth guess.
    Raises OutOfRange: outside those ranges.

    >>> churchill_friction_factor(1000.0, 0.0)  # an independent library gives 0.06400
    0.06400
    >>> churchill_friction_factor(1e5, 6e-4)  # an independent library gives 0.0208402
    0.0208402
    """
    from fluids.friction import Churchill_1977  # noqa: PLC0415  # 0.1 s to import

    require_within(reynolds, 1.0, 1e8, "Reynolds number", "", "Churchill's formula")
    require_within(relative_roughness, 0.0, 0.05, "relative roughness", "", "Churchill's formula")
    return float(Churchill_1977(reynolds, relative_roughness))


def friction_factor(reynolds: Number, relative_roughness: Number) -> Number:
    """Darcy friction factor f, laminar below Re 2300 and Colebrook's from Re 4000, 1.

    Source: Hagen and Poiseuille, then Colebrook's equation, which gives the printed factors of Flow
    of Fluids, Technical Paper No. 410 (2009), examples 7-1 and 7-13; the bounds of 2300 and 4000
    are the usual ones. Confidence: checked.

    reynolds: Reynolds number [1], > 0
    relative_roughness: roughness over bore [1], 0 to 0.05
    Returns [1].
    Valid for: round ducts and pipes. In between, the larger loss is that of Colebrook's equation
    at Re 4000: use colebrook_friction_factor(4000, ...) there.
    Raises OutOfRange: from 2300 to 4000, where the flow switches to and fro; too rough a wall.

    >>> friction_factor(1000.0, 0.0)
    0.064
    >>> friction_factor(3000.0, 0.0)
    Traceback (most recent call last):
    checker.engineering.limits.OutOfRange: The Reynolds number is 3000; between 2300 and 4000 the
    flow is neither laminar nor turbulent and no friction factor is reliable.
    """
    require_within(
        relative_roughness, 0.0, 0.05, "relative roughness", "", "the Colebrook equation"
    )
    if _LAMINAR_UP_TO <= reynolds < _TURBULENT_FROM:
        raise OutOfRange(
            f"The Reynolds number is {reynolds:.6g}; between 2300 and 4000 the flow is neither "
            "laminar nor turbulent and no friction factor is reliable."
        )
    if reynolds < _LAMINAR_UP_TO:
        return laminar_friction_factor(reynolds)
    return colebrook_friction_factor(reynolds, relative_roughness)


def friction_loss(factor: Number, length: Length, bore: Length, pressure: Pressure) -> Pressure:
    """Friction loss dp = f (L/D) VP of a straight length, Pa.

    Source: Darcy and Weisbach, textbook. Confidence: checked.

    factor: Darcy friction factor [1], > 0
    length: straight length [m], >= 0
    bore: internal diameter [m], > 0
    pressure: velocity pressure [Pa], >= 0
    Returns [Pa].
    Valid for: steady flow in a duct of one bore.
    Raises OutOfRange: a value outside those ranges.

    >>> friction_loss(0.020747, 1.0, 0.150, 60.205)  # arithmetic of the formula
    8.327
    """
    require_positive(factor, "friction factor")
    require_at_least(length, 0.0, "length", "m")
    require_positive(bore, "bore", "m")
    require_at_least(pressure, 0.0, "velocity pressure", "Pa")
    return factor * length / bore * pressure


def duct_friction_loss(
    flow: Flow,
    bore: Length,
    length: Length,
    roughness: Length,
    density: Density,
    viscosity: DynamicViscosity,
) -> Pressure:
    """Friction loss of a straight round duct or pipe at a flow, Pa.

    Source: Darcy and Weisbach with the friction factor of friction_factor. Confidence: checked.

    flow: volume flow [m3/s], >= 0
    bore: internal diameter [m], > 0
    length: straight length [m], >= 0
    roughness: absolute roughness of the wall [m], 0 to 0.05 bore
    density: density of the fluid [kg/m3], > 0
    viscosity: dynamic viscosity of the fluid [Pa s], > 0
    Returns [Pa].
    Valid for: air and liquids; zero flow loses nothing.
    Raises OutOfRange: a value outside those ranges, and flow between laminar and turbulent.

    >>> duct_friction_loss(600 / 3600, 0.150, 3.0, 0.09e-3, 1.204, 18.2e-6)  # independent: 22.38
    22.38
    """
    require_at_least(length, 0.0, "length", "m")
    require_at_least(roughness, 0.0, "roughness", "m")
    velocity = duct_velocity(flow, bore)
    if velocity == 0.0:
        return 0.0
    reynolds = reynolds_number(velocity, bore, density, viscosity)
    factor = friction_factor(reynolds, roughness / bore)
    return friction_loss(factor, length, bore, velocity_pressure(velocity, density))


def hose_compression(extended_length: Length, installed_length: Length) -> Number:
    """Longitudinal compression (L_FE - L)/L_FE of a flexible duct, 1.

    Source: ASHRAE Handbook - Fundamentals (SI), chapter 21 Duct Design, equation 23.
    Confidence: checked.

    extended_length: length of the same piece pulled tight [m], > 0
    installed_length: length along its centre line as fitted [m], > 0
    Returns [1]: 0 pulled tight.
    Valid for: straight runs.
    Raises OutOfRange: an installed length above the extended one.

    >>> hose_compression(2.0, 1.7)
    0.15
    """
    require_positive(extended_length, "extended length", "m")
    require_positive(installed_length, "installed length", "m")
    if installed_length > extended_length * (1.0 + 1e-9):
        raise OutOfRange(
            f"The flexible duct is {installed_length:.6g} m long as installed and "
            f"{extended_length:.6g} m pulled tight; it cannot be longer than pulled tight."
        )
    return max(0.0, 1.0 - installed_length / extended_length)


def flexible_duct_factor(bore: Length, compression: Number) -> Number:
    """Pressure drop correction factor PDCF of a compressed flexible duct, 1.

    Source: ASHRAE Handbook - Fundamentals (SI), chapter 21 Duct Design, equation 22:
    1 + 0.58 K exp(-0.00496 D), K in per cent, D in mm. Confidence: checked.

    bore: internal diameter [m], 0.100 to 0.250
    compression: longitudinal compression [1], 0 to 0.30
    Returns [1]: 1 pulled tight.
    Valid for: straight runs; bends come on top. The tests behind it had 150, 200 and 250 mm
    (Abushakra, Walker and Sherman 2004); 100 mm is an extrapolation to the larger factor, while
    above 250 mm the formula would fall towards 1 and is refused.
    Raises OutOfRange: outside those ranges.

    >>> flexible_duct_factor(0.250, 0.15)  # printed: 3.5
    3.5
    """
    belongs_to = "the compression formula as tested"
    require_within(bore, 0.100, 0.250, "bore", "m", belongs_to)
    require_within(compression, 0.0, 0.30, "compression", "", belongs_to)
    return 1.0 + 0.58 * (100.0 * compression) * math.exp(-0.00496 * (1000.0 * bore))


def flexible_duct_loss(
    flow: Flow,
    bore: Length,
    installed_length: Length,
    factor: Number,
    roughness: Length,
    density: Density,
    viscosity: DynamicViscosity,
) -> Pressure:
    """Friction loss PDCF f (L/D) VP of a flexible duct over its installed length, Pa.

    Source: ASHRAE Handbook - Fundamentals (SI), chapter 21 Duct Design, example 6: the factor
    multiplies the installed length, not the extended one. Confidence: checked.

    flow: volume flow [m3/s], >= 0
    bore: internal diameter [m], > 0
    installed_length: length along the centre line as fitted [m], >= 0
    factor: PDCF, or a stated allowance for slack [1], >= 1
    roughness: roughness of the duct pulled tight, 0.9 mm for fabric on a helix [m]
    density: density of the air [kg/m3], > 0
    viscosity: dynamic viscosity of the air [Pa s], > 0
    Returns [Pa].
    Valid for: straight runs.
    Raises OutOfRange: a value outside those ranges.

    >>> flexible_duct_loss(600 / 3600, 0.150, 1.0, 4.0, 0.9e-3, 1.204, 18.2e-6)  # arithmetic
    47.13
    """
    require_at_least(factor, 1.0, "pressure drop correction factor")
    tight = duct_friction_loss(flow, bore, installed_length, roughness, density, viscosity)
    return factor * tight
