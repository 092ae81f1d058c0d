"""Guides of a gasket fabricator to the compression of enclosure gaskets."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# Hollow and sponge gaskets: 25 to 50 %, ideally about 40, never over 50; no seal below 10 to 15.
# Confidence: checked. The thickness of 10 mm makes a tenth of a millimetre one per cent.
@pytest.mark.parametrize("section", ["sponge", "hollow"])
@pytest.mark.parametrize(
    ("fitted", "grade"),
    [
        ("7.5 mm", Grade.MET),
        ("6 mm", Grade.MET),
        ("5 mm", Grade.MET),
        ("4.9 mm", Grade.CORRECT),
        ("7.6 mm", Grade.ADVISE),
        ("8.6 mm", Grade.CORRECT),
    ],
)
def test_range(ask: Callable[..., Finding], section: str, fitted: str, grade: Grade) -> None:
    gasket = f"{{section: {section}, free_thickness: 10 mm, fitted_thickness: {fitted}}}"
    found = ask(
        "sealing/gasket-compression",
        seals=f"{{joints: [{{name: lid, kind: gasket, gasket: {gasket}}}]}}",
    )
    assert found.grade is grade
