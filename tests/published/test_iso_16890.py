"""ISO 16890-1:2016, air filters for general ventilation: groups and reported class."""

from __future__ import annotations

import pytest

from checker.engineering.filtration import iso_16890_class_value, iso_16890_group


# Table of filter groups: 50 % is enough, less is not. Confidence: checked (five reproductions).
@pytest.mark.parametrize(
    ("epm1", "epm25", "epm10", "group"),
    [
        (0.50, 0.60, 0.80, "ISO ePM1"),
        (0.49, 0.50, 0.80, "ISO ePM2.5"),
        (0.30, 0.49, 0.50, "ISO ePM10"),
        (0.05, 0.10, 0.49, "ISO Coarse"),
    ],
)
def test_groups(epm1: float, epm25: float, epm10: float, group: str) -> None:
    assert iso_16890_group(epm1, epm25, epm10) == group


# Reporting: rounded down to the next 5 %; classes of 50 %, 55 %, 60 % and so on to 95 %; above
# 95 % "> 95 %". Confidence: checked (two reproductions).
@pytest.mark.parametrize(
    ("efficiency", "reported"),
    [(0.50, 0.50), (0.549, 0.50), (0.55, 0.55), (0.60, 0.60), (0.85, 0.85), (0.949, 0.90),
     (0.95, 0.95), (0.97, 0.95), (1.0, 0.95)],
)  # fmt: skip
def test_reported_class(efficiency: float, reported: float) -> None:
    assert iso_16890_class_value(efficiency) == pytest.approx(reported, abs=1e-12)
