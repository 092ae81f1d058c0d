"""EN 16798-3, ventilation of non-residential buildings: air tightness classes of ducts."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.engineering.duct_leakage import permitted_leakage
from checker.engineering.limits import OutOfRange
from checker.errors import Mistakes
from checker.findings import Finding


# Table of classes: factor × p^0.65 × 10^-3. At 1 Pa and 1 m² the factor itself, in litres a
# second. Confidence: checked (quoted table; D also as stated for EN 12237).
@pytest.mark.parametrize(
    ("tightness_class", "factor"),
    [("ATC 6", 0.0675), ("A", 0.0270), ("B", 0.0090), ("C", 0.0030), ("D", 0.0010),
     ("ATC 1", 0.00033)],
)  # fmt: skip
def test_factors(tightness_class: str, factor: float) -> None:
    leakage = permitted_leakage(tightness_class, 1.0, 1.0)  # type: ignore[arg-type]
    assert leakage * 1000.0 == pytest.approx(factor, rel=1e-12)


# The quoting page heads the same column m³/h per m². Read so, class D at 1 Pa would be
# 0.001 × 10^-3 m³/h; as the class of EN 12237 it is 0.001 l/s, 3600 times as much. Confidence:
# checked.
def test_slipped_unit_of_the_heading_is_not_followed() -> None:
    assert permitted_leakage("D", 1.0, 1.0) * 3600.0 > 1000.0 * 0.001e-3


# A page on duct standards prints L1, L2, L3 (0.027, 0.09, 0.27 l/s per m²) as classes of ducts;
# they are classes of air-handling unit casings (EN 1886). Confidence: checked.
@pytest.mark.parametrize("casing_class", ["L1", "L2", "L3"])
def test_casing_classes_are_refused(casing_class: str) -> None:
    with pytest.raises(OutOfRange, match="ducts have"):
        permitted_leakage(casing_class, 400.0, 1.0)  # type: ignore[arg-type]


# The same table as the rulebook holds it. Confidence: checked (quoted table).
@pytest.mark.parametrize(
    ("tightness", "factor"),
    [("ATC 6", 0.0675), ("A", 0.027), ("B", 0.009), ("C", 0.003), ("D", 0.001), ("ATC 1", 0.00033)],
)
def test_factors_of_the_rulebook(
    ask: Callable[..., Finding], tightness: str, factor: float
) -> None:
    run = f"{{name: main, side: pressure, tightness: {tightness}}}"
    found = ask("sealing/duct-tightness", seals=f"{{runs: [{run}]}}")
    assert found.demand is not None
    assert found.demand.value == pytest.approx(factor, rel=1e-12)
    assert "L/(s" in found.demand.text


# L1 to L3 are refused in a description too. Confidence: checked.
@pytest.mark.parametrize("casing_class", ["L1", "L2", "L3"])
def test_casing_classes_are_no_word_of_a_description(
    ask: Callable[..., Finding], casing_class: str
) -> None:
    with pytest.raises(Mistakes):
        ask(
            "sealing/duct-tightness",
            seals=f"{{runs: [{{name: main, tightness: {casing_class}}}]}}",
        )
