"""Friction in ducts and pipes against the library fluids and a flow profile worked out here."""

from __future__ import annotations

import fluids
import numpy as np
import pytest
from fluids.friction import Colebrook, Haaland, von_Karman
from scipy.integrate import solve_bvp
from scipy.optimize import brentq

from checker.engineering.airflow import (
    duct_velocity,
    largest_bore,
    reynolds_number,
    traverse_velocity,
    velocity_from_pressure,
    velocity_pressure,
)
from checker.engineering.friction import (
    churchill_friction_factor,
    colebrook_friction_factor,
    duct_friction_loss,
    friction_loss,
    haaland_friction_factor,
    laminar_friction_factor,
)
from checker.engineering.hoods import flow_from_hood_pressure, hood_pressure
from checker.engineering.junctions import balanced_branch_flow, merged_velocity_pressure
from checker.engineering.transitions import step_expansion_coefficient

REYNOLDS = [4e3, 1e4, 1e5, 1e6, 1e8]
ROUGHNESS = [0.0, 1e-5, 6e-4, 1e-2, 0.05]


@pytest.mark.parametrize("reynolds", REYNOLDS)
@pytest.mark.parametrize("roughness", ROUGHNESS)
def test_colebrook(reynolds: float, roughness: float) -> None:
    # The library's numerical solution; its constants are 3.7 and 2.51 as here.
    expected = Colebrook(reynolds, roughness)
    assert colebrook_friction_factor(reynolds, roughness) == pytest.approx(expected, rel=1e-9)

    def left(f: float) -> float:
        return float(
            1.0 / np.sqrt(f) + 2.0 * np.log10(roughness / 3.7 + 2.51 / (reynolds * np.sqrt(f)))
        )

    assert colebrook_friction_factor(reynolds, roughness) == pytest.approx(
        brentq(left, 1e-4, 1.0, xtol=1e-15), rel=1e-9
    )


@pytest.mark.parametrize("reynolds", REYNOLDS)
@pytest.mark.parametrize("roughness", ROUGHNESS)
def test_formulas_that_need_no_iteration(reynolds: float, roughness: float) -> None:
    assert haaland_friction_factor(reynolds, roughness) == pytest.approx(
        Haaland(reynolds, roughness), rel=1e-9
    )
    # Churchill's formula is an independent fit of the same data: 4 % of Colebrook from 4000 on.
    assert churchill_friction_factor(reynolds, roughness) == pytest.approx(
        Colebrook(reynolds, roughness), rel=0.04
    )


def test_fully_rough_limit() -> None:
    # At an endless Reynolds number the wall alone counts; at 1e8 the film still adds 0.1 %.
    assert colebrook_friction_factor(1e8, 4.6e-4) == pytest.approx(von_Karman(4.6e-4), rel=2e-3)


def test_laminar_factor_from_the_profile() -> None:
    # Poiseuille's equation u'' + u'/r = -G solved as a boundary value problem.
    def profile(r: np.ndarray, state: np.ndarray) -> np.ndarray:
        return np.vstack(
            (state[1], -1.0 - np.divide(state[1], r, out=np.full_like(r, -0.5), where=r > 0.0))
        )

    r = np.linspace(0.0, 0.5, 201)
    found = solve_bvp(
        profile, lambda a, b: np.array([a[1], b[0]]), r, np.zeros((2, r.size)), tol=1e-8
    )
    fine = np.linspace(0.0, 0.5, 20_001)
    mean = float(np.trapezoid(found.sol(fine)[0] * 2.0 * np.pi * fine, fine)) / (np.pi * 0.25)
    # With D = μ = G = ρ = 1: G = f V²/2 and Re = V, so f Re = 2/V.
    assert laminar_friction_factor(1000.0) * 1000.0 == pytest.approx(2.0 / mean, rel=1e-4)


@pytest.mark.parametrize("flow", [300.0, 600.0, 1200.0])
@pytest.mark.parametrize("bore", [0.1, 0.15, 0.25])
def test_loss_of_a_duct(flow: float, bore: float) -> None:
    q, length, wall, density, viscosity = flow / 3600.0, 7.0, 0.09e-3, 1.204, 18.2e-6
    expected = fluids.one_phase_dP(
        m=q * density,
        rho=density,
        mu=viscosity,
        D=bore,
        roughness=wall,
        L=length,
        Method="Colebrook",
    )
    assert duct_friction_loss(q, bore, length, wall, density, viscosity) == pytest.approx(
        expected, rel=1e-6
    )
    velocity = duct_velocity(q, bore)
    assert reynolds_number(velocity, bore, density, viscosity) == pytest.approx(
        fluids.Reynolds(V=velocity, D=bore, rho=density, mu=viscosity), rel=1e-12
    )
    head = fluids.K_from_f(fd=0.02, L=length, D=bore)
    pressure = fluids.dP_from_K(head, rho=density, V=velocity)
    assert friction_loss(0.02, length, bore, velocity_pressure(velocity, density)) == pytest.approx(
        pressure, rel=1e-12
    )


