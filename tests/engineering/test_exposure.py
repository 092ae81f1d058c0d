"""Mist in the room: the formulas against a march through time, and refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.exposure import (
    collected_mist_rate,
    concentration_from_returned_air,
    mixture_index,
    penetration_hidden_by_escape,
    shift_average_concentration,
    steady_concentration_discharged,
    steady_concentration_returned,
)
from checker.engineering.filtration import minimum_efficiency_en_1822, outlet_concentration
from checker.engineering.limits import OutOfRange

HOUR = 3600.0
MILLIGRAM = 1e-6
generations = st.floats(1e-9, 1e-4)
shares = st.floats(0.0, 1.0)
flows = st.floats(0.01, 10.0)


def marched(
    generation: float, capture: float, kept: float, unit: float, outdoor: float, returned: bool
) -> float:
    """Concentration after a long time, from small steps of the room's mass balance."""
    volume, step, concentration = 1000.0, 5.0, 0.0
    for _ in range(20_000):
        into_unit = capture * generation + unit * concentration
        gain = (1.0 - capture) * generation + ((1.0 - kept) * into_unit if returned else 0.0)
        loss = (outdoor + unit) * concentration
        concentration += step * (gain - loss) / volume
    return concentration


@pytest.mark.parametrize("kept", [0.0, 0.95, 0.9995])
def test_returned_air_against_a_march_through_time(kept: float) -> None:
    case = (20e-3 / HOUR, 0.98, kept, 1000 / HOUR, 5000 / HOUR)
    assert steady_concentration_returned(*case, 1) == pytest.approx(marched(*case, True), rel=1e-6)


def test_discharged_air_against_a_march_through_time() -> None:
    generation, capture, unit, outdoor = 20e-3 / HOUR, 0.98, 1000 / HOUR, 5000 / HOUR
    assert steady_concentration_discharged(generation, capture, unit, outdoor, 1) == pytest.approx(
        marched(generation, capture, 1.0, unit, outdoor, False), rel=1e-6
    )


# Arithmetic of the balance: 20 g/h, capture 0.98, 1000 m³/h through the unit, 5000 m³/h outdoor
# air; mg/m³.
@pytest.mark.parametrize(("kept", "expected"), [(0.95, 0.23193), (0.9995, 0.06831), (0.0, 4.0)])
def test_returned(kept: float, expected: float) -> None:
    room = steady_concentration_returned(20e-3 / HOUR, 0.98, kept, 1000 / HOUR, 5000 / HOUR, 1)
    assert room / MILLIGRAM == pytest.approx(expected, abs=5e-6)


def test_discharged() -> None:
    room = steady_concentration_discharged(20e-3 / HOUR, 0.98, 1000 / HOUR, 5000 / HOUR, 1)
    assert room / MILLIGRAM == pytest.approx(0.06667, abs=5e-6)


@pytest.mark.parametrize(("mixing", "expected"), [(1, 0.40), (3, 1.20)])
def test_six_units(mixing: float, expected: float) -> None:
    room = concentration_from_returned_air(MILLIGRAM, 800 / HOUR, 6, 12000 / HOUR, mixing)
    assert room / MILLIGRAM == pytest.approx(expected)


@given(generations, shares, flows, flows)
def test_a_perfect_filter_is_as_good_as_outdoors(
    generation: float, capture: float, unit: float, outdoor: float
) -> None:
    assert steady_concentration_returned(
        generation, capture, 1.0, unit, outdoor, 1
    ) == pytest.approx(steady_concentration_discharged(generation, capture, unit, outdoor, 1))


@given(generations, shares, flows, flows)
def test_no_filter_is_no_help(
    generation: float, capture: float, unit: float, outdoor: float
) -> None:
    assert steady_concentration_returned(
        generation, capture, 0.0, unit, outdoor, 1
    ) == pytest.approx(generation / outdoor)


@given(generations, shares, shares, shares, flows, flows)
def test_a_better_filter_never_makes_it_worse(
    generation: float, capture: float, first: float, second: float, unit: float, outdoor: float
) -> None:
    worse, better = sorted((first, second))
    low = steady_concentration_returned(generation, capture, better, unit, outdoor, 1)
    high = steady_concentration_returned(generation, capture, worse, unit, outdoor, 1)
    assert low <= high * (1.0 + 1e-12)


