"""Section data published wrongly by public code libraries: we must not agree with them."""

from __future__ import annotations

import pytest

from checker.engineering.sections import (
    tube_area,
    tube_elastic_section_modulus,
    tube_plastic_section_modulus,
    tube_second_moment,
)

CHS_60 = ("round", "hot-finished", 0.0603, 0.0603, 0.0032)
CHS_21 = ("round", "cold-formed", 0.0213, 0.0213, 0.002)
RHS_40 = ("rectangular", "cold-formed", 0.020, 0.040, 0.002)


# A public code library's CHS 60.3 × 3.2: I 0.24e6 mm⁴ and W 8.0e3 mm³, rounded up on the unsafe
# side; SCI P363 prints 23.5 cm⁴ and 7.78 cm³. Confidence: checked.
def test_chs_60_3_second_moment_rounded_up():
    second_moment = tube_second_moment(*CHS_60, "major") * 1e12
    assert second_moment == pytest.approx(0.235e6, abs=0.0005e6)
    assert second_moment < 0.98 * 0.24e6


def test_chs_60_3_section_modulus_rounded_up():
    modulus = tube_elastic_section_modulus(*CHS_60, "major") * 1e9
    assert modulus == pytest.approx(7.78e3, abs=5.0)
    assert modulus < 0.98 * 8.0e3


# Another public code library's tubes "to EN 10219-2": CHS 21.3 × 2.0 with A 1.17 cm², I 0.87 cm⁴,
# W 0.82 cm³; the plain formulas give 1.21, 0.57 and 0.54. Confidence: checked.
@pytest.mark.parametrize(
    ("value", "claimed"),
    [
        pytest.param(tube_area(*CHS_21) * 1e4, 1.17, id="A"),
        pytest.param(tube_second_moment(*CHS_21, "major") * 1e8, 0.87, id="I"),
        pytest.param(tube_elastic_section_modulus(*CHS_21, "major") * 1e6, 0.82, id="W_el"),
    ],
)
def test_chs_21_3(value, claimed):
    assert value != pytest.approx(claimed, rel=0.03)


# The same library's RHS 40 × 20 × 2: W_pl 2.63 and 1.89 cm³; the trade table of EN 10219:2006
# prints 2.61 and 1.60. Confidence: checked.
@pytest.mark.parametrize(("axis", "claimed"), [("major", 2.63), ("minor", 1.89)])
def test_rhs_40_x_20_x_2(axis, claimed):
    plastic = tube_plastic_section_modulus(*RHS_40, axis) * 1e6
    assert plastic != pytest.approx(claimed, abs=0.01)
