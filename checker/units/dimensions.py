"""Dimensions as exponent vectors, and how to say one to a person."""

from __future__ import annotations

from checker.units.table import DIMENSION_NAMES

__all__ = ["NONE", "Dimension", "describe", "divide", "multiply", "power"]

Dimension = tuple[float, ...]

NONE: Dimension = (0,) * len(DIMENSION_NAMES)

# Names a reader knows better than a product of base dimensions. Where one vector
# has two names (torque and energy) the finding's unit tells which is meant.
_KNOWN: dict[Dimension, str] = {
    NONE: "a plain number",
    (1, 0, 0, 0, 0, 0, 0): "length",
    (2, 0, 0, 0, 0, 0, 0): "area",
    (3, 0, 0, 0, 0, 0, 0): "volume or section modulus",
    (4, 0, 0, 0, 0, 0, 0): "second moment of area",
    (0, 1, 0, 0, 0, 0, 0): "mass",
    (0, 0, 1, 0, 0, 0, 0): "time",
    (0, 0, -1, 0, 0, 0, 0): "frequency",
    (0, 0, 0, 1, 0, 0, 0): "current",
    (0, 0, 0, 0, 1, 0, 0): "temperature",
    (0, 0, 0, 0, 0, 0, 1): "sound level",
    (1, 0, -1, 0, 0, 0, 0): "speed",
    (1, 0, -2, 0, 0, 0, 0): "acceleration",
    (3, 0, -1, 0, 0, 0, 0): "volume flow",
    (-3, 1, 0, 0, 0, 0, 0): "density",
    (-1, 1, 0, 0, 0, 0, 0): "mass per length",
    (0, 1, -1, 0, 0, 0, 0): "mass flow",
    (1, 1, -2, 0, 0, 0, 0): "force",
    (2, 1, -2, 0, 0, 0, 0): "torque or energy",
    (0, 1, -2, 0, 0, 0, 0): "stiffness",
    (-1, 1, -2, 0, 0, 0, 0): "pressure or stress",
    (2, 1, -3, 0, 0, 0, 0): "power",
    (-1, 1, -1, 0, 0, 0, 0): "dynamic viscosity",
    (2, 0, -1, 0, 0, 0, 0): "kinematic viscosity",
    (2, 1, -3, -1, 0, 0, 0): "voltage",
    (2, 1, -3, -2, 0, 0, 0): "resistance",
    (1, 1, -3, -2, 0, 0, 0): "resistance per length",
}
_SYMBOLS = ("m", "kg", "s", "A", "K", "cd", "dB")


def multiply(left: Dimension, right: Dimension) -> Dimension:
    """The dimension of a product."""
    return tuple(a + b for a, b in zip(left, right, strict=True))


def divide(left: Dimension, right: Dimension) -> Dimension:
    """The dimension of a quotient."""
    return tuple(a - b for a, b in zip(left, right, strict=True))


def power(base: Dimension, exponent: float) -> Dimension:
    """The dimension of a power; exponents that are not whole stay visible.

    >>> power((3, 0, 0, 0, 0, 0, 0), 0.5)[0]
    1.5
    """
    return tuple(_tidy(a * exponent) for a in base)


def describe(dimension: Dimension) -> str:
    """A dimension in words, with its coherent SI unit.

    >>> describe((1, 1, -2, 0, 0, 0, 0))
    'force (kg·m/s2)'
    >>> describe(NONE)
    'a plain number'
    """
    name = _KNOWN.get(dimension)
    if dimension == NONE:
        return str(name)
    above = "·".join(
        f"{s}{_exponent(e)}"
        for s, e in zip(("kg", "m", *_SYMBOLS[2:]), _kg_first(dimension), strict=True)
        if e > 0
    )
    below = "·".join(
        f"{s}{_exponent(-e)}"
        for s, e in zip(("kg", "m", *_SYMBOLS[2:]), _kg_first(dimension), strict=True)
        if e < 0
    )
    symbol = (above or "1") + (f"/({below})" if "·" in below else f"/{below}" if below else "")
    return f"{name} ({symbol})" if name else symbol


def _kg_first(dimension: Dimension) -> Dimension:
    return (dimension[1], dimension[0], *dimension[2:])


def _exponent(value: float) -> str:
    return "" if value == 1 else f"{value:g}"


def _tidy(value: float) -> float:
    nearest = round(value * 1e9) / 1e9
    return int(nearest) if nearest == int(nearest) else nearest
