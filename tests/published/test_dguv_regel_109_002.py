"""DGUV Regel 109-002, ventilation of workplaces."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# Section 7.1: in returned air at most a fifth of the limit. Confidence: checked.
@pytest.mark.parametrize(
    ("left", "grade"), [("1.0 mg/m3", Grade.MET), ("1.1 mg/m3", Grade.CORRECT)]
)
def test_a_fifth_of_the_limit(ask: Callable[..., Finding], left: str, grade: Grade) -> None:
    found = ask(
        "exposure/returned-air-share",
        job="{stage: plan, jurisdiction: EU}",
        process="{exposure: {limit: 5 mg/m3}}",
        collector=f"{{discharge: room, outlet_concentration: {left}}}",
    )
    assert found.grade is grade


# Section 10.2: the helix of a suction hose is earthed at both ends. Confidence: checked.
@pytest.mark.parametrize(("both", "grade"), [("true", Grade.MET), ("false", Grade.CORRECT)])
def test_helix_at_both_ends(ask: Callable[..., Finding], both: str, grade: Grade) -> None:
    bond = f"{{name: hose, kind: hose-with-helix, earthed_both_ends: {both}, conductive: true}}"
    found = ask("fire/hose-bond", process="{fluid: neat-oil}", collector=f"{{bonds: [{bond}]}}")
    assert found.grade is grade
