"""NEMA MG 1, derating for voltage unbalance: the one copy of the curve that was read whole, and others."""

from __future__ import annotations

import pytest

from checker.absent import CannotTell
from checker.rulebook.model import Rulebook

# Handbook page on NEMA tolerance and unbalance: percent, factor. Confidence: checked; at 1.0 % the
# page prints the limit without a factor, which is read as 1.00 and marked so in the table.
CURVE = [
    (0.0, 1.00),
    (0.5, 1.00),
    (1.0, 1.00),
    (1.5, 0.97),
    (2.0, 0.95),
    (2.5, 0.93),
    (3.0, 0.89),
    (3.5, 0.85),
    (4.0, 0.82),
    (4.5, 0.78),
    (5.0, 0.76),
]


@pytest.mark.parametrize(("percent", "factor"), CURVE)
def test_curve(shipped: Rulebook, percent: float, factor: float) -> None:
    table = shipped.tables["voltage_unbalance_derating"]
    assert len(table.rows) == len(CURVE)
    assert table.columns["factor"].look_up(percent / 100) == pytest.approx(factor)


# "Do not operate above 5 %" (two copies): there is no factor there. Confidence: checked.
def test_no_factor_above_five_percent(shipped: Rulebook) -> None:
    with pytest.raises(CannotTell):
        shipped.tables["voltage_unbalance_derating"].columns["factor"].look_up(0.051)


# A second copy reads "near 0.95" at 1.96 %; the line between the printed values gives 0.952.
# Confidence: checked.
def test_near_two_percent(shipped: Rulebook) -> None:
    found = shipped.tables["voltage_unbalance_derating"].columns["factor"].look_up(0.0196)
    assert found == pytest.approx(0.95, abs=0.005)


# Other copies print 0.90 at 3 % (checked) and 0.88 at 3 %, 0.75 at 5 % (from memory): not mixed in.
@pytest.mark.parametrize(("percent", "other"), [(3.0, 0.90), (3.0, 0.88), (5.0, 0.75)])
def test_not_the_other_copies(shipped: Rulebook, percent: float, other: float) -> None:
    found = shipped.tables["voltage_unbalance_derating"].columns["factor"].look_up(percent / 100)
    assert found != pytest.approx(other, abs=0.005)


# The read-between value says so: at 1 % alone the table is from memory.
@pytest.mark.parametrize(
    ("percent", "confidence"), [(1.0, "from-memory"), (2.0, "checked"), (0.5, "checked")]
)
def test_confidence_of_the_cell(shipped: Rulebook, percent: float, confidence: str) -> None:
    table = shipped.tables["voltage_unbalance_derating"]
    assert table.confidence_of("factor", percent / 100) == confidence
