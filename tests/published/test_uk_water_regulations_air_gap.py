"""UK water-regulations glossary, air gap: at least 20 mm or twice the bore, the greater."""

from __future__ import annotations

import pytest

from checker.engineering.drain_traps import air_gap


# Glossary, air gap (EN 1717 types AA and AB). checked
@pytest.mark.parametrize(
    ("bore", "gap"), [(0.008, 0.020), (0.010, 0.020), (0.015, 0.030), (0.025, 0.050)]
)
def test_air_gap(bore: float, gap: float) -> None:
    assert air_gap(bore, 0.020) == pytest.approx(gap, abs=0.0005)
