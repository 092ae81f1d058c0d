"""NIOSH 98-102, recommended standard for metalworking fluids (1998)."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


def _grade(ask: Callable[..., Finding], source: str, limit: str) -> Grade:
    exposure = f"{{exposure: {{source: {source}, limit: {limit}}}}}"
    return ask("exposure/limit-as-published", process=exposure).grade


# Recommended exposure limit: 0.4 mg/m3 thoracic, 0.5 mg/m3 total. Confidence: checked.
@pytest.mark.parametrize(
    ("source", "printed", "above"),
    [
        ("niosh-metalworking-fluid-thoracic", "0.4 mg/m3", "0.41 mg/m3"),
        ("niosh-metalworking-fluid-total", "0.5 mg/m3", "0.51 mg/m3"),
    ],
)
def test_recommended_limit(
    ask: Callable[..., Finding], source: str, printed: str, above: str
) -> None:
    assert _grade(ask, source, printed) is Grade.MET
    assert _grade(ask, source, above) is Grade.CORRECT


# The value for mineral oil mist is ten times higher and not the one for machining.
def test_value_for_oil_mist_is_refused_in_its_place(ask: Callable[..., Finding]) -> None:
    assert _grade(ask, "niosh-metalworking-fluid-total", "5 mg/m3") is Grade.CORRECT
