"""Notices of the Health and Safety Executive's position on metalworking fluid mist, 2021 to 2023."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


def _in_britain(ask: Callable[..., Finding], exposure: str, fluid: str = "emulsion") -> Finding:
    return ask(
        "exposure/no-uk-limit",
        job="{stage: plan, jurisdiction: GB}",
        process=f"{{fluid: {fluid}, exposure: {exposure}}}",
    )


# There is no workplace exposure limit; 5 mg/m3, a former standard for highly refined mineral oil,
# still stands in public data sets as one. It must be refused, whatever it is called.
# Confidence: checked.
@pytest.mark.parametrize("fluid", ["emulsion", "neat-oil", "synthetic"])
@pytest.mark.parametrize("source", ["uk-workplace-exposure-limit", "national-list", "company"])
def test_five_milligrams_are_refused(ask: Callable[..., Finding], source: str, fluid: str) -> None:
    found = _in_britain(ask, f"{{source: {source}, limit: 5 mg/m3}}", fluid)
    assert found.grade is Grade.CORRECT
    assert "there is no workplace exposure limit" in found.sentence


# Any figure that is called a workplace exposure limit is refused, a low one too. Confidence: checked.
def test_nothing_is_called_a_workplace_exposure_limit(ask: Callable[..., Finding]) -> None:
    found = _in_britain(ask, "{source: uk-workplace-exposure-limit, limit: 0.5 mg/m3}")
    assert found.grade is Grade.CORRECT


# No published table of this rulebook holds such a limit to compare with.
def test_no_table_holds_one(ask: Callable[..., Finding]) -> None:
    found = ask(
        "exposure/limit-as-published",
        process="{exposure: {source: uk-workplace-exposure-limit, limit: 5 mg/m3}}",
    )
    assert found.grade is Grade.NOT_APPLICABLE


# Simpson and others 2003, abstract: former guidance below 3 mg/m3 mineral oil, below 1 mg/m3
# water-mixed. Confidence: checked.
@pytest.mark.parametrize(
    ("fluid", "limit", "grade"),
    [
        ("neat-oil", "3 mg/m3", Grade.MET),
        ("neat-oil", "3.1 mg/m3", Grade.ADVISE),
        ("emulsion", "1 mg/m3", Grade.MET),
        ("emulsion", "1.1 mg/m3", Grade.ADVISE),
    ],
)
def test_former_guidance(ask: Callable[..., Finding], fluid: str, limit: str, grade: Grade) -> None:
    assert _in_britain(ask, f"{{source: company, limit: {limit}}}", fluid).grade is grade
