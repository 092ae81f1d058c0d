from __future__ import annotations

import math

import pytest
from fluids.friction import friction_factor as fluids_friction_factor
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.friction import (
    churchill_friction_factor,
    colebrook_friction_factor,
    duct_friction_loss,
    flexible_duct_factor,
    flexible_duct_loss,
    friction_factor,
    friction_loss,
    haaland_friction_factor,
    hose_compression,
    laminar_friction_factor,
)
from checker.engineering.limits import OutOfRange

AIR = (1.204, 18.2e-6)
turbulent = st.floats(4000.0, 1e7)
roughnesses = st.floats(0.0, 0.05)


@given(turbulent, roughnesses)
def test_colebrook_solves_its_equation(reynolds: float, roughness: float) -> None:
    root = math.sqrt(colebrook_friction_factor(reynolds, roughness))
    right = -2.0 * math.log10(roughness / 3.7 + 2.51 / (reynolds * root))
    assert 1.0 / root == pytest.approx(right, rel=1e-9)


@given(turbulent, roughnesses)
def test_colebrook_agrees_with_an_independent_library(reynolds: float, roughness: float) -> None:
    independent = fluids_friction_factor(reynolds, roughness, Method="Clamond")
    assert colebrook_friction_factor(reynolds, roughness) == pytest.approx(independent, rel=1e-12)


@given(turbulent, st.floats(1e-6, 0.05))
def test_haaland_is_within_two_per_cent_of_colebrook(reynolds: float, roughness: float) -> None:
    exact = colebrook_friction_factor(reynolds, roughness)
    assert haaland_friction_factor(reynolds, roughness) == pytest.approx(exact, rel=0.02)


@given(st.floats(1e4, 1e7), st.floats(0.0, 0.01))
def test_churchill_is_near_colebrook(reynolds: float, roughness: float) -> None:
    exact = colebrook_friction_factor(reynolds, roughness)
    assert churchill_friction_factor(reynolds, roughness) == pytest.approx(exact, rel=0.04)


@given(st.floats(1.0, 1500.0))
def test_churchill_is_laminar_below(reynolds: float) -> None:
    exact = laminar_friction_factor(reynolds)
    assert churchill_friction_factor(reynolds, 0.0) == pytest.approx(exact, rel=1e-4)


@given(turbulent, st.floats(0.0, 0.04), st.floats(1e-4, 0.01))
def test_rougher_walls_never_lose_less(reynolds: float, roughness: float, more: float) -> None:
    smoother = colebrook_friction_factor(reynolds, roughness)
    assert colebrook_friction_factor(reynolds, roughness + more) >= smoother


@given(turbulent, roughnesses, st.floats(1.01, 5.0))
def test_faster_flow_never_has_a_larger_factor(
    reynolds: float, roughness: float, factor: float
) -> None:
    slower = colebrook_friction_factor(reynolds, roughness)
    assert colebrook_friction_factor(reynolds * factor, roughness) <= slower * (1 + 1e-12)


@given(st.floats(0.05, 0.45), st.floats(0.08, 0.3), st.floats(1.01, 3.0))
def test_bigger_bore_never_loses_more(flow: float, bore: float, factor: float) -> None:
    narrow = duct_friction_loss(flow, bore, 3.0, 0.09e-3, *AIR)
    assert duct_friction_loss(flow, bore * factor, 3.0, 0.09e-3, *AIR) < narrow


@given(st.floats(0.05, 0.16), st.floats(0.08, 0.3), st.floats(1.01, 3.0))
def test_more_flow_never_loses_less(flow: float, bore: float, factor: float) -> None:
    slow = duct_friction_loss(flow, bore, 3.0, 0.09e-3, *AIR)
    assert duct_friction_loss(flow * factor, bore, 3.0, 0.09e-3, *AIR) > slow


@given(st.floats(0.05, 0.45), st.floats(0.08, 0.3), st.floats(0.0, 20.0), st.floats(0.1, 5.0))
def test_loss_is_proportional_to_length(
    flow: float, bore: float, length: float, factor: float
) -> None:
    once = duct_friction_loss(flow, bore, length, 0.09e-3, *AIR)
    found = duct_friction_loss(flow, bore, length * factor, 0.09e-3, *AIR)
    assert found == pytest.approx(factor * once)


@given(st.floats(0.05, 0.5), st.floats(0.1, 0.3), st.floats(0.2, 5.0))
def test_loss_is_scale_free(flow: float, bore: float, scale: float) -> None:
    # The same Reynolds number and relative roughness give the same number of velocity pressures.
    small = duct_friction_loss(flow, bore, 3.0, 0.09e-3, *AIR)
    large = duct_friction_loss(
        flow * scale**2, bore * scale, 3.0 * scale, 0.09e-3 * scale, AIR[0], AIR[1] * scale
    )
    assert large == pytest.approx(small, rel=1e-9)


