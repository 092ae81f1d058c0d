"""Air-handling-unit installation manual, condensate trap of a draw-through unit (general HVAC)."""

from __future__ import annotations

import pytest

from checker.engineering.drain_traps import draw_through_trap_depth, draw_through_trap_half_depth

INCH = 0.0254


# Trap drawing: P1 is the negative static pressure plus 1 in; 2 in of water makes 3 in. checked
def test_depth() -> None:
    assert draw_through_trap_depth(2.0 * INCH) / INCH == pytest.approx(3.0, abs=0.05)


# Trap drawing: the half-depth kept at standstill is P1/2, 1.5 in. checked
def test_half_depth() -> None:
    assert draw_through_trap_half_depth(2.0 * INCH) / INCH == pytest.approx(1.5, abs=0.05)
