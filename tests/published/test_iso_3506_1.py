"""ISO 3506-1, Corrosion-resistant stainless steel bolts: strengths of the classes.

A2-70, A4-70 and A4-80 read in three public data sets. Confidence: checked, but A2-50 and the proof
strength of A4-80 from-memory.
"""

from __future__ import annotations

import pytest

from checker.rulebook.model import Rulebook


# ISO 3506-1: tensile strength and 0.2 % proof strength, in MPa. Confidence: as said above.
@pytest.mark.parametrize(
    ("strength_class", "tensile", "proof"),
    [("A2-50", 500, 210), ("A2-70", 700, 450), ("A4-70", 700, 450), ("A4-80", 800, 600)],
)
def test_cell(shipped: Rulebook, strength_class: str, tensile: float, proof: float) -> None:
    columns = shipped.tables["bolt_class"].columns
    assert columns["tensile_strength"].look_up(strength_class) == pytest.approx(tensile * 1e6)
    assert columns["yield_strength"].look_up(strength_class) == pytest.approx(proof * 1e6)
