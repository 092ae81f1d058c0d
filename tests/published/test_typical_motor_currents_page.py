"""Engineering notes page "Typical motor currents": averages of four-pole and single-phase motors."""

from __future__ import annotations

import pytest

from checker.rulebook.model import Rulebook

# Four-pole motors at 400 V: kW, A. Confidence: checked.
FOUR_POLE = [(0.75, 1.9), (1.1, 2.5), (1.5, 3.4), (2.2, 4.8), (3.0, 6.3), (4.0, 8.1)]
# Single-phase motors: kW, A at 220 V, A at 240 V. Confidence: checked.
SINGLE_PHASE = [
    (0.37, 3.9, 3.6),
    (0.55, 5.2, 4.8),
    (0.75, 6.6, 6.1),
    (1.1, 9.6, 8.8),
    (1.5, 12.7, 11.7),
    (2.2, 18.6, 17.1),
]


@pytest.mark.parametrize(("kilowatts", "current"), FOUR_POLE)
def test_four_pole(shipped: Rulebook, kilowatts: float, current: float) -> None:
    table = shipped.tables["typical_three_phase_current"].columns["four_pole_400"]
    assert table.look_up(kilowatts * 1000) == pytest.approx(current)


@pytest.mark.parametrize(("kilowatts", "at_220", "at_240"), SINGLE_PHASE)
def test_single_phase(shipped: Rulebook, kilowatts: float, at_220: float, at_240: float) -> None:
    table = shipped.tables["typical_single_phase_current"].columns
    assert table["at_220"].look_up(kilowatts * 1000) == pytest.approx(at_220)
    assert table["at_240"].look_up(kilowatts * 1000) == pytest.approx(at_240)
    assert len(shipped.tables["typical_single_phase_current"].rows) == len(SINGLE_PHASE)


# The page against the sheet with power factor and efficiency: where both print a motor they agree
# within 6 %, which is the spread that two makers' averages may have.
@pytest.mark.parametrize("kilowatts", [0.75, 1.1, 1.5])
def test_page_against_sheet(shipped: Rulebook, kilowatts: float) -> None:
    columns = shipped.tables["typical_three_phase_current"].columns
    page = columns["four_pole_400"].look_up(kilowatts * 1000)
    assert page == pytest.approx(columns["sheet_400"].look_up(kilowatts * 1000), rel=0.06)
