"""What a short circuit does to a conductor before its device opens: the adiabatic equation.

`adiabatic_factor`, `let_through_energy`, `adiabatic_withstand`, `adiabatic_conductor_size`,
`conductor_size_for_let_through`, `adiabatic_time`. The equation counts all heat as stored:
from 0.1 s to 5 s it needs no more than current and time; below 0.1 s the device's own
let-through is needed, as the current is no sine any more.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_positive, require_within
from .dimensions import Area, Current, CurrentSquaredTime, Temperature, ThermalFactor, Time
from .limits import OutOfRange

__all__ = [
    "adiabatic_conductor_size",
    "adiabatic_factor",
    "adiabatic_time",
    "adiabatic_withstand",
    "conductor_size_for_let_through",
    "let_through_energy",
]

# IEC 60364-5-54, Annex A: A·s^½/mm², and the reciprocal in kelvin of the temperature coefficient
# of resistance at 0 °C.
_METALS = {"copper": (226.0, 234.5), "steel": (78.0, 202.0)}


def adiabatic_factor(
    metal: Literal["copper", "steel"], initial: Temperature, final: Temperature
) -> ThermalFactor:
    """Thermal factor of a conductor k = K·√(ln((β + θf)/(β + θi))) [A·√s/m²].

    Source: IEC 60364-5-54, Annex A. Confidence: from-memory (it gives back the tables 43.1, 54.2,
    54.3 and 54.4 of BS 7671).

    metal: copper or steel
    initial: temperature when the fault begins [K], 253.15 to 473.15
    final: highest temperature the insulation bears for a moment [K], above the initial one
    Returns [A·√s/m²], a million times the figure of the tables, which is per mm².
    Valid for: sections up to 300 mm².
    Raises OutOfRange: another metal, temperatures that do not rise, or outside their range.

    >>> adiabatic_factor("copper", 343.15, 433.15) / 1e6     # 70 °C PVC, printed 115
    115.
    """
    if metal not in _METALS:
        raise OutOfRange(f"The metal is {metal!r}; copper and steel are known.")
    belongs_to = "the thermal factor"
    require_within(initial, 253.15, 473.15, "initial temperature", "K", belongs_to)
    require_within(final, 253.15, 773.15, "final temperature", "K", belongs_to)
    if not final > initial:
        raise OutOfRange(
            f"The final temperature, {final - 273.15:g} °C, is not above the initial one, "
            f"{initial - 273.15:g} °C."
        )
    constant, beta = _METALS[metal]
    ratio = (beta + final - 273.15) / (beta + initial - 273.15)
    return constant * 1e6 * math.sqrt(math.log(ratio))


def let_through_energy(current: Current, time: Time) -> CurrentSquaredTime:
    """Joule integral of a steady fault current I²t [A²s].

    Source: definition; IEC 60364-4-43, 434.5.2. Confidence: checked.

    current: r.m.s. fault current [A], > 0
    time: until the device has opened [s], 0.1 to 5
    Returns [A²s].
    Valid for: a sine of constant height. A faster device is asked for its own figure.
    Raises OutOfRange: a value outside its range.

    >>> let_through_energy(4000.0, 0.2)     # arithmetic of the formula
    3200000.
    """
    require_positive(current, "fault current", "A")
    require_within(time, 0.1, 5.0, "disconnection time", "s", "the adiabatic equation with I²t")
    return current**2 * time


def adiabatic_withstand(factor: ThermalFactor, area: Area) -> CurrentSquaredTime:
    """Joule integral a conductor bears k²S² [A²s].

    Source: IEC 60364-4-43, 434.5.2. Confidence: checked.

    factor: k for metal, insulation and use [A·√s/m²], > 0
    area: section of the conductor [m²], > 0
    Returns [A²s]: not to be exceeded by the let-through of the device.
    Valid for: faults that are over within 5 s.
    Raises OutOfRange: a value not above zero.

    >>> adiabatic_withstand(115e6, 1.5e-6)     # arithmetic of the formula
    29756.
    """
    require_positive(factor, "thermal factor k", "A·√s/m²")
    require_positive(area, "section of the conductor", "m²")
    return (factor * area) ** 2


def adiabatic_conductor_size(current: Current, time: Time, factor: ThermalFactor) -> Area:
    """Smallest section that bears a fault S = √(I²t)/k [m²].

    Source: IEC 60364-5-54, 543.1.2, and IEC 60364-4-43, 434.5.2. Confidence: checked.

    current: r.m.s. fault current [A], > 0
    time: until the device has opened [s], 0.1 to 5
    factor: k for metal, insulation and use [A·√s/m²], > 0
    Returns [m²]; the next standard size up.
    Valid for: see `let_through_energy`.
    Raises OutOfRange: a value outside its range.

    >>> adiabatic_conductor_size(4000.0, 0.2, 143e6) * 1e6     # printed 12.5 mm²
    12.5
    """
    return conductor_size_for_let_through(let_through_energy(current, time), factor)


def conductor_size_for_let_through(let_through: CurrentSquaredTime, factor: ThermalFactor) -> Area:
    """Smallest section that bears the let-through of a device S = √(I²t)/k [m²].

    Source: IEC 60364-4-43, 434.5.2. Confidence: checked.

    let_through: I²t of the device at the prospective current, from its data sheet [A²s], > 0
    factor: k for metal, insulation and use [A·√s/m²], > 0
    Returns [m²]; the next standard size up.
    Valid for: current-limiting devices, and any that opens in less than 0.1 s.
    Raises OutOfRange: a value not above zero.

    >>> conductor_size_for_let_through(18000.0, 115e6) * 1e6     # arithmetic of the formula
    1.17
    """
    require_positive(let_through, "let-through of the device", "A²s")
    require_positive(factor, "thermal factor k", "A·√s/m²")
    return math.sqrt(let_through) / factor


def adiabatic_time(factor: ThermalFactor, area: Area, current: Current) -> Time:
    """Time for which a conductor bears a fault t = k²S²/I² [s].

    Source: IEC 60364-4-43, 434.5.2; Basic Electrical Installation Work, p. 250. Confidence:
    checked.

    factor: k for metal, insulation and use [A·√s/m²], > 0
    area: section of the conductor [m²], > 0
    current: r.m.s. fault current [A], > 0
    Returns [s]. Above 5 s it is not adiabatic any more and errs on the careful side.
    Valid for: comparison with the time the device takes at the same current.
    Raises OutOfRange: a value not above zero.

    >>> adiabatic_time(115e6, 10e-6, 4000.0) * 1000     # printed 82.66 ms
    82.66
    """
    require_positive(current, "fault current", "A")
    return adiabatic_withstand(factor, area) / current**2
