"""Lecture on EN 1992-4 (fastenings in concrete), tables on pages 23 and 27."""

from __future__ import annotations

import pytest

from checker.engineering.anchors import cone_partial_factor, cone_resistance

C20 = 20e6  # Pa, cylinder strength of C20/25


def _is_printed(value: float, printed: float) -> bool:
    # The tables are cut in places (12.17 printed 12.1) and rounded in others, so a printed figure
    # may be up to one unit of its last digit below the value, and half a unit above it.
    return -0.05 <= value - printed < 0.1


# Lecture on EN 1992-4, table on p. 23: post-installed, cracked C20/25, k1 7.7. Confidence: checked.
@pytest.mark.parametrize(
    ("embedment_mm", "printed_kn"),
    [
        (40, 8.7),
        (50, 12.1),
        (60, 16.0),
        (70, 20.1),
        (80, 24.6),
        (100, 34.4),
        (125, 48.1),
        (170, 76.3),
    ],
)
def test_characteristic_cone_resistance(embedment_mm: float, printed_kn: float) -> None:
    resistance = cone_resistance("post-installed", True, C20, embedment_mm / 1e3)
    assert _is_printed(resistance / 1e3, printed_kn)


# Lecture on EN 1992-4, table on p. 27: the same divided by 1.5. Confidence: checked.
@pytest.mark.parametrize(
    ("embedment_mm", "printed_kn"),
    [
        (40, 5.8),
        (50, 8.1),
        (60, 10.6),
        (70, 13.4),
        (80, 16.4),
        (100, 22.9),
        (125, 32.0),
        (170, 50.8),
    ],
)
def test_design_cone_resistance(embedment_mm: float, printed_kn: float) -> None:
    resistance = cone_resistance("post-installed", True, C20, embedment_mm / 1e3)
    assert _is_printed(resistance / cone_partial_factor(1.5, 1.0) / 1e3, printed_kn)


# The same tables: these figures are cut, so the nearest tenth of a kilonewton is another one.
# Confidence: checked.
@pytest.mark.parametrize(("embedment_mm", "cut_kn"), [(50, 12.1), (70, 20.1)])
def test_cut_figures_are_not_the_rounded_value(embedment_mm: float, cut_kn: float) -> None:
    resistance = cone_resistance("post-installed", True, C20, embedment_mm / 1e3)
    assert round(resistance / 1e3, 1) == pytest.approx(cut_kn + 0.1, abs=1e-9)