@given(st.floats(0.1, 0.25), st.floats(0.0, 0.28), st.floats(0.001, 0.02))
def test_more_slack_never_loses_less(bore: float, compression: float, more: float) -> None:
    tighter = flexible_duct_factor(bore, compression)
    assert 1.0 <= tighter < flexible_duct_factor(bore, compression + more)


@given(st.floats(0.5, 5.0), st.floats(0.5, 1.0))
def test_compression_from_both_lengths(extended: float, share: float) -> None:
    found = hose_compression(extended, extended * share)
    assert found == pytest.approx(1.0 - share, abs=1e-9)
    assert 0.0 <= found < 1.0


def test_laminar_duct_loss_is_that_of_hagen_and_poiseuille() -> None:
    flow, bore, density, viscosity = 1e-5, 0.02, 870.0, 0.1
    exact = 128.0 * viscosity * flow / (math.pi * bore**4)
    assert duct_friction_loss(flow, bore, 1.0, 0.0, density, viscosity) == pytest.approx(exact)


def test_no_flow_loses_nothing() -> None:
    assert duct_friction_loss(0.0, 0.15, 3.0, 0.09e-3, *AIR) == 0.0
    assert duct_friction_loss(0.1, 0.15, 0.0, 0.09e-3, *AIR) == 0.0


def test_flexible_duct_multiplies_the_installed_length() -> None:
    tight = duct_friction_loss(0.1667, 0.15, 1.7, 0.9e-3, *AIR)
    assert flexible_duct_loss(0.1667, 0.15, 1.7, 4.0, 0.9e-3, *AIR) == pytest.approx(4.0 * tight)


@pytest.mark.parametrize("reynolds", [2300.0, 3000.0, 3999.9])
def test_between_laminar_and_turbulent(reynolds: float) -> None:
    with pytest.raises(OutOfRange, match="neither laminar nor turbulent"):
        friction_factor(reynolds, 0.0)
    with pytest.raises(OutOfRange, match="Reynolds number"):
        colebrook_friction_factor(reynolds, 0.0)
    with pytest.raises(OutOfRange, match="below 2300"):
        laminar_friction_factor(reynolds)


@pytest.mark.parametrize("reynolds", [0.0, -1.0, math.nan])
def test_impossible_reynolds_number(reynolds: float) -> None:
    for function in (colebrook_friction_factor, haaland_friction_factor, friction_factor):
        with pytest.raises(OutOfRange, match="Reynolds number"):
            function(reynolds, 0.0)
    with pytest.raises(OutOfRange, match="Reynolds number"):
        churchill_friction_factor(reynolds, 0.0)


@pytest.mark.parametrize("roughness", [-1e-6, 0.051, math.nan])
def test_impossible_roughness(roughness: float) -> None:
    for function in (
        colebrook_friction_factor,
        haaland_friction_factor,
        churchill_friction_factor,
        friction_factor,
    ):
        with pytest.raises(OutOfRange, match="relative roughness"):
            function(1e5, roughness)


def test_other_refusals() -> None:
    with pytest.raises(OutOfRange, match="cannot be longer than pulled tight"):
        hose_compression(1.0, 1.1)
    with pytest.raises(OutOfRange, match=r"The bore is 0.3 m"):
        flexible_duct_factor(0.30, 0.1)
    with pytest.raises(OutOfRange, match=r"The compression is 0.31"):
        flexible_duct_factor(0.15, 0.31)
    with pytest.raises(OutOfRange, match="The compression is 15"):
        flexible_duct_factor(0.15, 15.0)
    with pytest.raises(OutOfRange, match=r"correction factor is 0.9"):
        flexible_duct_loss(0.1, 0.15, 1.0, 0.9, 0.9e-3, *AIR)
    with pytest.raises(OutOfRange, match="The length is -1 m"):
        duct_friction_loss(0.1, 0.15, -1.0, 0.0, *AIR)
    with pytest.raises(OutOfRange, match=r"The roughness is -0.001 m"):
        duct_friction_loss(0.1, 0.15, 1.0, -0.001, *AIR)
    with pytest.raises(OutOfRange, match="friction factor"):
        friction_loss(0.0, 1.0, 0.15, 50.0)
    with pytest.raises(OutOfRange, match="velocity pressure"):
        friction_loss(0.02, 1.0, 0.15, -1.0)
