"""NFPA 13, Installation of sprinkler systems: clearance and obstructions, as public summaries print it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook


# NFPA 13: 36 in below ESFR and special sprinklers. Confidence: checked.
@pytest.mark.parametrize("kind", ["esfr", "special"])
def test_clearance(shipped: Rulebook, kind: str) -> None:
    found = shipped.tables["sprinkler_clearance"].columns["clearance"].look_up(kind)
    assert found / 0.0254 == pytest.approx(36, rel=1e-12)


# NFPA 13: obstructions wider than 4 ft (printed 1.2 m) need heads beneath. Confidence: checked.
@pytest.mark.parametrize(
    ("width_ft", "heads", "grade"),
    [(4, "false", "met"), (4.1, "false", "correct"), (4.1, "true", "met")],
)
def test_wide_obstruction(
    ask: Callable[..., Finding], width_ft: float, heads: str, grade: str
) -> None:
    found = ask(
        "clearance/sprinkler-wide-obstruction",
        surroundings="{sprinkler: {kind: standard-spray, rules: nfpa-13, "
        f"obstruction_width: {width_ft} ft, heads_beneath: {heads}}}}}",
    )
    assert found.grade.word == grade


# NFPA 13, three times rule: a 6 in post stands 18 in off (arithmetic of the rule).
# Confidence: checked.
@pytest.mark.parametrize(("distance_in", "grade"), [(18, "met"), (17.9, "correct")])
def test_three_times(ask: Callable[..., Finding], distance_in: float, grade: str) -> None:
    found = ask(
        "clearance/sprinkler-near-post",
        surroundings="{sprinkler: {kind: standard-spray, rules: nfpa-13, passes_deflector: true, "
        f"passing_size: 6 in, passing_distance: {distance_in} in}}}}",
    )
    assert found.grade.word == grade
