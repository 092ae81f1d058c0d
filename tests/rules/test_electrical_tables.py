"""The electrical tables held against themselves: what no print can prove must at least hang together."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from checker.rulebook.model import Rulebook
from checker.running import Checker


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return Checker().rulebook


# Code letters are from memory: they must at least be bands that follow one another without a gap.
def test_code_letters_follow_one_another(book: Rulebook) -> None:
    rows = book.tables["motor_code_letter"].rows
    assert [row[0] for row in rows] == list("ABCDEFGHJKLMNPRSTUV")
    for (_, low, high), (_, following, _) in pairwise(rows):
        assert low < high < following
        assert following - high == pytest.approx(0.01)


# The currents remembered from annex G of IEC 60947-4-1: those of one motor stand as the voltages,
# within half a tenth of an ampere on either side.
@pytest.mark.parametrize("kilowatts", [0.37, 0.55, 0.75, 1.1, 1.5, 2.2, 3.0, 4.0])
def test_remembered_currents_of_one_motor(book: Rulebook, kilowatts: float) -> None:
    columns = book.tables["typical_three_phase_current"].columns
    low = columns["annex_230"].look_up(kilowatts * 1000)
    high = columns["annex_400"].look_up(kilowatts * 1000)
    # At 4 kW both are printed to half an ampere.
    half = 0.05 if kilowatts < 4 else 0.25
    assert low / high == pytest.approx(400 / 230, rel=half / low + half / high + 0.005)


def _column(book: Rulebook, name: str) -> list[float | None]:
    table = book.tables["typical_three_phase_current"]
    place = len(table.keys) + list(table.columns).index(name)
    return [row[place] for row in table.rows]


# They lie within a tenth of what was read (the sheet at 230 and 400 V, four-pole motors at 400 V).
@pytest.mark.parametrize(
    ("remembered", "read"),
    [
        ("annex_230", "sheet_230"),
        ("annex_400", "sheet_400"),
        ("annex_400", "four_pole_400"),
    ],
)
def test_remembered_currents_against_those_read(book: Rulebook, remembered: str, read: str) -> None:
    found = [
        (one, other)
        for one, other in zip(_column(book, remembered), _column(book, read), strict=True)
        if other is not None
    ]
    assert len(found) >= 5
    assert [one for one, _ in found] == pytest.approx([other for _, other in found], rel=0.1)


# A larger motor takes more, at every voltage.
@pytest.mark.parametrize(
    "name",
    [
        "nec_three_phase_current",
        "nec_single_phase_current",
        "nec_three_phase_locked_rotor",
        "nec_single_phase_locked_rotor",
    ],
)
def test_current_rises_with_power(book: Rulebook, name: str) -> None:
    rows = book.tables[name].rows
    for column in {row[1] for row in rows}:
        currents = [row[2] for row in rows if row[1] == column]
        assert currents == sorted(set(currents))


# At one power the current falls as the voltage rises, and nearly as its inverse: within 5 %, or half
# a tenth of an ampere where that is more.
@pytest.mark.parametrize("name", ["nec_three_phase_current", "nec_three_phase_locked_rotor"])
def test_current_falls_with_voltage(book: Rulebook, name: str) -> None:
    rows = book.tables[name].rows
    for power in {row[0] for row in rows}:
        apparent = [float(row[1]) * row[2] for row in rows if row[0] == power]
        least = min(row[2] for row in rows if row[0] == power)
        assert max(apparent) / min(apparent) < 1.05 + 0.1 / least


# Heat, height and unequal voltages never add to what a motor gives.
@pytest.mark.parametrize(
    ("name", "column"),
    [
        ("motor_output_altitude", "factor"),
        ("motor_output_ambient", "cautious"),
        ("motor_output_ambient", "cage_motor"),
        ("voltage_unbalance_derating", "factor"),
    ],
)
def test_factors_only_fall(book: Rulebook, name: str, column: str) -> None:
    table = book.tables[name]
    place = len(table.keys) + list(table.columns).index(column)
    values = [row[place] for row in sorted(table.rows)]
    assert values[0] == 1.0
    assert all(before >= after for before, after in pairwise(values))
    assert all(math.isfinite(v) and v > 0.5 for v in values)
