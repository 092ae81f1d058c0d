"""Independent results, not published values: losses and drag by fluids 1.3.1, roots by scipy.

Computed apart from this project and written down. Where a function here calls the same
library, the check is one of wiring: units, ranges and the choice of the formula.
"""

from __future__ import annotations

import math

import pytest

from checker.engineering.airflow import duct_velocity, reynolds_number, velocity_pressure
from checker.engineering.drainage import (
    drain_reynolds_number,
    gravity_drain_flow,
    manning_drain_flow,
)
from checker.engineering.elbows import bend_coefficient, elbow_coefficient, fitting_loss
from checker.engineering.enclosures import stokes_terminal_velocity, terminal_velocity
from checker.engineering.fans import working_point_flow, working_point_pressure
from checker.engineering.friction import (
    churchill_friction_factor,
    colebrook_friction_factor,
    duct_friction_loss,
    flexible_duct_loss,
    friction_factor,
    haaland_friction_factor,
)
from checker.engineering.hoods import entry_coefficient
from checker.engineering.junctions import converging_branch_coefficient
from checker.engineering.transitions import (
    cone_contraction_coefficient,
    step_contraction_coefficient,
)

LITRE_PER_MINUTE = 1e-3 / 60.0
AIR = (1.2041, 18.205e-6)
SITE_AIR = (1.204, 18.2e-6)


# Colebrook, to 0.1 per cent as demanded between two implementations.
@pytest.mark.parametrize(
    ("reynolds", "roughness", "factor"),
    [(1e5, 6e-4, 0.0207266), (1e4, 1e-3, 0.0323818), (1e6, 1e-4, 0.0134414)],
)
def test_colebrook(reynolds: float, roughness: float, factor: float) -> None:
    assert colebrook_friction_factor(reynolds, roughness) == pytest.approx(factor, abs=0.5e-7)


# Haaland, own code.
@pytest.mark.parametrize(
    ("reynolds", "roughness", "factor"),
    [(1e5, 6e-4, 0.0204762), (1e4, 1e-3, 0.0321749), (1e6, 1e-4, 0.0133262)],
)
def test_haaland(reynolds: float, roughness: float, factor: float) -> None:
    assert haaland_friction_factor(reynolds, roughness) == pytest.approx(factor, abs=0.5e-7)


# Churchill, turbulent and laminar.
@pytest.mark.parametrize(
    ("reynolds", "roughness", "factor", "half_digit"),
    [(1e5, 6e-4, 0.0208402, 0.5e-7), (1000.0, 0.0, 0.06400, 0.5e-5)],
)
def test_churchill(reynolds: float, roughness: float, factor: float, half_digit: float) -> None:
    assert churchill_friction_factor(reynolds, roughness) == pytest.approx(factor, abs=half_digit)


# Friction factors and losses of 150 mm at 10 m/s.
@pytest.mark.parametrize(
    ("roughness", "gradient", "factor"),
    [(0.09e-3, 8.327, 0.020747), (0.9e-3, 13.227, 0.032956)],
)
def test_loss_and_factor(roughness: float, gradient: float, factor: float) -> None:
    flow = 10.0 * math.pi * 0.150**2 / 4.0
    loss = duct_friction_loss(flow, 0.150, 1.0, roughness, *AIR)
    assert loss == pytest.approx(gradient, abs=0.0005)
    reynolds = reynolds_number(10.0, 0.150, *AIR)
    assert friction_factor(reynolds, roughness / 0.150) == pytest.approx(factor, abs=0.5e-6)


