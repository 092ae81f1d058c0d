"""SMACNA HVAC Systems Duct Design, fitting tables, read as coded in a public Python library.

Each row is one printed value of a table and comes out as it is printed; between them the
functions draw straight lines.
"""

from __future__ import annotations

import math

import pytest

from checker.engineering.elbows import (
    elbow_angle_factor,
    mitred_elbow_coefficient,
    segmented_elbow_coefficient,
    smooth_elbow_coefficient,
)
from checker.engineering.hoods import (
    bellmouth_entry_coefficient,
    entry_coefficient,
    tapered_hood_coefficient,
)
from checker.engineering.junctions import (
    converging_tee_branch_coefficient,
    converging_tee_run_coefficient,
)
from checker.engineering.transitions import (
    butterfly_damper_coefficient,
    rain_cap_coefficient,
    tabulated_cone_contraction_coefficient,
    tabulated_cone_expansion_coefficient,
)


# Table A-7A, smooth round elbow of 90 degrees. checked
@pytest.mark.parametrize(
    ("radius", "printed"),
    [(0.5, 0.71), (0.75, 0.33), (1.0, 0.22), (1.5, 0.15), (2.0, 0.13), (2.5, 0.12)],
)
def test_smooth_elbow(radius: float, printed: float) -> None:
    assert smooth_elbow_coefficient(radius) == pytest.approx(printed, abs=1e-9)


# Table A-7A, note: factor for 150 degrees. checked
def test_angle_factor_of_150_degrees() -> None:
    assert elbow_angle_factor(math.radians(150.0)) == pytest.approx(1.28, abs=1e-9)


# Table A-7B, elbows of 3, 4 and 5 pieces. checked
@pytest.mark.parametrize(
    ("pieces", "radius", "printed"),
    [
        (5, 0.75, 0.46),
        (5, 1.0, 0.33),
        (5, 1.5, 0.24),
        (5, 2.0, 0.19),
        (4, 0.75, 0.50),
        (4, 1.0, 0.37),
        (4, 1.5, 0.27),
        (4, 2.0, 0.24),
        (3, 0.75, 0.54),
        (3, 1.0, 0.42),
        (3, 1.5, 0.34),
        (3, 2.0, 0.33),
    ],
)
def test_segmented_elbow(pieces: int, radius: float, printed: float) -> None:
    assert segmented_elbow_coefficient(pieces, radius) == pytest.approx(printed, abs=1e-9)


# Table A-7C, mitred round elbow. checked
@pytest.mark.parametrize(
    ("degrees", "printed"),
    [(20.0, 0.08), (30.0, 0.16), (45.0, 0.34), (60.0, 0.55), (75.0, 0.81), (90.0, 1.2)],
)
def test_mitred_elbow(degrees: float, printed: float) -> None:
    assert mitred_elbow_coefficient(math.radians(degrees)) == pytest.approx(printed, abs=1e-9)


# Table A-8A, cone expansion, area ratio 2. checked
@pytest.mark.parametrize(
    ("degrees", "printed"), [(16.0, 0.14), (20.0, 0.19), (30.0, 0.32), (60.0, 0.33)]
)
def test_cone_expansion(degrees: float, printed: float) -> None:
    found = tabulated_cone_expansion_coefficient(2.0, math.radians(degrees))
    assert found == pytest.approx(printed, abs=1e-9)


# Table A-9A, cone contraction, area ratio 2. checked
@pytest.mark.parametrize(
    ("degrees", "printed"),
    [(10.0, 0.05), (25.0, 0.05), (40.0, 0.05), (60.0, 0.06), (90.0, 0.12), (180.0, 0.26)],
)
def test_cone_contraction(degrees: float, printed: float) -> None:
    found = tabulated_cone_contraction_coefficient(2.0, math.radians(degrees))
    assert found == pytest.approx(printed, abs=1e-9)


# Table A-10B, round 90 degree tee of equal areas, branch. checked
@pytest.mark.parametrize(("share", "printed"), [(0.3, -0.08), (0.5, 0.42), (0.7, 0.72), (1.0, 1.1)])
def test_tee_branch(share: float, printed: float) -> None:
    assert converging_tee_branch_coefficient(share) == pytest.approx(printed, abs=1e-9)


# Table A-10B, round 90 degree tee of equal areas, straight run. checked
@pytest.mark.parametrize(("share", "printed"), [(0.3, 0.38), (0.5, 0.53), (0.7, 0.59), (1.0, 0.55)])
def test_tee_run(share: float, printed: float) -> None:
    assert converging_tee_run_coefficient(share) == pytest.approx(printed, abs=1e-9)


# Table A-12, duct ends: standing out of the wall 1.00, flush 0.50. checked
@pytest.mark.parametrize(("entry", "printed"), [("plain", 1.00), ("flush", 0.50)])
def test_duct_end(entry: str, printed: float) -> None:
    assert entry_coefficient(entry) == pytest.approx(printed, abs=1e-9)  # type: ignore[arg-type]


# Table A-12, bellmouth without a wall. checked
@pytest.mark.parametrize(("radius", "printed"), [(0.05, 0.40), (0.10, 0.15), (0.20, 0.03)])
def test_bellmouth(radius: float, printed: float) -> None:
    assert bellmouth_entry_coefficient(radius) == pytest.approx(printed, abs=1e-9)


# Table A-12, tapered round hood. checked
@pytest.mark.parametrize(
    ("degrees", "printed"),
    [
        (20.0, 0.11),
        (40.0, 0.06),
        (60.0, 0.09),
        (80.0, 0.14),
        (100.0, 0.18),
        (120.0, 0.27),
        (180.0, 0.50),
    ],
)
def test_tapered_hood(degrees: float, printed: float) -> None:
    assert tapered_hood_coefficient(math.radians(degrees)) == pytest.approx(printed, abs=1e-9)


# Table A-13A, outlet under a cap. checked
@pytest.mark.parametrize(("height", "printed"), [(0.1, 4.0), (0.25, 1.9), (0.5, 1.2)])
def test_rain_cap(height: float, printed: float) -> None:
    assert rain_cap_coefficient(height) == pytest.approx(printed, abs=1e-9)


# Table A-15A, butterfly damper. checked
@pytest.mark.parametrize(
    ("degrees", "printed"),
    [
        (0.0, 0.20),
        (10.0, 0.52),
        (20.0, 1.5),
        (30.0, 4.5),
        (40.0, 11.0),
        (50.0, 29.0),
        (60.0, 108.0),
    ],
)
def test_butterfly_damper(degrees: float, printed: float) -> None:
    assert butterfly_damper_coefficient(math.radians(degrees)) == pytest.approx(printed, abs=1e-9)
