"""Lower explosive limit of oil mist, International Association of Classification Societies."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# 50 mg/l, which at 600 m3/h is 30 kg/h of oil (arithmetic), and a quarter of it, the bound of US
# mechanical codes for spray booths (502.7.3.3), 7.5 kg/h. Confidence: checked (quotations).
@pytest.mark.parametrize(
    ("oil", "share", "grade"),
    [
        ("30 kg/h", 100.0, Grade.CORRECT),
        ("7.6 kg/h", 25.33, Grade.CORRECT),
        ("7.5 kg/h", 25.0, Grade.ADVISE),
    ],
)
def test_share(ask: Callable[..., Finding], oil: str, share: float, grade: Grade) -> None:
    found = ask(
        "fire/explosive-limit",
        process=f"{{fluid: neat-oil, oil_loss: {oil}}}",
        collector="{flow: 600 m3/h}",
    )
    assert found.grade is grade
    assert found.demand is not None
    assert found.demand.unit == "%"
    assert found.demand.value == pytest.approx(share, abs=0.005)
