"""Code of Practice for the Electricity (Wiring) Regulations, Hong Kong, 2009, p. 178 of the copy."""

from __future__ import annotations

import pytest

from checker.absent import CannotTell
from checker.rulebook.model import Rulebook

# Line, phases, largest kW of the band, starting current over full-load current. Confidence: checked.
CELLS = [
    ("underground", "single", 2.2, 6.0),
    ("underground", "three", 11.0, 6.0),
    ("underground", "three", 55.0, 2.5),
    ("overhead", "single", 1.5, 6.0),
    ("overhead", "three", 3.8, 6.0),
    ("overhead", "three", 11.0, 2.5),
]


@pytest.mark.parametrize(("line", "phases", "kilowatts", "ratio"), CELLS)
def test_bands(shipped: Rulebook, line: str, phases: str, kilowatts: float, ratio: float) -> None:
    table = shipped.tables["network_start"]
    assert len(table.rows) == len(CELLS)
    look_up = table.columns["largest_start_ratio"].look_up
    assert look_up("hong-kong-2009", line, phases, 1000 * kilowatts) == ratio


# Above the largest band nothing is printed, and nothing is given.
@pytest.mark.parametrize(
    ("line", "phases", "kilowatts"),
    [("underground", "single", 2.3), ("overhead", "single", 1.6), ("overhead", "three", 11.1)],
)
def test_beyond_the_bands(shipped: Rulebook, line: str, phases: str, kilowatts: float) -> None:
    look_up = shipped.tables["network_start"].columns["largest_start_ratio"].look_up
    with pytest.raises(CannotTell):
        look_up("hong-kong-2009", line, phases, 1000 * kilowatts)
