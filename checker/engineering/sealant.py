"""Sealant: cross-section of a bead, its length round a flange, cartridges for it.

A bead of 1 mm² takes 1 ml a metre; charts that promise more are wrong.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Area, Length, Number, Volume
from .limits import OutOfRange

__all__ = [
    "bead_length_per_cartridge",
    "bead_volume",
    "cartridges_needed",
    "fillet_bead_area",
    "flange_bead_length",
    "half_round_bead_area",
    "rectangular_bead_area",
    "round_bead_area",
]


def round_bead_area(diameter: Length) -> Area:
    """Cross-section of a round bead of sealant A [m²].

    Source: A = πd²/4. Confidence: common-practice.

    diameter: of the bead as laid [m], > 0
    Returns [m²]; as many millilitres a metre as square millimetres.
    Valid for: the bead before the flange presses it flat.
    Raises OutOfRange: diameter not above zero.

    >>> round_bead_area(6e-3) * 1e6
    28.27
    """
    require_positive(diameter, "bead diameter", "m")
    return math.pi * diameter**2 / 4.0


def half_round_bead_area(width: Length) -> Area:
    """Cross-section of a half-round bead of sealant A [m²].

    Source: sealant yield guides, A = πw²/8. Confidence: checked.

    width: across the flat [m], > 0
    Returns [m²].
    Valid for: a depth of half the width.
    Raises OutOfRange: width not above zero.

    >>> half_round_bead_area(10e-3) * 1e6
    39.3
    """
    require_positive(width, "bead width", "m")
    return math.pi * width**2 / 8.0


def rectangular_bead_area(width: Length, depth: Length) -> Area:
    """Cross-section of a joint filled with sealant A [m²].

    Source: sealant yield guides, A = w d. Confidence: checked.

    width: of the joint [m], > 0
    depth: of the joint [m], > 0
    Returns [m²].
    Valid for: joints filled to the brim.
    Raises OutOfRange: width or depth not above zero.

    >>> rectangular_bead_area(10e-3, 5e-3) * 1e6
    50.0
    """
    require_positive(width, "joint width", "m")
    require_positive(depth, "joint depth", "m")
    return width * depth


def fillet_bead_area(width: Length, height: Length) -> Area:
    """Cross-section of a triangular fillet of sealant A [m²].

    Source: sealant yield guides, A = w h/2. Confidence: checked.

    width: one leg [m], > 0
    height: the other leg [m], > 0
    Returns [m²].
    Valid for: a flat face; a hollow one takes less.
    Raises OutOfRange: a leg not above zero.

    >>> fillet_bead_area(10e-3, 5e-3) * 1e6
    25.0
    """
    require_positive(width, "fillet width", "m")
    require_positive(height, "fillet height", "m")
    return width * height / 2.0


def flange_bead_length(perimeter: Length, bolts: Number, ring_diameter: Length) -> Length:
    """Length of a closed bead and a ring round each bolt of a flange L [m].

    Source: L = U + nπd. Confidence: common-practice.

    perimeter: of the closed bead [m], > 0
    bolts: holes that get a ring of their own [1], whole, >= 0
    ring_diameter: of such a ring [m], >= 0
    Returns [m].
    Valid for: one bead; a second one adds its own perimeter.
    Raises OutOfRange: a value outside its range.

    >>> flange_bead_length(1.00, 8, 20e-3)
    1.503
    """
    require_positive(perimeter, "perimeter of the bead", "m")
    if not bolts >= 0.0 or not float(bolts).is_integer():
        raise OutOfRange(f"The number of bolts is {bolts:g}; it must be a whole number from 0.")
    require_at_least(ring_diameter, 0.0, "diameter of the rings", "m")
    return perimeter + bolts * math.pi * ring_diameter


def bead_volume(length: Length, area: Area) -> Volume:
    """Sealant in a bead V [m³].

    Source: V = L A. Confidence: common-practice.

    length: of the bead [m], >= 0
    area: of its cross-section [m²], > 0
    Returns [m³].
    Valid for: no waste.
    Raises OutOfRange: a value outside its range.

    >>> bead_volume(1.081, 28.27e-6) * 1e6       # millilitres
    30.6
    """
    require_at_least(length, 0.0, "bead length", "m")
    require_positive(area, "cross-section of the bead", "m²")
    return length * area


def bead_length_per_cartridge(cartridge: Volume, area: Area) -> Length:
    """Length of bead that one cartridge yields L [m].

    Source: sealant yield guides, contents over cross-section. Confidence: checked.

    cartridge: contents [m³], > 0
    area: of the bead's cross-section [m²], > 0
    Returns [m].
    Valid for: no waste.
    Raises OutOfRange: a value outside its range.

    >>> bead_length_per_cartridge(310e-6, 28.27e-6)
    10.97
    """
    require_positive(cartridge, "contents of the cartridge", "m³")
    require_positive(area, "cross-section of the bead", "m²")
    return cartridge / area


def cartridges_needed(volume: Volume, waste: Number, cartridge: Volume) -> Number:
    """Whole cartridges for a volume of sealant n [1].

    Source: n = ⌈V(1 + w)/Vc⌉. Confidence: common-practice.

    volume: in the beads [m³], >= 0
    waste: share lost in nozzles, tails and tooling [1], 0 to 1
    cartridge: contents [m³], > 0
    Returns [1].
    Valid for: one sealant; opened cartridges are not carried over.
    Raises OutOfRange: a value outside its range.

    >>> cartridges_needed(300e-6, 0.15, 310e-6)
    2.0
    """
    require_at_least(volume, 0.0, "volume of sealant", "m³")
    require_within(waste, 0.0, 1.0, "share of waste", "", "an estimate of sealant")
    require_positive(cartridge, "contents of the cartridge", "m³")
    # The slack keeps an exact multiple, which binary fractions may hold as a little more.
    return float(math.ceil(volume * (1.0 + waste) / cartridge - 1e-9))
