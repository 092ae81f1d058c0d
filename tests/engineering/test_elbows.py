from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.elbows import (
    bend_coefficient,
    elbow_angle_factor,
    elbow_coefficient,
    fitting_loss,
    mitred_elbow_coefficient,
    segmented_elbow_coefficient,
    smooth_elbow_coefficient,
)
from checker.engineering.limits import OutOfRange


@given(st.floats(0.5, 1.9), st.floats(0.01, 0.1))
def test_wider_elbows_never_lose_more(radius: float, step: float) -> None:
    assert elbow_coefficient(radius + step) <= elbow_coefficient(radius)
    assert smooth_elbow_coefficient(radius + step) <= smooth_elbow_coefficient(radius)


@given(st.floats(0.75, 2.0))
def test_more_pieces_never_lose_more(radius: float) -> None:
    three, four, five = (segmented_elbow_coefficient(n, radius) for n in (3, 4, 5))
    assert three >= four >= five >= smooth_elbow_coefficient(radius)


@given(st.floats(0.5, 2.0))
def test_the_cautious_table_is_the_larger(radius: float) -> None:
    assert elbow_coefficient(radius) >= smooth_elbow_coefficient(radius)


@given(st.floats(20.0, 88.0), st.floats(0.1, 2.0))
def test_sharper_turns_never_lose_less(degrees: float, step: float) -> None:
    narrow, wide = math.radians(degrees), math.radians(degrees + step)
    assert elbow_angle_factor(narrow) <= elbow_angle_factor(wide)
    assert mitred_elbow_coefficient(narrow) <= mitred_elbow_coefficient(wide)
    assert bend_coefficient(1.0, narrow, 0.02) <= bend_coefficient(1.0, wide, 0.02)


@given(st.floats(20.0, 90.0))
def test_angle_factor_is_not_below_the_hygiene_habit(degrees: float) -> None:
    assert elbow_angle_factor(math.radians(degrees)) >= degrees / 90.0 - 1e-9


def test_ninety_degrees_is_one() -> None:
    assert elbow_angle_factor(math.pi / 2.0) == pytest.approx(1.0)


@pytest.mark.parametrize("degrees", [20.0, 180.0])
def test_ends_of_the_table_survive_the_conversion_to_radians(degrees: float) -> None:
    assert elbow_angle_factor(math.radians(degrees)) > 0.0


def test_a_negative_coefficient_survives() -> None:
    assert fitting_loss(-0.042, 100.0) == pytest.approx(-4.2)


@pytest.mark.parametrize("radius", [0.0, 0.49, 2.01, math.nan])
def test_radius_out_of_range(radius: float) -> None:
    with pytest.raises(OutOfRange, match="The radius ratio of the elbow is"):
        elbow_coefficient(radius)
    with pytest.raises(OutOfRange, match="The radius ratio of the elbow is"):
        segmented_elbow_coefficient(5, radius)


@pytest.mark.parametrize("pieces", [2, 4.5, 6, math.nan])
def test_pieces_out_of_range(pieces: float) -> None:
    with pytest.raises(OutOfRange, match="holds for 3, 4 and 5 pieces"):
        segmented_elbow_coefficient(pieces, 1.0)


@pytest.mark.parametrize("degrees", [0.0, 19.0, 181.0, math.nan])
def test_angle_out_of_range(degrees: float) -> None:
    with pytest.raises(OutOfRange, match="The angle of the elbow is"):
        elbow_angle_factor(math.radians(degrees))


def test_other_refusals() -> None:
    with pytest.raises(OutOfRange, match="The angle of the elbow is 91 degrees"):
        mitred_elbow_coefficient(math.radians(91.0))
    with pytest.raises(OutOfRange, match="velocity pressure"):
        fitting_loss(0.5, -1.0)
    with pytest.raises(OutOfRange, match="radius ratio of the bend"):
        bend_coefficient(0.4, 1.0, 0.02)
    with pytest.raises(OutOfRange, match="angle of the bend"):
        bend_coefficient(1.0, 0.0, 0.02)
    with pytest.raises(OutOfRange, match="friction factor"):
        bend_coefficient(1.0, 1.0, 0.0)
