"""Regulation (EU) 2023/1230 on machinery: the day it takes the place of Directive 2006/42/EC."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


def named(law: str, on: str) -> dict[str, str]:
    return {
        "job": "{stage: fitted, customer: machine-builder, jurisdiction: EU}",
        "records": f'{{declaration: {{law: "{law}", on: {on}}}}}',
    }


# Regulation (EU) 2023/1230, article 51(2) as quoted: the Directive is repealed with effect from
# 20 January 2027. Confidence: checked.
@pytest.mark.parametrize(
    ("on", "law"),
    [("2027-01-19", "2006/42/EC"), ("2027-01-20", "(EU) 2023/1230")],
)
def test_change_of_law(ask: Callable[..., Finding], on: str, law: str) -> None:
    other = {"2006/42/EC": "(EU) 2023/1230", "(EU) 2023/1230": "2006/42/EC"}[law]
    right = ask("handover/declaration-law", **named(law, on))
    wrong = ask("handover/declaration-law", **named(other, on))
    assert (right.grade.word, wrong.grade.word) == ("met", "correct")


# A translator's page of 2026 prints 14 January 2027: on that day the Directive still holds.
def test_not_the_fourteenth(ask: Callable[..., Finding]) -> None:
    found = ask("handover/declaration-law", **named("(EU) 2023/1230", "2027-01-14"))
    assert found.grade.word == "correct"
