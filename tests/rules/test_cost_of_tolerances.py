"""What it costs to find the worst case of a whole plan in which every value has a tolerance."""

from __future__ import annotations

from pathlib import Path

import pytest
from case_installations import shipped

from checker.checking.outcomes import Values, check
from checker.checking.settling import Doubts
from checker.installation.binding import bind
from checker.installation.record import Installation

FIXTURES = Path(__file__).parents[2] / "fixtures"
PLANS = sorted(p.name for p in FIXTURES.glob("*.yaml") if not p.stem.endswith("-fitted"))
# Formulas run for each toleranced field. Each is looked at in some twenty places by every rule
# and derived value that reads it; with every rule working all out for itself it was 1200 to 1700.
RUNS_A_FIELD = 180


def loosened(name: str) -> tuple[Installation, int]:
    """A plan with a tolerance of one part in a hundred on every quantity, and how many those are."""
    installation = bind((FIXTURES / name).read_bytes(), name)
    number = 0
    for record in installation.every_record():
        record.uncertain.clear()
        for field in record.layout.fields:
            fact, value = record.facts[field.slot], record.values[field.slot]
            if field.type == "quantity" and fact is not None and value:
                spread = abs(value) / 100
                record.facts[field.slot] = fact._replace(low=value - spread, high=value + spread)
                record.uncertain.append(field.slot)
                number += 1
    return installation, number


@pytest.mark.parametrize("name", PLANS)
def test_formulas_are_run_in_proportion_to_the_fields(name: str) -> None:
    installation, fields = loosened(name)
    values = Values(shipped(), installation.record.values)
    outcomes = check(shipped(), installation, values)
    doubts = Doubts(installation, values)
    for outcome in outcomes:
        doubts.grade(outcome)
    assert fields > 150
    assert fields < doubts.tolerances.runs <= RUNS_A_FIELD * fields
