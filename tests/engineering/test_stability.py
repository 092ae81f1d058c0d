"""Overturning, anchor tension and transit: ranges and properties."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.stability import (
    anchor_tension,
    overturning_design_moment,
    stabilising_design_moment,
    stability_ratio,
    transit_horizontal_force,
    transit_vertical_force,
)

forces = st.floats(0.0, 1e5)
lengths = st.floats(0.01, 10.0)


# EN 1990:2002, Table A1.2(A), arithmetic of the formulas: 95 kg on a 0.8 m square base, 300 N at
# 1.5 m.
def test_a_person_pulls_a_stand_over() -> None:
    holding = stabilising_design_moment(95 * 9.81, 0.4, 0.9)
    tipping = overturning_design_moment(300.0, 1.5, 0.0, 1.5)
    assert holding == pytest.approx(335.5, abs=0.05)
    assert tipping == pytest.approx(675.0)
    assert stability_ratio(holding, tipping) == pytest.approx(0.50, abs=0.005)
    plain = stability_ratio(95 * 9.81 * 0.4, 300.0 * 1.5)
    assert plain == pytest.approx(0.83, abs=0.005)
    assert anchor_tension(tipping, 0.9 * 95 * 9.81, 0.25, 0.5, 2) == pytest.approx(465, abs=0.5)


@given(forces, lengths, forces, st.floats(1.0, 2.0), st.floats(0.0, 1e4))
def test_more_pull_never_tips_less(
    force: float, height: float, other: float, factor: float, more: float
) -> None:
    moment = overturning_design_moment(force, height, other, factor)
    assert overturning_design_moment(force + more, height, other, factor) >= moment
    assert overturning_design_moment(force, height, other + more, factor) >= moment
    assert overturning_design_moment(force, height + more, other, factor) >= moment


@given(st.floats(1.0, 1e5), lengths, st.floats(0.1, 1.0), st.floats(1.0, 1e5))
def test_ratio_has_no_scale(weight: float, lever: float, factor: float, scale: float) -> None:
    holding = stabilising_design_moment(weight, lever, factor)
    scaled = stabilising_design_moment(scale * weight, lever, factor)
    assert stability_ratio(scaled, scale * 100.0) == pytest.approx(stability_ratio(holding, 100.0))


@given(st.floats(0.0, 1e5), st.floats(0.0, 1e4), lengths, lengths, st.integers(1, 8))
def test_anchors_and_weight_balance_the_moment(
    moment: float, weight: float, weight_lever: float, bolt_lever: float, bolts: int
) -> None:
    tension = anchor_tension(moment, weight, weight_lever, bolt_lever, bolts)
    held = weight * weight_lever + tension * bolts * bolt_lever
    if tension > 0.0:
        assert held == pytest.approx(moment, rel=1e-6, abs=1e-3)
    else:
        assert held >= moment * (1 - 1e-9)


def test_weight_that_holds_alone_leaves_the_anchors_free() -> None:
    assert anchor_tension(100.0, 1000.0, 0.2, 0.4, 2) == 0.0


@pytest.mark.parametrize(
    ("weight", "lever", "factor"),
    [
        (-1.0, 0.4, 0.9),
        (900.0, 0.0, 0.9),
        (900.0, 0.4, 0.0),
        (900.0, 0.4, 1.01),
        (math.nan, 1, 0.9),
    ],
)
def test_refuses_impossible_stabilising_loads(weight: float, lever: float, factor: float) -> None:
    with pytest.raises(OutOfRange):
        stabilising_design_moment(weight, lever, factor)


@pytest.mark.parametrize("position", range(4))
@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf])
def test_refuses_impossible_overturning_loads(position: int, bad: float) -> None:
    values = [300.0, 1.5, 0.0, 1.5]
    values[position] = bad
    with pytest.raises(OutOfRange):
        overturning_design_moment(*values)


def test_refuses_a_factor_that_lightens_the_overturning_load() -> None:
    with pytest.raises(OutOfRange):
        overturning_design_moment(300.0, 1.5, 0.0, 0.9)


@pytest.mark.parametrize(("holding", "tipping"), [(100.0, 0.0), (-1.0, 100.0), (100.0, math.nan)])
def test_refuses_a_ratio_of_nothing(holding: float, tipping: float) -> None:
    with pytest.raises(OutOfRange):
        stability_ratio(holding, tipping)


@pytest.mark.parametrize("position", range(5))
@pytest.mark.parametrize("bad", [-1.0, math.nan])
def test_refuses_impossible_base_plates(position: int, bad: float) -> None:
    values = [675.0, 800.0, 0.25, 0.5, 2.0]
    values[position] = bad
    with pytest.raises(OutOfRange):
        anchor_tension(*values)


@pytest.mark.parametrize(("lever", "bolts"), [(0.0, 2), (0.5, 0)])
def test_refuses_base_plates_without_anchors(lever: float, bolts: float) -> None:
    with pytest.raises(OutOfRange):
        anchor_tension(675.0, 800.0, 0.25, lever, bolts)


# EN 12195-1:2010, arithmetic of F = c·m·g for 60 kg.
@pytest.mark.parametrize(("coefficient", "newtons"), [(0.8, 471), (0.6, 353), (0.5, 294)])
def test_transit_force(coefficient: float, newtons: float) -> None:
    assert transit_horizontal_force(60.0, coefficient) == pytest.approx(newtons, abs=0.5)


@given(st.floats(1.0, 500.0), st.floats(0.0, 1.0))
def test_heavy_and_light_phases_lie_about_the_weight(mass: float, coefficient: float) -> None:
    heavy = transit_vertical_force(mass, coefficient, "heavy")
    light = transit_vertical_force(mass, coefficient, "light")
    assert (heavy + light) / 2 == pytest.approx(mass * 9.80665)
    assert 0.0 <= light <= heavy


@pytest.mark.parametrize(
    ("mass", "coefficient"), [(0.0, 0.5), (-1.0, 0.5), (60.0, 0.0), (60.0, 4.1), (math.nan, 0.5)]
)
def test_refuses_impossible_journeys(mass: float, coefficient: float) -> None:
    with pytest.raises(OutOfRange):
        transit_horizontal_force(mass, coefficient)


@pytest.mark.parametrize(("mass", "coefficient"), [(0.0, 0.5), (60.0, -0.1), (60.0, 1.1)])
def test_refuses_loads_that_leave_the_deck(mass: float, coefficient: float) -> None:
    with pytest.raises(OutOfRange):
        transit_vertical_force(mass, coefficient, "light")
