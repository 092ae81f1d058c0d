"""Pieces of a duct: what the bends at its ends take off a straight piece.

A straight piece is measured to the corner points of its bends, where the two axes
meet. Each bend reaches back from its corner by its tangent length, and the piece is
cut by so much shorter.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ._bounds import require_at_least, require_within
from .dimensions import Angle, Length, Number
from .limits import OutOfRange

__all__ = ["bend_take_off", "taken_by_neighbours"]


def bend_take_off(radius: Length, angle: Angle) -> Length:
    """Tangent length of a bend [m]: from the corner point of its axes to its face.

    Source: plane geometry, tangents of a circular arc. Confidence: checked.

    radius: radius of the bend's centre line [m], not negative
    angle: change of direction [rad], from 0 to 170 degrees
    Returns [m].
    Valid for: one circular arc between two straight axes; a segmented bend of that radius.
    Raises OutOfRange: for a negative radius and for an angle beyond the range.

    >>> bend_take_off(0.27, math.radians(90))
    0.27
    >>> bend_take_off(0.27, math.radians(45))
    0.1118
    """
    require_at_least(radius, 0.0, "radius of the bend", "m")
    require_within(
        math.degrees(angle), 0.0, 170.0, "angle of the bend", "°", "the tangent length of a bend"
    )
    return radius * math.tan(angle / 2)


def taken_by_neighbours(chosen: Sequence[Number], take_offs: Sequence[Length]) -> Length:
    """What the parts right before and behind the chosen ones take off them together [m].

    Source: Mistwright project choice, the parts of a duct in the order of the air.
    Confidence: common-practice.

    chosen: for each part 1 where it is meant, 0 elsewhere [1]
    take_offs: for each part what it takes off a straight neighbour [m], 0 m where nothing
    Returns [m].
    Valid for: parts listed in the order in which they join, each joined to the next.
    Raises OutOfRange: if the two lists differ in length or a mark is neither 0 nor 1.

    >>> taken_by_neighbours([0, 1, 0, 0], [0.0, 0.0, 0.27, 0.0])
    0.27
    >>> taken_by_neighbours([1, 0, 1, 0], [0.0, 0.27, 0.0, 0.1])
    0.64
    """
    if len(chosen) != len(take_offs):
        raise OutOfRange(
            f"There are {len(chosen)} marks for {len(take_offs)} parts; each part needs one."
        )
    if any(mark not in (0, 1) for mark in chosen):
        raise OutOfRange("A mark of a part is neither 0 nor 1.")
    beside = [0.0, *take_offs, 0.0]
    return sum(beside[place] + beside[place + 2] for place, mark in enumerate(chosen) if mark == 1)
