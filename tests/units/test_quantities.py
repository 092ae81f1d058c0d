"""What people write as a value: read right, or refused with the way to write it."""

from __future__ import annotations

import math
import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker import units
from checker.units.quantities import (
    MAX_MAGNITUDE,
    NotAQuantity,
    Quantity,
    format_number,
    format_value,
    parse,
)
from checker.units.table import ROWS

SYMBOLS = [row[0] for row in ROWS]
# Every unit that a number may stand before, the plain "1" aside: "5 1" is no value.
WRITABLE = [s for s in SYMBOLS if s != "1"]


# --- read right ------------------------------------------------------------------

READ = [
    ("plain", "28 kg", 28.0, 28.0, 28.0, "kg"),
    ("no gap", "28kg", 28.0, 28.0, 28.0, "kg"),
    ("decimal", "0.5 mm", 0.0005, 0.0005, 0.0005, "mm"),
    ("exponent", "1.5e3 N", 1500.0, 1500.0, 1500.0, "N"),
    ("capital exponent", "1E-3 m", 0.001, 0.001, 0.001, "m"),
    ("plus sign", "+5 kg", 5.0, 5.0, 5.0, "kg"),
    ("minus sign", "-5 mm", -0.005, -0.005, -0.005, "mm"),
    ("nought", "0 kg", 0.0, 0.0, 0.0, "kg"),
    ("minus nought", "-0 kg", 0.0, 0.0, 0.0, "kg"),
    ("tolerance with both units", "28 kg ± 0.5 kg", 28.0, 27.5, 28.5, "kg"),
    ("tolerance with one unit", "28 ± 0.5 kg", 28.0, 27.5, 28.5, "kg"),
    ("tolerance typed on a keyboard", "28 kg +/- 0.5 kg", 28.0, 27.5, 28.5, "kg"),
    ("tolerance without gaps", "28kg±0.5kg", 28.0, 27.5, 28.5, "kg"),
    ("tolerance in a smaller unit", "28 kg ± 500 g", 28.0, 27.5, 28.5, "kg"),
    ("tolerance in per cent", "200 N ± 5 %", 200.0, 190.0, 210.0, "N"),
    ("tolerance of a ratio in points", "14 % ± 2 %", 0.14, 0.12, 0.16, "%"),
    ("tolerance of a temperature", "20 degC ± 2 degC", 293.15, 291.15, 295.15, "degC"),
    ("tolerance of a temperature in kelvin", "20 degC ± 2 K", 293.15, 291.15, 295.15, "degC"),
    ("range", "26..30 kg", 28.0, 26.0, 30.0, "kg"),
    ("range below nought", "-5..10 degC", 275.65, 268.15, 283.15, "degC"),
    ("range of one value", "5..5 kg", 5.0, 5.0, 5.0, "kg"),
    ("fraction of an inch", "3/8 in", 0.009525, 0.009525, 0.009525, "in"),
    ("inches and a fraction", "1 1/2 in", 0.0381, 0.0381, 0.0381, "in"),
    ("range of fractions", "1/4..1/2 in", 0.009525, 0.00635, 0.0127, "in"),
    ("slope", "1/4 in/ft", 0.25 / 12, 0.25 / 12, 0.25 / 12, "in/ft"),
    ("horsepower in halves", "3/4 hp", 559.2749, 559.2749, 559.2749, "hp"),
    ("newton metres, which pint reads as a number of metres", "40 Nm", 40.0, 40.0, 40.0, "N*m"),
    ("cubic feet a minute, which pint reads as centifermi", "1 cfm", 4.71947e-4, 4.71947e-4, 4.71947e-4, "ft3/min"),
    ("cubic metres an hour", "5 m3/h", 5 / 3600, 5 / 3600, 5 / 3600, "m3/h"),
    ("cubic metres with a raised figure", "5 m³/h", 5 / 3600, 5 / 3600, 5 / 3600, "m3/h"),
    ("square millimetres", "6 mm2", 6e-6, 6e-6, 6e-6, "mm2"),
    ("milligrams a cubic metre", "5 mg/m3", 5e-6, 5e-6, 5e-6, "mg/m3"),
    ("degrees Celsius, an offset", "20 °C", 293.15, 293.15, 293.15, "degC"),
    ("UCUM's Celsius", "20 Cel", 293.15, 293.15, 293.15, "degC"),
    ("degrees Fahrenheit", "68 degF", 293.15, 293.15, 293.15, "degF"),
    ("a difference in kelvin", "20 K", 20.0, 20.0, 20.0, "K"),
    ("an angle, no temperature", "90 °", math.pi / 2, math.pi / 2, math.pi / 2, "deg"),
    ("revolutions", "1450 rpm", 24.1666667, 24.1666667, 24.1666667, "rpm"),
    ("per minute", "5 1/min", 5 / 60, 5 / 60, 5 / 60, "rpm"),
    ("level", "68 dBA", 68.0, 68.0, 68.0, "dB"),
    ("micro sign", "5 \u00b5m", 5e-6, 5e-6, 5e-6, "um"),
    ("Greek mu", "5 \u03bcm", 5e-6, 5e-6, 5e-6, "um"),
    ("ohm sign", "5 \u2126", 5.0, 5.0, 5.0, "ohm"),
    ("Greek omega", "5 \u03a9", 5.0, 5.0, 5.0, "ohm"),
    ("small litre", "5 l", 0.005, 0.005, 0.005, "L"),
    ("large litre", "5 L", 0.005, 0.005, 0.005, "L"),
    ("fifteen digits", "999999999999999 kg", 1e15 - 1, 1e15 - 1, 1e15 - 1, "kg"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "value", "low", "high", "symbol"), [c[1:] for c in READ], ids=[c[0] for c in READ]
)
def test_read_right(text: str, value: float, low: float, high: float, symbol: str) -> None:
    quantity = parse(text)
    assert quantity.unit.symbol == symbol
    assert quantity.value == pytest.approx(value, rel=1e-6)
    assert quantity.low == pytest.approx(low, rel=1e-6)
    assert quantity.high == pytest.approx(high, rel=1e-6)
    assert quantity.text == text
    assert quantity.is_exact == (low == high)


