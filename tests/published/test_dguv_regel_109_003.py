"""DGUV Regel 109-003, work with metalworking fluids."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# Section 6.1.2, state of the art, vapour and mist: water-mixed 10, neat with a flash point above
# 100 degC 10, forming oils 40, neat below 100 degC 100 mg/m3. Confidence: checked.
@pytest.mark.parametrize(
    ("source", "printed"),
    [
        ("dguv-water-mixed", 10),
        ("dguv-neat-high-flash", 10),
        ("dguv-forming-oil", 40),
        ("dguv-neat-low-flash", 100),
    ],
)
def test_state_of_the_art(ask: Callable[..., Finding], source: str, printed: int) -> None:
    def grade(limit: float) -> Grade:
        exposure = f"{{exposure: {{source: {source}, limit: {limit:g} mg/m3}}}}"
        return ask("exposure/limit-as-published", process=exposure).grade

    assert grade(printed) is Grade.MET
    assert grade(printed + 1) is Grade.CORRECT


# The same section: benchmarks of technique, not founded on health. Confidence: checked.
@pytest.mark.parametrize(
    ("place", "grade"), [("EU", Grade.ADVISE), ("US", Grade.CORRECT), ("GB", Grade.CORRECT)]
)
def test_is_no_limit_of_health(ask: Callable[..., Finding], place: str, grade: Grade) -> None:
    found = ask(
        "exposure/state-of-the-art-value",
        job=f"{{stage: plan, jurisdiction: {place}}}",
        process="{exposure: {source: dguv-neat-low-flash, limit: 100 mg/m3}}",
    )
    assert found.grade is grade


# Section 2: minimum quantity lubrication, on average 50 ml an hour and point. Confidence: checked.
@pytest.mark.parametrize(
    ("quantity", "grade"), [("0.83 mL/min", Grade.MET), ("0.85 mL/min", Grade.ADVISE)]
)
def test_minimum_quantity(ask: Callable[..., Finding], quantity: str, grade: Grade) -> None:
    found = ask(
        "fire/minimum-quantity",
        process=f"{{application: minimum-quantity, quantity_per_point: {quantity}}}",
    )
    assert found.grade is grade


# Section 6.1.2: the flash point of 100 degC divides the neat oils. Confidence: checked.
@pytest.mark.parametrize(("flash", "grade"), [("99 degC", Grade.STOP), ("100 degC", Grade.MET)])
def test_flash_point_that_divides(ask: Callable[..., Finding], flash: str, grade: Grade) -> None:
    found = ask(
        "fire/low-flash-oil",
        process=f"{{fluid: neat-oil, flash_point: {flash}, fire_assessment: {{made: false}}}}",
    )
    assert found.grade is grade
