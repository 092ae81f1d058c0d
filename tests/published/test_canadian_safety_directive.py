"""National Joint Council of Canada, safety and health directive, levels of sound."""

from __future__ import annotations

import math

import pytest

from checker.engineering.noise_exposure import permitted_duration

# Table of maximum duration in 24 hours: dBA, hours as printed, criterion 87 dBA. Confidence:
# checked.
TABLE = [
    (83, "20"), (84, "16"), (85, "13"), (86, "10"), (87, "8.0"), (88, "6.4"), (89, "5.0"),
    (90, "4.0"), (91, "3.2"), (92, "2.5"), (93, "2.0"), (94, "1.6"), (95, "1.3"), (96, "1.0"),
    (97, "0.80"), (98, "0.64"), (99, "0.50"), (100, "0.40"), (101, "0.32"),
]  # fmt: skip


# The printed 0.80 h at 97 dBA shows that the table follows exact energy (3.01 dB), not 3 dB.
@pytest.mark.parametrize(("level", "hours"), TABLE)
def test_longest_durations(level: float, hours: str) -> None:
    decimals = len(hours.partition(".")[2])
    duration = permitted_duration(level, 87.0, 10.0 * math.log10(2.0)) / 3600.0
    assert duration == pytest.approx(float(hours), abs=0.5 * 10.0**-decimals)