# --- refused: name, text, kind wanted, what is wrong, what to write --------------

REFUSED = [
    ("decimal comma", "1,5 kg", None, "decimal comma", "1.5 kg"),
    ("thousands comma", "1,500 kg", None, "thousands comma", "1000 kg"),
    ("points and a comma", "1.000,5 kg", None, "comma", "without a comma"),
    ("gap between thousands", "1 000 kg", None, "a gap inside the number", "without a gap"),
    ("gaps between millions", "1 000 000 kg", None, "a gap inside the number", "without a gap"),
    ("apostrophe between thousands", "1'000 kg", None, "a mark inside", "without marks"),
    ("underscore between thousands", "1_000 kg", None, "a mark inside", "without marks"),
    ("en dash for a range", "5–10 mm", None, "a dash between two numbers", "5..10 mm"),
    ("hyphen for a range", "5-10 mm", None, "a dash between two numbers", "5..10 mm"),
    ("hyphen with gaps", "5 - 10 mm", None, "a dash between two numbers", "5..10 mm"),
    ("hyphen in a mixed number", "1-1/2 in", None, "a dash between two numbers", "1 1/2 in"),
    ("a word for a range", "5 to 10 mm", None, "two numbers in one value", "5..10 mm"),
    ("three points for a range", "5...10 mm", None, "two numbers in one value", "5..10 mm"),
    ("an alternative", "5 or 10 mm", None, "two numbers in one value", "one value"),
    ("two dimensions", "5 x 3 mm", None, "two numbers in one value", "one value"),
    ("two decimal points", "1.2.3 m", None, "two decimal points", "one number"),
    ("feet and inches", "3 ft 6 in", None, "feet and inches together", "42 in"),
    ("feet and inches by signs", "3' 6\"", None, "feet and inches together", "42 in"),
    ("inch sign", '3/4"', None, "an inch sign", "3/8 in"),
    ("double prime", "5″", None, "an inch sign", "in"),
    ("foot sign", "6'", None, "a foot sign", "ft"),
    ("gauge pressure in brackets", "3 bar(g)", None, "unknown unit 'bar(g)'", "write 'bar'"),
    ("gauge pressure in a word", "5 barg", None, "unknown unit 'barg'", "write 'bar'"),
    ("gauge pressure in pounds", "5 psig", None, "unknown unit 'psig'", "write 'psi'"),
    ("remark behind the value", "5 mm (min)", None, "a remark behind the value", "the value alone"),
    ("remark without brackets", "5 kg approx", None, "a remark behind the value", "range"),
    ("lower limit", "≥5 mm", None, "a limit, not a value", "the value measured"),
    ("upper limit", "<5 kg", None, "a limit, not a value", "5..10 mm"),
    ("two values", "5 m; 3", None, "more than one value", "one number"),
    ("coulomb for Celsius", "20 C", None, "unknown unit 'C'", "'degC'"),
    ("farad for Fahrenheit", "20 F", "temperature", "is a unit of capacitance", "degC"),
    ("megainch", "5 Min", None, "unknown unit 'Min'", "'min'"),
    ("petasiemens", "5 PS", None, "unknown unit 'PS'", "kW"),
    ("knot", "3 kn", None, "unknown unit 'kn'", "'kN'"),
    ("knot where a force is wanted", "3 kn", "force", "unknown unit 'kn'", "did you mean 'kN'"),
    ("megamolar", "5 MM", None, "unknown unit 'MM'", "'mm'"),
    ("megamolar squared", "5 MM2", None, "unknown unit 'MM2'", "'mm2'"),
    ("pint", "5 pt", None, "unknown unit 'pt'", "L or mL"),
    ("year", "5 a", None, "unknown unit 'a'", "days"),
    ("year where a current is wanted", "5 a", "current", "unknown unit 'a'", "did you mean 'A'"),
    ("reactive power", "5 kvar", "power", "unknown unit 'kvar'", "kVA"),
    ("kilopond", "5 kp", None, "unknown unit 'kp'", "in N"),
    ("ton", "5 ton", None, "unknown unit 'ton'", "by country"),
    ("unnamed gallon", "5 gal", None, "unknown unit 'gal'", "'US gal' or 'imp gal'"),
    ("normal cubic metres", "5 Nm3", None, "unknown unit 'Nm3'", "working condition"),
    ("normal cubic metres an hour", "5 Nm3/h", "flow", "unknown unit 'Nm3/h'", "working condition"),
    ("capital i for litre", "5 I", "volume", "unknown unit 'I'", "L"),
    ("kilogram in words", "5 kilograms", None, "unknown unit 'kilograms'", "'kg'"),
    ("slip of the finger", "28 kq", "mass", "unknown unit 'kq'", "did you mean 'kg'"),
    ("kind of current behind the volts", "230 V AC", "voltage", "unknown unit 'V AC'", "write 'V'"),
    ("two voltages", "400/230 V", None, "a slash between two numbers", "one value"),
    ("two frequencies", "50/60 Hz", None, "a slash between two numbers", "one value"),
    ("two powers of one motor", "4/2 kW", None, "a slash between two numbers", "0.5 kW"),
    ("two ends with a slash in one", "5..10/2 kW", None, "a slash between two numbers", "one value"),
    ("fraction over nought", "1/0 in", None, "a fraction over nought", "decimal"),
    ("a unit left open", "1 m/", None, "unknown unit 'm/'", "'m/s'"),
    ("a product left open", "5 kg*", None, "unknown unit 'kg*'", "'kg'"),
    ("unit without a number", "kg", None, "no number", "28 kg"),
    ("flow without a number", "m3/h", None, "not a value with a unit", "28 kg"),
    ("empty brackets", "()", None, "no number", "28 kg"),
    ("a power of a power", "9**9**9 m", None, "unknown unit", "28 kg"),
    ("two units", "5 kg m", None, "unknown unit 'kg m'", "did you mean"),
    ("a unit twice", "5 kg kg", "mass", "unknown unit 'kg kg'", "'kg'"),
    ("a value twice", "5 kg 3 kg", "mass", "unknown unit 'kg 3 kg'", "kg"),
    ("not a number", ".nan", None, "not a number", "leave the field out"),
    ("infinite", ".inf", None, "not a number", "leave the field out"),
    ("infinite with a unit", "inf kg", None, "not a number", "leave the field out"),
    ("too large an exponent", "1e400 kg", None, "more digits", "check the number"),
    ("too small an exponent", "1e-320 kg", None, "more digits", "check the number"),
    ("too large a value", "1e99 kg", None, "larger than anything", "check the exponent"),
    ("sixteen digits", "1234567890123456 kg", None, "more digits", "check the number"),
    ("5000 digits", "9" * 5000 + " kg", None, "a text of 5003 characters", "28 kg"),
    ("hexadecimal", "0x1F kg", None, "a hexadecimal number", "tens"),
    ("fraction without a unit", "1/2", None, "a number without a unit", "28 kg"),
    ("fraction sign", "½ in", None, "a fraction sign", "1 1/2 in"),
    ("fraction sign behind a number", "1½ in", None, "a fraction sign", "1 1/2 in"),
    ("Arabic digits", "٣ kg", None, "digits of another script", "0 to 9"),
    ("full-width digits", "１２ kg", None, "digits of another script", "0 to 9"),
    ("no-break space", "5\u00a0kg", None, "a special space", "plain space"),
    ("thin space", "5\u2009kg", None, "a special space", "plain space"),
    ("narrow no-break space", "1\u202f000 kg", None, "a special space", "plain space"),
    ("approximate by a sign", "~5 kg", None, "an approximate value", "28 kg ± 2 kg"),
    ("approximate by a word", "ca. 5 kg", None, "an approximate value", "26..30 kg"),
    ("approximate in English", "about 5 kg", None, "an approximate value", "26..30 kg"),
    ("tolerance of nothing", "5 ± 1", None, "a tolerance without its unit", "28 ± 0.5 kg"),
    ("tolerance without its unit", "5 kg ± 0.5", None, "a tolerance without its unit", "28 ± 0.5 kg"),
    ("tolerance with a sign", "5 kg ± -1 kg", None, "a sign on the tolerance", "± 0.5"),
    ("tolerance of another kind", "5 kg ± 1 m", None, "a unit of length", "both in kg"),
    ("tolerance of an unknown unit", "5 kg ± 1 kq", None, "unknown unit 'kq'", "'kg'"),
    ("per cent of a temperature", "20 degC ± 5 %", None, "a percentage of a temperature", "degC"),
    ("per cent of a level", "68 dB ± 5 %", None, "a percentage of a level", "dB"),
    ("two tolerances", "5 ± 1 kg ± 2 kg", None, "two tolerances", "write one"),
    ("range with a tolerance", "5..10 ± 1 kg", None, "two tolerances", "write one"),
    ("range backwards", "5..3 kg", None, "the range runs backwards", "'3..5 kg'"),
    ("bare number", "5", "mass", "a number without a unit", "kg, g"),
    ("point first", ".5 kg", None, "starts with its point", "0.5"),
    ("point last", "5. kg", None, "ends with its point", "5.0"),
    ("minus from a typesetter", "−5 mm", None, "a dash that is no minus sign", "keyboard"),
    ("nothing", "", None, "no value", "a number and its unit"),
    ("a size", "M8", "length", "not a value with a unit", "m, cm, mm"),
    ("kilograms for a force", "5 kg", "force", "'kg' is a unit of mass, not of force", "N"),
    ("newtons for a mass", "5 N", "mass", "'N' is a unit of force, not of mass", "kg"),
    ("millimetres for a mass", "28 mm", "mass", "'mm' is a unit of length, not of mass", "kg"),
    ("degree for a temperature", "20 °", "temperature", "a unit of angle", "degC"),
    ("kelvin for a temperature", "20 K", "temperature", "a unit of temperature difference", "degC"),
    ("Celsius for a difference", "20 Cel", "temperature difference", "a unit of temperature,", "K"),
    ("joules for a torque", "5 J", "torque", "a unit of energy, not of torque", "N*m"),
    ("volume for a flow", "5 m3", "flow", "a unit of volume", "m3/h"),
    ("tail of control characters", "5 kg\x1b[31m", None, "unknown unit", "did you mean"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "kind", "what", "hint"), [c[1:] for c in REFUSED], ids=[c[0] for c in REFUSED]
)
def test_refused_with_a_way_out(text: str, kind: str | None, what: str, hint: str) -> None:
    with pytest.raises(NotAQuantity) as refused:
        parse(text, kind)
    assert what in refused.value.what
    assert hint in refused.value.hint
    assert len(refused.value.what) + len(refused.value.hint) < 200


