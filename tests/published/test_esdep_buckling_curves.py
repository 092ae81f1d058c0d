"""ESDEP lecture notes on columns (ECCS buckling curves), Table 1, reduction factors χ."""

from __future__ import annotations

import pytest

from checker.engineering.members import buckling_reduction

# ESDEP, Table 1 "Reduction factors", χ by λ̄ for curves a, b, c, d, four decimals, as quoted in a
# public verification set. Confidence: checked.
TABLE = {
    0.3: ("0.9775", "0.9641", "0.9491", "0.9235"),
    0.5: ("0.9243", "0.8842", "0.8430", "0.7793"),
    0.8: ("0.7957", "0.7245", "0.6622", "0.5797"),
    1.0: ("0.6656", "0.5970", "0.5399", "0.4671"),
    1.5: ("0.3724", "0.3422", "0.3145", "0.2766"),
    2.0: ("0.2229", "0.2095", "0.1962", "0.1766"),
    3.0: ("0.1036", "0.0994", "0.0951", "0.0882"),
}
CELLS = [
    (slenderness, curve, float(printed))
    for slenderness, row in TABLE.items()
    for curve, printed in zip(("a", "b", "c", "d"), row, strict=True)
]


@pytest.mark.parametrize(("slenderness", "curve", "printed"), CELLS)
def test_reduction_factor(slenderness, curve, printed):
    assert buckling_reduction(slenderness, curve) == pytest.approx(printed, abs=0.00005)
