"""Closing a joint: gasket, bolts and overlap of a flange, hose clips, blanking plugs."""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive
from .dimensions import Length, Number
from .limits import OutOfRange

__all__ = [
    "blanking_plugs_needed",
    "bolt_pitch",
    "clip_fits",
    "clip_position",
    "compressed_gasket_thickness",
    "flange_overlap",
    "gasket_compression",
]


def _require_count(value: Number, what: str) -> None:
    if not value >= 0.0 or not float(value).is_integer():
        raise OutOfRange(f"The {what} is {value:g}; it must be a whole number from 0.")


def gasket_compression(free_thickness: Length, fitted_thickness: Length) -> Number:
    """Compression of a gasket as a share of its free thickness c [1].

    Source: enclosure gasket guides, c = (t0 - t)/t0. Confidence: checked.

    free_thickness: before fitting t0 [m], > 0
    fitted_thickness: gap the gasket fills t [m], above 0
    Returns [1], negative where the gap is wider than the gasket is thick.
    Valid for: flat, hollow and sponge gaskets across their thickness.
    Raises OutOfRange: a thickness not above zero.

    >>> gasket_compression(5e-3, 3.5e-3)
    0.3
    """
    require_positive(free_thickness, "free thickness", "m")
    require_positive(fitted_thickness, "fitted thickness", "m")
    return (free_thickness - fitted_thickness) / free_thickness


def compressed_gasket_thickness(free_thickness: Length, compression: Number) -> Length:
    """Gap that gives a gasket a stated compression t [m].

    Source: enclosure gasket guides, t = t0 (1 - c). Confidence: checked.

    free_thickness: before fitting t0 [m], > 0
    compression: share c [1], 0 to below 1
    Returns [m].
    Valid for: as `gasket_compression`.
    Raises OutOfRange: a value outside its range.

    >>> compressed_gasket_thickness(5e-3, 0.3) * 1e3
    3.5
    """
    require_positive(free_thickness, "free thickness", "m")
    if not 0.0 <= compression < 1.0:
        raise OutOfRange(
            f"The compression is {compression:g}; a gasket is compressed by 0 to less than 1 of "
            "its thickness."
        )
    return free_thickness * (1.0 - compression)


def bolt_pitch(pitch_circle: Length, bolts: Number) -> Length:
    """Distance along the pitch circle from bolt to bolt p [m].

    Source: p = πD/n. Confidence: common-practice.

    pitch_circle: diameter of the bolt circle [m], > 0
    bolts: evenly spaced [1], whole, at least 2
    Returns [m].
    Valid for: round flanges.
    Raises OutOfRange: a value outside its range.

    >>> bolt_pitch(0.2, 8) * 1e3
    78.5
    """
    require_positive(pitch_circle, "pitch circle", "m")
    _require_count(bolts, "number of bolts")
    require_at_least(bolts, 2.0, "number of bolts")
    return math.pi * pitch_circle / bolts


def flange_overlap(flange: Length, aperture: Length, misalignment: Length) -> Length:
    """Narrowest overlap of a round flange over the hole it covers [m].

    Source: (D - d)/2 - e. Confidence: common-practice.

    flange: outside diameter or side D [m], > 0
    aperture: diameter or side of the hole d [m], > 0
    misalignment: distance of the two centres e [m], >= 0
    Returns [m], negative where a slot stays open.
    Valid for: round on round, or square on square with parallel sides.
    Raises OutOfRange: a value outside its range.

    >>> flange_overlap(0.220, 0.160, 0.005) * 1e3      # arithmetic of the formula
    25.0
    """
    require_positive(flange, "flange", "m")
    require_positive(aperture, "aperture", "m")
    require_at_least(misalignment, 0.0, "misalignment", "m")
    return (flange - aperture) / 2.0 - misalignment


def clip_position(hose_outside: Length, smallest: Length, largest: Length) -> Number:
    """Where a hose lies in the range of a clip [1]: 0 smallest, 1 largest.

    Source: (d - dmin)/(dmax - dmin); ranges are marked on the band, DIN 3017-1. Confidence:
    common-practice.

    hose_outside: outside diameter on the spigot [m], > 0
    smallest: lower end of the clip's range [m], > 0
    largest: upper end [m], above the lower one
    Returns [1], below 0 or above 1 where the clip does not fit.
    Valid for: worm-drive clips.
    Raises OutOfRange: a value outside its range.

    >>> clip_position(29e-3, 25e-3, 40e-3)
    0.267
    """
    require_positive(hose_outside, "outside diameter of the hose", "m")
    require_positive(smallest, "smallest diameter of the clip", "m")
    if not largest > smallest:
        raise OutOfRange(
            f"The clip closes from {largest * 1e3:g} mm to {smallest * 1e3:g} mm; the largest "
            "diameter of a clip is above its smallest."
        )
    return (hose_outside - smallest) / (largest - smallest)


def clip_fits(hose_outside: Length, smallest: Length, largest: Length) -> bool:
    """Whether a hose lies inside the range of a clip.

    Source: ranges are marked on the band, DIN 3017-1. Confidence: common-practice.

    hose_outside: outside diameter on the spigot [m], > 0
    smallest: lower end of the clip's range [m], > 0
    largest: upper end [m], above the lower one
    Returns true or false, true at both ends.
    Valid for: worm-drive clips.
    Raises OutOfRange: a value outside its range.

    >>> clip_fits(24e-3, 25e-3, 40e-3)
    False
    """
    # The slack keeps a hose that was read as the end of the range inside it.
    return -1e-9 <= clip_position(hose_outside, smallest, largest) <= 1.0 + 1e-9


def blanking_plugs_needed(openings: Number, used: Number) -> Number:
    """Openings of an enclosure that nothing fills and a plug must n [1].

    Source: count. Confidence: common-practice.

    openings: entries, knock-outs and tappings there are [1], whole, >= 0
    used: of them filled by a gland, pipe or gauge [1], whole, at most as many
    Returns [1].
    Valid for: plugs of the thread and of the protection of the enclosure.
    Raises OutOfRange: counts not whole, or more used than there are.

    >>> blanking_plugs_needed(4, 2)
    2.0
    """
    _require_count(openings, "number of openings")
    _require_count(used, "number of openings used")
    if used > openings:
        raise OutOfRange(
            f"There are {openings:g} openings and {used:g} are used; no more can be used than "
            "there are."
        )
    return float(openings - used)
