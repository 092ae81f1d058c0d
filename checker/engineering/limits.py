"""The one way an engineering function says "not with these numbers"."""

from __future__ import annotations

__all__ = ["OutOfRange"]


class OutOfRange(ValueError):
    """A value outside the range for which a formula or a table holds.

    The text is a whole sentence for a reader on site: the value, the range, and
    what the range belongs to. The evaluator turns it into a ``confirm`` finding;
    nothing is ever extrapolated.

    >>> raise OutOfRange("The wall is 0.4 mm; the formula holds from 0.5 mm to 3 mm.")
    Traceback (most recent call last):
    checker.engineering.limits.OutOfRange: The wall is 0.4 mm; the formula holds from 0.5 mm to 3 mm.
    """
