"""The worst corner is never better than random draws inside the box, for every rule."""

from __future__ import annotations

import math
import random

import pytest
from case_installations import outcomes, shipped

from checker.checking.outcomes import Outcome, Values, outcome_of
from checker.checking.tolerances import Tolerances, rank
from checker.grades import Grade
from checker.installation.record import Installation
from checker.rulebook.model import Rule

RULES = [r.name for r in shipped().rules]
DRAWS = 10_000


def _draw_all(name: str, draws: int) -> None:
    rule = shipped().rule(name)
    assert rule is not None
    chance = random.Random(name)
    settled = [
        (c, i, v, o)
        for c, i, v, o in outcomes(rule)
        if o.why is None and o.grade is not Grade.NOT_APPLICABLE
    ]
    for case, installation, values, outcome in settled:
        _loosen(rule, installation, outcome, chance)
        tolerances = Tolerances(installation, values)
        worst = tolerances.worst_case(outcome)
        bands = tolerances.bands_of(rule, outcome.member)
        if worst is None:
            assert not bands
            continue
        limit = rank(worst.outcome)
        stated = [b.record.values[b.slot] for b in bands]
        for _ in range(max(draws // len(settled), 20)):
            for band in bands:
                band.record.values[band.slot] = chance.uniform(band.low, band.high)
            drawn = outcome_of(rule, Values(values.rulebook, values.S), outcome.member)
            found = rank(drawn)
            assert limit[0] <= found[0], (
                f"{name}, case '{case.name}': {drawn.grade.word} inside {[b.path for b in bands]}, worst corner {worst.outcome.grade.word}"
            )
            # What a rule with two ends is over by says nothing between two points on either side.
            assert (
                limit[0] < found[0]
                or worst.outcome.grade < Grade.MET
                or limit[1] <= found[1]
                or math.isclose(limit[1], found[1], rel_tol=1e-6)
            ), (
                f"{name}, case '{case.name}': utilisation {-found[1]} inside the box, worst corner {-limit[1]}"
            )
        for band, value in zip(bands, stated, strict=True):
            band.record.values[band.slot] = value
            assert band.record.values[band.slot] == value


def _loosen(
    rule: Rule, installation: Installation, outcome: Outcome, chance: random.Random
) -> None:
    """Give up to three measured values that the rule reads a tolerance of some percent."""
    for record in installation.every_record():
        record.uncertain.clear()
    wanted = set(rule.fields)
    able = [
        (record, field.slot)
        for record in installation.every_record()
        for field in record.layout.fields
        if field.path in wanted
        and field.type == "quantity"
        and field.unit is not None
        and field.unit.kind != "temperature"
        and record.facts[field.slot] is not None
    ]
    for record, slot in chance.sample(able, min(3, len(able))):
        value = record.values[slot]
        spread = abs(value) * chance.choice([0.002, 0.01, 0.05])
        fact = record.facts[slot]
        assert fact is not None
        record.facts[slot] = fact._replace(low=value - spread, high=value + spread)
        if spread:
            record.uncertain.append(slot)


@pytest.mark.parametrize("name", RULES)
def test_some_draws(name: str) -> None:
    _draw_all(name, 400)


@pytest.mark.slow
@pytest.mark.parametrize("name", RULES)
def test_many_draws(name: str) -> None:
    _draw_all(name, DRAWS)
