"""Design review of a ground-mounted panel support: equilibrium (EQU) by EN 1990."""

from __future__ import annotations

import pytest

from checker.engineering.stability import (
    overturning_design_moment,
    stabilising_design_moment,
    stability_ratio,
)

WEIGHT = 23.55e3  # N, characteristic
UPLIFT = 17.10e3  # N, characteristic
ARM = 1.0  # m; weight and uplift act in one line, so any common arm leaves the forces as printed


def _action() -> float:
    return overturning_design_moment(UPLIFT, ARM, 0.0, 1.5)


def _resistance() -> float:
    return stabilising_design_moment(WEIGHT, ARM, 0.9)


# Design review of a panel support: E_d = 1.5·17.10. Confidence: checked.
def test_design_action() -> None:
    assert _action() / 1e3 == pytest.approx(25.65, abs=0.005)


# Design review of a panel support: R_d = 0.9·23.55. Printed from 21.195, so half a unit of the last
# digit needs the rounding of the fifth figure too. Confidence: checked.
def test_design_resistance() -> None:
    assert _resistance() / 1e3 == pytest.approx(21.20, abs=0.0051)


# Design review of a panel support: utilisation 1.21, the support lifts off. Confidence: checked.
def test_utilisation() -> None:
    assert 1.0 / stability_ratio(_resistance(), _action()) == pytest.approx(1.21, abs=0.005)


# Without partial factors the same support would pass with 1.38; the review does not. Confidence:
# checked for the verdict, 1.38 is arithmetic of the formula.
def test_characteristic_values_alone_would_pass() -> None:
    assert stability_ratio(WEIGHT * ARM, UPLIFT * ARM) > 1.0
    assert stability_ratio(_resistance(), _action()) < 1.0
