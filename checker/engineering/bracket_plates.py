"""Bolts of a bracket plate on an upright face, by what a tape measures of it.

``bolt_groups`` takes the height of every row; a survey states the farthest row, the
distance from first to last, and how many rows stand between them.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive
from .bolt_groups import pivoting_plate_bolt_tension
from .dimensions import Force, Length, Moment, Number
from .limits import OutOfRange

__all__ = ["upright_plate_bolt_tension"]


def upright_plate_bolt_tension(
    moment: Moment, lever: Length, row_spacing: Length, rows: Number, bolts_per_row: Number
) -> Force:
    """Tension in each bolt of the farthest row of a plate with evenly spaced rows, N.

    Source: statics of a rigid plate that pivots on its edge, N_i = M·y_i/Σy_j² (Machinery's
    Handbook and most textbooks on bracket bolts). Confidence: from-memory.

    moment: M about the edge on which the plate pivots [N·m], >= 0
    lever: y of the farthest row above that edge [m], > 0
    row_spacing: from the first row to the last [m], above 0 and below the lever; 0 for one row
    rows: rows, evenly spaced, whole number >= 1
    bolts_per_row: bolts in each row, whole number >= 1
    Returns [N] per bolt, prying not included, see ``prying_factor``.
    Valid for: a plate stiff enough to stay flat, all rows alike.
    Raises OutOfRange: rows that do not fit below the lever, no whole number of rows or bolts.

    Arithmetic of the formula, rows of two bolts at 40 mm and 160 mm:

    >>> upright_plate_bolt_tension(278.1, 0.160, 0.120, 2.0, 2.0)
    817.9
    """
    require_positive(lever, "lever of the farthest row", "m")
    require_at_least(row_spacing, 0.0, "distance from first to last row", "m")
    if not (math.isfinite(rows) and rows >= 1.0 and rows == int(rows)):
        raise OutOfRange(f"The number of rows is {rows:g}; it must be a whole number from 1.")
    if rows == 1.0 and row_spacing > 0.0:
        raise OutOfRange(
            f"The distance from first to last row is {row_spacing * 1e3:.4g} mm for one row; "
            "one row has none."
        )
    if rows > 1.0 and not 0.0 < row_spacing < lever:
        raise OutOfRange(
            f"The rows span {row_spacing * 1e3:.4g} mm below a farthest row at "
            f"{lever * 1e3:.4g} mm; the nearest must stand above the edge that the plate pivots on."
        )
    gap = row_spacing / (rows - 1.0) if rows > 1.0 else 0.0
    heights = [lever - gap * step for step in range(int(rows))]
    return pivoting_plate_bolt_tension(moment, heights, bolts_per_row)
