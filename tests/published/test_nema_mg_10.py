"""NEMA MG 10, Table 2-3, starts per hour, in the EASA Electrical Engineering Handbook."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.motor_duty import nema_allowed_starts
from checker.rulebook.model import Rulebook

LB_FT2 = 0.0421401101
HOUR = 3600.0


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# MG 10, example to Table 2-3: 25 hp, 4 poles, B = 122, load Wk² 50 lb ft²: 2.44 starts an hour.
# Confidence: checked. (Column A of that row is not in the example; 60 an hour does not bind.)
def test_example_of_the_table() -> None:
    found = nema_allowed_starts(60.0 / HOUR, 122.0 * LB_FT2, 50.0 * LB_FT2)
    assert found * HOUR == printed("2.44")


# MG 10, Table 2-3, columns A and B; confidence: checked. The starts at a stated inertia are
# arithmetic of min(A, B/Wk²).
@pytest.mark.parametrize(
    ("most", "product", "inertia", "starts"),
    [(11.5, 2.4, 0.1, "11.5"), (11.5, 2.4, 0.5, "4.8"), (23.0, 11.0, 1.0, "11.0")],
)
def test_starts_of_two_horsepower(most: float, product: float, inertia: float, starts: str) -> None:
    found = nema_allowed_starts(most / HOUR, product * LB_FT2, inertia * LB_FT2)
    assert found * HOUR == printed(starts)


# Table 2-3, Design A and B, 2, 4, 6 poles from 1 to 5 hp: A and B; confidence: checked. In
# every cell the inertia B/A, at which both columns bind, must itself allow A starts.
CELLS = [
    (15.0, 1.2), (30.0, 5.8), (34.0, 15.0), (12.9, 1.8), (25.7, 8.6), (29.1, 23.0),
    (11.5, 2.4), (23.0, 11.0), (26.1, 30.0), (9.9, 3.5), (19.8, 17.0), (22.4, 44.0),
    (8.1, 5.7), (16.3, 27.0), (18.4, 71.0),
]  # fmt: skip


@pytest.mark.parametrize(("most", "product"), CELLS)
def test_both_columns_meet(most: float, product: float) -> None:
    meeting = product / most
    starts = [
        nema_allowed_starts(most / HOUR, product * LB_FT2, share * meeting * LB_FT2) * HOUR
        for share in (0.5, 1.0, 2.0)
    ]
    assert starts == pytest.approx([most, most, most / 2.0])


# Table 2-3 as shipped, Design A and B: hp, poles, starts, starts x lb ft2, rest in s; every cell.
# Confidence: checked.
SHIPPED = [
    (1.0, (15.0, 1.2, 75.0), (30.0, 5.8, 38.0), (34.0, 15.0, 33.0)),
    (1.5, (12.9, 1.8, 76.0), (25.7, 8.6, 38.0), (29.1, 23.0, 34.0)),
    (2.0, (11.5, 2.4, 77.0), (23.0, 11.0, 39.0), (26.1, 30.0, 35.0)),
    (3.0, (9.9, 3.5, 80.0), (19.8, 17.0, 40.0), (22.4, 44.0, 36.0)),
    (5.0, (8.1, 5.7, 83.0), (16.3, 27.0, 42.0), (18.4, 71.0, 37.0)),
]


@pytest.mark.parametrize(
    ("horsepower", "poles", "cells"),
    [
        (row[0], poles, cells)
        for row in SHIPPED
        for poles, cells in zip((2, 4, 6), row[1:], strict=True)
    ],
)
def test_shipped_table(
    shipped: Rulebook, horsepower: float, poles: int, cells: tuple[float, float, float]
) -> None:
    table = shipped.tables["nema_starts"]
    assert len(table.rows) == 3 * len(SHIPPED)
    key = (horsepower * 745.6998715822701, poles)
    assert table.columns["starts"].look_up(*key) * HOUR == pytest.approx(cells[0])
    found = table.columns["inertia_at_one_start"].look_up(*key) / LB_FT2
    assert found == pytest.approx(cells[1], rel=1e-6)
    assert table.columns["rest"].look_up(*key) == pytest.approx(cells[2])
