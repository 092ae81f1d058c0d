"""Units: a closed list of spellings, each with its factor to SI and its kind."""

from __future__ import annotations

from typing import NamedTuple

from checker.units.dimensions import Dimension
from checker.units.table import ROWS

__all__ = ["Unit", "by_kind", "find", "nearest", "need"]


class Unit(NamedTuple):
    """One unit: ``si = written * factor + offset``."""

    symbol: str
    kind: str
    factor: float
    offset: float
    dimension: Dimension

    @property
    def shown(self) -> str:
        """The symbol as a report prints it.

        >>> need("m3/h").shown, need("N*m").shown, need("ohm").shown
        ('m³/h', 'N·m', 'Ω')
        """
        return _shown(self.symbol)


def find(spelling: str) -> Unit | None:
    """The unit that a spelling names, or None."""
    return _BY_SPELLING.get(spelling) or _BY_SPELLING.get(spelling.translate(_LOOKALIKES))


def need(spelling: str) -> Unit:
    """The unit that a spelling names.

    Raises KeyError for a spelling that is not on the list: for the project's own
    code, never for text that a person typed.

    >>> need("Nm").symbol
    'N*m'
    """
    unit = find(spelling)
    if unit is None:
        raise KeyError(spelling)
    return unit


def by_kind(kind: str) -> tuple[Unit, ...]:
    """All units of one kind, in the order of the table."""
    return _BY_KIND[kind]


def nearest(spelling: str, kind: str | None = None) -> str | None:
    """The spelling on the list that looks most like the one given.

    >>> nearest("kq", "mass")
    'kg'
    """
    pool = [s for s, u in _BY_SPELLING.items() if kind is None or u.kind == kind]
    lowered = {s.lower(): s for s in reversed(pool)}
    if spelling.lower() in lowered:
        return lowered[spelling.lower()]
    import difflib  # noqa: PLC0415 - only needed once something is already wrong

    found = difflib.get_close_matches(spelling, pool, n=1, cutoff=0.5)
    return found[0] if found else None


# The ohm and the micro sign have two code points each; people cannot see which.
_LOOKALIKES = str.maketrans({"\u2126": "\u03a9", "\u00b5": "\u03bc"})

_SHOWN = {
    "degC": "°C",
    "degF": "°F",
    "delta degF": "Δ°F",
    "deg": "°",
    "um": "µm",
    "uF": "µF",
    "ohm": "Ω",
    "mohm": "mΩ",
    "kohm": "kΩ",
    "Mohm": "MΩ",
    "ohm/m": "Ω/m",
    "ohm/km": "Ω/km",
    "1": "",
    "ug/m3": "µg/m³",
    "A*s^0.5/mm2": "A·√s/mm²",
    "A*s^0.5/m2": "A·√s/m²",
    "inH2O": "in wg",
    "inH2O/100ft": "in wg/100 ft",
    "ohm*m": "Ω·m",
    "ohm*mm2/m": "Ω·mm²/m",
    "mmH2O": "mm wg",
    "ft3/min": "cfm",
    "1/h": "/h",
    "1/d": "/d",
    "1/K": "/K",
}


def _shown(symbol: str) -> str:
    if symbol in _SHOWN:
        return _SHOWN[symbol]
    out = []
    for i, character in enumerate(symbol):
        raised = character in "234" and i > 0 and symbol[i - 1].isalpha()
        out.append(
            "²³⁴"["234".index(character)] if raised else "·" if character == "*" else character
        )
    return "".join(out)


_BY_SPELLING: dict[str, Unit] = {}
_BY_KIND: dict[str, tuple[Unit, ...]] = {}
for _symbol, _others, _kind, _factor, _offset, _dimension, _ in ROWS:
    _unit = Unit(_symbol, _kind, _factor, _offset, _dimension)
    _BY_KIND[_kind] = (*_BY_KIND.get(_kind, ()), _unit)
    for _spelling in (_symbol, *_others):
        _BY_SPELLING[_spelling] = _unit
