"""PTB-Bericht ThEx-2 (1997), igniting mists of metalworking fluids."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# Result summary: mists of all fluids tested, with flash points above 200 degC, were ignited by sparks
# and by hot surfaces. No flash point, however high, may replace the assessment. Confidence: checked.
@pytest.mark.parametrize("flash", ["60 degC", "101 degC", "201 degC", "300 degC"])
def test_no_flash_point_clears_a_mist(ask: Callable[..., Finding], flash: str) -> None:
    found = ask(
        "fire/fire-assessment",
        process=f"{{fluid: neat-oil, flash_point: {flash}, fire_assessment: {{made: false}}}}",
    )
    assert found.grade is Grade.CORRECT
    assert "does not keep a mist from burning" in found.sentence
