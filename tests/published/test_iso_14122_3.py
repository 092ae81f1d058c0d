"""ISO 14122-3:2016, Permanent means of access to machinery, guard-rails."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding

# ISO 14122-3:2016, guard-rails, as published summaries print it: rail 1100, toe board 100, gaps
# 500, posts 1500 mm apart. Confidence: checked.
PRINTED_MM = {"rail_height": 1100, "toe_board": 100, "rail_gap": 500, "post_spacing": 1500}


def grade(ask: Callable[..., Finding], **changed_mm: float) -> str:
    fields = ", ".join(f"{k}: {v} mm" for k, v in {**PRINTED_MM, **changed_mm}.items())
    platform = f"{{platforms: [{{name: p, {fields}}}]}}"
    found = ask(
        "clearance/platform-rail", job="{stage: plan, jurisdiction: EU}", surroundings=platform
    )
    return found.grade.word


def test_all_four_printed_values_together(ask: Callable[..., Finding]) -> None:
    assert grade(ask) == "met"


# ISO 14122-3:2016: a millimetre past each printed value. Confidence: checked.
@pytest.mark.parametrize(
    ("field", "mm"),
    [("rail_height", 1099), ("toe_board", 99), ("rail_gap", 501), ("post_spacing", 1501)],
)
def test_past_a_printed_value(ask: Callable[..., Finding], field: str, mm: float) -> None:
    assert grade(ask, **{field: mm}) == "correct"
