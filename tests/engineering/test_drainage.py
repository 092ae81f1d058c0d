from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.airflow import bore_area
from checker.engineering.drainage import (
    cautious_drain_flow,
    drain_reynolds_number,
    gravity_drain_flow,
    half_full_drain_flow,
    laminar_drain_flow,
    manning_drain_flow,
    turbulent_drain_flow,
)
from checker.engineering.friction import colebrook_friction_factor
from checker.engineering.limits import OutOfRange
from checker.engineering.liquids import liquid_viscosity

LITRE_PER_MINUTE = 1e-3 / 60.0
bores = st.floats(0.006, 0.1)
slopes = st.floats(0.002, 1.0)
viscosities = st.floats(0.8e-6, 5000e-6)


@given(bores, slopes, viscosities, st.floats(1.001, 3.0))
def test_thicker_never_drains_faster(
    bore: float, slope: float, viscosity: float, factor: float
) -> None:
    thin = cautious_drain_flow(bore, slope, viscosity, 1e-6)
    assert 0.0 < cautious_drain_flow(bore, slope, viscosity * factor, 1e-6) <= thin


@given(bores, slopes, st.floats(260.0, 350.0), st.floats(0.1, 10.0))
def test_colder_never_drains_faster(
    bore: float, slope: float, temperature: float, step: float
) -> None:
    oil = (46e-6, 313.15, 6.8e-6, 373.15)
    warm = cautious_drain_flow(bore, slope, liquid_viscosity(*oil, temperature + step), 0.0)
    cold = cautious_drain_flow(bore, slope, liquid_viscosity(*oil, temperature), 0.0)
    assert cold <= warm


@given(bores, slopes, viscosities, st.floats(1.001, 3.0))
def test_a_bigger_bore_never_drains_less(
    bore: float, slope: float, viscosity: float, factor: float
) -> None:
    narrow = cautious_drain_flow(bore, slope, viscosity, 1e-6)
    assert cautious_drain_flow(bore * factor, slope, viscosity, 1e-6) > narrow


@given(bores, st.floats(0.002, 0.5), viscosities, st.floats(1.001, 2.0))
def test_more_fall_never_drains_less(
    bore: float, slope: float, viscosity: float, factor: float
) -> None:
    flat = cautious_drain_flow(bore, slope, viscosity, 1e-6)
    assert cautious_drain_flow(bore, slope * factor, viscosity, 1e-6) > flat


@given(bores, slopes, viscosities)
def test_the_cautious_flow_is_never_the_larger(bore: float, slope: float, viscosity: float) -> None:
    try:
        chosen = gravity_drain_flow(bore, slope, viscosity, 1e-6)
    except OutOfRange:
        return
    cautious = cautious_drain_flow(bore, slope, viscosity, 1e-6)
    assert 0.70 * chosen <= cautious <= chosen * (1.0 + 1e-12)


@given(bores, slopes, viscosities)
def test_the_chosen_regime_confirms_itself(bore: float, slope: float, viscosity: float) -> None:
    try:
        flow = gravity_drain_flow(bore, slope, viscosity, 0.0)
    except OutOfRange:
        return
    reynolds = drain_reynolds_number(flow, bore, viscosity)
    assert reynolds < 2300.0 or reynolds >= 4000.0 * (1 - 1e-12)
    velocity = flow / bore_area(bore)
    factor = 64.0 / reynolds if reynolds < 2300.0 else colebrook_friction_factor(reynolds, 0.0)
    back = factor * velocity**2 / (2.0 * 9.80665 * bore)
    assert back == pytest.approx(slope, rel=1e-6)


@given(bores, slopes, viscosities, st.floats(0.2, 5.0))
def test_drains_are_scale_free(bore: float, slope: float, viscosity: float, scale: float) -> None:
    # At the same slope D^3/nu^2 keeps the Reynolds number; the flow then goes with D^2.5.
    small = cautious_drain_flow(bore, slope, viscosity, 0.0)
    large = cautious_drain_flow(bore * scale, slope, viscosity * scale**1.5, 0.0)
    assert large == pytest.approx(small * scale**2.5, rel=1e-9)


def test_laminar_flow_goes_with_the_fourth_power() -> None:
    ratio = laminar_drain_flow(0.012, 0.02, 133.84e-6) / laminar_drain_flow(0.019, 0.02, 133.84e-6)
    assert ratio == pytest.approx(0.159, abs=0.0005)


