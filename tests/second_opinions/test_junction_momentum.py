"""A converging junction by the theorem of momentum: what its formulas with rounded figures rest on.

Both ducts arrive with the same static pressure at a control volume whose wall along the run
carries no force along it. With the momentum of the branch at its angle this gives the
pressure after the junction, and from the heads on both sides the loss of each stream.
"""

from __future__ import annotations

import math

import pytest

from checker.engineering.junctions import converging_branch_coefficient, converging_run_coefficient

DENSITY = 1.2
RUN_BORE = 0.2


def losses(branch_bore: float, run_flow: float, branch_flow: float, degrees: float) -> list[float]:
    """Loss of the run and of the branch over the velocity pressure of the combined flow."""
    area = math.pi / 4.0 * RUN_BORE**2
    branch_area = math.pi / 4.0 * branch_bore**2
    after = (run_flow + branch_flow) / area
    momentum = DENSITY * (
        (run_flow + branch_flow) * after
        - run_flow * run_flow / area
        - branch_flow * branch_flow / branch_area * math.cos(math.radians(degrees))
    )
    fall = momentum / area
    return [
        (fall + 0.5 * DENSITY * (before**2 - after**2)) / (0.5 * DENSITY * after**2)
        for before in (run_flow / area, branch_flow / branch_area)
    ]


# 2 cos(angle) stands in the formulas rounded to two places: 1.74 for 1.7321, 1.41 for 1.4142.
@pytest.mark.parametrize("degrees", [30.0, 45.0, 60.0])
@pytest.mark.parametrize("share", [0.1, 0.3, 0.6])
@pytest.mark.parametrize("branch_bore", [0.08, 0.1, 0.15, 0.2])
def test_run(branch_bore: float, share: float, degrees: float) -> None:
    expected, _ = losses(branch_bore, 1.0 - share, share, degrees)
    found = converging_run_coefficient(
        RUN_BORE, branch_bore, 1.0 - share, share, math.radians(degrees)
    )
    rounding = 0.0081 * share**2 * (RUN_BORE / branch_bore) ** 2
    assert found == pytest.approx(expected, abs=rounding)


# Up to 0.35 of the area of the run the formula of the branch carries no factor from tests.
@pytest.mark.parametrize("degrees", [30.0, 45.0, 60.0, 90.0])
@pytest.mark.parametrize("share", [0.1, 0.3, 0.6])
@pytest.mark.parametrize("branch_bore", [0.06, 0.08, 0.118])
def test_branch(branch_bore: float, share: float, degrees: float) -> None:
    _, expected = losses(branch_bore, 1.0 - share, share, degrees)
    found = converging_branch_coefficient(
        RUN_BORE, branch_bore, 1.0 - share, share, math.radians(degrees)
    )
    rounding = 0.0081 * share**2 * (RUN_BORE / branch_bore) ** 2
    assert found == pytest.approx(expected, abs=rounding)
