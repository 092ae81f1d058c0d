"""Taitel, Barnea and Dukler 1980, vertical annular flow, as quoted in technical notes."""

from __future__ import annotations

import pytest

from checker.engineering.drain_traps import film_flooding_velocity


# Oil of 870 kg/m3 and 0.03 N/m in air of 1.2 kg/m3, K = 3.1. checked constant, arithmetic
def test_criterion() -> None:
    assert film_flooding_velocity(0.03, 870.0, 1.2, 3.1) == pytest.approx(11.32, abs=0.005)


# The same with 3.2, 2.46 and 1.9, constants of film flooding and its onset. from-memory, arithmetic
@pytest.mark.parametrize(("constant", "expected"), [(3.2, 11.68), (2.46, 8.98), (1.9, 6.94)])
def test_other_constants(constant: float, expected: float) -> None:
    found = film_flooding_velocity(0.03, 870.0, 1.2, constant)
    assert found == pytest.approx(expected, abs=0.005)