@pytest.mark.parametrize("unit", WRITABLE)
def test_a_unit_of_another_kind_is_never_suggested(unit: str) -> None:
    """A hint that leads from volts to volt-amperes would be worse than none."""
    kind = units.need(unit).kind
    with pytest.raises(NotAQuantity) as refused:
        parse(f"5 {unit}x", kind)
    if "did you mean" in refused.value.hint:
        meant = refused.value.hint.split("'")[1]
        found = units.find(meant)
        assert found is not None
        assert found.kind == kind


# --- properties ------------------------------------------------------------------

numbers = st.decimals(min_value="-99999", max_value="99999", places=3).map(lambda d: f"{d:f}")
amounts = st.decimals(min_value="0.001", max_value="9999", places=3).map(lambda d: f"{d:f}")


@given(numbers, st.sampled_from(WRITABLE))
def test_what_is_written_is_read(number: str, symbol: str) -> None:
    unit = units.need(symbol)
    quantity = parse(f"{number} {symbol}", unit.kind)
    assert quantity.unit == unit
    assert (quantity.value - unit.offset) / unit.factor == pytest.approx(
        float(number), rel=1e-12, abs=1e-9 + 1e-12 * abs(unit.offset / unit.factor)
    )


@given(numbers, st.sampled_from(WRITABLE), st.data())
def test_the_unit_that_a_value_is_written_in_changes_nothing(
    number: str, symbol: str, data: st.DataObject
) -> None:
    unit = units.need(symbol)
    other = data.draw(st.sampled_from([u for u in units.by_kind(unit.kind) if u.symbol != "1"]))
    value = parse(f"{number} {symbol}").value
    rewritten = (value - other.offset) / other.factor
    if not 1e-9 < abs(rewritten) < 1e14:
        return  # Nobody writes it so.
    text = (
        f"{rewritten:.12f}".rstrip("0").rstrip(".")
        if abs(rewritten) > 1e-3
        else f"{rewritten:.14e}"
    )
    again = parse(f"{text} {other.symbol}", unit.kind).value
    assert again == pytest.approx(
        value, rel=1e-7, abs=1e-11 * abs(other.factor) + 1e-9 * unit.offset
    )


