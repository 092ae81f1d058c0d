"""Junctions of two ducts: loss coefficients, balance, and what the join carries.

At a junction both branches arrive with the same static pressure, so the branch
that needs less takes more air than planned. A branch coefficient may be negative,
because the fast stream pulls the slow one along; it is never cut to zero.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ._bounds import interpolated, require_at_least, require_positive, require_within
from .dimensions import Angle, Flow, Length, Number, Pressure
from .limits import OutOfRange

__all__ = [
    "balanced_branch_flow",
    "branch_imbalance",
    "converging_branch_coefficient",
    "converging_run_coefficient",
    "converging_tee_branch_coefficient",
    "converging_tee_run_coefficient",
    "merged_velocity_pressure",
]

_PAPER = "the formula for converging junctions of Technical Paper 410"
_TEE_TABLE = "SMACNA HVAC Systems Duct Design, table A-10B,"
_TEE_SHARES = (0.3, 0.5, 0.7, 1.0)


def _branch_share(run_flow: Flow, branch_flow: Flow) -> float:
    require_at_least(run_flow, 0.0, "flow in the run", "m3/s")
    require_at_least(branch_flow, 0.0, "flow in the branch", "m3/s")
    require_positive(run_flow + branch_flow, "combined flow", "m3/s")
    return branch_flow / (run_flow + branch_flow)


def converging_branch_coefficient(
    run_bore: Length, branch_bore: Length, run_flow: Flow, branch_flow: Flow, angle: Angle
) -> Number:
    """Loss coefficient C of the branch of a converging junction, 1.

    Source: Flow of Fluids through Valves, Fittings and Pipe, Technical Paper No. 410 (2009),
    equations for converging tees and wyes with their errata, example 7-35. Confidence: checked.

    run_bore: bore of the straight duct and of the combined flow [m], > 0
    branch_bore: bore of the branch [m], > 0, up to the run's
    run_flow: flow arriving straight [m3/s], >= 0
    branch_flow: flow arriving from the side [m3/s], >= 0
    angle: between branch and run [rad], 30 to 90 degrees
    Returns [1], on the velocity pressure of the combined flow; may be negative.
    Valid for: one bore before and after the junction.
    Raises OutOfRange: outside those ranges.

    >>> import math
    >>> converging_branch_coefficient(0.1023, 0.1023, 300.0, 100.0, math.radians(90.0))
    -0.042
    """
    require_positive(run_bore, "bore of the run", "m")
    require_positive(branch_bore, "bore of the branch", "m")
    beta_squared = (branch_bore / run_bore) ** 2
    require_within(beta_squared, 0.0, 1.0, "area of the branch over that of the run", "", _PAPER)
    share = _branch_share(run_flow, branch_flow)
    if beta_squared <= 0.35:
        scale = 1.0
    elif share <= 0.4:
        scale = 0.9 * (1.0 - share)
    else:
        scale = 0.55
    turn = interpolated(
        math.degrees(angle),
        (30.0, 45.0, 60.0, 90.0),
        (1.74, 1.41, 1.0, 0.0),
        "angle of the branch",
        "degrees",
        _PAPER,
    )
    return scale * (
        1.0
        + (share / beta_squared) ** 2
        - 2.0 * (1.0 - share) ** 2
        - turn / beta_squared * share**2
    )


def converging_run_coefficient(
    run_bore: Length, branch_bore: Length, run_flow: Flow, branch_flow: Flow, angle: Angle
) -> Number:
    """Loss coefficient C of the straight run of a converging junction, 1.

    Source: Flow of Fluids through Valves, Fittings and Pipe, Technical Paper No. 410 (2009),
    equations for converging tees and wyes, example 7-35. Confidence: checked.

    run_bore: bore of the straight duct and of the combined flow [m], > 0
    branch_bore: bore of the branch [m], > 0, up to the run's
    run_flow: flow arriving straight [m3/s], >= 0
    branch_flow: flow arriving from the side [m3/s], >= 0
    angle: between branch and run [rad], 30 to 60 degrees, or 90
    Returns [1], on the velocity pressure of the combined flow; may be negative.
    Valid for: one bore before and after the junction.
    Raises OutOfRange: outside those ranges; between 60 and 90 degrees nothing is published.

    >>> import math
    >>> converging_run_coefficient(0.1023, 0.1023, 300.0, 100.0, math.radians(90.0))
    0.325
    """
    require_positive(run_bore, "bore of the run", "m")
    require_positive(branch_bore, "bore of the branch", "m")
    beta_squared = (branch_bore / run_bore) ** 2
    require_within(beta_squared, 0.0, 1.0, "area of the branch over that of the run", "", _PAPER)
    share = _branch_share(run_flow, branch_flow)
    degrees = math.degrees(angle)
    if math.isclose(degrees, 90.0, rel_tol=1e-9):
        return 1.55 * share - share**2
    turn = interpolated(
        degrees, (30.0, 45.0, 60.0), (1.74, 1.41, 1.0), "angle of the branch", "degrees", _PAPER
    )
    return 1.0 - (1.0 - share) ** 2 - turn / beta_squared * share**2


def converging_tee_branch_coefficient(branch_share: Number) -> Number:
    """Loss coefficient C of the branch of a round 90 degree tee of equal bores, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-10B. Confidence: checked.

    branch_share: branch flow over combined flow [1], 0.3 to 1.0
    Returns [1], on the velocity pressure of the combined flow; may be negative.
    Valid for: equal areas, suction side.
    Raises OutOfRange: outside that range.

    >>> converging_tee_branch_coefficient(0.5)  # printed: 0.42
    0.42
    """
    belongs_to = f"{_TEE_TABLE} branch,"
    return interpolated(
        branch_share, _TEE_SHARES, (-0.08, 0.42, 0.72, 1.1), "share of the branch", "", belongs_to
    )


def converging_tee_run_coefficient(branch_share: Number) -> Number:
    """Loss coefficient C of the straight run of a round 90 degree tee of equal bores, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-10B. Confidence: checked.

    branch_share: branch flow over combined flow [1], 0.3 to 1.0
    Returns [1], on the velocity pressure of the combined flow.
    Valid for: equal areas, suction side.
    Raises OutOfRange: outside that range.

    >>> converging_tee_run_coefficient(0.5)  # printed: 0.53
    0.53
    """
    belongs_to = f"{_TEE_TABLE} run,"
    return interpolated(
        branch_share, _TEE_SHARES, (0.38, 0.53, 0.59, 0.55), "share of the branch", "", belongs_to
    )


def branch_imbalance(pressures: Sequence[Pressure]) -> Number:
    """Imbalance (largest - smallest)/largest of the static pressures of the branches, 1.

    Source: velocity-pressure calculation sheets of hygiene practice. Confidence: common-practice.

    pressures: static pressure each branch needs at its planned flow, as a magnitude [Pa], > 0
    Returns [1]: 0 where they agree.
    Valid for: branches that meet at one junction.
    Raises OutOfRange: fewer than two branches, or a pressure that is not positive.

    >>> branch_imbalance([400.0, 500.0])
    0.2
    """
    if len(pressures) < 2:
        raise OutOfRange(f"A balance needs at least two branches, not {len(pressures)}.")
    for pressure in pressures:
        require_positive(pressure, "static pressure of a branch", "Pa")
    return 1.0 - min(pressures) / max(pressures)


def balanced_branch_flow(
    planned_flow: Flow, planned_pressure: Pressure, governing_pressure: Pressure
) -> Flow:
    """Flow Q sqrt(SP_governing/SP_branch) that a branch really takes, m3/s.

    Source: ASHRAE Handbook - Fundamentals (SI), chapter 21 Duct Design, equation 42.
    Confidence: checked.

    planned_flow: flow the branch was calculated for [m3/s], >= 0
    planned_pressure: static pressure it needs at that flow, as a magnitude [Pa], > 0
    governing_pressure: static pressure at the junction, as a magnitude [Pa], > 0
    Returns [m3/s].
    Valid for: constant loss coefficients, no filter in the branch.
    Raises OutOfRange: outside those ranges.

    >>> balanced_branch_flow(1500.0, 1.0, 4.0)  # printed: 3000
    3000.0
    """
    require_at_least(planned_flow, 0.0, "planned flow", "m3/s")
    require_positive(planned_pressure, "static pressure of the branch", "Pa")
    require_positive(governing_pressure, "governing static pressure", "Pa")
    return planned_flow * math.sqrt(governing_pressure / planned_pressure)


def merged_velocity_pressure(flows: Sequence[Flow], pressures: Sequence[Pressure]) -> Pressure:
    """Velocity pressure of merged branches, weighted by their flows, Pa.

    Source: ACGIH Industrial Ventilation, resultant velocity pressure. Confidence: checked.

    flows: flow of each branch [m3/s], >= 0
    pressures: velocity pressure of each branch [Pa], >= 0, in the same order
    Returns [Pa].
    Valid for: the momentum arriving at a junction.
    Raises OutOfRange: lists of different length, or no flow at all.

    >>> merged_velocity_pressure([200.0, 300.0], [1.5, 2.0])  # printed: 1.8
    1.8
    """
    if len(flows) != len(pressures):
        raise OutOfRange(
            f"There are {len(flows)} flows and {len(pressures)} velocity pressures; "
            "each branch needs both."
        )
    for flow, pressure in zip(flows, pressures, strict=True):
        require_at_least(flow, 0.0, "flow of a branch", "m3/s")
        require_at_least(pressure, 0.0, "velocity pressure of a branch", "Pa")
    total = math.fsum(flows)
    require_positive(total, "combined flow", "m3/s")
    weighted = (flow * pressure for flow, pressure in zip(flows, pressures, strict=True))
    return math.fsum(weighted) / total
