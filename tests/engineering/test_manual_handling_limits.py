"""Where the lifting equation does not apply, and the regulator's filter: ranges and properties."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.manual_handling_limits import (
    HandsReach,
    HandsZone,
    Sex,
    lifting_equation_applies,
    lifting_filter_frequency_factor,
    lifting_filter_mass,
    lifting_filter_twist_factor,
    team_lifting_factor,
)

ZONES: list[HandsZone] = [
    "above-shoulder",
    "elbow-to-shoulder",
    "knuckle-to-elbow",
    "mid-lower-leg-to-knuckle",
    "below-mid-lower-leg",
]
REACHES: list[HandsReach] = ["close", "far"]
SEXES: list[Sex] = ["man", "woman"]


def _applies(
    refused: int = -1,
    speed: float = 0.3,
    friction: float = 0.6,
    celsius: float = 22.0,
    humidity: float = 0.45,
) -> bool:
    one, seated, narrow, unstable, carried, barrow, ladder = (
        place == refused for place in range(7)
    )
    return lifting_equation_applies(
        one,
        seated,
        narrow,
        unstable,
        carried,
        barrow,
        ladder,
        speed,
        friction,
        celsius + 273.15,
        humidity,
    )


def test_an_ordinary_lift_is_covered() -> None:
    assert _applies() is True


# NIOSH 94-110, rev. 2021, p. 6: conditions under which the equation does not apply.
@pytest.mark.parametrize(
    ("refused", "said"),
    [
        (0, "one hand"),
        (1, "seated or kneeling"),
        (2, "restricted space"),
        (3, "unstable"),
        (4, "carried, pushed or pulled"),
        (5, "wheelbarrow"),
        (6, "ladder"),
    ],
)
def test_refuses_conditions_and_names_them(refused: int, said: str) -> None:
    with pytest.raises(OutOfRange, match=said):
        _applies(refused)


# NIOSH 94-110, rev. 2021, p. 6: 30 in/s, 0.4, 19 to 26 °C, 35 to 50 %.
@pytest.mark.parametrize(
    ("speed", "friction", "celsius", "humidity"),
    [(30 * 0.0254, 0.4, 19.0, 0.35), (0.0, 1.0, 26.0, 0.50)],
)
def test_limits_themselves_are_covered(
    speed: float, friction: float, celsius: float, humidity: float
) -> None:
    assert _applies(-1, speed, friction, celsius, humidity)


@pytest.mark.parametrize("speed", [0.77, -0.1, math.nan])
def test_refuses_fast_lifts(speed: float) -> None:
    with pytest.raises(OutOfRange, match="speed of the hands"):
        _applies(speed=speed)


@pytest.mark.parametrize("friction", [0.39, -0.1, math.nan])
def test_refuses_slippery_floors(friction: float) -> None:
    with pytest.raises(OutOfRange, match="friction"):
        _applies(friction=friction)


@pytest.mark.parametrize("celsius", [18.9, 26.1, math.nan])
def test_refuses_cold_and_heat(celsius: float) -> None:
    with pytest.raises(OutOfRange, match="air temperature"):
        _applies(celsius=celsius)


@pytest.mark.parametrize("humidity", [0.34, 0.51, 45.0])
def test_refuses_dry_and_damp_air(humidity: float) -> None:
    with pytest.raises(OutOfRange, match="relative humidity"):
        _applies(humidity=humidity)


def test_filter_falls_with_reach() -> None:
    for zone, sex in itertools.product(ZONES, SEXES):
        assert lifting_filter_mass(zone, "far", sex) < lifting_filter_mass(zone, "close", sex)


def test_filter_is_lower_for_women() -> None:
    for zone, reach in itertools.product(ZONES, REACHES):
        woman = lifting_filter_mass(zone, reach, "woman")
        assert woman < lifting_filter_mass(zone, reach, "man")


def test_filter_is_greatest_at_the_waist() -> None:
    for reach, sex in itertools.product(REACHES, SEXES):
        best = lifting_filter_mass("knuckle-to-elbow", reach, sex)
        assert best == max(lifting_filter_mass(zone, reach, sex) for zone in ZONES)


@given(st.floats(0.0, math.pi), st.floats(0.0, math.pi))
def test_more_twist_never_leaves_more(a: float, b: float) -> None:
    straight, twisted = sorted((a, b))
    assert lifting_filter_twist_factor(twisted) <= lifting_filter_twist_factor(straight) <= 1.0


@pytest.mark.parametrize("degrees", [-1.0, 181.0, math.nan])
def test_refuses_impossible_twists(degrees: float) -> None:
    with pytest.raises(OutOfRange):
        lifting_filter_twist_factor(math.radians(degrees))


@given(st.floats(0.0, 100.0))
def test_frequency_is_in_a_band_or_refused(lifts: float) -> None:
    bands = [(0.0, 0.5, 1.0), (1.0, 2.0, 0.7), (5.0, 8.0, 0.5), (12.0, math.inf, 0.2)]
    inside = [factor for low, high, factor in bands if low + 1e-6 < lifts < high - 1e-6]
    between = any(low + 1e-6 < lifts < high - 1e-6 for low, high in [(0.5, 1), (2, 5), (8, 12)])
    if inside:
        assert lifting_filter_frequency_factor(lifts / 60) == inside[0]
    elif between:
        with pytest.raises(OutOfRange, match="frequency of lifting"):
            lifting_filter_frequency_factor(lifts / 60)


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf])
def test_refuses_impossible_frequencies(bad: float) -> None:
    with pytest.raises(OutOfRange):
        lifting_filter_frequency_factor(bad)


def test_more_people_lift_more_but_less_each() -> None:
    factors = [team_lifting_factor(people) for people in (1, 2, 3)]
    assert factors[0] == 1.0
    assert factors == sorted(factors, reverse=True)
    totals = [people * factor for people, factor in zip((1, 2, 3), factors, strict=True)]
    assert totals == sorted(totals)


@pytest.mark.parametrize("people", [0, -1, 1.5, 4, math.nan])
def test_refuses_other_teams(people: float) -> None:
    with pytest.raises(OutOfRange, match="team"):
        team_lifting_factor(people)
