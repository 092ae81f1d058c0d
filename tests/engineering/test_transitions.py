from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.transitions import (
    butterfly_damper_coefficient,
    cone_contraction_coefficient,
    rain_cap_coefficient,
    reducer_area_ratio,
    step_contraction_coefficient,
    step_expansion_coefficient,
    tabulated_cone_contraction_coefficient,
    tabulated_cone_expansion_coefficient,
    tabulated_step_contraction_coefficient,
)

bores = st.floats(0.02, 0.5)
shares = st.floats(0.3, 1.0)


@given(bores, shares, st.floats(0.1, 10.0))
def test_coefficients_are_scale_free(bore: float, share: float, scale: float) -> None:
    small = (bore * share, bore)
    large = (small[0] * scale, small[1] * scale)
    assert reducer_area_ratio(*large) == pytest.approx(reducer_area_ratio(*small))
    assert step_expansion_coefficient(*large) == pytest.approx(
        step_expansion_coefficient(*small), abs=1e-9
    )
    if share < 0.999:
        assert step_contraction_coefficient(large[1], large[0]) == pytest.approx(
            step_contraction_coefficient(small[1], small[0]), abs=1e-9
        )


@given(bores, st.floats(0.3, 0.98), st.floats(0.001, 0.01))
def test_a_smaller_step_never_loses_more(bore: float, share: float, more: float) -> None:
    narrow, less_narrow = bore * share, bore * (share + more)
    assert step_expansion_coefficient(less_narrow, bore) < step_expansion_coefficient(narrow, bore)
    wide = step_contraction_coefficient(bore, less_narrow)
    assert wide < step_contraction_coefficient(bore, narrow)


@given(bores, st.floats(0.3, 0.95))
def test_a_cone_of_thirty_degrees_beats_the_step(bore: float, share: float) -> None:
    cone = cone_contraction_coefficient(bore, bore * share, math.radians(30.0), 0.02)
    assert 0.0 < cone < step_contraction_coefficient(bore, bore * share)


@given(st.floats(16.0, 60.0), st.floats(1.0, 2.0))
def test_opening_out_costs_more_than_closing_in(degrees: float, ratio: float) -> None:
    angle = math.radians(degrees)
    closing = tabulated_cone_contraction_coefficient(ratio, angle)
    assert tabulated_cone_expansion_coefficient(ratio, angle) > closing


@given(st.floats(0.0, 59.0), st.floats(0.1, 1.0))
def test_a_damper_turned_further_never_loses_less(degrees: float, step: float) -> None:
    open_wider = butterfly_damper_coefficient(math.radians(degrees))
    assert butterfly_damper_coefficient(math.radians(degrees + step)) > open_wider


def test_no_change_of_bore_loses_nothing() -> None:
    assert reducer_area_ratio(0.15, 0.15) == 1.0
    assert step_expansion_coefficient(0.15, 0.15) == 0.0
    assert step_contraction_coefficient(0.15, 0.15) == 0.0
    assert cone_contraction_coefficient(0.15, 0.15, 0.5, 0.02) == 0.0


def test_exchanged_bores() -> None:
    for call in (
        lambda: reducer_area_ratio(0.15, 0.125),
        lambda: step_expansion_coefficient(0.15, 0.125),
        lambda: step_contraction_coefficient(0.125, 0.15),
        lambda: cone_contraction_coefficient(0.125, 0.15, 0.5, 0.02),
    ):
        with pytest.raises(OutOfRange, match="they are exchanged"):
            call()


def test_other_refusals() -> None:
    with pytest.raises(OutOfRange, match="smaller bore"):
        reducer_area_ratio(0.0, 0.15)
    with pytest.raises(OutOfRange, match=r"velocity ratio is 0.8"):
        tabulated_step_contraction_coefficient(0.8)
    with pytest.raises(OutOfRange, match="included angle is 4 degrees"):
        cone_contraction_coefficient(0.15, 0.125, math.radians(4.0), 0.02)
    with pytest.raises(OutOfRange, match="friction factor"):
        cone_contraction_coefficient(0.15, 0.125, 0.5, 0.0)
    with pytest.raises(OutOfRange, match=r"area ratio is 2.1"):
        tabulated_cone_expansion_coefficient(2.1, 0.5)
    with pytest.raises(OutOfRange, match=r"area ratio is 0.9"):
        tabulated_cone_contraction_coefficient(0.9, 0.5)
    with pytest.raises(OutOfRange, match="included angle is 61 degrees"):
        tabulated_cone_expansion_coefficient(2.0, math.radians(61.0))
    with pytest.raises(OutOfRange, match="included angle is 15 degrees"):
        tabulated_cone_expansion_coefficient(2.0, math.radians(15.0))
    with pytest.raises(OutOfRange, match=r"height ratio of the cap is 0.05"):
        rain_cap_coefficient(0.05)
    with pytest.raises(OutOfRange, match="angle of the damper is 61 degrees"):
        butterfly_damper_coefficient(math.radians(61.0))