def test_half_full_carries_half() -> None:
    full = gravity_drain_flow(0.019, 0.02, 133.84e-6, 0.0)
    assert half_full_drain_flow(full) / LITRE_PER_MINUTE == pytest.approx(0.1406, abs=0.00005)


def test_the_laminar_formula_refuses_emulsion() -> None:
    # 34.2 L/min at a Reynolds number of 34 700 is what it would have promised.
    with pytest.raises(OutOfRange, match=r"Reynolds number of 3\.474e\+04; it holds below 2300"):
        laminar_drain_flow(0.019, 0.02, 1.1e-6)


@pytest.mark.parametrize("viscosity", [133.84e-6, 10e-6, 3e-6])
def test_the_turbulent_formula_refuses_oil(viscosity: float) -> None:
    with pytest.raises(OutOfRange, match="does not run turbulent in this drain"):
        turbulent_drain_flow(0.019, 0.02, viscosity, 0.0)


def test_between_the_regimes_the_refusal_names_the_cautious_flow() -> None:
    with pytest.raises(OutOfRange) as raised:
        gravity_drain_flow(0.019, 0.02, 3e-6, 0.0)
    cautious = cautious_drain_flow(0.019, 0.02, 3e-6, 0.0) / LITRE_PER_MINUTE
    assert f"on the cautious side it carries {cautious:.4g} L/min" in str(raised.value)


@pytest.mark.parametrize("viscosity", [2.01e-6, 22e-6, 133.84e-6, math.inf])
def test_manning_refuses_oil(viscosity: float) -> None:
    with pytest.raises(OutOfRange, match=r"viscosity is inf|holds for liquids as thin as water"):
        manning_drain_flow(0.019, 0.02, 0.009, viscosity)


def test_manning_refuses_a_trickle_of_water() -> None:
    with pytest.raises(OutOfRange, match="it holds from 4000 on"):
        manning_drain_flow(0.006, 0.002, 0.009, 1e-6)


@given(st.floats(0.03, 0.1), st.floats(0.01, 0.5), st.floats(1.01, 3.0))
def test_manning_knows_no_viscosity(bore: float, slope: float, factor: float) -> None:
    thin = manning_drain_flow(bore, slope, 0.009, 0.6e-6)
    assert manning_drain_flow(bore, slope, 0.009, 0.6e-6 * factor) == thin


@pytest.mark.parametrize("slope", [0.0, -0.02, math.nan])
def test_a_drain_that_does_not_fall(slope: float) -> None:
    for call in (
        lambda: laminar_drain_flow(0.019, slope, 46e-6),
        lambda: turbulent_drain_flow(0.019, slope, 1e-6, 0.0),
        lambda: gravity_drain_flow(0.019, slope, 46e-6, 0.0),
        lambda: cautious_drain_flow(0.019, slope, 46e-6, 0.0),
        lambda: manning_drain_flow(0.019, slope, 0.009, 1e-6),
    ):
        with pytest.raises(OutOfRange, match="does not fall"):
            call()


def test_other_refusals() -> None:
    with pytest.raises(OutOfRange, match="slope of the drain is 2"):
        cautious_drain_flow(0.019, 2.0, 46e-6, 0.0)
    with pytest.raises(OutOfRange, match="bore of the drain is 0 m"):
        gravity_drain_flow(0.0, 0.02, 46e-6, 0.0)
    with pytest.raises(OutOfRange, match="kinematic viscosity is 0"):
        gravity_drain_flow(0.019, 0.02, 0.0, 0.0)
    with pytest.raises(OutOfRange, match="relative roughness"):
        gravity_drain_flow(0.019, 0.02, 46e-6, 0.002)
    with pytest.raises(OutOfRange, match="relative roughness"):
        turbulent_drain_flow(0.019, 0.02, 1e-6, -1e-6)
    with pytest.raises(OutOfRange, match=r"Manning coefficient is 0\.9"):
        manning_drain_flow(0.019, 0.02, 0.9, 1e-6)
    with pytest.raises(OutOfRange, match="flow of the full drain"):
        half_full_drain_flow(-1.0)
    with pytest.raises(OutOfRange, match="The flow is -1 m3/s"):
        drain_reynolds_number(-1.0, 0.019, 1e-6)
