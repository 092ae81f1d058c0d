"""Steel, head and combined loads of anchors: ranges and properties."""

from __future__ import annotations

import math
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.anchor_fasteners import (
    anchor_head_area,
    anchor_interaction,
    anchor_pull_out_resistance,
    anchor_shear_factor,
    anchor_shear_partial_factor,
    anchor_shear_resistance,
    anchor_tension_partial_factor,
    anchor_tension_resistance,
)
from checker.engineering.limits import OutOfRange

areas = st.floats(1e-6, 1e-3)
utilisations = st.floats(0.0, 2.0)
failures: list[Literal["steel", "concrete"]] = ["steel", "concrete"]


@given(areas, st.floats(300e6, 1000e6))
def test_shear_is_less_than_tension(area: float, strength: float) -> None:
    shear = anchor_shear_resistance(area, strength)
    tension = anchor_tension_resistance(area, strength)
    assert shear == pytest.approx(anchor_shear_factor(strength) * tension)
    assert shear <= 0.6 * tension * (1 + 1e-12)


def test_shear_factor_steps_after_500_mpa() -> None:
    assert anchor_shear_factor(500e6) == 0.6
    assert anchor_shear_factor(500.1e6) == 0.5
    assert anchor_shear_factor(1000e6) == 0.5


@pytest.mark.parametrize("strength", [0.0, -1.0, 1001e6, math.nan, math.inf])
def test_refuses_strengths_without_shear_factor(strength: float) -> None:
    with pytest.raises(OutOfRange, match="ultimate strength"):
        anchor_shear_factor(strength)


@given(st.floats(200e6, 1000e6), st.floats(0.2, 1.0))
def test_partial_factors_have_their_least_values(ultimate: float, share: float) -> None:
    assert anchor_tension_partial_factor(ultimate, share * ultimate) >= 1.4
    assert anchor_shear_partial_factor(ultimate, share * ultimate) >= 1.25


# EN 1992-4:2018, Table 4.1, arithmetic of the formulas for the property classes 4.6 and 8.8.
@pytest.mark.parametrize(
    ("ultimate", "yielding", "tension", "shear"),
    [(400e6, 240e6, 2.0, 5 / 3), (800e6, 640e6, 1.5, 1.25)],
)
def test_partial_factors_of_property_classes(
    ultimate: float, yielding: float, tension: float, shear: float
) -> None:
    assert anchor_tension_partial_factor(ultimate, yielding) == pytest.approx(tension)
    assert anchor_shear_partial_factor(ultimate, yielding) == pytest.approx(shear)


@pytest.mark.parametrize(
    ("ultimate", "yielding"),
    [(400e6, 401e6), (400e6, 0.0), (0.0, 240e6), (math.nan, 240e6), (math.inf, 240e6)],
)
def test_refuses_steel_that_does_not_exist(ultimate: float, yielding: float) -> None:
    with pytest.raises(OutOfRange):
        anchor_tension_partial_factor(ultimate, yielding)
    with pytest.raises(OutOfRange):
        anchor_shear_partial_factor(ultimate, yielding)


@given(st.floats(0.021, 0.2), st.floats(0.001, 0.1))
def test_head_area_is_never_more_than_the_ring(head: float, thickness: float) -> None:
    area = anchor_head_area(head, 0.020, thickness)
    assert 0.0 < area <= math.pi / 4 * (head**2 - 0.020**2) * (1 + 1e-9)


def test_thin_head_bears_on_its_inner_part_only() -> None:
    assert anchor_head_area(0.200, 0.020, 0.005) == pytest.approx(
        anchor_head_area(0.050, 0.020, 0.005)
    )


@pytest.mark.parametrize(
    ("head", "shank", "thickness"),
    [(0.02, 0.02, 0.01), (0.01, 0.02, 0.01), (0.03, 0.0, 0.01), (0.03, 0.02, 0.0)],
)
def test_refuses_heads_that_do_not_exist(head: float, shank: float, thickness: float) -> None:
    with pytest.raises(OutOfRange):
        anchor_head_area(head, shank, thickness)


@given(areas, st.floats(12e6, 90e6))
def test_pull_out_is_proportional(area: float, strength: float) -> None:
    one = anchor_pull_out_resistance(True, area, strength)
    assert anchor_pull_out_resistance(True, 2 * area, strength) == pytest.approx(2 * one)
    assert anchor_pull_out_resistance(False, area, strength) == pytest.approx(1.4 * one)


@pytest.mark.parametrize(("area", "strength"), [(0.0, 20e6), (1e-3, 11e6), (1e-3, 91e6)])
def test_refuses_pull_out_outside_the_formula(area: float, strength: float) -> None:
    with pytest.raises(OutOfRange):
        anchor_pull_out_resistance(True, area, strength)


@pytest.mark.parametrize("failure", failures)
@given(tension=utilisations, shear=utilisations, more=st.floats(0.0, 1.0))
def test_interaction_grows_with_both(
    failure: Literal["steel", "concrete"], tension: float, shear: float, more: float
) -> None:
    both = anchor_interaction(failure, tension, shear)
    assert anchor_interaction(failure, tension + more, shear) >= both
    assert anchor_interaction(failure, tension, shear + more) >= both
    assert anchor_interaction(failure, shear, tension) == pytest.approx(both)


@pytest.mark.parametrize("failure", failures)
def test_a_single_full_load_is_the_limit(failure: Literal["steel", "concrete"]) -> None:
    assert anchor_interaction(failure, 1.0, 0.0) == 1.0
    assert anchor_interaction(failure, 1.01, 0.0) > 1.0


@given(st.floats(0.01, 0.99), st.floats(0.01, 0.99))
def test_concrete_is_the_stricter_failure(tension: float, shear: float) -> None:
    steel = anchor_interaction("steel", tension, shear)
    assert anchor_interaction("concrete", tension, shear) > steel


@pytest.mark.parametrize("bad", [-0.1, math.nan, math.inf])
def test_refuses_impossible_utilisations(bad: float) -> None:
    with pytest.raises(OutOfRange):
        anchor_interaction("steel", bad, 0.5)
    with pytest.raises(OutOfRange):
        anchor_interaction("steel", 0.5, bad)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan])
def test_refuses_impossible_tension(bad: float) -> None:
    with pytest.raises(OutOfRange):
        anchor_tension_resistance(bad, 800e6)
    with pytest.raises(OutOfRange):
        anchor_tension_resistance(84e-6, bad)
