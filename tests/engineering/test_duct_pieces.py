"""What bends take off the straight pieces between them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.duct_pieces import bend_take_off, taken_by_neighbours
from checker.engineering.limits import OutOfRange

LENGTHS = st.lists(st.floats(0, 2), min_size=1, max_size=12)


def test_a_right_angle_takes_its_radius() -> None:
    assert bend_take_off(0.3, math.pi / 2) == pytest.approx(0.3)


@given(st.floats(0.01, 2), st.floats(1e-6, math.radians(160)))
def test_the_arc_is_shorter_than_the_two_tangents(radius: float, angle: float) -> None:
    tangents = 2 * bend_take_off(radius, angle)
    assert radius * angle <= tangents * (1 + 1e-12)


@given(st.floats(0.01, 2), st.floats(0.01, math.radians(160)), st.floats(1, 5))
def test_it_grows_as_the_radius(radius: float, angle: float, factor: float) -> None:
    assert bend_take_off(factor * radius, angle) == pytest.approx(
        factor * bend_take_off(radius, angle)
    )


@pytest.mark.parametrize(("radius", "degrees"), [(-0.1, 90.0), (0.3, 171.0), (0.3, -1.0)])
def test_out_of_range(radius: float, degrees: float) -> None:
    with pytest.raises(OutOfRange):
        bend_take_off(radius, math.radians(degrees))


@given(LENGTHS)
def test_one_part_has_at_most_two_neighbours(take_offs: list[float]) -> None:
    every = len(take_offs)
    alone = [
        taken_by_neighbours([1.0 if i == place else 0.0 for i in range(every)], take_offs)
        for place in range(every)
    ]
    assert alone[0] == (take_offs[1] if every > 1 else 0.0)
    assert alone[-1] == (take_offs[-2] if every > 1 else 0.0)
    assert sum(alone) == pytest.approx(taken_by_neighbours([1.0] * every, take_offs))


def test_the_lists_belong_together() -> None:
    with pytest.raises(OutOfRange):
        taken_by_neighbours([1, 0], [0.1])
    with pytest.raises(OutOfRange):
        taken_by_neighbours([0.5], [0.1])
