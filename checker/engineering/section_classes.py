"""Classes of tube sections: whether the walls buckle before the section yields.

Class 1 and 2 sections reach their plastic moment, class 3 sections yield at the
outermost fibre, class 4 sections buckle locally before that.
"""

from __future__ import annotations

import math
from typing import get_args

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Length, Number, Stress
from .limits import OutOfRange
from .sections import Shape

__all__ = ["section_class", "wall_slenderness", "yield_strength_coefficient"]


def yield_strength_coefficient(yield_strength: Stress) -> Number:
    """Coefficient depending on the yield strength, ε = √(235 MPa / f_y).

    Source: EN 1993-1-1:2005, Table 5.2. Confidence: checked.

    yield_strength: nominal yield strength f_y [Pa], 215 MPa to 460 MPa
    Returns [1].
    Valid for: the structural steels of EN 1993-1-1:2005, Table 3.1.
    Raises OutOfRange: another strength, as of aluminium or of a steel of a higher grade.

    >>> yield_strength_coefficient(355e6)  # printed 0.81
    0.81
    """
    require_within(
        yield_strength / 1e6, 215.0, 460.0, "yield strength", "MPa", "EN 1993-1-1 Table 3.1"
    )
    return math.sqrt(235e6 / yield_strength)


def wall_slenderness(shape: Shape, width: Length, depth: Length, wall: Length) -> Number:
    """Slenderness of the wall of a tube, c/t for flat walls and d/t for round ones.

    Source: EN 1993-1-1:2005, Table 5.2, sheets 1 and 3, with c = h − 3t as in the UK section
    tables (SCI P363). Confidence: checked.

    shape: "square", "rectangular" or "round"
    width: outside width, or outside diameter [m], > 0
    depth: outside depth [m]; equal to the width for square and round tubes
    wall: wall thickness t [m], > 0
    Returns [1], for the widest wall.
    Valid for: both finishes; c = h − 3t is on the conservative side of either corner radius.
    Raises OutOfRange: a wall too thick to leave the tube hollow.

    >>> wall_slenderness("square", 0.150, 0.150, 0.0063)  # printed 20.8
    20.8
    >>> wall_slenderness("round", 0.2445, 0.2445, 0.010)  # printed 24.5, rounded from 24.45
    24.45
    """
    require_positive(width, "tube's width", "m")
    require_positive(depth, "tube's depth", "m")
    require_positive(wall, "tube's wall", "m")
    if 2.0 * wall >= min(width, depth):
        raise OutOfRange(
            f"The tube's wall is {wall * 1e3:.4g} mm; it must be below half the smaller outside "
            f"dimension, {min(width, depth) / 2.0 * 1e3:.4g} mm, for the tube to be hollow."
        )
    if shape not in get_args(Shape):
        raise OutOfRange(f"The tube's shape is {shape!r}; it is one of {get_args(Shape)}.")
    larger = max(width, depth)
    if shape == "round":
        return larger / wall
    return max(larger - 3.0 * wall, 0.0) / wall


def section_class(shape: Shape, slenderness: Number, yield_strength: Stress) -> Number:
    """Class of a tube section, 1 to 4, every wall taken as uniformly compressed.

    Source: EN 1993-1-1:2005, Table 5.2, sheet 1 (flat internal parts in compression: 33ε, 38ε,
    42ε) and sheet 3 (round tubes: 50ε², 70ε², 90ε²). Confidence: checked.

    shape: "square", "rectangular" or "round"
    slenderness: c/t or d/t of the widest wall [1], >= 0
    yield_strength: nominal yield strength f_y [Pa], 215 MPa to 460 MPa
    Returns 1, 2, 3 or 4 [1].
    Valid for: compression and, conservatively for flat walls, bending; a round tube in class 4
    belongs to EN 1993-1-6.
    Raises OutOfRange: slenderness below 0, a strength outside EN 1993-1-1, Table 3.1.

    >>> section_class("round", 24.45, 355e6)
    1.0
    >>> section_class("square", 40.8, 235e6)
    3.0
    """
    if shape not in get_args(Shape):
        raise OutOfRange(f"The tube's shape is {shape!r}; it is one of {get_args(Shape)}.")
    require_at_least(slenderness, 0.0, "slenderness of the wall")
    epsilon = yield_strength_coefficient(yield_strength)
    limits = (50.0, 70.0, 90.0) if shape == "round" else (33.0, 38.0, 42.0)
    scale = epsilon**2 if shape == "round" else epsilon
    # A tube drawn exactly on a limit belongs to the better class, whatever the last bit says.
    return 1.0 + sum(slenderness > limit * scale * (1.0 + 1e-9) for limit in limits)
