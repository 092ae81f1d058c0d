"""VdS CEA 4001, Sprinkler systems, clause 11.1.2: free height below the deflector."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


def sprinkler(hazard: str, left_m: float, ceiling: str = "false") -> str:
    return (
        "{sprinkler: {kind: standard-spray, rules: vds-cea-4001, "
        f"hazard: {hazard}, open_suspended_ceiling: {ceiling}, "
        f"deflector_height: 5 m, top_height: {5 - left_m:.4g} m}}}}"
    )


# VdS CEA 4001, 11.1.2, as a fire planners' forum quotes it: always free 0.5 m at light and ordinary
# hazard, 0.8 m under open suspended ceilings, 1.0 m at high hazard. Confidence: checked.
@pytest.mark.parametrize(
    ("hazard", "ceiling", "printed_m"),
    [
        ("light", "false", 0.5),
        ("ordinary", "false", 0.5),
        ("high", "false", 1.0),
        ("light", "true", 0.8),
        ("ordinary", "true", 0.8),
    ],
)
def test_free_height(
    ask: Callable[..., Finding], hazard: str, ceiling: str, printed_m: float
) -> None:
    rule = "clearance/sprinkler-clearance-vds"
    enough = ask(rule, surroundings=sprinkler(hazard, printed_m, ceiling))
    short = ask(rule, surroundings=sprinkler(hazard, printed_m - 0.01, ceiling))
    assert enough.demand is not None
    assert (enough.demand.value, enough.demand.unit) == (printed_m, "m")
    assert (enough.grade.word, short.grade.word) == ("met", "correct")


# The same clause: 0.45 m at ordinary hazard and 0.9 m at high hazard fall short.
# Confidence: checked.
@pytest.mark.parametrize(("hazard", "left_m"), [("ordinary", 0.45), ("high", 0.9)])
def test_falls_short(ask: Callable[..., Finding], hazard: str, left_m: float) -> None:
    found = ask("clearance/sprinkler-clearance-vds", surroundings=sprinkler(hazard, left_m))
    assert found.grade.word == "correct"
