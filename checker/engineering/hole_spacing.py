"""Where bolt holes may stand: least and greatest distances to edges and to each other.

EN 1993-1-8:2005 Table 3.3. Distances are measured from the centre of the hole as
drilled; slotting it on site changes the result.
"""

from __future__ import annotations

from typing import Literal

from ._bounds import require_positive
from .dimensions import Length
from .limits import OutOfRange

__all__ = [
    "HoleShape",
    "SteelExposure",
    "maximum_edge_distance",
    "maximum_inner_tension_pitch",
    "maximum_pitch",
    "minimum_edge_distance",
    "minimum_gauge",
    "minimum_pitch",
]

HoleShape = Literal["round", "slotted"]
SteelExposure = Literal["exposed", "weathering-steel"]


def minimum_edge_distance(hole_shape: HoleShape, hole_diameter: Length) -> Length:
    """Least distance from a hole to an end or an edge, e1 and e2, or e3 and e4 of a slot, m.

    Source: EN 1993-1-8:2005, Table 3.3. Confidence: checked.

    hole_shape: ``round`` (1.2·d0) or ``slotted`` (1.5·d0)
    hole_diameter: d0, of a slot its width [m], > 0
    Returns [m]; for a slot from the centre of its end radius.
    Valid for: bolts from 3 mm plate up; sheet below has its own, see ``sheet``.
    Raises OutOfRange: another shape, a hole not above zero.

    Worksheet "Design resistance for individual fasteners", d0 22 mm, printed 26.4 mm:

    >>> minimum_edge_distance("round", 0.022) * 1000
    26.4
    """
    require_positive(hole_diameter, "hole diameter", "m")
    if hole_shape == "round":
        return 1.2 * hole_diameter
    if hole_shape == "slotted":
        return 1.5 * hole_diameter
    raise OutOfRange(
        f"The hole is {hole_shape!r}; EN 1993-1-8 Table 3.3 covers round and slotted holes."
    )


def minimum_pitch(hole_diameter: Length) -> Length:
    """Least spacing of bolts along the force, p1 = 2.2·d0, m.

    Source: EN 1993-1-8:2005, Table 3.3. Confidence: checked.

    hole_diameter: d0 [m], > 0
    Returns [m].
    Valid for: round holes.
    Raises OutOfRange: a hole not above zero.

    Worksheet "Design resistance for individual fasteners", d0 22 mm, printed 48.4 mm:

    >>> minimum_pitch(0.022) * 1000
    48.4
    """
    require_positive(hole_diameter, "hole diameter", "m")
    return 2.2 * hole_diameter


def minimum_gauge(hole_diameter: Length) -> Length:
    """Least spacing of bolt lines across the force, p2 = 2.4·d0, m.

    Source: EN 1993-1-8:2005, Table 3.3. Confidence: checked.

    hole_diameter: d0 [m], > 0
    Returns [m].
    Valid for: round holes in line. Staggered lines may stand closer, which is not covered here.
    Raises OutOfRange: a hole not above zero.

    Worksheet "Design resistance for individual fasteners", d0 22 mm, printed 52.8 mm:

    >>> minimum_gauge(0.022) * 1000
    52.8
    """
    require_positive(hole_diameter, "hole diameter", "m")
    return 2.4 * hole_diameter


def maximum_edge_distance(exposure: SteelExposure, thickness: Length) -> Length:
    """Greatest distance from a hole to an end or an edge, e1 and e2, m.

    Source: EN 1993-1-8:2005, Table 3.3. Confidence: checked.

    exposure: ``exposed`` to weather or other corrosive influence, coolant mist for one
    (4·t + 40 mm), or bare ``weathering-steel`` (the larger of 8·t and 125 mm)
    thickness: t of the thinner outer part [m], > 0
    Returns [m].
    Valid for: these two. Dry and sheltered steel has no greatest edge distance.
    Raises OutOfRange: another exposure, a thickness not above zero.

    Arithmetic of the formula, 1.5 mm sheet:

    >>> maximum_edge_distance("exposed", 0.0015) * 1000
    46.0
    """
    require_positive(thickness, "thickness of the thinner outer part", "m")
    if exposure == "exposed":
        return 4.0 * thickness + 0.040
    if exposure == "weathering-steel":
        return max(8.0 * thickness, 0.125)
    raise OutOfRange(
        f"The exposure is {exposure!r}; EN 1993-1-8 Table 3.3 sets a greatest edge distance "
        "for exposed steel and for weathering steel only."
    )


def maximum_pitch(thickness: Length) -> Length:
    """Greatest spacing of bolts, p1 and p2, the smaller of 14·t and 200 mm, m.

    Source: EN 1993-1-8:2005, Table 3.3. Confidence: checked.

    thickness: t of the thinner outer part [m], > 0
    Returns [m].
    Valid for: members in compression, and outer rows in tension; not bare weathering steel.
    Raises OutOfRange: a thickness not above zero.

    >>> maximum_pitch(0.020) * 1000
    200.0
    """
    require_positive(thickness, "thickness of the thinner outer part", "m")
    return min(14.0 * thickness, 0.200)


def maximum_inner_tension_pitch(thickness: Length) -> Length:
    """Greatest spacing of bolts in inner rows of a member in tension, p1,i, m.

    Source: EN 1993-1-8:2005, Table 3.3. Confidence: checked.

    thickness: t of the thinner outer part [m], > 0
    Returns the smaller of 28·t and 400 mm [m].
    Valid for: inner rows in tension with outer rows that meet ``maximum_pitch``.
    Raises OutOfRange: a thickness not above zero.

    >>> maximum_inner_tension_pitch(0.010) * 1000
    280.0
    """
    require_positive(thickness, "thickness of the thinner outer part", "m")
    return min(28.0 * thickness, 0.400)
