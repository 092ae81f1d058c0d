"""Steel Buildings in Europe, Multi-storey steel buildings, Part 4, Appendix A.5, pp. 4-95, 4-96.

Column HE 300 B in S235: A 149 cm², I_y 25170 cm⁴ with L_cr,y 8.00 m, I_z 8560 cm⁴ with L_cr,z
5.60 m, E 210 000 N/mm².
"""

from __future__ import annotations

import pytest

from checker.engineering.members import (
    buckling_auxiliary,
    buckling_may_be_ignored,
    buckling_reduction,
    critical_force,
    slenderness,
)

E = 210e9
AREA = 149e-4
YIELD = 235e6


# Appendix A.5, p. 4-95: N_cr,y = 8151.2 kN. Confidence: checked.
def test_critical_force_major():
    assert critical_force(E, 25170e-8, 8.00) / 1e3 == pytest.approx(8151.2, abs=0.05)


# Appendix A.5, p. 4-96: N_cr,z = 5657.4 kN. Confidence: checked.
def test_critical_force_minor():
    assert critical_force(E, 8560e-8, 5.60) / 1e3 == pytest.approx(5657.4, abs=0.05)


# Appendix A.5, p. 4-95: λ̄_y = 0.655. Confidence: checked.
def test_slenderness_major():
    assert slenderness(AREA, YIELD, 8151.2e3) == pytest.approx(0.655, abs=0.0005)


# Appendix A.5, p. 4-96: λ̄_z = 0.787. Confidence: checked.
def test_slenderness_minor():
    assert slenderness(AREA, YIELD, 5657.4e3) == pytest.approx(0.787, abs=0.0005)


# Appendix A.5, p. 4-95: curve b, Φ_y = 0.792. Confidence: checked.
def test_auxiliary_value():
    assert buckling_auxiliary(0.655, "b") == pytest.approx(0.792, abs=0.0005)


# Appendix A.5, p. 4-95: curve b, χ_y = 0.808. Confidence: checked.
# Fed with the slenderness before rounding: at 0.655 exactly χ is 0.80850, on the edge.
def test_reduction_factor():
    assert buckling_reduction(slenderness(AREA, YIELD, 8151.2e3), "b") == pytest.approx(
        0.808, abs=0.0005
    )


# Appendix A.5: buckling may be ignored for λ̄ ≤ 0.2 or N_Ed/N_cr ≤ 0.04. Confidence: checked.
@pytest.mark.parametrize(
    ("slender", "axial_over_critical", "ignored"),
    [(0.2, 0.5, True), (0.201, 0.5, False), (1.8, 0.04, True), (1.8, 0.0401, False)],
)
def test_when_buckling_may_be_ignored(slender, axial_over_critical, ignored):
    assert buckling_may_be_ignored(slender, axial_over_critical * 1e6, 1e6) is ignored
