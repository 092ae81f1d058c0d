"""Forces in a group of bolts against a linear elastic plate on springs.

Each bolt is a spring; the plate is rigid and moves by what the least squares of the balance
ask for. No lever, polar moment or sum of squares is used.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import linprog

from checker.engineering.bolt_groups import (
    base_plate_bolt_tension,
    bolt_group_polar_moment,
    bracket_couple_force,
    bracket_resultant_force,
    eccentric_bolt_force,
    largest_eccentric_bolt_force,
    pivoting_plate_bolt_tension,
    shear_per_bolt,
)
from checker.engineering.bracket_plates import upright_plate_bolt_tension
from checker.engineering.preloaded_joint import (
    bolt_stress_in_service,
    joint_clamp_force,
    joint_constant,
)
from checker.engineering.stability import anchor_tension

GROUPS = [
    ([0.0, 0.15, 0.15, 0.0], [0.0, 0.0, 0.12, 0.12]),
    ([0.0, 0.1, 0.2, 0.0, 0.1, 0.2], [0.0, 0.0, 0.0, 0.3, 0.3, 0.3]),
    ([0.0, 0.08, 0.03, 0.11, 0.05], [0.0, 0.02, 0.09, 0.13, 0.21]),
]


def springs(along: list[float], across: list[float], load: float, arm: float) -> np.ndarray:
    """Force on each bolt, as (along, across), of a plate moved and turned in its plane."""
    x, y = np.array(along), np.array(across)
    # Each bolt is displaced by the plate's two shifts and by its turn about the origin.
    moves = np.zeros((2 * len(x), 3))
    moves[0::2, 0] = 1.0
    moves[0::2, 2] = -y
    moves[1::2, 1] = 1.0
    moves[1::2, 2] = x
    # The load runs in the direction "across", at the arm beside the centroid.
    at = x.mean() + arm
    applied = np.array([0.0, load, load * at])
    motion = np.linalg.lstsq(moves.T @ moves, applied, rcond=None)[0]
    return (moves @ motion).reshape(-1, 2)


@pytest.mark.parametrize(("along", "across"), GROUPS)
@pytest.mark.parametrize("arm", [0.0, 0.05, 0.425])
def test_load_in_the_plane(along: list[float], across: list[float], arm: float) -> None:
    forces = np.linalg.norm(springs(along, across, 16e3, arm), axis=1)
    assert largest_eccentric_bolt_force(16e3, arm, along, across) == pytest.approx(
        forces.max(), rel=1e-9
    )
    polar = bolt_group_polar_moment(along, across)
    centre = np.mean(along), np.mean(across)
    for x, y, force in zip(along, across, forces, strict=True):
        ours = eccentric_bolt_force(
            16e3, arm, float(len(along)), polar, x - centre[0], y - centre[1]
        )
        assert ours == pytest.approx(force, rel=1e-9)


def test_load_through_the_centroid_is_shared_alike() -> None:
    forces = np.linalg.norm(springs(*GROUPS[1], 9e3, 0.0), axis=1)
    assert np.ptp(forces) < 1e-6
    assert shear_per_bolt(9e3, 6.0) == pytest.approx(forces[0], rel=1e-9)


@pytest.mark.parametrize("heights", [[0.04, 0.16], [0.05, 0.10, 0.15, 0.20], [0.12]])
def test_plate_that_turns_about_its_edge(heights: list[float]) -> None:
    # One unknown, the turn; the bolts' stretch gives the moment back.
    y = np.repeat(np.array(heights), 2)
    turn = np.linalg.lstsq((y**2).sum().reshape(1, 1), np.array([278.1]), rcond=None)[0][0]
    expected = float((turn * y).max())
    assert pivoting_plate_bolt_tension(278.1, heights, 2.0) == pytest.approx(expected, rel=1e-9)
    rows, span = float(len(heights)), max(heights) - min(heights)
    assert upright_plate_bolt_tension(278.1, max(heights), span, rows, 2.0) == pytest.approx(
        expected, rel=1e-9
    )


def test_two_brackets() -> None:
    # Horizontal and moment balance of the pair, solved as a system.
    weight, arm, spacing = 588.4, 0.35, 0.60
    pull, push = np.linalg.solve([[1.0, -1.0], [spacing, 0.0]], [0.0, weight * arm])
    assert bracket_couple_force(weight, arm, spacing) == pytest.approx(pull, rel=1e-12)
    assert pull == pytest.approx(push)
    resultant = abs(complex(pull, weight / 2.0))
    assert bracket_resultant_force(pull, weight / 2.0) == pytest.approx(resultant, rel=1e-12)


@pytest.mark.parametrize(("moment", "weight"), [(675.0, 838.0), (120.0, 900.0), (1000.0, 0.0)])
def test_anchors_of_a_stand_by_the_least_pull_that_balances(moment: float, weight: float) -> None:
    # A linear program over the pull T at the anchors and the pressures under five places of the
    # plate, none of them negative: the least T that balances force and moment.
    lever, bolt_lever, bolts = 0.25, 0.5, 2.0
    places = np.linspace(0.0, 0.5, 5)
    # Moments about the pressed edge: anchors and weight hold, pressure off the edge pushes up.
    balance = np.array([[-bolts, *np.ones(5)], [bolts * bolt_lever, *(-places)]])
    found = linprog(
        [1.0, *np.zeros(5)], A_eq=balance, b_eq=[weight, moment - weight * lever], bounds=(0, None)
    )
    assert found.status == 0
    assert anchor_tension(moment, weight, lever, bolt_lever, bolts) == pytest.approx(
        found.x[0], abs=1e-6
    )


@pytest.mark.parametrize(("moment", "weight"), [(1000.0, 900.0), (400.0, 3000.0)])
def test_base_plate_on_two_rows(moment: float, weight: float) -> None:
    # The far row is the edge; the weight acts midway between the rows.
    arm = 0.150
    near, far = np.linalg.solve([[1.0, 1.0], [arm, 0.0]], [-weight, moment - weight * arm / 2.0])
    assert base_plate_bolt_tension(moment, weight, arm, 2.0) == pytest.approx(near / 2.0, rel=1e-9)
    assert far < 0.0


def test_preloaded_joint_as_two_springs() -> None:
    # Bolt and parts stretched together; unknown is the stretch under the load.
    bolt, members, preload, load = 180e6, 900e6, 8e3, 3e3
    stretch = np.linalg.solve([[bolt + members]], [load])[0]
    share = joint_constant(bolt, members)
    assert joint_clamp_force(preload, share, load) == pytest.approx(
        preload - members * stretch, rel=1e-12
    )
    stress = (preload + bolt * stretch) / 58e-6
    assert bolt_stress_in_service(preload, share, load, 58e-6) == pytest.approx(stress, rel=1e-12)
