"""Slings, stands, anchors' cones and bends against vectors, balances and drawn areas."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from checker.engineering.anchor_geometry import (
    cone_area_ratio,
    cone_projected_length,
    cone_reference_area,
)
from checker.engineering.calendar import date_after_days, date_after_months, days_between
from checker.engineering.duct_pieces import bend_take_off, taken_by_neighbours
from checker.engineering.lifting import (
    sling_angle_from_vertical,
    sling_leg_tension_from_horizontal,
    sling_leg_tension_from_vertical,
)
from checker.engineering.stability import (
    overturning_design_moment,
    stabilising_design_moment,
    stability_ratio,
)


@pytest.mark.parametrize("legs", [2, 3, 4])
@pytest.mark.parametrize(("length", "spread"), [(1.2, 0.8), (0.9, 1.2), (2.0, 0.2)])
def test_tension_in_a_sling_by_vectors(legs: int, length: float, spread: float) -> None:
    # Unit vectors from the hook down the legs; their tensions balance the load. Four equal
    # legs have no single answer: least squares gives the even one.
    turn = 2.0 * np.pi * np.arange(legs) / legs
    radius = spread / 2.0
    drop = math.sqrt(length**2 - radius**2)
    along = np.vstack((radius * np.cos(turn), radius * np.sin(turn), np.full(legs, -drop))) / length
    tensions = np.linalg.lstsq(along, np.array([0.0, 0.0, -1000.0]), rcond=None)[0]
    assert np.allclose(along @ tensions, [0.0, 0.0, -1000.0])
    angle = sling_angle_from_vertical(length, spread)
    assert sling_leg_tension_from_vertical(1000.0, float(legs), angle) == pytest.approx(
        tensions.max(), rel=1e-9
    )
    flat = math.pi / 2.0 - angle
    assert sling_leg_tension_from_horizontal(1000.0, float(legs), flat) == pytest.approx(
        tensions.max(), rel=1e-9
    )


def test_stand_on_its_edge() -> None:
    # The pull at which the far feet carry nothing, by balance of the four feet's forces.
    weight, lever, height = 932.0, 0.4, 1.5

    def far_feet(pull: float) -> float:
        matrix = [[1.0, 1.0], [2.0 * lever, 0.0]]
        far, _ = np.linalg.solve(matrix, [weight, weight * lever - pull * height])
        return float(far)

    tips = brentq(far_feet, 0.0, 2e3)
    ratio = stability_ratio(
        stabilising_design_moment(weight, lever, 1.0),
        overturning_design_moment(tips, height, 0.0, 1.0),
    )
    assert ratio == pytest.approx(1.0, rel=1e-9)


@pytest.mark.parametrize(
    ("columns", "rows", "spacing", "edges"),
    [
        (2, 2, (0.15, 0.10), (5.0, 5.0, 5.0, 5.0)),
        (2, 2, (0.15, 0.10), (0.08, 5.0, 0.10, 5.0)),
        (3, 2, (0.12, 0.20), (0.05, 5.0, 5.0, 0.07)),
        (1, 1, (0.0, 0.0), (0.06, 5.0, 5.0, 5.0)),
    ],
)
def test_cone_of_a_group_by_counting_cells(
    columns: int, rows: int, spacing: tuple[float, float], edges: tuple[float, float, float, float]
) -> None:
    # Squares of 3 h_ef round every anchor, cut by the concrete's edges, painted on a grid of
    # millimetres and counted; overlaps count once.
    embedment, cell = 0.08, 0.001
    reach = 1.5 * embedment
    left, right, below, above = edges
    x = np.arange(-0.4, 0.9, cell) + cell / 2.0
    gx, gy = np.meshgrid(x, x, indexing="ij")
    painted = np.zeros(gx.shape, dtype=bool)
    for i in range(columns):
        for j in range(rows):
            painted |= (np.abs(gx - i * spacing[0]) < reach) & (np.abs(gy - j * spacing[1]) < reach)
    painted &= (gx > -left) & (gx < (columns - 1) * spacing[0] + right)
    painted &= (gy > -below) & (gy < (rows - 1) * spacing[1] + above)
    alone = np.count_nonzero((np.abs(gx) < reach) & (np.abs(gy) < reach))
    assert cone_reference_area(embedment) == pytest.approx(alone * cell**2, rel=1e-6)
    counted = np.count_nonzero(painted) / alone
    length = cone_projected_length(embedment, float(columns), spacing[0], left, right)
    width = cone_projected_length(embedment, float(rows), spacing[1], below, above)
    # Every measure here is a whole number of cells.
    assert cone_area_ratio(length, width, embedment) == pytest.approx(counted, rel=1e-6)


@pytest.mark.parametrize("degrees", [15.0, 45.0, 90.0, 135.0])
def test_bend_by_walking_round_it(degrees: float) -> None:
    # The arc is walked in small steps from its start; where it ends, the way back along its
    # last direction meets the line of the first: that is the corner.
    radius, steps = 0.27, 200_000
    heading = np.radians(degrees) * (np.arange(steps) + 0.5) / steps
    step = radius * np.radians(degrees) / steps
    end = np.array([np.cos(heading).sum(), np.sin(heading).sum()]) * step
    last = np.radians(degrees)
    corner, _ = np.linalg.solve([[1.0, np.cos(last)], [0.0, np.sin(last)]], end)
    assert bend_take_off(radius, float(last)) == pytest.approx(corner, rel=1e-6)


def test_what_neighbours_take_off() -> None:
    rng = np.random.default_rng(9)
    for _ in range(100):
        size = int(rng.integers(1, 9))
        chosen, off = rng.integers(0, 2, size), rng.uniform(0.0, 0.4, size)
        # A matrix that joins each part to the ones beside it.
        joined = np.eye(size, k=1) + np.eye(size, k=-1)
        assert taken_by_neighbours([float(c) for c in chosen], off.tolist()) == pytest.approx(
            float(chosen @ joined @ off), abs=1e-12
        )


def test_dates_against_numpy() -> None:
    rng = np.random.default_rng(4)
    for _ in range(300):
        day = np.datetime64("1990-01-01") + int(rng.integers(0, 20_000))
        months, days = int(rng.integers(-40, 200)), int(rng.integers(-4000, 9000))
        start = float(day.astype("datetime64[s]").astype(int))
        month = day.astype("datetime64[M]")
        offset = (day - month.astype("datetime64[D]")).astype(int)
        target = (month + months).astype("datetime64[D]")
        last = (month + months + 1).astype("datetime64[D]") - 1
        expected = min(target + offset, last)
        assert date_after_months(start, float(months)) == float(
            expected.astype("datetime64[s]").astype(int)
        )
        later = day + days
        assert date_after_days(start, float(days)) == float(
            later.astype("datetime64[s]").astype(int)
        )
        assert days_between(start, float(later.astype("datetime64[s]").astype(int))) == days
