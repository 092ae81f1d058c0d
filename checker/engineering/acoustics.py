"""Sound levels: adding them, carrying them to another place, taking the background out.

Adding: `level_sum`, `combined_level`, `level_of_equal_sources`, `level_raised`, `level_difference`.
Background: `level_without_background`, `background_correction`.
Distance and room: `free_field_level`, `power_level_from_pressure_level`,
`pressure_level_from_power_level`, `room_constant`, `room_pressure_level`.
Peak: `peak_level`. What a shift of noise amounts to stands in `noise_exposure`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ._bounds import require_positive
from .dimensions import Area, Length, Level, Number, Pressure
from .limits import OutOfRange

__all__ = [
    "background_correction",
    "combined_level",
    "free_field_level",
    "level_difference",
    "level_of_equal_sources",
    "level_raised",
    "level_sum",
    "level_without_background",
    "peak_level",
    "power_level_from_pressure_level",
    "pressure_level_from_power_level",
    "room_constant",
    "room_pressure_level",
]

# Reference sound pressure in air, the zero of every sound pressure level (ISO 1683).
_REFERENCE_PRESSURE = 20e-6


def require_plausible_level(level: Level) -> None:
    """Refuse a level no sound has; shared with `noise_exposure`, not for rules."""
    if not -50.0 <= level <= 200.0:
        raise OutOfRange(
            f"The level is {level:g} dB; sound levels from -50 dB to 200 dB are accepted, "
            "anything else is a slip of the unit."
        )


def _relative_energy(level: Level) -> float:
    require_plausible_level(level)
    return math.pow(10.0, level / 10.0)


def _level(relative_energy: float) -> Level:
    return 10.0 * math.log10(relative_energy)


def _sphere(distance: Length) -> Area:
    require_positive(distance, "distance", "m")
    return 4.0 * math.pi * distance**2


def level_sum(levels: Sequence[Level]) -> Level:
    """Level of several incoherent sources together L [dB].

    Source: tables and rules for decibel addition, L = 10 lg Σ 10^(Li/10). Confidence: checked.

    levels: level of each source alone at the same place [dB], at least one
    Returns [dB].
    Valid for: sources that do not sound in step (no two fans beating on one frequency).
    Raises OutOfRange: no level at all, or a level outside -50 dB to 200 dB.

    >>> level_sum([62.0, 73.0])
    73.3
    """
    if len(levels) == 0:
        raise OutOfRange("No level was given; a sum of levels needs at least one.")
    return _level(math.fsum(_relative_energy(level) for level in levels))


def combined_level(first: Level, second: Level) -> Level:
    """Level of two incoherent sources together L [dB].

    Source: tables and rules for decibel addition, L = 10 lg Σ 10^(Li/10). Confidence: checked.

    first: level of one source alone [dB], -50 to 200
    second: level of the other alone at the same place [dB], -50 to 200
    Returns [dB].
    Valid for: sources that do not sound in step.
    Raises OutOfRange: a level outside -50 dB to 200 dB.

    >>> combined_level(90.0, 90.0)
    93.01
    """
    return level_sum([first, second])


def level_of_equal_sources(level: Level, count: Number) -> Level:
    """Level of a number of like sources together L [dB].

    Source: the same sum for equal members, L = L1 + 10 lg n. Confidence: checked.

    level: level of one source alone [dB], -50 to 200
    count: number of sources [1], whole, at least 1
    Returns [dB].
    Valid for: sources equally far from the listener.
    Raises OutOfRange: a count below 1 or not whole, or a level outside -50 dB to 200 dB.

    >>> level_of_equal_sources(85.0, 2)
    88.0
    """
    if not count >= 1.0 or not float(count).is_integer():
        raise OutOfRange(f"The number of sources is {count:g}; it must be a whole number from 1.")
    return _level(count * _relative_energy(level))


def level_raised(level: Level, increment: Level) -> Level:
    """Level with a stated number of decibels added L + ΔL [dB].

    Source: definition of the decibel as a ratio. Confidence: common-practice.

    level: level before [dB]
    increment: decibels to add, such as an allowance for mounting on a panel [dB]
    Returns [dB].
    Valid for: an allowance, never a second source: for that use `combined_level`.

    >>> level_raised(72.0, 3.0)
    75.0
    """
    return level + increment


def level_difference(first: Level, second: Level) -> Level:
    """Difference of two levels L1 - L2 [dB].

    Source: definition of the decibel as a ratio. Confidence: common-practice.

    first: level to subtract from [dB]
    second: level, or attenuation of a hearing protector, to subtract [dB]
    Returns [dB], negative where the second is the larger.
    Valid for: comparing levels; it does not take a background out of a reading.

    >>> level_difference(80.0, 76.0)
    4.0
    """
    return first - second


def level_without_background(total: Level, background: Level) -> Level:
    """Level of the source alone, the background taken out Ls [dB].

    Source: ISO 1996-1 and JIS Z 8731:1999, background noise correction, read in a meter's notes;
    ISO 10140-4:2010 has the same Ls = 10 lg(10^(Lt/10) - 10^(Lb/10)). Confidence: checked.

    total: reading with the source running [dB]
    background: reading at the same place with the source stopped [dB], at least 3 dB lower
    Returns [dB].
    Valid for: steady background. Below 3 dB of difference the reading says too little about
        the source, so no level is given.
    Raises OutOfRange: difference below 3 dB, or a level outside -50 dB to 200 dB.

    >>> level_without_background(55.0, 50.0)
    53.3
    """
    # A difference of two readings such as 81.1 - 78.1 must count as the 3 dB it was read as.
    if not total - background >= 3.0 - 1e-9:
        raise OutOfRange(
            f"The reading with the source is {total:g} dB and the background {background:g} dB; "
            "the background correction holds from a difference of 3 dB."
        )
    return _level(_relative_energy(total) - _relative_energy(background))


def background_correction(total: Level, background: Level) -> Level:
    """Correction to subtract from a reading for the background K1 [dB].

    Source: ISO 3744, K1 = -10 lg(1 - 10^(-ΔL/10)). Confidence: checked (ECMA TR/107 prints its
    values at 6 dB and 10 dB).

    total: reading with the source running [dB]
    background: reading at the same place with the source stopped [dB], at least 3 dB lower
    Returns [dB], positive.
    Valid for: steady background.
    Raises OutOfRange: difference below 3 dB, or a level outside -50 dB to 200 dB.

    >>> background_correction(76.0, 70.0)
    1.26
    """
    return total - level_without_background(total, background)


def free_field_level(level: Level, known_distance: Length, distance: Length) -> Level:
    """Level at another distance from a small source in the open L2 [dB].

    Source: inverse-square law, L2 = L1 - 20 lg(r2/r1). Confidence: checked.

    level: level at the known distance [dB], -50 to 200
    known_distance: where that level was stated [m], > 0
    distance: where it is wanted [m], > 0
    Returns [dB].
    Valid for: a source small against both distances and no reflections; indoors the true
        level is higher than this.
    Raises OutOfRange: a distance not above zero, or a level outside -50 dB to 200 dB.

    >>> free_field_level(72.0, 1.0, 3.0)
    62.46
    """
    require_positive(known_distance, "known distance", "m")
    require_positive(distance, "distance", "m")
    return _level(_relative_energy(level) * (known_distance / distance) ** 2)


def pressure_level_from_power_level(
    power_level: Level, distance: Length, directivity: Number
) -> Level:
    """Sound pressure level in the open from a sound power level Lp [dB].

    Source: industrial-hygiene board examination equation sheet, fall 2017, Lp = Lw - 20 lg r - 11
    for a sphere; written here as Lw + 10 lg(Q/(4πr²)). Confidence: checked.

    power_level: sound power level of the source [dB], -50 to 200
    distance: from the source [m], > 0
    directivity: factor Q [1], > 0: 1 in free space, 2 on a floor or wall, 4 at an edge, 8 in a
        corner
    Returns [dB].
    Valid for: no reflections other than those the factor Q stands for.
    Raises OutOfRange: distance or directivity not above zero, or a level outside its range.

    >>> pressure_level_from_power_level(100.0, 1.0, 1)
    89.0
    """
    require_positive(directivity, "directivity factor")
    return _level(_relative_energy(power_level) * directivity / _sphere(distance))


def power_level_from_pressure_level(level: Level, distance: Length, directivity: Number) -> Level:
    """Sound power level from a sound pressure level stated in the open Lw [dB].

    Source: industrial-hygiene board examination equation sheet, fall 2017, the same relation
    solved for Lw. Confidence: checked.

    level: sound pressure level at the distance [dB], -50 to 200
    distance: from the source [m], > 0
    directivity: factor Q during the measurement [1], > 0
    Returns [dB].
    Valid for: a measurement without room reflections.
    Raises OutOfRange: distance or directivity not above zero, or a level outside its range.

    >>> power_level_from_pressure_level(72.0, 1.0, 2)
    79.98
    """
    require_positive(directivity, "directivity factor")
    return _level(_relative_energy(level) * _sphere(distance) / directivity)


def room_constant(surface: Area, absorption: Number) -> Area:
    """Room constant R [m²].

    Source: Crocker, Engineering Acoustics, 3.15, R = Sα/(1 - α). Confidence: checked.

    surface: area of all surfaces of the room [m²], > 0
    absorption: mean absorption coefficient α [1], above 0 and below 1
    Returns [m²].
    Valid for: rooms of similar length, width and height with absorption spread about.
    Raises OutOfRange: surface not above zero, or absorption not between 0 and 1.

    >>> room_constant(61.0, 0.2)     # 12.2 m2 of absorption in all
    15.3
    """
    if not 0.0 < absorption < 1.0:
        raise OutOfRange(
            f"The mean absorption coefficient is {absorption:g}; it lies between 0 and 1."
        )
    require_positive(surface, "surface of the room", "m²")
    return surface * absorption / (1.0 - absorption)


def room_pressure_level(
    power_level: Level, distance: Length, directivity: Number, room: Area
) -> Level:
    """Sound pressure level in a room, direct and reflected sound together Lp [dB].

    Source: Crocker, Engineering Acoustics, 3.15, eq. 3.83, Lp = Lw + 10 lg(Q/(4πr²) + 4/R).
    Confidence: checked.

    power_level: sound power level of the source [dB], -50 to 200
    distance: from the source [m], > 0
    directivity: factor Q [1], > 0
    room: room constant R [m²], > 0
    Returns [dB].
    Valid for: a diffuse reflected field; long low halls fall off faster than this.
    Raises OutOfRange: distance, directivity or room constant not above zero, or a level
        outside its range.

    >>> room_pressure_level(85.0, 2.0, 2, 100.0)     # arithmetic of the formula
    74.02
    """
    require_positive(directivity, "directivity factor")
    require_positive(room, "room constant", "m²")
    return _level(_relative_energy(power_level) * (directivity / _sphere(distance) + 4.0 / room))


def peak_level(pressure: Pressure) -> Level:
    """Peak sound pressure level Lp,peak [dB re 20 µPa].

    Source: Directive 2003/10/EC, Art. 3(1), which states its peak values in pascals and in
    decibels. Confidence: checked.

    pressure: peak sound pressure [Pa], > 0
    Returns [dB].
    Valid for: the weighting of the pressure given (the directive's is C).
    Raises OutOfRange: pressure not above zero.

    >>> peak_level(200.0)
    140.0
    """
    require_positive(pressure, "peak sound pressure", "Pa")
    return 20.0 * math.log10(pressure / _REFERENCE_PRESSURE)
