"""Guides to elastomers by their ISO 1629 names, and to elastomers in lubricants."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# Elastomer guide, polymer lexicon and lubricant note, behaviour in mineral oil: NBR and HNBR
# excellent, FKM very high resistance, EPDM poor, silicone sensitive. Confidence: checked.
@pytest.mark.parametrize("fluid", ["neat-oil", "emulsion"])
@pytest.mark.parametrize(
    ("material", "grade"),
    [
        ("NBR", Grade.MET),
        ("HNBR", Grade.MET),
        ("FKM", Grade.MET),
        ("EPDM", Grade.CORRECT),
        ("VMQ", Grade.CORRECT),
    ],
)
def test_mineral_oil(ask: Callable[..., Finding], material: str, grade: Grade, fluid: str) -> None:
    found = ask(
        "sealing/gasket-material",
        process=f"{{fluid: {fluid}, oil_base: mineral}}",
        seals=f"{{joints: [{{name: lid, kind: gasket, material: {material}}}]}}",
    )
    assert found.grade is grade


# Lubricant and elastomer note, rule of thumb: a swell within +-5 % is acceptable. Confidence: checked.
@pytest.mark.parametrize(
    ("swell", "grade"),
    [("5 %", Grade.MET), ("-5 %", Grade.MET), ("5.1 %", Grade.CORRECT), ("-5.1 %", Grade.CORRECT)],
)
def test_acceptable_swell(ask: Callable[..., Finding], swell: str, grade: Grade) -> None:
    joint = f"{{name: lid, kind: gasket, material: NBR, volume_swell: {swell}}}"
    assert ask("sealing/gasket-swell", seals=f"{{joints: [{joint}]}}").grade is grade
