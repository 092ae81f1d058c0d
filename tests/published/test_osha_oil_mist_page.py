"""Chemical sampling information "Oil mist, mineral" of the US Occupational Safety and Health Administration."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.grades import Grade


# Exposure limits listed on the page (2010, 2012): permissible limit 5 mg/m3, recommended limit for
# mineral oil mist 5 mg/m3, threshold limit value (2009/2010) 5 mg/m3. Confidence: checked.
@pytest.mark.parametrize(
    "source", ["osha-permissible-limit", "niosh-mineral-oil-mist", "acgih-mineral-oil"]
)
def test_listed_values(ask: Callable[..., Finding], source: str) -> None:
    def grade(limit: str) -> Grade:
        exposure = f"{{exposure: {{source: {source}, limit: {limit}}}}}"
        return ask("exposure/limit-as-published", process=exposure).grade

    assert grade("5 mg/m3") is Grade.MET
    assert grade("5.1 mg/m3") is Grade.CORRECT


# The same page: the threshold limit value is for "mineral oil, excluding metalworking fluids".
# Confidence: checked.
def test_threshold_limit_value_leaves_metalworking_fluids_out(ask: Callable[..., Finding]) -> None:
    found = ask(
        "exposure/limit-for-this-fluid",
        process="{fluid: neat-oil, exposure: {source: acgih-mineral-oil}}",
    )
    assert found.grade is Grade.CORRECT


# The same page: poorly and mildly refined oil, as low as possible. Confidence: checked.
def test_poorly_refined_oil_has_no_figure(ask: Callable[..., Finding]) -> None:
    found = ask(
        "exposure/oil-refining",
        process="{fluid: neat-oil, oil_base: mineral, oil_refining: poorly}",
    )
    assert found.grade is Grade.CORRECT
