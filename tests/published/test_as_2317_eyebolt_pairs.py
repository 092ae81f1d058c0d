"""AS 2317.1 / BS 4278, loading of collared eyebolts, as a fastener distributor prints it."""

from __future__ import annotations

import math

import pytest

from checker.engineering.lifting import eyebolt_pair_factor
from checker.engineering.limits import OutOfRange


# AS 2317.1 / BS 4278, distributor's table: factor of a pair by included angle. Confidence: checked.
@pytest.mark.parametrize(
    ("degrees", "printed"), [(30, 1.25), (31, 0.8), (60, 0.8), (61, 0.5), (90, 0.5)]
)
def test_pair_factor(degrees: float, printed: float) -> None:
    assert eyebolt_pair_factor(math.radians(degrees)) == printed


# AS 2317.1 / BS 4278, distributor's table: M12, 0.40 t axial, pair at 90° printed 0.20 t.
# Confidence: checked.
def test_m12_pair_at_ninety_degrees() -> None:
    assert 0.40 * eyebolt_pair_factor(math.radians(90)) == pytest.approx(0.20, abs=0.005)


# An inch-unit fastener table prints "12 mm: 2266", in pounds of another standard. Read as the
# kilograms of this one it would be more than four times the pair's best. Confidence: checked, as a
# trap.
def test_inch_table_is_not_this_standard() -> None:
    best_pair_kg = 400 * eyebolt_pair_factor(math.radians(30))
    assert best_pair_kg < 2266 / 4


# AS 2317.1 / BS 4278, distributor's table: nothing above 90° between the legs. Confidence: checked.
def test_no_factor_beyond_the_table() -> None:
    with pytest.raises(OutOfRange):
        eyebolt_pair_factor(math.radians(91))
