"""What a formula's value is: a number with a dimension, a text, a yes-or-no, a list."""

from __future__ import annotations

from dataclasses import dataclass

from checker.installation.fields import Layout
from checker.units.dimensions import NONE, Dimension, describe

__all__ = ["FLAG", "PLAIN", "ZERO", "Flag", "Items", "Members", "Numeric", "Text", "Type", "say"]


@dataclass(frozen=True, slots=True)
class Numeric:
    """A number. ``point`` marks a place on a scale (a temperature, a date), not an amount."""

    dimension: Dimension
    point: str | None = None
    # Nought has no unit: it may be compared with, or stand instead of, any number.
    is_zero: bool = False


@dataclass(frozen=True, slots=True)
class Text:
    """A text; ``choices`` are the only ones it can be, where that is known."""

    choices: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class Flag:
    """True or false."""


@dataclass(frozen=True, slots=True)
class Members:
    """One member of a list of the description, or (``many``) the list itself."""

    layout: Layout
    path: str
    many: bool


@dataclass(frozen=True, slots=True)
class Items:
    """A list of values that a comprehension made."""

    of: Numeric | Text | Flag


Type = Numeric | Text | Flag | Members | Items

PLAIN = Numeric(NONE)
ZERO = Numeric(NONE, is_zero=True)
FLAG = Flag()


def say(kind: Type) -> str:
    """A type in words.

    >>> say(Numeric((0, 1, 0, 0, 0, 0, 0)))
    'mass (kg)'
    """
    match kind:
        case Numeric(point="temperature"):
            return "a temperature (degC)"
        case Numeric(point="date"):
            return "a date"
        case Numeric(dimension=dimension):
            return describe(dimension)
        case Text(choices=choices):
            return f"a text ({' | '.join(choices)})" if choices else "a text"
        case Flag():
            return "true or false"
        case Members(path=path, many=many):
            return f"the list {path}" if many else f"a member of {path}"
        case Items(of=of):
            return f"a list of {say(of)}"
