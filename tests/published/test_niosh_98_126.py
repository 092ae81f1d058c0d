"""NIOSH 98-126, Criteria for a Recommended Standard: Occupational Noise Exposure (1998)."""

from __future__ import annotations

import pytest

from checker.engineering.noise_exposure import permitted_duration

# Table 1-1: level in dBA, longest duration in hours, minutes, seconds. Read in a reprint.
# Confidence: checked.
TABLE_1_1 = [
    (80, 25, 24, 0), (81, 20, 10, 0), (82, 16, 0, 0), (83, 12, 42, 0), (84, 10, 5, 0),
    (85, 8, 0, 0), (86, 6, 21, 0), (87, 5, 2, 0), (88, 4, 0, 0), (89, 3, 10, 0), (90, 2, 31, 0),
    (91, 2, 0, 0), (92, 1, 35, 0), (93, 1, 16, 0), (94, 1, 0, 0), (95, 0, 47, 37),
    (96, 0, 37, 48), (97, 0, 30, 0), (98, 0, 23, 49), (100, 0, 15, 0), (101, 0, 11, 54),
    (102, 0, 9, 27), (103, 0, 7, 30), (104, 0, 5, 57), (105, 0, 4, 43), (106, 0, 3, 45),
    (107, 0, 2, 59), (108, 0, 2, 22), (109, 0, 1, 53), (110, 0, 1, 29), (111, 0, 1, 11),
    (112, 0, 0, 56), (113, 0, 0, 45), (114, 0, 0, 35), (115, 0, 0, 28), (116, 0, 0, 22),
    (117, 0, 0, 18), (118, 0, 0, 14), (119, 0, 0, 11), (120, 0, 0, 9), (121, 0, 0, 7),
    (122, 0, 0, 6), (123, 0, 0, 4), (124, 0, 0, 3), (125, 0, 0, 3), (126, 0, 0, 2), (127, 0, 0, 1),
    (128, 0, 0, 1), (129, 0, 0, 1), (130, 0, 0, 1),
]  # fmt: skip


# Tolerance: one unit of the last printed figure (a minute up to 94 dBA, a second above), because
# the table sometimes rounds and sometimes cuts off (124 dBA: 3.5 s printed 3, 120 dBA: 8.86 s
# printed 9).
@pytest.mark.parametrize(("level", "hours", "minutes", "seconds"), TABLE_1_1)
def test_longest_durations(level: float, hours: int, minutes: int, seconds: int) -> None:
    printed = hours * 3600.0 + minutes * 60.0 + seconds
    unit = 60.0 if level <= 94 else 1.0
    assert permitted_duration(level, 85.0, 3.0) == pytest.approx(printed, abs=unit)


# Table 1-1 prints 18 min 59 s at 99 dBA; 480 min / 2^((99 - 85)/3), its own formula, is
# 18 min 53.9 s. Confidence: checked.
def test_printed_row_of_99_dba_is_not_followed() -> None:
    duration = permitted_duration(99.0, 85.0, 3.0)
    assert duration != pytest.approx(18 * 60 + 59, abs=1.0)
    assert duration == pytest.approx(18 * 60 + 53.9, abs=0.05)
