"""Section properties of tubes against integrals over the drawn outline.

The outline is drawn as two closed polygons with the corners as many short chords, and its
area and second moment come from Green's theorem; the plastic modulus from cutting the
polygon into thin strips. Nothing of the formulas in ``sections`` is used but the radii.
"""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from numpy.typing import NDArray

from checker.engineering.sections import (
    Axis,
    Finish,
    tube_area,
    tube_corner_radius,
    tube_elastic_section_modulus,
    tube_linear_mass,
    tube_plastic_section_modulus,
    tube_radius_of_gyration,
    tube_second_moment,
)

Points = NDArray[np.float64]

FINISHES: tuple[Finish, ...] = ("cold-formed", "hot-finished")
AXES: tuple[Axis, ...] = ("major", "minor")
# Walls in each of the three bands of radii.
TUBES = [
    (0.060, 0.060, 0.003),
    (0.080, 0.040, 0.004),
    (0.100, 0.100, 0.008),
    (0.050, 0.120, 0.006),
    (0.200, 0.120, 0.0125),
]
# Chords of a quarter circle cut in 400 lie within 2e-6 of its radius.
CHORDS = 400
TOLERANCE = 1e-5


def rounded(width: float, height: float, radius: float) -> Points:
    """Corners of a rectangle with round corners about the origin, counter-clockwise."""
    turn = np.linspace(0.0, np.pi / 2.0, CHORDS + 1)
    x, y = width / 2.0 - radius, height / 2.0 - radius
    corners = []
    for quarter, (sx, sy) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        angle = turn + quarter * np.pi / 2.0
        corners.append(
            np.column_stack((sx * x + radius * np.cos(angle), sy * y + radius * np.sin(angle)))
        )
    return np.vstack(corners)


def area_and_second_moment(points: Points) -> tuple[float, float]:
    """By Green's theorem: the area, and the second moment about the x axis."""
    x, y = points[:, 0], points[:, 1]
    u, v = np.roll(x, -1), np.roll(y, -1)
    cross = x * v - u * y
    return float(cross.sum() / 2.0), float(((y**2 + y * v + v**2) * cross).sum() / 12.0)


def first_moment_of_half(points: Points, strips: int = 20_000) -> float:
    """First moment of what lies above the x axis, in thin strips."""
    upper = points[points[:, 1] > 0.0]
    # Width at each height from the right-hand flank, which falls with height.
    right = upper[upper[:, 0] > 0.0]
    right = right[np.argsort(right[:, 1])]
    top = float(points[:, 1].max())
    edges = np.linspace(0.0, top, strips + 1)
    middle = (edges[1:] + edges[:-1]) / 2.0
    flank = np.interp(middle, right[:, 1], right[:, 0])
    return float((2.0 * flank * middle).sum() * top / strips)


def drawn(width: float, height: float, wall: float, outer: float, inner: float) -> list[Points]:
    return [rounded(width, height, outer), rounded(width - 2.0 * wall, height - 2.0 * wall, inner)]


@pytest.mark.parametrize(("finish", "axis", "tube"), [*itertools.product(FINISHES, AXES, TUBES)])
def test_tubes_with_corners(finish: Finish, axis: Axis, tube: tuple[float, float, float]) -> None:
    width, depth, wall = tube
    shape = "square" if width == depth else "rectangular"
    height = max(width, depth) if axis == "major" else min(width, depth)
    across = min(width, depth) if axis == "major" else max(width, depth)
    outer = tube_corner_radius(finish, wall, "outside")
    inner = tube_corner_radius(finish, wall, "inside")
    outside, inside = drawn(across, height, wall, outer, inner)
    area = area_and_second_moment(outside)[0] - area_and_second_moment(inside)[0]
    second = area_and_second_moment(outside)[1] - area_and_second_moment(inside)[1]
    plastic = 2.0 * (first_moment_of_half(outside) - first_moment_of_half(inside))
    size = (shape, finish, width, depth, wall)
    assert tube_area(*size) == pytest.approx(area, rel=TOLERANCE)
    assert tube_second_moment(*size, axis) == pytest.approx(second, rel=TOLERANCE)
    assert tube_elastic_section_modulus(*size, axis) == pytest.approx(
        second / (height / 2.0), rel=TOLERANCE
    )
    # 20 000 strips follow the round corner to some 1e-6 of it.
    assert tube_plastic_section_modulus(*size, axis) == pytest.approx(plastic, rel=2e-5)
    assert tube_radius_of_gyration(*size, axis) == pytest.approx(
        np.sqrt(second / area), rel=TOLERANCE
    )
    assert tube_linear_mass(*size, 7850.0) == pytest.approx(7850.0 * area, rel=TOLERANCE)


@pytest.mark.parametrize(("diameter", "wall"), [(0.0603, 0.0032), (0.0889, 0.005), (0.2445, 0.010)])
def test_round_tubes(diameter: float, wall: float) -> None:
    outside, inside = drawn(diameter, diameter, wall, diameter / 2.0, diameter / 2.0 - wall)
    area = area_and_second_moment(outside)[0] - area_and_second_moment(inside)[0]
    second = area_and_second_moment(outside)[1] - area_and_second_moment(inside)[1]
    plastic = 2.0 * (first_moment_of_half(outside) - first_moment_of_half(inside))
    size = ("round", "cold-formed", diameter, diameter, wall)
    # A circle of 1600 chords is 2.6e-6 short of its area; a thin ring is their difference.
    assert tube_area(*size) == pytest.approx(area, rel=1e-5)
    assert tube_second_moment(*size, "major") == pytest.approx(second, rel=2e-5)
    assert tube_plastic_section_modulus(*size, "major") == pytest.approx(plastic, rel=5e-5)