def test_velocity_and_pressure_turned_round() -> None:
    root = brentq(lambda v: fluids.dP_from_K(1.0, 1.17, v) - 75.0, 0.0, 100.0)
    assert velocity_from_pressure(75.0, 1.17) == pytest.approx(root, rel=1e-9)
    bore = brentq(lambda d: 0.2 / (np.pi * d**2 / 4.0) - 10.0, 0.01, 1.0, xtol=1e-15)
    assert largest_bore(0.2, 10.0) == pytest.approx(bore, rel=1e-9)


def test_traverse_of_a_known_profile() -> None:
    # Rings of equal area across a seventh-power profile; its mean is integrated apart.
    rings = 2000
    radius = np.sqrt((np.arange(rings) + 0.5) / rings)
    speed = 12.0 * (1.0 - radius) ** (1.0 / 7.0)
    r = np.linspace(0.0, 1.0, 2_000_001)
    mean = float(np.trapezoid(12.0 * (1.0 - r) ** (1.0 / 7.0) * 2.0 * r, r))
    readings = [float(p) for p in 0.5 * 1.2 * speed**2]
    # 2000 rings leave 1e-4 at the wall, where the profile drops off.
    assert traverse_velocity(readings, 1.2) == pytest.approx(mean, rel=2e-4)


def test_hood_by_bernoulli() -> None:
    # Still air to the duct: static falls by what the air gains and by what the entry loses.
    coefficient, density, bore = 0.49, 1.2, 0.15
    area = np.pi * bore**2 / 4.0

    def suction(flow: float) -> float:
        return float(fluids.dP_from_K(1.0 + coefficient, density, flow / area))

    flow = brentq(lambda q: suction(q) - 180.0, 1e-6, 5.0)
    entry = 1.0 / np.sqrt(1.0 + coefficient)
    assert flow_from_hood_pressure(area, 180.0, float(entry), density) == pytest.approx(
        flow, rel=1e-9
    )
    assert hood_pressure(velocity_pressure(flow / area, density), coefficient) == pytest.approx(
        180.0, rel=1e-9
    )


@pytest.mark.parametrize("share", [0.3, 0.6, 0.9])
def test_step_out_by_momentum(share: float) -> None:
    # Pressure behind the step from the momentum of the jet, the loss from Bernoulli: for a
    # duct of unit density and a jet of unit speed in a share of its area.
    after = share
    recovered = brentq(lambda p: p - (share * 1.0 - after * after), -2.0, 2.0)
    loss = 0.5 * (1.0 - after**2) - recovered
    assert step_expansion_coefficient(share**0.5, 1.0) == pytest.approx(loss / 0.5, rel=1e-9)
    assert step_expansion_coefficient(share**0.5, 1.0) == pytest.approx(
        fluids.diffuser_sharp(share**0.5, 1.0, method="Rennels"), rel=1e-9
    )


def test_branch_that_is_not_balanced() -> None:
    # What a duct of one roughness takes at another suction, by the library's own iteration;
    # the factor drifts a little with flow, which the square law leaves out: 2 % here.
    def loss(flow: float) -> float:
        return float(
            fluids.one_phase_dP(m=flow * 1.2, rho=1.2, mu=18.2e-6, D=0.15, roughness=0.09e-3, L=6.0)
        )

    planned = 0.15
    at = 1.4 * loss(planned)
    flow = brentq(lambda q: loss(q) - at, 0.01, 1.0)
    assert balanced_branch_flow(planned, loss(planned), at) == pytest.approx(flow, rel=0.02)


def test_velocity_pressures_that_merge() -> None:
    # Kinetic energy of every cubic metre, counted one by one.
    flows, pressures = [200, 300, 55], [60.0, 95.0, 20.0]
    counted = np.repeat(pressures, flows)
    assert merged_velocity_pressure([float(f) for f in flows], pressures) == pytest.approx(
        counted.mean(), rel=1e-12
    )
