"""NFPA 77, static electricity, as three pages quote it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# 1 megohm dissipates; end to end of a bond 10 ohm (copper) or 25 ohm (stainless steel) as a margin.
# Confidence: checked (quotations).
@pytest.mark.parametrize(
    ("metal", "resistance", "grade"),
    [
        ("copper-or-steel", "10 ohm", Grade.MET),
        ("copper-or-steel", "11 ohm", Grade.CORRECT),
        ("stainless-steel", "25 ohm", Grade.MET),
        ("stainless-steel", "26 ohm", Grade.CORRECT),
        ("copper-or-steel", "1 Mohm", Grade.CORRECT),
        ("copper-or-steel", "1.1 Mohm", Grade.STOP),
    ],
)
def test_bond(ask: Callable[..., Finding], metal: str, resistance: str, grade: Grade) -> None:
    bond = f"{{name: spigot, kind: metal-part, metal: {metal}, resistance: {resistance}}}"
    found = ask("fire/static-bond", process="{fluid: neat-oil}", collector=f"{{bonds: [{bond}]}}")
    assert found.grade is grade
