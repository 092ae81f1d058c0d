"""Units as people type them: the right kind only, and never a guess between two."""

from __future__ import annotations

import pytest

from checker.units import by_kind, find
from checker.units.quantities import NotAQuantity, parse
from checker.units.table import ROWS

# What it is, what is written, the kind that the field wants, what the message says, what it suggests.
REFUSED = [
    ("kilograms for a force", "5 kg", "force", "'kg' is a unit of mass, not of force", "N"),
    ("newtons for a mass", "5 N", "mass", "'N' is a unit of force, not of mass", "kg"),
    ("pounds for a force", "5 lb", "force", "'lb' is a unit of mass, not of force", "N"),
    ("gauge pressure", "3 bar(g)", "pressure", "unknown unit 'bar(g)'", "write 'bar'"),
    ("absolute pressure", "3 bar(a)", "pressure", "unknown unit 'bar(a)'", "bar"),
    ("an angle for a temperature", "20 °", "temperature", "a unit of angle", "degC"),
    ("a temperature for an angle", "20 °C", "angle", "a unit of temperature", "deg"),
    ("a temperature for a difference", "20 Cel", "temperature difference", "a unit of temperature,", "K"),
    ("a difference for a temperature", "20 K", "temperature", "a unit of temperature difference", "degC"),
    ("degrees Rankine", "500 degR", "temperature", "unknown unit 'degR'", "deg"),
    ("normal cubic metres", "5 Nm3/h", "flow", "unknown unit 'Nm3/h'", "working condition"),
    ("normal cubic metres, raised", "5 Nm³/h", "flow", "unknown unit 'Nm³/h'", ""),
    ("standard cubic feet", "5 scfm", "flow", "unknown unit 'scfm'", ""),
    ("a volume for a flow", "5 m3", "flow", "a unit of volume, not of flow", "m3/h"),
    ("square megametres", "5 MM2", "area", "unknown unit 'MM2'", "mm2"),
    ("millimetres in capitals", "5 MM", "length", "unknown unit 'MM'", "mm"),
    ("a capital i for a litre", "5 I", "volume", "unknown unit 'I'", "L"),
    ("a one for a litre", "5 1", "volume", "a gap inside the number", ""),
    ("a unit without its number", "kg", "mass", "no number", "28 kg"),
    ("two units", "5 kg lb", "mass", "unknown unit 'kg lb'", "kg"),
    ("two values", "5 kg 3 lb", "mass", "unknown unit 'kg 3 lb'", ""),
    ("pounds and ounces", "5 lb 3 oz", "mass", "unknown unit 'lb 3 oz'", ""),
    ("over nought", "5 kg/0", "mass", "unknown unit 'kg/0'", ""),
    ("a slash at the end", "5 m/", "speed", "unknown unit 'm/'", "m/s"),
    ("a ton", "1 ton", "mass", "unknown unit 'ton'", "by country"),
    ("a gallon", "1 gal", "volume", "unknown unit 'gal'", "'US gal' or 'imp gal'"),
    ("a horsepower of the Continent", "5 PS", "power", "unknown unit 'PS'", "0.7355 kW"),
    ("coulombs for degrees", "20 C", "temperature", "unknown unit 'C'", "degC"),
    ("a torque in joules", "5 J", "torque", "a unit of energy, not of torque", "N*m"),
    ("an energy in newton metres", "5 N*m", "energy", "a unit of torque, not of energy", "J"),
    ("millinewtons for newton metres", "5 mN", "torque", "unknown unit 'mN'", "Nm"),
    ("a thousand for a kilometre", "5 k", "length", "unknown unit 'k'", ""),
    ("inches by their sign", '3/8"', "length", "an inch sign", "in"),
    ("inches by the sign for minutes", "6′", "length", "a foot sign", "ft"),
    ("a name of a size", "M8", "length", "not a value with a unit", "m, cm, mm"),
    ("a nominal width", "DN100", "length", "not a value with a unit", "mm"),
    ("a homoglyph: Cyrillic kilograms", "5 кг", "mass", "unknown unit 'кг'", "kg"),
    ("a homoglyph: Greek nu for newtons", "5 Ν", "force", "unknown unit 'Ν'", "N"),
    ("a homoglyph: full-width letters", "5 ｋｇ", "mass", "unknown unit 'ｋｇ'", "kg"),
    ("Python in a unit", "5 __import__('os')", "mass", "unknown unit", ""),
    ("a power of a power", "5 m**9**9", "length", "unknown unit", ""),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "kind", "what", "hint"), [c[1:] for c in REFUSED], ids=[c[0] for c in REFUSED]
)
def test_refused(text: str, kind: str, what: str, hint: str) -> None:
    with pytest.raises(NotAQuantity) as refused:
        parse(text, kind)
    assert what in refused.value.what
    assert hint in refused.value.hint


# What it is, two ways to write it, the kind.
THE_SAME = [
    ("the two micro signs", "5 \u00b5m", "5 \u03bcm", "length"),
    ("the two ohm signs", "5 \u2126", "5 \u03a9", "resistance"),
    ("small and large litres", "5 l", "5 L", "volume"),
    ("raised and plain figures", "5 m³/h", "5 m3/h", "flow"),
    ("a caret", "5 m^2", "5 m2", "area"),
    ("newton metres in three ways", "5 Nm", "5 N·m", "torque"),
    ("megapascals and newtons a square millimetre", "5 MPa", "5 N/mm²", "pressure"),
    ("degrees in one sign", "20 ℃", "20 °C", "temperature"),
    ("the unit of UCUM", "20 Cel", "20 degC", "temperature"),
    ("turns a minute", "1450 rpm", "1450 1/min", "frequency"),
]


@pytest.mark.parametrize(
    ("one", "other", "kind"), [c[1:] for c in THE_SAME], ids=[c[0] for c in THE_SAME]
)
def test_two_ways_to_write_the_same(one: str, other: str, kind: str) -> None:
    assert parse(one, kind)[:3] == parse(other, kind)[:3]


def test_a_turn_is_no_radian() -> None:
    """60 turns a minute are one a second, not 6.28."""
    assert parse("60 rpm").value == pytest.approx(1.0)
    assert parse("60 rpm").value == parse("1 Hz").value


def test_a_temperature_is_no_difference() -> None:
    assert parse("20 degC").value == pytest.approx(293.15)
    assert parse("20 K").value == 20.0


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_no_unit_is_taken_for_one_of_another_kind(row: tuple[str, ...]) -> None:
    """Each spelling, where any other kind is wanted, is refused and names what it is."""
    symbol, kind = row[0], row[2]
    if symbol == "1":
        pytest.skip("no value is written with it")
    for other in {r[2] for r in ROWS} - {kind}:
        with pytest.raises(NotAQuantity) as refused:
            parse(f"5 {symbol}", other)
        assert f"is a unit of {kind}, not of {other}" in refused.value.what


def test_every_kind_offers_units_that_it_accepts() -> None:
    for kind in {row[2] for row in ROWS}:
        with pytest.raises(NotAQuantity) as refused:
            parse("5 nothing_like_it", kind)
        offered = refused.value.hint.rpartition("write it in ")[2].replace(" or ", ", ").split(", ")
        assert offered
        for symbol in offered:
            unit = find(symbol)
            assert unit in by_kind(kind), (kind, symbol)
