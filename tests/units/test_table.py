"""The table of units, row by row, against pint; and the ways to find a unit in it."""

from __future__ import annotations

import math
from collections import Counter
from functools import cache
from itertools import combinations
from typing import Any

import pytest

from checker import units
from checker.units.dimensions import NONE, describe, divide, multiply, power
from checker.units.table import DIMENSION_NAMES, ROWS

pint = pytest.importorskip("pint")

# pint's base units in the order of our exponents; a sound level is ours, pint has none.
BASE = ("meter", "kilogram", "second", "ampere", "kelvin", "candela", "level")
ROW_IDS = [f"{row[2]}: {row[0]}" for row in ROWS]
KINDS = tuple(dict.fromkeys(row[2] for row in ROWS))


@cache
def registry() -> Any:
    ureg = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    # pint counts a candela-steradian as lumen; a level is a dimension of its own.
    ureg.define("level = [level]")
    return ureg


def in_base(expression: str, number: float = 1.0) -> Any:
    ureg = registry()
    unit = ureg.parse_expression(expression)
    if not hasattr(unit, "units"):
        return ureg.Quantity(number * unit, "dimensionless")
    if unit.magnitude == 1:
        return ureg.Quantity(number, unit.units).to_base_units()
    return (number * unit).to_base_units()


def exponents(quantity: Any) -> tuple[float, ...]:
    found = dict(quantity.unit_items())
    found.pop("radian", None)  # An angle is a ratio; its kind keeps it apart.
    assert set(found) <= set(BASE), found
    return tuple(found.get(name, 0) for name in BASE)


@pytest.mark.parametrize("row", ROWS, ids=ROW_IDS)
def test_factor_is_what_pint_says(row: tuple[Any, ...]) -> None:
    _, _, _, factor, offset, _, expression = row
    one, nought = in_base(expression, 1.0).magnitude, in_base(expression, 0.0).magnitude
    assert factor == pytest.approx(one - nought, rel=1e-12)
    assert offset == pytest.approx(nought, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("row", ROWS, ids=ROW_IDS)
def test_exponents_are_what_pint_says(row: tuple[Any, ...]) -> None:
    assert exponents(in_base(row[6])) == tuple(row[5])


@pytest.mark.parametrize("row", ROWS, ids=ROW_IDS)
def test_every_spelling_finds_its_row(row: tuple[Any, ...]) -> None:
    symbol, others, kind, factor, *_ = row
    for spelling in (symbol, *others):
        found = units.find(spelling)
        assert found is not None
        assert (found.symbol, found.kind, found.factor) == (symbol, kind, factor)


def test_no_spelling_names_two_units() -> None:
    times = Counter(spelling for row in ROWS for spelling in (row[0], *row[1]))
    assert [s for s, n in times.items() if n > 1] == []


def test_no_two_rows_are_one_unit_under_two_symbols_of_a_kind() -> None:
    """Two symbols of one kind with one factor would be two words for one thing."""
    twins = [
        (a[0], b[0])
        for a, b in combinations(ROWS, 2)
        if a[2] == b[2] and math.isclose(a[3], b[3]) and a[4] == b[4]
    ]
    # A volt-ampere is a watt in size and another thing on a nameplate; a gram in a litre and a
    # kilogram in a cubic metre are both written on data sheets, and so are these.
    assert set(twins) <= {
        ("W", "VA"),
        ("kW", "kVA"),
        ("kg/m3", "g/L"),
        ("mL", "cm3"),
        ("N/mm", "kN/m"),
        ("hPa", "mbar"),
        ("ohm/km", "mV/(A*m)"),
        ("mm/s", "L/(s*m2)"),
        ("m/m", "1"),
    }


@pytest.mark.parametrize("kind", KINDS)
def test_units_of_a_kind_have_one_dimension(kind: str) -> None:
    dimensions = {tuple(u.dimension) for u in units.by_kind(kind)}
    assert len(dimensions) == 1
    assert len(next(iter(dimensions))) == len(DIMENSION_NAMES)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("torque", "energy"),
        ("ratio", "angle"),
        ("temperature", "temperature difference"),
        ("torque", "rotational stiffness"),
        ("fire load", "stiffness"),
    ],
)
def test_kinds_tell_apart_what_the_exponents_cannot(one: str, other: str) -> None:
    assert units.by_kind(one)[0].dimension == units.by_kind(other)[0].dimension
    assert not {u.symbol for u in units.by_kind(one)} & {u.symbol for u in units.by_kind(other)}


def test_a_level_is_no_plain_number() -> None:
    assert units.need("dB").dimension != NONE


def test_revolutions_count_cycles() -> None:
    assert units.need("rpm").factor * 1450 == pytest.approx(24.1667, abs=5e-5)


@pytest.mark.parametrize("row", ROWS, ids=ROW_IDS)
def test_look_alike_signs_are_one(row: tuple[Any, ...]) -> None:
    """µ has two code points and Ω too; nobody can see which one was typed."""
    for spelling in (row[0], *row[1]):
        for one, other in (("\u00b5", "\u03bc"), ("\u2126", "\u03a9")):
            for swapped in (spelling.replace(one, other), spelling.replace(other, one)):
                found = units.find(swapped)
                assert found is not None, ascii(swapped)
                assert found.symbol == row[0]


@pytest.mark.parametrize("row", ROWS, ids=ROW_IDS)
def test_what_a_report_prints_can_be_read_again(row: tuple[Any, ...]) -> None:
    unit = units.need(row[0])
    if unit.shown:
        assert units.find(unit.shown) == unit


@pytest.mark.parametrize(
    ("spelling", "kind", "meant"),
    [
        ("kq", "mass", "kg"),
        ("KG", "mass", "kg"),
        ("Meter", "length", "meter"),
        ("nm", "torque", "Nm"),
        ("Mpa", "pressure", "MPa"),
        ("m3/hr", "flow", "m3/h"),
        ("RPM", "frequency", "rpm"),
        ("db", "level", "dB"),
    ],
)
def test_the_nearest_unit_is_of_the_kind(spelling: str, kind: str, meant: str) -> None:
    assert units.nearest(spelling, kind) == meant


def test_nothing_is_near_to_nonsense() -> None:
    assert units.nearest("zzzzzzzz") is None
    assert units.nearest("", "mass") is None


@pytest.mark.parametrize(
    "spelling", ["", " ", "ton", "C", "bar(g)", "Nm3", "kg ", "MM", "KG", "1/", "()"]
)
def test_what_is_not_on_the_list_is_nothing(spelling: str) -> None:
    assert units.find(spelling) is None
    with pytest.raises(KeyError):
        units.need(spelling)


def test_dimensions_multiply_divide_and_have_roots() -> None:
    force, length = units.need("N").dimension, units.need("m").dimension
    area = power(length, 2)
    assert multiply(force, length) == units.need("N*m").dimension
    assert divide(force, area) == units.need("Pa").dimension
    assert power(area, 0.5) == length
    assert power(length, 0) == NONE
    assert power(units.need("cm4").dimension, 0.25) == length


@pytest.mark.parametrize(
    ("symbol", "words"),
    [
        ("N", "force (kg·m/s2)"),
        ("MPa", "pressure or stress (kg/(m·s2))"),
        ("1", "a plain number"),
        ("rpm", "frequency (1/s)"),
        ("A*s^0.5/mm2", "s0.5·A/m2"),
        ("dB", "sound level (dB)"),
    ],
)
def test_a_dimension_in_words(symbol: str, words: str) -> None:
    assert describe(units.need(symbol).dimension) == words
