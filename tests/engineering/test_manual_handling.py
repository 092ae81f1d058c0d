"""Revised NIOSH lifting equation: ranges and properties."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.manual_handling import (
    Coupling,
    LiftingDuration,
    lifting_asymmetry_multiplier,
    lifting_average_frequency,
    lifting_coupling_multiplier,
    lifting_distance_multiplier,
    lifting_duration,
    lifting_frequency_multiplier,
    lifting_horizontal_distance_estimate,
    lifting_horizontal_multiplier,
    lifting_index,
    lifting_vertical_multiplier,
    recommended_weight_limit,
)

if TYPE_CHECKING:
    from collections.abc import Callable

lengths = st.floats(0.0, 3.0)
durations: list[LiftingDuration] = ["short", "moderate", "long"]
couplings: list[Coupling] = ["good", "fair", "poor"]


def test_ideal_lift_is_the_load_constant() -> None:
    limit = recommended_weight_limit(
        lifting_horizontal_multiplier(0.25),
        lifting_vertical_multiplier(0.75),
        lifting_distance_multiplier(0.25),
        lifting_asymmetry_multiplier(0.0),
        lifting_frequency_multiplier(0.0, "short", 0.75),
        lifting_coupling_multiplier("good", 0.75),
    )
    assert limit == pytest.approx(23.0)


# NIOSH 94-110, arithmetic of the formulas: a filter at V 170 cm, H 40 cm, D 60 cm, good grip.
def test_filter_above_the_shoulder() -> None:
    limit = recommended_weight_limit(
        lifting_horizontal_multiplier(0.40),
        lifting_vertical_multiplier(1.70),
        lifting_distance_multiplier(0.60),
        lifting_asymmetry_multiplier(0.0),
        lifting_frequency_multiplier(0.0, "short", 1.70),
        lifting_coupling_multiplier("good", 1.70),
    )
    assert limit == pytest.approx(9.2, abs=0.05)


# The same exercise's destination, which its solution leaves out. Arithmetic of the formulas.
def test_the_end_of_a_lift_can_be_the_harder_one() -> None:
    frequency = lifting_frequency_multiplier(3 / 60, "short", 0.55)
    travel = lifting_distance_multiplier(0.95)

    def limit(height: float) -> float:
        return recommended_weight_limit(
            1.0,
            lifting_vertical_multiplier(height),
            travel,
            1.0,
            frequency,
            lifting_coupling_multiplier("fair", height),
        )

    assert limit(1.50) == pytest.approx(13.6, abs=0.05)
    assert limit(1.50) < limit(0.55)


@pytest.mark.parametrize("multiplier", [lifting_horizontal_multiplier, lifting_distance_multiplier])
@given(a=st.floats(0.01, 3.0), b=st.floats(0.01, 3.0))
def test_farther_is_never_easier(multiplier: Callable[[float], float], a: float, b: float) -> None:
    near, far = sorted((a, b))
    assert 0.0 <= multiplier(far) <= multiplier(near) <= 1.0


@given(lengths)
def test_vertical_multiplier_is_best_at_the_knuckles(height: float) -> None:
    assert 0.0 <= lifting_vertical_multiplier(height) <= lifting_vertical_multiplier(0.75) == 1.0


@given(st.floats(0.0, math.pi), st.floats(0.0, math.pi))
def test_twisting_is_never_easier(a: float, b: float) -> None:
    straight, twisted = sorted((a, b))
    worse = lifting_asymmetry_multiplier(twisted)
    assert 0.0 <= worse <= lifting_asymmetry_multiplier(straight) <= 1.0


@pytest.mark.parametrize("duration", durations)
@given(a=st.floats(0.0, 20.0), b=st.floats(0.0, 20.0), height=lengths)
def test_oftener_is_never_easier(
    duration: LiftingDuration, a: float, b: float, height: float
) -> None:
    rare, often = sorted((a, b))
    worse = lifting_frequency_multiplier(often / 60, duration, height)
    assert 0.0 <= worse <= lifting_frequency_multiplier(rare / 60, duration, height) <= 1.0


@given(st.floats(0.0, 20.0), lengths)
def test_longer_is_never_easier(lifts: float, height: float) -> None:
    short, moderate, long = (
        lifting_frequency_multiplier(lifts / 60, duration, height) for duration in durations
    )
    assert short >= moderate >= long


@given(lengths)
def test_a_worse_grip_is_never_easier(height: float) -> None:
    good, fair, poor = (lifting_coupling_multiplier(grip, height) for grip in couplings)
    assert 1.0 == good >= fair >= poor


# NIOSH 94-110, p. 7: in a straight line between the rows of Table 5.
def test_frequency_between_two_rows() -> None:
    assert lifting_frequency_multiplier(2.5 / 60, "short", 0.5) == pytest.approx((0.91 + 0.88) / 2)
    assert lifting_frequency_multiplier(0.35 / 60, "long", 0.5) == pytest.approx((0.85 + 0.81) / 2)


@pytest.mark.parametrize(
    ("duration", "height", "last"),
    [
        ("short", 0.5, 12),
        ("short", 0.8, 15),
        ("moderate", 0.5, 10),
        ("moderate", 0.8, 12),
        ("long", 0.5, 8),
        ("long", 0.8, 10),
    ],
)
def test_nothing_is_left_past_the_last_row(
    duration: LiftingDuration, height: float, last: float
) -> None:
    assert lifting_frequency_multiplier(last / 60, duration, height) > 0.1
    assert lifting_frequency_multiplier((last + 0.01) / 60, duration, height) == 0.0


def test_limits_written_in_other_units_are_kept() -> None:
    assert lifting_vertical_multiplier(175 * 0.01) > 0.0
    assert lifting_horizontal_multiplier(63 * 0.01) > 0.0
    assert lifting_asymmetry_multiplier(135 * math.pi / 180) > 0.0
    assert lifting_coupling_multiplier("fair", 75 * 0.01) == 1.0
    assert lifting_coupling_multiplier("fair", 0.7499) == 0.95


@pytest.mark.parametrize(
    ("work", "rest", "expected"),
    [
        (1.0, 1.0, "short"),
        (0.5, 8.0, "short"),
        (1.01, 0.31, "moderate"),
        (2.0, 0.6, "moderate"),
        (2.01, 0.0, "long"),
        (8.0, 0.0, "long"),
    ],
)
def test_durations(work: float, rest: float, expected: LiftingDuration) -> None:
    assert lifting_duration(work * 3600, rest * 3600) == expected


@pytest.mark.parametrize(
    ("work", "rest"), [(1.0, 0.99), (2.0, 0.59), (8.01, 0.0), (0.0, 1.0), (1.0, -1.0)]
)
def test_refuses_spells_that_do_not_end(work: float, rest: float) -> None:
    with pytest.raises(OutOfRange):
        lifting_duration(work * 3600, rest * 3600)


def test_refusal_says_how_long_the_rest_must_be() -> None:
    with pytest.raises(OutOfRange, match=r"is 10 min after 30 min .* at least 30 min"):
        lifting_duration(1800.0, 600.0)


@given(st.floats(0.1, 15.0), st.floats(1.0, 900.0))
def test_pauses_never_raise_the_frequency(rate: float, work: float) -> None:
    assert lifting_average_frequency(rate / 60, work) <= rate / 60 * (1 + 1e-12)
    assert lifting_average_frequency(rate / 60, 900.0) == pytest.approx(rate / 60)


@pytest.mark.parametrize(("rate", "work"), [(15.1, 60), (0.0, 60), (10, 0), (10, 901), (-1, 60)])
def test_refuses_what_the_adjustment_does_not_cover(rate: float, work: float) -> None:
    with pytest.raises(OutOfRange):
        lifting_average_frequency(rate / 60, work)


@pytest.mark.parametrize("bad", [-0.01, math.nan, math.inf])
def test_refuses_impossible_heights_and_travels(bad: float) -> None:
    refusals: list[Callable[[], float]] = [
        lambda: lifting_vertical_multiplier(bad),
        lambda: lifting_distance_multiplier(bad),
        lambda: lifting_coupling_multiplier("good", bad),
        lambda: lifting_frequency_multiplier(0.01, "short", bad),
        lambda: lifting_horizontal_distance_estimate(0.4, bad),
        lambda: lifting_frequency_multiplier(bad, "short", 0.75),
    ]
    for refuse in refusals:
        with pytest.raises(OutOfRange):
            refuse()


@pytest.mark.parametrize("bad", [0.0, -0.1, math.nan])
def test_refuses_impossible_horizontal_distances(bad: float) -> None:
    with pytest.raises(OutOfRange):
        lifting_horizontal_multiplier(bad)
    with pytest.raises(OutOfRange):
        lifting_horizontal_distance_estimate(bad, 0.5)


@pytest.mark.parametrize("degrees", [-1.0, 181.0, math.nan])
def test_refuses_impossible_twists(degrees: float) -> None:
    with pytest.raises(OutOfRange):
        lifting_asymmetry_multiplier(math.radians(degrees))


@pytest.mark.parametrize("position", range(6))
@pytest.mark.parametrize("bad", [-0.1, 1.1, math.nan])
def test_refuses_impossible_multipliers(position: int, bad: float) -> None:
    values = [1.0] * 6
    values[position] = bad
    with pytest.raises(OutOfRange):
        recommended_weight_limit(*values)


def test_no_index_where_nothing_may_be_lifted() -> None:
    limit = recommended_weight_limit(1.0, lifting_vertical_multiplier(1.80), 1.0, 1.0, 1.0, 1.0)
    assert limit == 0.0
    with pytest.raises(OutOfRange, match="recommended weight limit"):
        lifting_index(10.0, limit)


def test_refuses_a_negative_load() -> None:
    with pytest.raises(OutOfRange):
        lifting_index(-1.0, 10.0)
