"""NFPA 70 (NEC), full-load currents: Table 430.250 (2008) and Table 430-148 (1999), today 430.248."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from checker.rulebook.model import Rulebook

WATTS = 745.6998715822701

# NEC 2008, Table 430.250, three-phase: hp, then A at 200, 208, 230, 460, 575 V. Confidence: checked.
THREE_PHASE_COLUMNS = ("200", "208", "230", "460", "575")
THREE_PHASE = [
    (0.5, 2.5, 2.4, 2.2, 1.1, 0.9),
    (0.75, 3.7, 3.5, 3.2, 1.6, 1.3),
    (1.0, 4.8, 4.6, 4.2, 2.1, 1.7),
    (1.5, 6.9, 6.6, 6.0, 3.0, 2.4),
    (2.0, 7.8, 7.5, 6.8, 3.4, 2.7),
    (3.0, 11.0, 10.6, 9.6, 4.8, 3.9),
    (5.0, 17.5, 16.7, 15.2, 7.6, 6.1),
    (7.5, 25.3, 24.2, 22.0, 11.0, 9.0),
]

# NEC 1999, Table 430-148, single-phase: hp, then A at 115, 200, 208, 230 V. Confidence: checked.
SINGLE_PHASE_COLUMNS = ("115", "200", "208", "230")
SINGLE_PHASE = [
    (1 / 6, 4.4, 2.5, 2.4, 2.2),
    (0.25, 5.8, 3.3, 3.2, 2.9),
    (1 / 3, 7.2, 4.1, 4.0, 3.6),
    (0.5, 9.8, 5.6, 5.4, 4.9),
    (0.75, 13.8, 7.9, 7.6, 6.9),
    (1.0, 16.0, 9.2, 8.8, 8.0),
    (1.5, 20.0, 11.5, 11.0, 10.0),
    (2.0, 24.0, 13.8, 13.2, 12.0),
    (3.0, 34.0, 19.6, 18.7, 17.0),
    (5.0, 56.0, 32.2, 30.8, 28.0),
]


def _cells(
    rows: Sequence[tuple[float, ...]], columns: tuple[str, ...]
) -> list[tuple[float, str, float]]:
    return [(row[0], c, a) for row in rows for c, a in zip(columns, row[1:], strict=True)]


# Table 430.250, every cell. Confidence: checked.
@pytest.mark.parametrize(
    ("horsepower", "column", "current"), _cells(THREE_PHASE, THREE_PHASE_COLUMNS)
)
def test_three_phase(shipped: Rulebook, horsepower: float, column: str, current: float) -> None:
    table = shipped.tables["nec_three_phase_current"].columns["current"].look_up
    assert table(horsepower * WATTS, column) == pytest.approx(current)


# Table 430-148, every cell. Confidence: checked.
@pytest.mark.parametrize(
    ("horsepower", "column", "current"), _cells(SINGLE_PHASE, SINGLE_PHASE_COLUMNS)
)
def test_single_phase(shipped: Rulebook, horsepower: float, column: str, current: float) -> None:
    table = shipped.tables["nec_single_phase_current"].columns["current"].look_up
    assert table(horsepower * WATTS, column) == pytest.approx(current)


# No row is missing and none was added: the tables hold what is printed above and nothing else.
@pytest.mark.parametrize(
    ("name", "count"),
    [
        ("nec_three_phase_current", len(THREE_PHASE) * len(THREE_PHASE_COLUMNS)),
        ("nec_single_phase_current", len(SINGLE_PHASE) * len(SINGLE_PHASE_COLUMNS)),
    ],
)
def test_nothing_else(shipped: Rulebook, name: str, count: int) -> None:
    assert len(shipped.tables[name].rows) == count


# Heading of Table 430.250: the columns hold for systems of 110 to 120 V, 220 to 240 V, 440 to 480 V
# and 550 to 600 V. Confidence: checked.
@pytest.mark.parametrize(
    ("volts", "column"),
    [
        (110, "115"), (115, "115"), (120, "115"), (200, "200"), (208, "208"), (220, "230"), (230, "230"),
        (240, "230"), (440, "460"), (460, "460"), (480, "460"), (550, "575"), (575, "575"), (600, "575"),
    ],
)  # fmt: skip
def test_column_for_a_system(shipped: Rulebook, volts: float, column: str) -> None:
    assert shipped.tables["nec_voltage_column"].columns["column"].look_up(volts) == column


# The 230 V column is twice the 460 V column, to half a unit of the latter's last printed digit.
@pytest.mark.parametrize("row", THREE_PHASE, ids=lambda row: f"{row[0]} hp")
def test_half_the_current_at_twice_the_voltage(row: tuple[float, ...]) -> None:
    assert row[3] == pytest.approx(2 * row[4], abs=0.1 + 1e-9)
