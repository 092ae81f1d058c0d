"""US Fire Administration, Coffee Break Training, sprinkler clearance."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook


# USFA bulletin: 18 in, printed as 457 mm, below the deflector of standard spray sprinklers.
# Confidence: checked.
def test_clearance(shipped: Rulebook) -> None:
    found = shipped.tables["sprinkler_clearance"].columns["clearance"].look_up("standard-spray")
    assert found / 0.0254 == pytest.approx(18, rel=1e-12)
    assert round(found * 1e3) == 457


# USFA bulletin: 18 in is enough, 17.9 in is not. Confidence: checked.
@pytest.mark.parametrize(("left_in", "grade"), [(18, "met"), (17.9, "correct")])
def test_rule(ask: Callable[..., Finding], left_in: float, grade: str) -> None:
    found = ask(
        "clearance/sprinkler-clearance",
        surroundings="{sprinkler: {kind: standard-spray, rules: nfpa-13, "
        f"deflector_height: 158 in, top_height: {158 - left_in:g} in}}}}",
    )
    assert found.grade.word == grade
