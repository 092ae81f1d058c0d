"""Published base-plate calculation sheet: anchors 400 mm deep between near edges."""

from __future__ import annotations

import pytest

from checker.engineering.anchor_geometry import (
    cone_characteristic_edge_distance,
    cone_characteristic_spacing,
    cone_reference_area,
    narrow_member_embedment,
)

PRINTED = 0.167  # m, h'_ef; rounded to half a millimetre, which the tolerances below carry on


# Base-plate calculation sheet: s_cr,N, 3 times 0.5 mm. Confidence: checked.
def test_characteristic_spacing() -> None:
    assert cone_characteristic_spacing(PRINTED) * 1e3 == pytest.approx(500, abs=1.5)


# Base-plate calculation sheet: c_cr,N, 1.5 times 0.5 mm. Confidence: checked.
def test_characteristic_edge_distance() -> None:
    assert cone_characteristic_edge_distance(PRINTED) * 1e3 == pytest.approx(250, abs=0.75)


# Base-plate calculation sheet: A⁰_c,N, 2·500 mm times 1.5 mm. Confidence: checked.
def test_reference_area() -> None:
    assert cone_reference_area(PRINTED) * 1e6 == pytest.approx(250_000, abs=1500)


# The sheet writes the smallest spacing into the second term of h'_ef; CEN/TS 1992-4-2:2009,
# Equation (14), has the largest. With edges at 250 mm and spacings of 400 mm and 600 mm the sheet's
# reading would give 167 mm, the specification 200 mm. Confidence: checked, as an error.
def test_smallest_spacing_is_the_wrong_one() -> None:
    spacings = [0.400, 0.600]
    assert narrow_member_embedment(0.250, max(spacings), 0.400) * 1e3 == pytest.approx(200)
    assert narrow_member_embedment(0.250, min(spacings), 0.400) * 1e3 == pytest.approx(167, abs=0.5)
