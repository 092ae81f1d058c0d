"""Sound levels: behaviour and refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.acoustics import (
    background_correction,
    combined_level,
    free_field_level,
    level_difference,
    level_of_equal_sources,
    level_raised,
    level_sum,
    level_without_background,
    peak_level,
    power_level_from_pressure_level,
    pressure_level_from_power_level,
    room_constant,
    room_pressure_level,
)
from checker.engineering.limits import OutOfRange

levels = st.floats(20.0, 140.0)
distances = st.floats(0.1, 100.0)


# Arithmetic of 10 lg of the sum of 10^(L/10).
@pytest.mark.parametrize(
    ("members", "total"),
    [([90, 90], 93.01), ([75, 80], 81.19), ([70, 85], 85.14), ([68], 68.0)],
)
def test_sums(members: list[float], total: float) -> None:
    assert level_sum(members) == pytest.approx(total, abs=0.005)


@given(st.lists(levels, min_size=1, max_size=6))
def test_sum_lies_between_the_loudest_and_as_many_of_it(members: list[float]) -> None:
    total = level_sum(members)
    assert max(members) - 1e-9 <= total <= max(members) + 10.0 * math.log10(len(members)) + 1e-9


@given(levels, levels)
def test_order_does_not_matter(first: float, second: float) -> None:
    assert combined_level(first, second) == pytest.approx(combined_level(second, first))


@given(levels, st.integers(1, 20))
def test_equal_sources_are_a_sum(level: float, count: int) -> None:
    assert level_of_equal_sources(level, count) == pytest.approx(level_sum([level] * count))


@given(levels, st.floats(-2.0, 60.0))
def test_background_comes_out_as_it_went_in(background: float, above: float) -> None:
    source = background + above
    total = combined_level(source, background)
    if total - background < 3.0:
        with pytest.raises(OutOfRange):
            level_without_background(total, background)
    else:
        assert level_without_background(total, background) == pytest.approx(source, abs=1e-6)
        assert background_correction(total, background) == pytest.approx(total - source, abs=1e-6)


def test_three_decibels_read_from_a_meter_are_enough() -> None:
    # 64.1 - 61.1 is a little less than 3 in binary fractions.
    assert 64.1 - 61.1 < 3.0
    assert level_without_background(64.1, 61.1) == pytest.approx(61.08, abs=0.005)


# Arithmetic of the subtraction.
def test_background_of_76_in_80() -> None:
    assert level_without_background(80.0, 76.0) == pytest.approx(77.80, abs=0.005)


# Arithmetic of the inverse-square law.
def test_three_times_the_distance() -> None:
    assert free_field_level(72.0, 1.0, 3.0) == pytest.approx(62.46, abs=0.005)


@given(levels, distances, distances)
def test_there_and_back(level: float, near: float, far: float) -> None:
    assert free_field_level(free_field_level(level, near, far), far, near) == pytest.approx(level)


@given(levels, distances, st.sampled_from([1.0, 2.0, 4.0, 8.0]))
def test_power_level_round_trip(level: float, distance: float, directivity: float) -> None:
    power = power_level_from_pressure_level(level, distance, directivity)
    assert pressure_level_from_power_level(power, distance, directivity) == pytest.approx(level)


# Arithmetic of Lw + 10 lg(Q/(4πr²) + 4/R).
def test_room() -> None:
    assert room_pressure_level(85.0, 2.0, 2, 100.0) == pytest.approx(74.02, abs=0.005)


@given(levels, distances, st.floats(1.0, 1e4))
def test_a_room_is_never_quieter_than_the_open(power: float, distance: float, room: float) -> None:
    open_air = pressure_level_from_power_level(power, distance, 1)
    assert room_pressure_level(power, distance, 1, room) > open_air


@given(levels, distances)
def test_a_dead_room_is_the_open(power: float, distance: float) -> None:
    room = room_constant(1e9, 0.999)
    open_air = pressure_level_from_power_level(power, distance, 1)
    assert room_pressure_level(power, distance, 1, room) == pytest.approx(open_air, abs=1e-3)


# Arithmetic of 20 lg(p/20 µPa).
@pytest.mark.parametrize(("pressure", "level"), [(112, 134.96), (140, 136.90), (200, 140.00)])
def test_peaks(pressure: float, level: float) -> None:
    assert peak_level(pressure) == pytest.approx(level, abs=0.005)


def test_plain_decibels() -> None:
    assert level_raised(72.0, 3.0) == 75.0
    assert level_difference(87.0, 20.0) == 67.0
    assert level_difference(60.0, 72.0) == -12.0


@pytest.mark.parametrize("level", [-51.0, 201.0, math.nan, math.inf])
def test_levels_no_sound_has_are_refused(level: float) -> None:
    with pytest.raises(OutOfRange, match="slip of the unit"):
        level_sum([70.0, level])


def test_refusals_name_the_value() -> None:
    with pytest.raises(OutOfRange, match="at least one"):
        level_sum([])
    with pytest.raises(OutOfRange, match=r"is 1\.5; it must be a whole number"):
        level_of_equal_sources(70.0, 1.5)
    with pytest.raises(OutOfRange, match="is 0; it must be a whole number"):
        level_of_equal_sources(70.0, 0)
    with pytest.raises(OutOfRange, match="known distance is 0 m"):
        free_field_level(70.0, 0.0, 1.0)
    with pytest.raises(OutOfRange, match="distance is -1 m"):
        free_field_level(70.0, 1.0, -1.0)
    with pytest.raises(OutOfRange, match="directivity factor is 0"):
        pressure_level_from_power_level(70.0, 1.0, 0)
    with pytest.raises(OutOfRange, match="directivity factor is 0"):
        power_level_from_pressure_level(70.0, 1.0, 0)
    with pytest.raises(OutOfRange, match="room constant is 0 m²"):
        room_pressure_level(70.0, 1.0, 1, 0.0)
    with pytest.raises(OutOfRange, match="coefficient is 1; it lies between"):
        room_constant(100.0, 1.0)
    with pytest.raises(OutOfRange, match="surface of the room is 0 m²"):
        room_constant(0.0, 0.2)
    with pytest.raises(OutOfRange, match="peak sound pressure is 0 Pa"):
        peak_level(0.0)
