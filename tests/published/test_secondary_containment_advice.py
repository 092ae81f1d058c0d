"""UK business advice on secondary containment of oil: 110 per cent of the largest, 25 of all."""

from __future__ import annotations

import pytest

from checker.engineering.containers import bund_capacity, drum_tray_capacity

LITRE = 1e-3


# One drum of 205 L: 110 per cent is 225.5 L. checked percentages, arithmetic
def test_one_drum() -> None:
    assert bund_capacity([205.0 * LITRE], 1.10, 0.25) / LITRE == pytest.approx(225.5, abs=0.05)


# Three drums of 205 L: 225.5 L governs over 153.75 L. checked percentages, arithmetic
def test_three_drums() -> None:
    found = bund_capacity([205.0 * LITRE] * 3, 1.10, 0.25) / LITRE
    assert found == pytest.approx(225.5, abs=0.05)
    assert found != pytest.approx(153.75, abs=0.05)


# Five drums of 205 L: 25 per cent of all, 256.25 L, governs. checked percentages, arithmetic
def test_five_drums() -> None:
    found = bund_capacity([205.0 * LITRE] * 5, 1.10, 0.25) / LITRE
    assert found == pytest.approx(256.25, abs=0.005)


# Tray for drums only: 25 per cent of three drums. checked percentage, arithmetic
def test_tray() -> None:
    found = drum_tray_capacity([205.0 * LITRE] * 3, 0.25) / LITRE
    assert found == pytest.approx(153.75, abs=0.005)
