"""IEEE 43: least insulation resistance of random-wound stators."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# Test technicians' forum, plant guide and repair-trade article: 5 Mohm for random-wound stators, 1 min
# at 500 V direct. Confidence: checked. Published for old windings only: kV + 1 Mohm, 1.4 Mohm at
# 400 V; other pages print 0.35 to 10 Mohm. Neither is ours.
@pytest.mark.parametrize(
    ("megohm", "grade"),
    [
        (5.0, Grade.MET),
        (4.9, Grade.ADVISE),
        (1.4, Grade.ADVISE),
        (0.35, Grade.ADVISE),
        (10.0, Grade.MET),
    ],
)
def test_sound_winding(ask: Callable[..., Finding], megohm: float, grade: Grade) -> None:
    found = ask(
        "electrical-protection/winding-insulation",
        job="{stage: fitted}",
        records=(
            f"{{electrical_tests: {{insulation: {{resistance: {megohm} Mohm, instrument: tester, "
            "on: 2026-03-17, by: electrician}}}"
        ),
    )
    assert found.grade is grade
