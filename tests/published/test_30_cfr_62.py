"""Occupational noise exposure in mines, United States: appendix to part 62."""

from __future__ import annotations

import pytest

from checker.engineering.noise_exposure import average_level_of_dose, noise_dose

# 30 CFR part 62, appendix, Table 62-2: dose in per cent, eight-hour average in dBA, printed in
# whole decibels. Confidence: checked.
TABLE_62_2 = [
    (25, 80), (29, 81), (33, 82), (38, 83), (44, 84), (50, 85), (57, 86), (66, 87), (76, 88),
    (87, 89), (100, 90), (115, 91), (132, 92), (152, 93), (174, 94), (200, 95), (230, 96),
    (264, 97), (303, 98), (350, 99), (400, 100), (460, 101), (530, 102), (610, 103), (700, 104),
    (800, 105), (920, 106), (1056, 107), (1213, 108), (1393, 109), (1600, 110), (1838, 111),
    (2111, 112), (2425, 113), (2786, 114), (3200, 115),
]  # fmt: skip

# From 350 to 920 the doses are printed in tens.
IN_TENS = {99, 100, 101, 102, 103, 104, 105, 106}


@pytest.mark.parametrize(("per_cent", "level"), TABLE_62_2)
def test_average_of_dose(per_cent: float, level: float) -> None:
    assert average_level_of_dose(per_cent / 100.0, 90.0, 5.0) == pytest.approx(level, abs=0.5)


@pytest.mark.parametrize(("per_cent", "level"), TABLE_62_2)
def test_dose_of_eight_hours(per_cent: float, level: float) -> None:
    dose = noise_dose([level], [8 * 3600.0], 90.0, 5.0, 80.0) * 100.0
    assert dose == pytest.approx(per_cent, abs=5.0 if level in IN_TENS else 0.5)
