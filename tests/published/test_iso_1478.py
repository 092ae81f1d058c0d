"""ISO 1478:1999, Tapping screw thread: pitches.

Read in a product table of DIN 7981, pan head tapping screws. Confidence: checked.
"""

from __future__ import annotations

import pytest

from checker.rulebook.model import Rulebook

# ISO 1478, pitch P of ST threads as DIN 7981 prints it, in mm. Confidence: checked.
PITCH_MM = {"ST3.5": 1.3, "ST4.2": 1.4, "ST4.8": 1.6, "ST5.5": 1.8, "ST6.3": 1.8}


# DIN 7981, row "P pitch"; exact. Confidence: checked.
@pytest.mark.parametrize(("thread", "printed_mm"), PITCH_MM.items())
def test_pitch(shipped: Rulebook, thread: str, printed_mm: float) -> None:
    found = shipped.tables["tapping_screw"].columns["pitch"].look_up(thread)
    assert found * 1e3 == pytest.approx(printed_mm, rel=1e-12)


# The nominal diameter is what the designation says: ST 4.2 is 4.2 mm (trade journal on tapping
# screws). Confidence: checked.
@pytest.mark.parametrize("thread", PITCH_MM)
def test_diameter(shipped: Rulebook, thread: str) -> None:
    found = shipped.tables["tapping_screw"].columns["diameter"].look_up(thread)
    assert found * 1e3 == pytest.approx(float(thread[2:]), rel=1e-12)


def test_no_other_rows(shipped: Rulebook) -> None:
    assert {row[0] for row in shipped.tables["tapping_screw"].rows} == set(PITCH_MM)
