"""How a load on a bracket or a base plate is shared among its bolts.

Elastic methods for rigid plates: a plate that pivots on its lower edge, a plate
loaded in its own plane off the centroid, two brackets one above the other.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from ._bounds import require_at_least, require_positive
from .dimensions import Area, Force, Length, Moment, Number
from .limits import OutOfRange

__all__ = [
    "BracketSharing",
    "base_plate_bolt_tension",
    "bolt_group_polar_moment",
    "bracket_couple_force",
    "bracket_resultant_force",
    "bracket_vertical_force",
    "eccentric_bolt_force",
    "largest_eccentric_bolt_force",
    "pivoting_plate_bolt_tension",
    "prying_factor",
    "shear_per_bolt",
]

BracketSharing = Literal["both", "one"]


def _require_bolts(count: float, what: str) -> None:
    if not (math.isfinite(count) and count >= 1.0 and count == int(count)):
        raise OutOfRange(f"The number of {what} is {count:g}; it must be a whole number from 1.")


def pivoting_plate_bolt_tension(
    moment: Moment, row_heights: Sequence[Length], bolts_per_row: Number
) -> Force:
    """Tension in each bolt of the row farthest from the edge a bracket plate pivots on, N.

    Source: statics of a rigid plate, N_i = M·y_i/Σy_j² (Machinery's Handbook and most
    textbooks on bracket bolts). Confidence: from-memory.

    moment: M of the load about the lower edge [N·m], >= 0
    row_heights: y of every bolt row above the lower edge [m], each > 0, at least one
    bolts_per_row: bolts in each row, whole number >= 1
    Returns [N] per bolt, prying not included, see ``prying_factor``.
    Valid for: a plate stiff enough to stay flat, all rows alike.
    Raises OutOfRange: no row, a row not above the edge, no whole number of bolts.

    Arithmetic of the formula, rows of two bolts at 40 mm and 160 mm:

    >>> pivoting_plate_bolt_tension(278.1, [0.040, 0.160], 2.0)
    817.9
    """
    require_at_least(moment, 0.0, "moment on the bracket plate", "N·m")
    _require_bolts(bolts_per_row, "bolts in a row")
    if not row_heights:
        raise OutOfRange("The bracket plate has no bolt row; it needs at least one.")
    for height in row_heights:
        require_positive(height, "height of a bolt row above the lower edge", "m")
    squares = math.fsum(height**2 for height in row_heights)
    return moment * max(row_heights) / squares / bolts_per_row


def shear_per_bolt(shear: Force, bolts: Number) -> Force:
    """Direct shear in each bolt of a group, V/n, N.

    Source: Shigley, Mechanical Engineering Design, 9th ed., section 8-12 (primary shear).
    Confidence: checked.

    shear: V on the group [N], >= 0
    bolts: n, those that really bear; slotted or wide holes do not count, whole number >= 1
    Returns [N].
    Valid for: a rigid plate.
    Raises OutOfRange: a negative shear, no whole number of bolts.

    Example 8-7, 16 kN on four bolts, printed 4 kN:

    >>> shear_per_bolt(16000.0, 4.0)
    4000.0
    """
    require_at_least(shear, 0.0, "shear on the bolt group", "N")
    _require_bolts(bolts, "bolts")
    return shear / bolts


def bolt_group_polar_moment(along: Sequence[Length], across: Sequence[Length]) -> Area:
    """Polar moment of a group of equal bolts about its centroid, Σr², m².

    Source: Shigley, Mechanical Engineering Design, 9th ed., equations 8-56 and 8-57.
    Confidence: checked.

    along: position of each bolt in one direction from any origin [m]
    across: position of each bolt at right angles to it, same order [m]
    Returns Σr² per unit bolt area [m²].
    Valid for: bolts of one size.
    Raises OutOfRange: no bolts, lists of different length.

    Example 8-7, 120 × 150 mm, four times 96.0 mm squared:

    >>> bolt_group_polar_moment([0.0, 0.15, 0.15, 0.0], [0.0, 0.0, 0.12, 0.12])
    0.0369
    """
    if not along or len(along) != len(across):
        raise OutOfRange(
            f"The bolt group has {len(along)} positions one way and {len(across)} the other; "
            "both lists name each bolt once."
        )
    if not all(math.isfinite(position) for position in (*along, *across)):
        raise OutOfRange("A bolt position is not a finite number; each is a measured length.")
    centre_along = math.fsum(along) / len(along)
    centre_across = math.fsum(across) / len(across)
    return math.fsum(
        (x - centre_along) ** 2 + (y - centre_across) ** 2
        for x, y in zip(along, across, strict=True)
    )


def eccentric_bolt_force(
    load: Force, arm: Length, bolts: Number, polar_moment: Area, along: Length, across: Length
) -> Force:
    """Shear in one bolt of a group loaded in its plane beside its centroid, N.

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 8-57, Example 8-7.
    Confidence: checked.

    load: in the plane of the plate [N], >= 0
    arm: centroid to the line of the load [m], >= 0
    bolts: n in the group, whole number >= 1
    polar_moment: Σr² of the group, see ``bolt_group_polar_moment`` [m²], > 0
    along: the bolt's distance from the centroid towards the load, negative away from it [m]
    across: the bolt's distance from the centroid in the direction of the load [m]
    Returns the resultant of direct and turning shear [N].
    Valid for: bolts of one size in tight holes, a rigid plate.
    Raises OutOfRange: a negative load or arm, a group without extent.

    Example 8-7, bolt far from the load, printed 14.8 kN:

    >>> eccentric_bolt_force(16000.0, 0.425, 4.0, 0.0369, -0.075, 0.060) / 1000
    14.8
    """
    require_at_least(load, 0.0, "load on the bolt group", "N")
    require_at_least(arm, 0.0, "arm of the load", "m")
    _require_bolts(bolts, "bolts")
    require_positive(polar_moment, "polar moment of the bolt group", "m²")
    if not (math.isfinite(along) and math.isfinite(across)):
        raise OutOfRange("The bolt's position is not a finite number; it is a measured length.")
    turning = load * arm / polar_moment
    return math.hypot(load / bolts + turning * along, turning * across)


def largest_eccentric_bolt_force(
    load: Force, arm: Length, along: Sequence[Length], across: Sequence[Length]
) -> Force:
    """Largest shear in any bolt of a group loaded in its plane beside its centroid, N.

    Source: Shigley, Mechanical Engineering Design, 9th ed., equation 8-57, Example 8-7.
    Confidence: checked.

    load: in the plane of the plate [N], >= 0
    arm: centroid to the line of the load [m], >= 0
    along: position of each bolt towards the load from any origin [m]
    across: position of each bolt in the direction of the load, same order [m]
    Returns [N].
    Valid for: bolts of one size in tight holes, a rigid plate.
    Raises OutOfRange: a negative load or arm, fewer than two bolts apart, unequal lists.

    Example 8-7, printed 21.0 kN:

    >>> largest_eccentric_bolt_force(
    ...     16000.0, 0.425, [0.0, 0.15, 0.15, 0.0], [0.0, 0.0, 0.12, 0.12]
    ... ) / 1000
    21.0
    """
    polar_moment = bolt_group_polar_moment(along, across)
    centre_along = math.fsum(along) / len(along)
    centre_across = math.fsum(across) / len(across)
    bolts = float(len(along))
    return max(
        eccentric_bolt_force(load, arm, bolts, polar_moment, x - centre_along, y - centre_across)
        for x, y in zip(along, across, strict=True)
    )


def bracket_couple_force(weight: Force, arm: Length, spacing: Length) -> Force:
    """Pull on the upper and push on the lower of two brackets, W·e/s, N.

    Source: statics of a couple. Confidence: checked.

    weight: W carried by the pair [N], >= 0
    arm: e, wall to centre of gravity [m], >= 0
    spacing: s, vertical distance between the brackets [m], > 0
    Returns [N]; halving the spacing doubles it.
    Valid for: two brackets one above the other.
    Raises OutOfRange: a negative weight or arm, brackets without spacing.

    Arithmetic of the formula, 60 kg at 0.35 m on brackets 0.60 m apart:

    >>> bracket_couple_force(588.4, 0.35, 0.60)
    343.2
    """
    require_at_least(weight, 0.0, "weight on the brackets", "N")
    require_at_least(arm, 0.0, "arm of the weight", "m")
    require_positive(spacing, "vertical spacing of the brackets", "m")
    return weight * arm / spacing


def bracket_vertical_force(weight: Force, sharing: BracketSharing) -> Force:
    """Vertical force that each of two brackets must be able to carry, N.

    Source: practice for brackets with slotted holes: no sharing unless both are stiff and
    drilled alike. Confidence: common-practice.

    weight: W carried by the pair [N], >= 0
    sharing: ``both`` if both are stiff with round holes, ``one`` if either is slotted or soft
    Returns W/2 or W [N].
    Valid for: two brackets one above the other.
    Raises OutOfRange: a negative weight, another word for sharing.

    >>> bracket_vertical_force(588.4, "both")
    294.2
    """
    require_at_least(weight, 0.0, "weight on the brackets", "N")
    if sharing == "both":
        return weight / 2.0
    if sharing == "one":
        return weight
    raise OutOfRange(f"The sharing is {sharing!r}; either both brackets carry, or one does.")


def bracket_resultant_force(couple_force: Force, vertical_force: Force) -> Force:
    """Resultant of pull and vertical force on one bracket, √(R² + V²), N.

    Source: statics. Confidence: checked.

    couple_force: R, see ``bracket_couple_force`` [N], >= 0
    vertical_force: V, see ``bracket_vertical_force`` [N], >= 0
    Returns [N].
    Valid for: forces at right angles.
    Raises OutOfRange: a negative force.

    >>> bracket_resultant_force(343.2, 294.2)
    452.0
    """
    require_at_least(couple_force, 0.0, "couple force on the bracket", "N")
    require_at_least(vertical_force, 0.0, "vertical force on the bracket", "N")
    return math.hypot(couple_force, vertical_force)


def base_plate_bolt_tension(
    moment: Moment, compression: Force, lever_arm: Length, tension_bolts: Number
) -> Force:
    """Tension in each bolt on the lifting side of a base plate, (M/z − N/2)/n, N.

    Source: statics of a rigid plate with bolts along two sides. Confidence: from-memory.

    moment: M at the plate [N·m], >= 0
    compression: N on the plate from the weight it carries, taken as helping [N], >= 0
    lever_arm: z between the two rows of bolts [m], > 0
    tension_bolts: n on the lifting side, whole number >= 1
    Returns [N]; zero where the weight keeps the plate down.
    Valid for: a plate that turns about its far row of bolts.
    Raises OutOfRange: a negative moment or weight, rows without distance.

    >>> base_plate_bolt_tension(1000.0, 900.0, 0.150, 2.0)
    3108.3
    """
    require_at_least(moment, 0.0, "moment on the base plate", "N·m")
    require_at_least(compression, 0.0, "weight on the base plate", "N")
    require_positive(lever_arm, "distance between the bolt rows", "m")
    _require_bolts(tension_bolts, "bolts on the lifting side")
    return max(moment / lever_arm - compression / 2.0, 0.0) / tension_bolts


def prying_factor(plate_thickness: Length, bolt_diameter: Length) -> Number:
    """Factor on bolt tension for prying by a thin bracket plate, dimensionless.

    Source: a plate thinner than its bolt bends and levers on its edge; 1.3 is an engineering
    allowance, not a clause. EN 1993-1-8 clause 3.11 asks for prying without giving a factor.
    Confidence: common-practice.

    plate_thickness: of the bracket plate or foot [m], > 0
    bolt_diameter: d [m], > 0
    Returns 1.3 below t = d, else 1.
    Valid for: brackets with bolts close to the web or rib.
    Raises OutOfRange: a size not above zero.

    >>> prying_factor(0.006, 0.010)
    1.3
    """
    require_positive(plate_thickness, "thickness of the bracket plate", "m")
    require_positive(bolt_diameter, "bolt diameter", "m")
    # A plate as thick as its bolt is so in inches too, whatever the last bit of the float says.
    return 1.3 if plate_thickness < bolt_diameter * (1.0 - 1e-9) else 1.0
