"""The shared range checks: a refusal is one sentence, and nothing passes that is no number."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering._bounds import (
    interpolated,
    interpolated_twice,
    require_at_least,
    require_positive,
    require_within,
)
from checker.engineering.limits import OutOfRange

POINTS = (1.0, 2.0, 4.0)
VALUES = (10.0, 30.0, 20.0)


@given(st.floats(1.0, 4.0))
def test_interpolation_stays_between_its_neighbours(value: float) -> None:
    found = interpolated(value, POINTS, VALUES, "x", "", "the table")
    assert 10.0 <= found <= 30.0


@pytest.mark.parametrize(
    ("value", "expected"), [(1.0, 10.0), (1.5, 20.0), (2.0, 30.0), (3.0, 25.0), (4.0, 20.0)]
)
def test_interpolation_meets_the_points(value: float, expected: float) -> None:
    assert interpolated(value, POINTS, VALUES, "x", "", "the table") == pytest.approx(expected)


@pytest.mark.parametrize("value", [0.999, 4.001, -1.0, math.nan, math.inf, -math.inf])
def test_interpolation_never_goes_beyond(value: float) -> None:
    with pytest.raises(OutOfRange, match="the table holds from 1 to 4"):
        interpolated(value, POINTS, VALUES, "x", "", "the table")


def test_interpolation_in_two_directions() -> None:
    values = ((0.0, 10.0), (20.0, 30.0))
    found = interpolated_twice(0.25, 0.5, (0.0, 1.0), (0.0, 1.0), values, ("row", "column"), "it")
    assert found == pytest.approx(10.0)
    with pytest.raises(OutOfRange, match="The column is 2; it holds from 0 to 1"):
        interpolated_twice(0.5, 2.0, (0.0, 1.0), (0.0, 1.0), values, ("row", "column"), "it")
    with pytest.raises(OutOfRange, match="The row is 2; it holds from 0 to 1"):
        interpolated_twice(2.0, 0.5, (0.0, 1.0), (0.0, 1.0), values, ("row", "column"), "it")


def test_the_last_bit_of_a_conversion_is_forgiven_and_no_more() -> None:
    require_within(1.0 - 1e-12, 1.0, 1e8, "x", "", "it")
    with pytest.raises(OutOfRange):
        require_within(1.0 - 1e-6, 1.0, 1e8, "x", "", "it")


@pytest.mark.parametrize("value", [0.0, -1e-300, -1.0, math.nan, math.inf])
def test_positive(value: float) -> None:
    with pytest.raises(OutOfRange, match="must be greater than 0 m"):
        require_positive(value, "length", "m")


@pytest.mark.parametrize("value", [-1e-300, math.nan, math.inf])
def test_at_least(value: float) -> None:
    with pytest.raises(OutOfRange, match="must be at least 0 m"):
        require_at_least(value, 0.0, "length", "m")


def test_a_refusal_is_one_sentence() -> None:
    with pytest.raises(OutOfRange) as raised:
        require_within(7.0, 0.0, 1.0, "share", "", "a share")
    assert str(raised.value) == "The share is 7; a share holds from 0 to 1."