# Grid of losses, Pa/m, by bore mm, velocity m/s and roughness mm.
@pytest.mark.parametrize(
    ("bore", "velocity", "roughness", "gradient"),
    [
        (bore, velocity, roughness, gradient)
        for bore, velocity, gradients in [
            (100, 10, (12.55, 13.77, 14.80, 22.61, 34.70)),
            (125, 10, (9.54, 10.43, 11.19, 16.81, 25.35)),
            (150, 8, (5.08, 5.48, 5.83, 8.52, 12.62)),
            (150, 10, (7.64, 8.33, 8.91, 13.23, 19.68)),
            (150, 12, (10.67, 11.74, 12.62, 18.97, 28.30)),
            (160, 10, (7.06, 7.69, 8.22, 12.16, 18.00)),
            (200, 10, (5.38, 5.84, 6.23, 9.09, 13.26)),
            (250, 12, (5.75, 6.27, 6.70, 9.77, 14.09)),
        ]
        for roughness, gradient in zip((0.03, 0.09, 0.15, 0.9, 3.0), gradients, strict=True)
    ],
)
def test_grid(bore: int, velocity: int, roughness: float, gradient: float) -> None:
    flow = velocity * math.pi * (bore / 1e3) ** 2 / 4.0
    loss = duct_friction_loss(flow, bore / 1e3, 1.0, roughness / 1e3, *AIR)
    assert loss == pytest.approx(gradient, abs=0.0051)


# 600 m3/h in 150 mm: velocity, velocity pressure, Reynolds number. arithmetic
def test_velocity_at_600() -> None:
    velocity = duct_velocity(600.0 / 3600.0, 0.150)
    assert velocity == pytest.approx(9.4314, abs=0.00005)
    assert velocity_pressure(velocity, 1.204) == pytest.approx(53.549, abs=0.0005)
    assert reynolds_number(velocity, 0.150, *SITE_AIR) == pytest.approx(93_589.0, abs=1.0)


# One metre of flexible duct at 600 m3/h, pulled tight and with the factor four.
@pytest.mark.parametrize(("factor", "loss"), [(1.0, 11.782), (4.0, 47.130)])
def test_flexible_duct(factor: float, loss: float) -> None:
    found = flexible_duct_loss(600.0 / 3600.0, 0.150, 1.0, factor, 0.9e-3, *SITE_AIR)
    assert found == pytest.approx(loss, abs=0.001)


# A whole suction duct: 3 m galvanised, 1 m flexible, two bends, flanged entry.
@pytest.mark.parametrize(("factor", "total"), [(1.0, 78.61), (4.0, 113.96)])
def test_whole_duct(factor: float, total: float) -> None:
    flow = 600.0 / 3600.0
    pressure = velocity_pressure(duct_velocity(flow, 0.150), 1.204)
    found = (
        duct_friction_loss(flow, 0.150, 3.0, 0.09e-3, *SITE_AIR)
        + flexible_duct_loss(flow, 0.150, 1.0, factor, 0.9e-3, *SITE_AIR)
        + 2.0 * fitting_loss(elbow_coefficient(1.5), pressure)
        + fitting_loss(entry_coefficient("flanged"), pressure)
    )
    assert found == pytest.approx(total, abs=0.005)


# Bends with the friction of their arc, 150 mm, 10 m/s, roughness 0.09 mm.
@pytest.mark.parametrize(
    ("radius", "coefficient"),
    [(0.5, 0.970), (0.75, 0.507), (1.0, 0.350), (1.5, 0.249), (2.0, 0.224)],
)
def test_bend(radius: float, coefficient: float) -> None:
    found = bend_coefficient(radius, math.radians(90.0), 0.020747)
    assert found == pytest.approx(coefficient, abs=0.0005)


# Reducer 150 to 125 mm at 600 m3/h: cone of 30 degrees and step.
def test_reducer() -> None:
    velocity = duct_velocity(600.0 / 3600.0, 0.125)
    pressure = velocity_pressure(velocity, 1.204)
    assert velocity == pytest.approx(13.581, abs=0.0005)
    assert pressure == pytest.approx(111.04, abs=0.005)
    factor = friction_factor(reynolds_number(velocity, 0.125, *SITE_AIR), 0.09e-3 / 0.125)
    cone = cone_contraction_coefficient(0.150, 0.125, math.radians(30.0), factor)
    assert fitting_loss(cone, pressure) == pytest.approx(2.67, abs=0.006)
    step = step_contraction_coefficient(0.150, 0.125)
    assert fitting_loss(step, pressure) == pytest.approx(20.52, abs=0.005)


