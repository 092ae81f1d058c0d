"""Range checks and table interpolation that raise instead of guessing.

Shared by the modules of this folder and not callable from a rule: nothing here
is a quantity. Every refusal is one whole sentence, as ``OutOfRange`` asks.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence

from .limits import OutOfRange

__all__ = [
    "interpolated",
    "interpolated_twice",
    "require_at_least",
    "require_positive",
    "require_within",
]

# Conversions such as degrees to radians and back leave the last bit wrong; a value
# this close to the end of a range is the end of the range.
_ROUNDING = 1e-9


def _with_unit(value: float, unit: str) -> str:
    return f"{value:.6g} {unit}".rstrip()


def require_positive(value: float, what: str, unit: str = "") -> None:
    """Refuse zero, negative, infinite and undefined values of a quantity.

    >>> require_positive(0.0, "bore", "m")
    Traceback (most recent call last):
    checker.engineering.limits.OutOfRange: The bore is 0 m; it must be greater than 0 m.
    """
    if not (value > 0.0 and math.isfinite(value)):
        raise OutOfRange(
            f"The {what} is {_with_unit(value, unit)}; "
            f"it must be greater than {_with_unit(0.0, unit)}."
        )


def require_at_least(value: float, lowest: float, what: str, unit: str = "") -> None:
    """Refuse values under the lowest possible one, infinite and undefined values.

    >>> require_at_least(-2.0, 0.0, "length", "m")
    Traceback (most recent call last):
    checker.engineering.limits.OutOfRange: The length is -2 m; it must be at least 0 m.
    """
    if not (value >= lowest - _ROUNDING * abs(lowest) and math.isfinite(value)):
        raise OutOfRange(
            f"The {what} is {_with_unit(value, unit)}; "
            f"it must be at least {_with_unit(lowest, unit)}."
        )


def require_within(
    value: float, lowest: float, highest: float, what: str, unit: str, belongs_to: str
) -> None:
    """Refuse values outside a closed range, and say what the range belongs to.

    >>> require_within(0.06, 0.0, 0.05, "relative roughness", "", "the Colebrook equation")
    Traceback (most recent call last):
    checker.engineering.limits.OutOfRange: The relative roughness is 0.06; the Colebrook equation
    holds from 0 to 0.05.
    """
    low, high = lowest - _ROUNDING * abs(lowest), highest + _ROUNDING * abs(highest)
    if not low <= value <= high:
        raise OutOfRange(
            f"The {what} is {_with_unit(value, unit)}; {belongs_to} holds from "
            f"{_with_unit(lowest, unit)} to {_with_unit(highest, unit)}."
        )


def interpolated(
    value: float,
    points: Sequence[float],
    values: Sequence[float],
    what: str,
    unit: str,
    belongs_to: str,
) -> float:
    """Straight line between two neighbouring points of a table, never beyond its ends.

    >>> interpolated(1.25, [1.0, 1.5], [0.26, 0.17], "radius ratio", "", "the table")
    0.215
    >>> interpolated(3.0, [1.0, 1.5], [0.26, 0.17], "radius ratio", "", "the table")
    Traceback (most recent call last):
    checker.engineering.limits.OutOfRange: The radius ratio is 3; the table holds from 1 to 1.5.
    """
    require_within(value, points[0], points[-1], what, unit, belongs_to)
    right = min(max(bisect_right(points, value), 1), len(points) - 1)
    share = (value - points[right - 1]) / (points[right] - points[right - 1])
    return values[right - 1] + share * (values[right] - values[right - 1])


def interpolated_twice(
    row: float,
    column: float,
    rows: Sequence[float],
    columns: Sequence[float],
    values: Sequence[Sequence[float]],
    names: tuple[str, str],
    belongs_to: str,
) -> float:
    """Straight lines along both directions of a two-way table of plain numbers.

    >>> interpolated_twice(
    ...     0.5, 1.0, [0.0, 1.0], [0.0, 2.0], [[1.0, 3.0], [2.0, 4.0]], ("row", "column"), "it"
    ... )
    2.5
    """
    along = [interpolated(column, columns, line, names[1], "", belongs_to) for line in values]
    return interpolated(row, rows, along, names[0], "", belongs_to)
