"""Where a fan meets its duct against a root finder on numpy's interpolation."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

from checker.engineering.fan_laws import working_point_flow_at, working_point_pressure_at
from checker.engineering.fans import (
    fan_pressure,
    system_pressure,
    working_point_count,
    working_point_flow,
    working_point_pressure,
)
from checker.engineering.limits import OutOfRange

HOUR = 3600.0
FLOWS = [q / HOUR for q in (0.0, 200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0)]
PRESSURES = [900.0, 880.0, 820.0, 720.0, 570.0, 370.0, 120.0]
SYSTEMS = [(116.0, 150.0), (400.0, 50.0), (60.0, 900.0), (0.0, 500.0), (700.0, 0.0)]


def surplus(flow: float, duct: float, media: float, reference: float) -> float:
    share = flow / reference
    return float(np.interp(flow, FLOWS, PRESSURES)) - duct * share**2 - media * share


@pytest.mark.parametrize(("duct", "media"), SYSTEMS)
def test_flow_and_pressure(duct: float, media: float) -> None:
    reference = 600.0 / HOUR
    root = brentq(surplus, 1e-9, FLOWS[-1], args=(duct, media, reference), xtol=1e-14)
    ours = working_point_flow(FLOWS, PRESSURES, duct, media, reference)
    assert ours == pytest.approx(root, rel=1e-9)
    expected = float(np.interp(root, FLOWS, PRESSURES))
    assert working_point_pressure(FLOWS, PRESSURES, duct, media, reference) == pytest.approx(
        expected, rel=1e-9
    )
    assert system_pressure(ours, duct, media, reference) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(("duct", "media"), SYSTEMS)
def test_a_smooth_curve_through_the_points_moves_it_little(duct: float, media: float) -> None:
    # Straight lines between points 200 m³/h apart against a monotone cubic: the reading of a
    # curve by its points may not cost more than one per cent of flow.
    smooth = PchipInterpolator(FLOWS, PRESSURES)
    reference = 600.0 / HOUR

    def left(flow: float) -> float:
        share = flow / reference
        return float(smooth(flow)) - duct * share**2 - media * share

    root = brentq(left, 1e-9, FLOWS[-1])
    assert working_point_flow(FLOWS, PRESSURES, duct, media, reference) == pytest.approx(
        root, rel=0.01
    )


def test_pressure_between_points() -> None:
    rng = np.random.default_rng(20260101)
    for flow in rng.uniform(FLOWS[0], FLOWS[-1], 200):
        expected = float(np.interp(flow, FLOWS, PRESSURES))
        assert fan_pressure(float(flow), FLOWS, PRESSURES) == pytest.approx(expected, rel=1e-12)


def test_number_of_meetings_by_changes_of_sign() -> None:
    # Curves that fall, rise and fall again against steep and flat systems; the changes of sign
    # of the surplus are counted on a fine grid that no two meetings of these share a cell of.
    rng = np.random.default_rng(7)
    seen = set()
    for _ in range(300):
        flows = np.linspace(0.0, 0.3, 7)
        pressures = rng.uniform(100.0, 900.0, 7)
        duct, media = rng.uniform(0.0, 800.0), rng.uniform(0.0, 800.0)
        grid = np.linspace(0.0, 0.3, 200_001)
        share = grid / 0.2
        values = np.interp(grid, flows, pressures) - duct * share**2 - media * share
        changes = int(np.count_nonzero(np.diff(np.sign(values))))
        count = working_point_count(flows.tolist(), pressures.tolist(), duct, media, 0.2)
        assert count == changes
        seen.add(changes)
        if changes != 1:
            with pytest.raises(OutOfRange):
                working_point_flow(flows.tolist(), pressures.tolist(), duct, media, 0.2)
    assert {0, 1, 3} <= seen


@pytest.mark.parametrize("speed", [50.0 / 60.0, 1.0, 1.1])
@pytest.mark.parametrize("density", [0.85, 1.0])
def test_other_speed_and_density(speed: float, density: float) -> None:
    # The curve itself is moved, point by point, and met afresh.
    flows = [q * speed for q in FLOWS]
    pressures = [p * speed**2 * density for p in PRESSURES]
    reference = 600.0 / HOUR

    def left(flow: float) -> float:
        share = flow / reference
        return float(np.interp(flow, flows, pressures)) - 116.0 * share**2 - 150.0 * share

    root = brentq(left, 1e-9, flows[-1], xtol=1e-14)
    scaled = (FLOWS, PRESSURES, 116.0, 150.0, reference, speed, density)
    assert working_point_flow_at(*scaled) == pytest.approx(root, rel=1e-9)
    assert working_point_pressure_at(*scaled) == pytest.approx(
        float(np.interp(root, flows, pressures)), rel=1e-9
    )
