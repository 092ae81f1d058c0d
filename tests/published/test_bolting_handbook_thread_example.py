"""Bolting handbook, chapter on thread stripping, DOI 10.1201/9781482273786-99 (abstract).

M10×1.5-6g in a 6H hole in aluminium of 130 MPa shear strength, load 1200 MPa × 58 mm² = 69 600 N,
D_s 9.968 mm, E_n,max 9.206 mm. Confidence: checked.
"""

from __future__ import annotations

import pytest

from checker.engineering.threads import engagement_against_internal_stripping

LOAD, SHEAR_STRENGTH, PITCH, NUT_PITCH = 69600.0, 130e6, 0.0015, 0.009206


# Abstract, engagement printed 21.6 mm; checked. The formula gives 21.55, the edge of half a unit.
def test_printed_engagement():
    found = engagement_against_internal_stripping(LOAD, SHEAR_STRENGTH, PITCH, 0.009968, NUT_PITCH)
    assert found * 1e3 == pytest.approx(21.6, abs=0.06)


# Published wrongly: the example calls 9.968 mm the minimum major diameter of M10-6g; it is the
# maximum. The least is 9.732 mm (ASME B1.13M, checked), and the answer 24.9 mm (arithmetic of the
# same formula), never 21.6 mm.
def test_least_major_diameter_needs_more():
    found = engagement_against_internal_stripping(LOAD, SHEAR_STRENGTH, PITCH, 0.009732, NUT_PITCH)
    assert found * 1e3 == pytest.approx(24.9, abs=0.05)
    assert found * 1e3 > 21.6 + 3.0