@given(amounts, amounts, st.sampled_from([s for s in WRITABLE if units.need(s).offset == 0]))
def test_every_way_to_write_a_tolerance_says_the_same(value: str, spread: str, symbol: str) -> None:
    both = parse(f"{value} {symbol} ± {spread} {symbol}")
    once = parse(f"{value} ± {spread} {symbol}")
    low, high = float(value) - float(spread), float(value) + float(spread)
    ranged = parse(f"{low:.6f}..{high:.6f} {symbol}")
    for other in (once, ranged):
        assert other.low == pytest.approx(both.low, rel=1e-9, abs=1e-9 * abs(both.high))
        assert other.high == pytest.approx(both.high, rel=1e-9)
    assert both.low < both.value < both.high


@given(st.integers(0, 99), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_a_mixed_number_of_inches(whole: int, above: int, below: int) -> None:
    text = f"{whole} {above}/{below} in"
    if above >= below:
        with pytest.raises(NotAQuantity):
            parse(text)
    else:
        assert parse(text).value == pytest.approx((whole + above / below) * 0.0254, rel=1e-12)


@given(st.text(max_size=90))
def test_any_text_is_read_or_refused(text: str) -> None:
    _is_read_or_refused(text)


@given(st.text(alphabet="0123456789.,/-+±e %kgmNCin()'\"~ \u00a0½", max_size=14))
def test_near_values_are_read_or_refused(text: str) -> None:
    _is_read_or_refused(text)


def _is_read_or_refused(text: str) -> None:
    quantity: Quantity | None = None
    refused: NotAQuantity | None = None
    try:
        quantity = parse(text)
    except NotAQuantity as error:
        refused = error
    if refused is not None:
        assert refused.what
        assert refused.hint
    if quantity is None:
        return
    assert all(math.isfinite(x) for x in quantity[:3])
    assert quantity.low <= quantity.value <= quantity.high
    assert max(abs(quantity.low), abs(quantity.high)) <= MAX_MAGNITUDE


# --- written back ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (1089.3, "1089"), (93.12, "93.1"), (0.00364, "0.00364"), (2.0, "2"), (0.0, "0"), (-0.0, "0"),
        (999.96, "1000"), (12345678.0, "1.23e+07"), (1e-7, "1e-07"), (0.000012345, "0.0000123"),
        (-5.5, "-5.5"), (float("nan"), "?"),
    ],
)  # fmt: skip
def test_a_number_as_a_report_prints_it(value: float, text: str) -> None:
    assert format_number(value) == text


@given(st.floats(1e-5, 1e7), st.integers(3, 8))
def test_a_printed_number_is_the_number_to_its_digits(value: float, digits: int) -> None:
    assert float(format_number(value, digits)) == pytest.approx(value, rel=10.0 ** (1 - digits))


def test_a_printed_value_can_be_read_again() -> None:
    for symbol in WRITABLE:
        unit = units.need(symbol)
        text = format_value(5 * unit.factor + unit.offset, unit)
        assert parse(text, unit.kind).value == pytest.approx(5 * unit.factor + unit.offset)


def test_a_refusal_survives_pickling() -> None:
    with pytest.raises(NotAQuantity) as refused:
        parse("1,5 kg")
    again = pickle.loads(pickle.dumps(refused.value))
    assert (again.what, again.hint) == (refused.value.what, refused.value.hint)
