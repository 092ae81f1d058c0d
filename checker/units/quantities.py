"""What people write as a value: "28 kg ± 0.5 kg", "26..30 kg", "3/8 in".

The number grammar is strict and ours; the units are a closed list. A text that
is not understood is refused with what to write instead, because a value that is
misread quietly (a decimal comma, a gap inside a number) is worse than none.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from checker import units
from checker.units import Unit

__all__ = ["MAX_MAGNITUDE", "NotAQuantity", "Quantity", "format_number", "format_value", "parse"]


class Quantity(NamedTuple):
    """A value in coherent SI with the band that it was stated to lie in."""

    value: float
    low: float
    high: float
    unit: Unit
    text: str

    @property
    def is_exact(self) -> bool:
        """Whether no tolerance was stated."""
        return self.low == self.high


class NotAQuantity(ValueError):
    """A text that is no value with a unit; says what was found and what to write."""

    def __init__(self, what: str, hint: str) -> None:
        super().__init__(what, hint)
        self.what = what
        self.hint = hint


_PLAIN = r"[0-9]{1,15}(?:\.[0-9]{1,15})?(?:[eE][+-]?[0-9]{1,2})?"
_NUMBER = rf"[+-]?(?:(?:[0-9]{{1,4}} )?[0-9]{{1,4}}/[0-9]{{1,4}}|{_PLAIN})"
_UNIT = r"(?:1/)?[^\s0-9.,±+][^±,;]*?"
_FORMS = re.compile(
    rf"(?P<value>{_NUMBER})"
    rf"(?:\.\.(?P<upto>{_NUMBER}))?"
    rf"(?: ?(?:±|\+/-) ?(?P<bare>{_NUMBER}))?"
    rf" ?(?P<unit>{_UNIT})"
    rf"(?: ?(?:±|\+/-) ?(?P<band>{_NUMBER}) ?(?P<bandunit>{_UNIT}))?",
    re.ASCII,
)
_BARE = re.compile(_NUMBER, re.ASCII)
# What most values are: one number, one unit without a gap in it.
_USUAL = re.compile(r"([0-9]{1,15}(?:\.[0-9]{1,15})?) ?([^\s0-9.,±+;][^\s±,;]*)", re.ASCII)
MAX_TEXT = 80
MAX_MAGNITUDE = 1e15
_NOISE = 1e-11


def parse(text: str, kind: str | None = None) -> Quantity:
    """Read a value with its unit.

    text: what a person wrote. kind: the kind of unit wanted (``"mass"``), or None
    for any. Returns the quantity in SI.
    Raises NotAQuantity with what is wrong and what to write instead.

    >>> parse("28 ± 0.5 kg").low
    27.5
    >>> parse("3/8 in").value
    0.009525
    >>> parse("480 V").unit.symbol
    'V'
    """
    match = _USUAL.fullmatch(text) if len(text) <= MAX_TEXT else None
    if match is not None:
        number, spelling = match.groups()
        unit = units.find(spelling)
        if unit is not None and (kind is None or unit.kind == kind):
            value = float(number) * unit.factor + unit.offset
            if abs(value) <= MAX_MAGNITUDE:
                return Quantity(value, value, value, unit, text)
    return _parse_all(text, kind)


def _parse_all(text: str, kind: str | None) -> Quantity:
    match = _FORMS.fullmatch(text) if len(text) <= MAX_TEXT else None
    if match is None:
        raise _explain(text, kind)
    unit = units.find(match["unit"])
    if unit is None:
        raise _explain(text, kind)
    if kind is not None and unit.kind != kind:
        raise NotAQuantity(
            f"'{match['unit']}' is a unit of {unit.kind}, not of {kind}", _examples(kind)
        )
    for group in ("value", "upto", "bare", "band"):
        if match[group] is not None and "/" in match[group]:
            _refuse_odd_fraction(match[group], unit)
    value = _number(match["value"])
    low = high = value
    upto, bare, band = match["upto"], match["bare"], match["band"]
    if sum(x is not None for x in (upto, bare, band)) > 1:
        raise NotAQuantity(
            "two tolerances in one value", "write one: '28 kg ± 0.5 kg' or '26..30 kg'"
        )
    if upto is not None:
        high = _number(upto)
        if high < low:
            raise NotAQuantity(
                "the range runs backwards",
                f"write '{match['upto']}..{match['value']} {match['unit']}'",
            )
        value = (low + high) / 2
    elif bare is not None:
        spread = _spread(bare)
        low, high = value - spread, value + spread
    factor, offset = unit.factor, unit.offset
    si_low, si_high = low * factor + offset, high * factor + offset
    value = value * factor + offset
    if band is not None:
        spread = _band(band, match["bandunit"], unit, value)
        si_low, si_high = value - spread, value + spread
    if max(abs(si_low), abs(si_high)) > MAX_MAGNITUDE:
        raise NotAQuantity(
            "the number is larger than anything that is fitted to a machine", "check the exponent"
        )
    return Quantity(value, si_low, si_high, unit, text)


def _number(text: str) -> float:
    whole, _, fraction = text.rpartition(" ")
    if "/" not in fraction:
        return float(text)
    above, below = fraction.lstrip("+-").split("/")
    if int(below) == 0:
        raise NotAQuantity("a fraction over nought", "write the number as a decimal")
    sign = -1.0 if text.startswith("-") else 1.0
    return sign * ((abs(float(whole)) if whole else 0.0) + int(above) / int(below))


# Inches and pounds are written in halves and sixteenths; in "400/230 V" or "4/2 kW" the
# slash stands between two values, and a quotient would be a quiet misreading.
_IN_FRACTIONS = frozenset(("in", "ft", "in/ft", "lb", "oz", "hp", "US gal", "imp gal"))


def _refuse_odd_fraction(text: str, unit: Unit) -> None:
    above, below = text.lstrip("+-").rpartition(" ")[2].split("/")
    if int(below) != 0 and (unit.symbol not in _IN_FRACTIONS or int(above) >= int(below)):
        raise NotAQuantity(
            "a slash between two numbers",
            "write one value: '400 V', '0.5 kW'; a fraction stands with inches: '1 1/2 in'",
        )


def _spread(text: str) -> float:
    if text.startswith(("-", "+")):
        raise NotAQuantity("a sign on the tolerance", "write '± 0.5', without a sign of its own")
    return _number(text)


def _band(text: str, spelling: str, unit: Unit, value: float) -> float:
    spread = _spread(text)
    if spelling == "%" and unit.kind != "ratio":
        if unit.kind in ("temperature", "level"):
            raise NotAQuantity(
                f"a percentage of a {unit.kind}", f"write the tolerance in {unit.symbol}"
            )
        return abs(value) * spread / 100
    other = units.find(spelling)
    if other is None:
        raise _unknown_unit(spelling, unit.kind)
    if other.kind != unit.kind and not (
        unit.kind == "temperature" and other.dimension == unit.dimension
    ):
        raise NotAQuantity(
            f"the tolerance is in a unit of {other.kind}, the value in one of {unit.kind}",
            f"write both in {unit.symbol}",
        )
    return spread * other.factor


# Compiled when first a value is not understood: most descriptions have none.
_TRAPS: tuple[tuple[str, str, str], ...] = (
    (r"^$", "no value", "write a number and its unit"),
    (r"^0[xX]", "a hexadecimal number", "write the number in tens"),
    (
        r"[\u00a0\u2007\u2009\u202f\u2002\u2003]",
        "a special space that cannot be seen",
        "type a plain space",
    ),
    (
        r"[^\x00-\x7f]*[\u0660-\u0669\u06f0-\u06f9\uff10-\uff19]",
        "digits of another script",
        "write 0 to 9",
    ),
    (r"[¼½¾⅓⅔⅛⅜⅝⅞]", "a fraction sign", "write it out: '1 1/2 in'"),
    (
        r"[0-9] ?[-\u2010-\u2015\u2212] ?[0-9]",
        "a dash between two numbers",
        "write a range as '5..10 mm', a mixed number as '1 1/2 in'",
    ),
    (
        r"[0-9] ?(to|or|and|x|×|bis|\.\.\.|…) ?[0-9]",
        "two numbers in one value",
        "write one value, or a range as '5..10 mm'",
    ),
    (
        r"(±|\+/-) ?[0-9./eE]+$",
        "a tolerance without its unit",
        "write '28 kg ± 0.5 kg' or '28 ± 0.5 kg'",
    ),
    (
        r"(?i)[0-9] ?\S+ \(?(min|max|nom|typ|approx)\b",
        "a remark behind the value",
        "write the value alone, or a range as '5..10 mm'",
    ),
    (r"^[\u2010-\u2015\u2212]", "a dash that is no minus sign", "write '-' from the keyboard"),
    (r"^[<>≤≥]", "a limit, not a value", "write the value measured, or a range '5..10 mm'"),
    (
        r"^(~|≈|ca\.?|c\.|about|approx)",
        "an approximate value",
        "write a range '26..30 kg' or '28 kg ± 2 kg'",
    ),
    (
        r"(?i)(^|[^a-z])(nan|\.nan|inf|\.inf|infinity)($|[^a-z0-9])",
        "not a number",
        "write the number, or leave the field out",
    ),
    (
        r"[0-9],[0-9]",
        "a decimal comma or a thousands comma",
        "write '1.5 kg', and '1000 kg' without a comma",
    ),
    (r"[0-9]\.[0-9]+\.[0-9]", "two decimal points", "write one number: '1000.5 kg'"),
    (r"[0-9]['_’][0-9]", "a mark inside the number", "write '1000 kg' without marks"),
    (
        r"^[+-]?[0-9]+ [0-9]+(\s|$|[a-zA-Z])",
        "a gap inside the number",
        "write '1000 kg' without a gap",
    ),
    (
        r"^[+-]?[0-9]+ ?(ft|') ?[0-9]",
        "feet and inches together",
        "write one unit: '3.5 ft' or '42 in'",
    ),
    (r"[0-9] ?(\"|″|'')", "an inch sign", "write 'in': '3/8 in'"),
    (r"[0-9] ?('|′)", "a foot sign", "write 'ft'"),
    (r"^[+-]?\.[0-9]", "a number that starts with its point", "write '0.5'"),
    (r"^[+-]?[0-9]+\.($|[^0-9.])", "a number that ends with its point", "write '5' or '5.0'"),
    (
        r"[0-9]{16}|[eE][+-]?[0-9]{3}",
        "a number with more digits than anyone can measure",
        "check the number",
    ),
    (r"^[^0-9+-]*$", "no number", "write a number and its unit, such as '28 kg'"),
    (r"[;()].*[0-9]|[0-9].*;", "more than one value", "write one number and one unit"),
)


def _explain(text: str, kind: str | None) -> NotAQuantity:
    if len(text) > MAX_TEXT:
        return NotAQuantity(
            f"a text of {len(text)} characters", "write a number and its unit, such as '28 kg'"
        )
    for pattern, what, hint in _TRAPS:
        if re.search(pattern, text):
            return NotAQuantity(what, _in_units_of(kind, hint))
    if _BARE.fullmatch(text):
        return NotAQuantity("a number without a unit", _examples(kind))
    match = re.match(rf"{_NUMBER} ?(.+)", text, re.ASCII)
    if match:
        return _unknown_unit(match[1], kind)
    return NotAQuantity("not a value with a unit", _examples(kind))


def _in_units_of(kind: str | None, hint: str) -> str:
    """A hint whose examples are in a unit of the kind wanted: no kilograms for a length."""
    if kind is None:
        return hint
    symbol = units.by_kind(kind)[0].symbol
    return re.sub(r"(?<=[0-9] )(kg|mm)\b", symbol.replace("\\", r"\\"), hint)


_UNIT_TRAPS = {
    "ton": "'ton' is 907 kg, 1016 kg or 1000 kg by country: write kg, or 't' for 1000 kg",
    "tons": "'ton' is 907 kg, 1016 kg or 1000 kg by country: write kg, or 't' for 1000 kg",
    "C": "write 'degC' for a temperature; C alone is a charge",
    "F": "write 'degF' for a temperature",
    "bar(g)": "pressures here are differences from the room: write 'bar'",
    "barg": "pressures here are differences from the room: write 'bar'",
    "psig": "pressures here are differences from the room: write 'psi'",
    "kp": "write the force in N (1 kp is 9.807 N)",
    "gal": "write 'US gal' or 'imp gal'",
    "gallon": "write 'US gal' or 'imp gal'",
    "PS": "write the power in kW (1 PS is 0.7355 kW)",
    "kn": "for a force write 'kN'; for a speed write 'm/s'",
    "MM": "write 'mm'",
    "KG": "write 'kg'",
    "Kg": "write 'kg'",
    "Nm3": "normal cubic metres are not used here: state m3 at the working condition",
    "Nm3/h": "normal cubic metres are not used here: state m3/h at the working condition",
    "pt": "write the volume in L or mL",
    "a": "write the time in days",
    "g0": "write the acceleration in m/s2",
    "U/min": "write 'rpm'",
    "dBm": "write 'dB' or 'dBA'",
    "kilo": "write 'kg'",
    "kgs": "write 'kg'",
    "kilogram": "write 'kg'",
    "kilograms": "write 'kg'",
    "V AC": "write 'V'",
    "VAC": "write 'V'",
    "V DC": "write 'V'",
    "VDC": "write 'V'",
    "kvar": "reactive power is not used here: write 'kVA' or 'kW'",
}


def _unknown_unit(spelling: str, kind: str | None) -> NotAQuantity:
    shown = spelling if len(spelling) <= 20 else spelling[:20] + "..."
    what = f"unknown unit '{shown}'"
    # A unit of another kind is never suggested: 'V AC' is no slip for 'VA'.
    guess = units.nearest(spelling, kind)
    only_its_case = guess is not None and kind is not None and guess.lower() == spelling.lower()
    if spelling in _UNIT_TRAPS and not only_its_case:
        return NotAQuantity(what, _UNIT_TRAPS[spelling])
    meant = f"did you mean '{guess}'? " if guess else ""
    return NotAQuantity(what, meant + _examples(kind) if kind or not guess else meant.strip())


def _examples(kind: str | None) -> str:
    if kind is None:
        return "write a number and its unit, such as '28 kg'"
    symbols = [u.symbol for u in units.by_kind(kind)][:5]
    return (
        f"write it in {', '.join(symbols[:-1])} or {symbols[-1]}"
        if len(symbols) > 1
        else f"write it in {symbols[0]}"
    )


def format_number(value: float, digits: int = 3) -> str:
    """A number with so many significant digits; whole numbers keep all of theirs.

    >>> format_number(1089.3), format_number(93.12), format_number(0.00364), format_number(2.0)
    ('1089', '93.1', '0.00364', '2')
    """
    if value == 0 or value != value:  # noqa: PLR0124 - the test for NaN
        return "0" if value == 0 else "?"
    size = abs(value)
    if size >= 10 ** (digits - 1):
        return f"{value:.0f}" if size < 1e7 else f"{value:.{digits - 1}e}"
    text = f"{value:.{digits}g}"
    if "e" in text:
        if size < 1e-6:
            return text
        text = f"{Decimal(text):f}"
    return text


def format_value(value: float, unit: Unit, digits: int = 3) -> str:
    """An SI value in a unit, as a report prints it.

    >>> format_value(93.1e6, units.need("MPa"))
    '93.1 MPa'
    """
    written = (value - unit.offset) / unit.factor
    # What is left of 40 degC less 104 degF is the last bit of a float, not a measurement.
    number = format_number(0.0 if abs(written) < _NOISE else written, digits)
    if unit.shown == "°":
        return f"{number}°"
    return f"{number} {unit.shown}" if unit.shown else number
