"""Sheet "Rated currents of three-phase motors", with power factor and efficiency printed."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.motors import (
    plate_current_ratio_deviation,
    three_phase_full_load_current,
)
from checker.rulebook.model import Rulebook

# kW, cos φ, efficiency, A at 230 V, A at 400 V. Confidence: checked.
SHEET = [
    (0.37, 0.72, 0.66, "2.0", "1.1"),
    (0.55, 0.75, 0.69, "2.7", "1.5"),
    (0.75, 0.79, 0.74, "3.2", "1.9"),
    (1.1, 0.81, 0.74, "4.6", "2.6"),
    (1.5, 0.81, 0.74, "6.3", "3.6"),
]
CELLS = [
    (kw, u, pf, eta, a)
    for kw, pf, eta, *row in SHEET
    for u, a in zip((230.0, 400.0), row, strict=True)
]


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# Rated currents of three-phase motors, all ten cells. Confidence: checked.
@pytest.mark.parametrize(("kilowatts", "voltage", "power_factor", "efficiency", "current"), CELLS)
def test_full_load_current(
    kilowatts: float, voltage: float, power_factor: float, efficiency: float, current: str
) -> None:
    found = three_phase_full_load_current(kilowatts * 1000, voltage, power_factor, efficiency)
    assert found == printed(current)


# The same sheet: the two currents of a motor stand in the ratio √3. Both are rounded to 0.1 A, so
# their ratio may be off by 0.05/1.1 + 0.05/2.0 = 7 %, plus 0.4 % as 400/230 is not √3.
# Confidence: checked.
@pytest.mark.parametrize(("delta", "star"), [(float(row[3]), float(row[4])) for row in SHEET])
def test_currents_of_one_plate(delta: float, star: float) -> None:
    allowed = 0.05 / delta + 0.05 / star + 0.005
    assert plate_current_ratio_deviation(delta, star, "star-delta") == pytest.approx(0, abs=allowed)


# The sheet as shipped: power factor, efficiency and both currents of every row. Confidence: checked.
@pytest.mark.parametrize("row", SHEET, ids=lambda row: f"{row[0]} kW")
def test_shipped(shipped: Rulebook, row: tuple[float, float, float, str, str]) -> None:
    kilowatts, power_factor, efficiency, at_230, at_400 = row
    columns = shipped.tables["typical_three_phase_current"].columns
    found = [
        columns[name].look_up(kilowatts * 1000)
        for name in ("power_factor", "efficiency", "sheet_230", "sheet_400")
    ]
    assert found == pytest.approx([power_factor, efficiency, float(at_230), float(at_400)])