# Converging branch of equal bores and equal flows, on the combined velocity pressure.
# 0.275 was rounded up to 0.28.
@pytest.mark.parametrize(
    ("degrees", "coefficient"), [(30.0, 0.17), (45.0, 0.22), (60.0, 0.28), (90.0, 0.41)]
)
def test_converging_branch(degrees: float, coefficient: float) -> None:
    found = converging_branch_coefficient(0.150, 0.150, 1.0, 1.0, math.radians(degrees))
    assert found == pytest.approx(coefficient, abs=0.0051)


# Oil drops of 870 kg/m3 in standard air, um and m/s.
@pytest.mark.parametrize(
    ("diameter", "velocity", "half_digit"),
    [(10, 0.00260, 0.5e-5), (50, 0.0636, 0.5e-4), (100, 0.2249, 0.5e-4), (200, 0.6103, 0.5e-4)],
)
def test_drops(diameter: int, velocity: float, half_digit: float) -> None:
    found = terminal_velocity(diameter * 1e-6, 870.0, 1.2041, 1.82e-5)
    assert found == pytest.approx(velocity, abs=half_digit)


# Stokes' formula agrees with them where it holds.
@pytest.mark.parametrize(("diameter", "velocity"), [(10, 0.00260)])
def test_small_drops_by_stokes(diameter: int, velocity: float) -> None:
    found = stokes_terminal_velocity(diameter * 1e-6, 870.0, 1.2041, 1.82e-5)
    assert found == pytest.approx(velocity, abs=0.5e-5)


CURVE = (
    [q / 3600.0 for q in (0.0, 200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0)],
    [900.0, 880.0, 820.0, 720.0, 570.0, 370.0, 120.0],
)


# Working points of a tabulated fan, m3/h and Pa, by scipy's brentq.
@pytest.mark.parametrize(
    ("duct", "media", "flow", "pressure"),
    [
        (116.0, 150.0, 891.2, 478.8),
        (116.0, 450.0, 680.5, 659.6),
        (300.0, 150.0, 728.2, 623.9),
    ],
)
def test_working_point(duct: float, media: float, flow: float, pressure: float) -> None:
    stated = (*CURVE, duct, media, 600.0 / 3600.0)
    assert working_point_flow(*stated) * 3600.0 == pytest.approx(flow, abs=0.05)
    assert working_point_pressure(*stated) == pytest.approx(pressure, abs=0.05)


# VG 46 oil at 20 degC in a 19 mm drain of 2 per cent: laminar.
def test_oil_drain() -> None:
    flow = gravity_drain_flow(0.019, 0.02, 133.84e-6, 0.0)
    assert flow / LITRE_PER_MINUTE == pytest.approx(0.2812, abs=0.00005)
    assert drain_reynolds_number(flow, 0.019, 133.84e-6) == pytest.approx(2.35, abs=0.005)


# The friction factor of that flow gives the slope back.
def test_oil_drain_gives_the_slope_back() -> None:
    flow = gravity_drain_flow(0.019, 0.02, 133.84e-6, 0.0)
    velocity = duct_velocity(flow, 0.019)
    factor = friction_factor(drain_reynolds_number(flow, 0.019, 133.84e-6), 0.0)
    slope = factor * velocity**2 / (2.0 * 9.80665 * 0.019)
    assert slope == pytest.approx(0.02, rel=1e-9)


# Emulsion of 1.1 mm2/s in the same drain, wall of 1.5 um: turbulent, not the laminar 34.2 L/min.
def test_emulsion_drain() -> None:
    flow = gravity_drain_flow(0.019, 0.02, 1.1e-6, 1.5e-6)
    assert flow / LITRE_PER_MINUTE == pytest.approx(8.13, abs=0.005)
    assert drain_reynolds_number(flow, 0.019, 1.1e-6) == pytest.approx(8256.0, abs=1.0)


# Manning for water in the same drain: 7.554 L/min, 26.9 times what the oil does.
def test_manning() -> None:
    water = manning_drain_flow(0.019, 0.02, 0.009, 1.0e-6)
    assert water / LITRE_PER_MINUTE == pytest.approx(7.554, abs=0.0005)
    oil = gravity_drain_flow(0.019, 0.02, 133.84e-6, 0.0)
    assert water / oil == pytest.approx(26.9, abs=0.05)
