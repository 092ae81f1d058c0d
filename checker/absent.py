"""What stands in the place of a value that nobody stated.

An absent value may be passed about, and ``stated(...)`` may ask for it; any other
use raises, with the names of the fields that are missing. So a formula that never
needs a field does not miss it, one that does cannot quietly go on without it, and
a formula whose values are all there pays nothing for the question.
"""

from __future__ import annotations

from typing import Any, NoReturn

__all__ = ["Absent", "CannotTell", "OutOfReach", "Unstated"]


class CannotTell(Exception):
    """A formula that has no answer for this installation."""


class Unstated(CannotTell):
    """Fields that a formula needs and the description does not state."""

    args: tuple[str, ...]

    @property
    def paths(self) -> tuple[str, ...]:
        """The fields, by their paths."""
        return self.args


class OutOfReach(CannotTell):
    """Values that lie outside what a formula or a table holds for."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


class Absent:
    """A value that is not there; ``why`` is raised wherever it is used.

    >>> from checker.absent import Absent, Unstated
    >>> 2.0 * Absent(Unstated("collector.mass"))
    Traceback (most recent call last):
    checker.absent.Unstated: collector.mass
    """

    __slots__ = ("why",)

    def __init__(self, why: CannotTell) -> None:
        self.why = why

    def __repr__(self) -> str:
        return f"Absent({self.why!r})"

    def _raise(self, *_: Any) -> NoReturn:
        # A new exception each time: the stored one would gather a traceback at every raise.
        raise type(self.why)(*self.why.args)

    __add__ = __radd__ = __sub__ = __rsub__ = __mul__ = __rmul__ = _raise
    __truediv__ = __rtruediv__ = __floordiv__ = __rfloordiv__ = __mod__ = __rmod__ = _raise
    __pow__ = __rpow__ = __neg__ = __pos__ = __abs__ = __round__ = _raise
    __lt__ = __le__ = __gt__ = __ge__ = _raise
    __eq__ = __ne__ = _raise
    __hash__ = _raise
    __bool__ = __float__ = __int__ = __index__ = __len__ = __iter__ = _raise
    __getitem__ = __contains__ = __floor__ = __ceil__ = __trunc__ = __str__ = _raise