@given(generations, shares, shares, flows, flows, st.floats(1.0, 10.0))
def test_twice_the_mist_is_twice_the_concentration(
    generation: float, capture: float, kept: float, unit: float, outdoor: float, mixing: float
) -> None:
    once = steady_concentration_returned(generation, capture, kept, unit, outdoor, mixing)
    twice = steady_concentration_returned(2 * generation, capture, kept, unit, outdoor, mixing)
    assert twice == pytest.approx(2.0 * once)


@given(st.floats(0.5, 1.0))
def test_escape_and_penetration_balance(capture: float) -> None:
    penetration = penetration_hidden_by_escape(capture)
    assert capture * penetration == pytest.approx(1.0 - capture, abs=1e-12)


# Arithmetic of C (1 - η) with 20 mg/m³ going in.
@pytest.mark.parametrize(
    ("filter_class", "left"), [("E10", 3.0), ("E11", 1.0), ("E12", 0.10), ("H13", 0.010)]
)
def test_classes_behind_twenty_milligrams(filter_class: str, left: float) -> None:
    efficiency = minimum_efficiency_en_1822(filter_class)  # type: ignore[arg-type]
    assert outlet_concentration(20 * MILLIGRAM, efficiency) / MILLIGRAM == pytest.approx(left)


# Arithmetic: 50 mg/m³ × 600 m³/h = 30 g/h, at 870 kg/m³ 34.5 ml/h.
def test_collected_mist() -> None:
    rate = collected_mist_rate(50 * MILLIGRAM, 0.0, 600 / HOUR)
    assert rate * 1000 * HOUR == pytest.approx(30.0)
    assert rate / 870.0 * 1e6 * HOUR == pytest.approx(34.5, abs=0.05)


def test_a_long_shift_is_still_divided_by_eight() -> None:
    assert shift_average_concentration([4.0], [12 * HOUR]) == pytest.approx(6.0)


@given(st.lists(st.tuples(st.floats(0.0, 100.0), st.floats(0.1, 100.0)), min_size=1, max_size=5))
def test_mixture_is_the_sum_of_its_members(members: list[tuple[float, float]]) -> None:
    index = mixture_index([c for c, _ in members], [limit for _, limit in members])
    assert index == pytest.approx(sum(mixture_index([c], [limit]) for c, limit in members))


def test_refusals_name_the_value() -> None:
    good = (1e-6, 0.9, 0.9, 0.3, 1.0, 1.0)
    for position, value, words in [
        (0, -1.0, "generation of mist is -1 kg/s"),
        (1, 1.1, r"capture efficiency is 1\.1"),
        (2, -0.1, r"filter efficiency is -0\.1"),
        (2, 95.0, "filter efficiency is 95"),
        (3, math.nan, "flow of the unit is nan"),
        (4, -1.0, "outdoor air is -1"),
        (5, 0.5, r"mixing factor is 0\.5"),
    ]:
        case = [*good[:position], value, *good[position + 1 :]]
        with pytest.raises(OutOfRange, match=words):
            steady_concentration_returned(*case)
    with pytest.raises(OutOfRange, match="takes mist out of the room is 0"):
        steady_concentration_returned(1e-6, 0.9, 0.0, 0.3, 0.0, 1)
    with pytest.raises(OutOfRange, match="takes mist out of the room is 0"):
        steady_concentration_discharged(1e-6, 0.9, 0.0, 0.0, 1)
    with pytest.raises(OutOfRange, match="flow of outdoor air is 0"):
        concentration_from_returned_air(1e-6, 0.2, 1, 0.0, 1)
    with pytest.raises(OutOfRange, match="capture efficiency is 0"):
        penetration_hidden_by_escape(0.0)
    with pytest.raises(OutOfRange, match="2 concentrations and 1 durations"):
        shift_average_concentration([1.0, 2.0], [HOUR])
    with pytest.raises(OutOfRange, match="sum of the periods"):
        shift_average_concentration([1.0, 2.0], [20 * HOUR, 5 * HOUR])
    with pytest.raises(OutOfRange, match="1 concentrations and 0 limits"):
        mixture_index([1.0], [])
    with pytest.raises(OutOfRange, match="limit of a substance is 0"):
        mixture_index([1.0], [0.0])
    with pytest.raises(OutOfRange, match="a filter cannot add mist"):
        collected_mist_rate(MILLIGRAM, 2 * MILLIGRAM, 1.0)
