"""Bolts of a bracket plate on an upright face."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.bracket_plates import upright_plate_bolt_tension
from checker.engineering.limits import OutOfRange

levers = st.floats(0.05, 1.0)
shares = st.floats(0.05, 0.95)
moments = st.floats(0.0, 1e4)
row_counts = st.integers(2, 6)


# Arithmetic of M·y/Σy²: 60 kg × 1.35 at 0.35 m, rows at 40 and 160 mm. With two bolts in each row
# the farthest takes 818 N; 818 N is not what a single bolt in each row takes, that is twice as much.
@pytest.mark.parametrize(("bolts_per_row", "expected"), [(2.0, 818.0), (1.0, 1636.0)])
def test_two_rows(bolts_per_row, expected):
    found = upright_plate_bolt_tension(278.1, 0.160, 0.120, 2.0, bolts_per_row)
    assert found == pytest.approx(expected, abs=0.5)


# The moment of all bolt forces about the edge is the moment of the load: an independent check.
@given(moments, levers, shares, row_counts, st.integers(1, 4))
def test_balances_the_moment(moment, lever, share, rows, bolts):
    farthest = upright_plate_bolt_tension(moment, lever, lever * share, float(rows), float(bolts))
    heights = [lever - lever * share * i / (rows - 1) for i in range(rows)]
    balance = bolts * sum(farthest * (y / lever) * y for y in heights)
    assert balance == pytest.approx(moment, rel=1e-9, abs=1e-9)


@given(moments, levers)
def test_one_row_takes_all(moment, lever):
    found = upright_plate_bolt_tension(moment, lever, 0.0, 1.0, 2.0)
    assert found == pytest.approx(moment / lever / 2.0)


# A row more below the farthest can only help it.
@given(st.floats(1.0, 1e4), levers, shares, row_counts)
def test_more_rows_never_load_the_farthest_more(moment, lever, share, rows):
    fewer = upright_plate_bolt_tension(moment, lever, lever * share, float(rows), 2.0)
    more = upright_plate_bolt_tension(moment, lever, lever * share, float(rows + 1), 2.0)
    assert more <= fewer * (1 + 1e-12)


@pytest.mark.parametrize(
    ("moment", "lever", "spacing", "rows", "bolts"),
    [
        (-1.0, 0.1, 0.05, 2.0, 2.0),
        (1.0, 0.0, 0.05, 2.0, 2.0),
        (1.0, 0.1, -0.05, 2.0, 2.0),
        (1.0, 0.1, 0.0, 2.0, 2.0),
        (1.0, 0.1, 0.1, 2.0, 2.0),
        (1.0, 0.1, 0.05, 1.0, 2.0),
        (1.0, 0.1, 0.05, 1.5, 2.0),
        (1.0, 0.1, 0.05, 0.0, 2.0),
        (1.0, 0.1, 0.05, math.nan, 2.0),
        (1.0, 0.1, 0.05, 2.0, 1.5),
    ],
)
def test_refuses(moment, lever, spacing, rows, bolts):
    with pytest.raises(OutOfRange):
        upright_plate_bolt_tension(moment, lever, spacing, rows, bolts)
