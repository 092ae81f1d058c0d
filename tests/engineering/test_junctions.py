from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.junctions import (
    balanced_branch_flow,
    branch_imbalance,
    converging_branch_coefficient,
    converging_run_coefficient,
    converging_tee_branch_coefficient,
    converging_tee_run_coefficient,
    merged_velocity_pressure,
)
from checker.engineering.limits import OutOfRange

flows = st.floats(0.01, 10.0)
angles = st.sampled_from([30.0, 45.0, 60.0]).map(math.radians)


@given(flows, flows, angles, st.floats(0.1, 10.0))
def test_junctions_are_scale_free(run: float, branch: float, angle: float, scale: float) -> None:
    for function in (converging_branch_coefficient, converging_run_coefficient):
        small = function(0.15, 0.12, run, branch, angle)
        large = function(0.15 * scale, 0.12 * scale, run * scale, branch * scale, angle)
        assert large == pytest.approx(small, rel=1e-6, abs=1e-9)


@given(st.floats(0.45, 0.98), st.floats(0.001, 0.02), angles)
def test_a_larger_share_costs_the_branch_more(share: float, more: float, angle: float) -> None:
    little = converging_branch_coefficient(0.15, 0.15, 1.0 - share, share, angle)
    much = converging_branch_coefficient(0.15, 0.15, 1.0 - share - more, share + more, angle)
    right_angle = math.radians(90.0)
    assert converging_branch_coefficient(0.15, 0.15, 1.0, 1.0, angle) < (
        converging_branch_coefficient(0.15, 0.15, 1.0, 1.0, right_angle)
    )
    if angle >= math.radians(59.0):
        assert much > little


def test_the_small_branch_is_pulled_along() -> None:
    assert converging_branch_coefficient(0.15, 0.15, 0.9, 0.1, math.radians(45.0)) < 0.0
    assert converging_tee_branch_coefficient(0.3) < 0.0


@given(st.floats(0.3, 1.0))
def test_tee_tables_stay_inside_their_values(share: float) -> None:
    assert -0.08 <= converging_tee_branch_coefficient(share) <= 1.1
    assert 0.38 <= converging_tee_run_coefficient(share) <= 0.59


@given(st.floats(0.01, 1.0), st.floats(50.0, 1000.0), st.floats(1.01, 4.0))
def test_the_branch_that_needs_less_takes_more(flow: float, pressure: float, factor: float) -> None:
    taken = balanced_branch_flow(flow, pressure, pressure * factor)
    assert taken > flow
    assert balanced_branch_flow(taken, pressure * factor, pressure) == pytest.approx(flow)


@given(st.lists(st.floats(1.0, 1000.0), min_size=2, max_size=5), st.floats(0.1, 10.0))
def test_imbalance_is_a_share(pressures: list[float], scale: float) -> None:
    found = branch_imbalance(pressures)
    assert 0.0 <= found < 1.0
    assert branch_imbalance([scale * pressure for pressure in pressures]) == pytest.approx(found)


@given(st.lists(st.tuples(st.floats(0.01, 1.0), st.floats(1.0, 500.0)), min_size=1, max_size=5))
def test_merged_pressure_lies_between(branches: list[tuple[float, float]]) -> None:
    pressures = [pressure for _, pressure in branches]
    merged = merged_velocity_pressure([flow for flow, _ in branches], pressures)
    assert min(pressures) * (1 - 1e-12) <= merged <= max(pressures) * (1 + 1e-12)


@pytest.mark.parametrize("degrees", [29.0, 61.0, 75.0, 91.0])
def test_run_angle_out_of_range(degrees: float) -> None:
    with pytest.raises(OutOfRange, match="The angle of the branch is"):
        converging_run_coefficient(0.15, 0.15, 1.0, 1.0, math.radians(degrees))


def test_other_refusals() -> None:
    right_angle = math.radians(90.0)
    with pytest.raises(OutOfRange, match="angle of the branch is 91 degrees"):
        converging_branch_coefficient(0.15, 0.15, 1.0, 1.0, math.radians(91.0))
    with pytest.raises(OutOfRange, match="area of the branch"):
        converging_branch_coefficient(0.15, 0.20, 1.0, 1.0, right_angle)
    with pytest.raises(OutOfRange, match="flow in the branch"):
        converging_branch_coefficient(0.15, 0.15, 1.0, -1.0, right_angle)
    with pytest.raises(OutOfRange, match="combined flow"):
        converging_run_coefficient(0.15, 0.15, 0.0, 0.0, right_angle)
    with pytest.raises(OutOfRange, match=r"share of the branch is 0.2"):
        converging_tee_branch_coefficient(0.2)
    with pytest.raises(OutOfRange, match=r"share of the branch is 1.1"):
        converging_tee_run_coefficient(1.1)
    with pytest.raises(OutOfRange, match="at least two branches"):
        branch_imbalance([100.0])
    with pytest.raises(OutOfRange, match="static pressure of a branch"):
        branch_imbalance([100.0, 0.0])
    with pytest.raises(OutOfRange, match="static pressure of the branch"):
        balanced_branch_flow(1.0, 0.0, 100.0)
    with pytest.raises(OutOfRange, match="each branch needs both"):
        merged_velocity_pressure([1.0], [1.0, 2.0])
    with pytest.raises(OutOfRange, match="combined flow"):
        merged_velocity_pressure([0.0], [1.0])
