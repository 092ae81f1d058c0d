"""Every remedy meets its rule, and one digit nearer to the stated value does not."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from case_installations import outcomes, shipped

from checker import units
from checker.checking.outcomes import Outcome, Values
from checker.checking.remedies import Adjustable, adjustables, grade_at, last_digit, remedies_for
from checker.findings import Remedy
from checker.grades import Grade
from checker.installation.record import Installation
from checker.rulebook.model import Rule

_NEEDED = re.compile(r"at (least|most) (-?[0-9.]+)(?: (.+))?")
RULES = [r.name for r in shipped().rules if r.adjust]


@pytest.mark.parametrize("name", RULES)
def test_remedies(name: str) -> None:
    rule = shipped().rule(name)
    assert rule is not None
    for case, installation, values, outcome in outcomes(rule):
        if outcome.why is not None or outcome.grade not in (
            Grade.STOP,
            Grade.CORRECT,
            Grade.ADVISE,
        ):
            continue
        stated = {a.path: a for a in adjustables(rule, installation, outcome.member)}
        for remedy in remedies_for(rule, installation, values, outcome):
            if remedy.needed:
                where = f"{name}, case '{case.name}': {remedy.sentence}"
                assert_holds(
                    remedy, stated[remedy.path], rule, installation, values, outcome, where
                )


def assert_holds(
    remedy: Remedy,
    one: Adjustable,
    rule: Rule,
    installation: Installation,
    values: Values,
    outcome: Outcome,
    where: str,
) -> None:
    match = _NEEDED.fullmatch(remedy.needed)
    if match is None:
        for word in remedy.needed.split(" or "):
            value = {"true": True, "false": False}.get(word, word)
            assert grade_at(one, value, rule, values, outcome.member) > outcome.grade, where
        return
    number = Decimal(match[2])
    unit = units.need(match[3]) if match[3] else None
    there = _si(number, unit)
    if one.field.type == "count":
        reached = grade_at(one, int(there), rule, values, outcome.member)
        assert Grade.ADVISE <= reached < Grade.NOT_APPLICABLE, where
        back = int(there) + (-1 if match[1] == "least" else 1)
    else:
        reached = grade_at(one, there, rule, values, outcome.member)
        assert Grade.ADVISE <= reached < Grade.NOT_APPLICABLE, where
        last = last_digit(float(number), one)
        back = _si(number + (-last if match[1] == "least" else last), unit)
    now = one.record.values[one.field.slot]
    beyond_now = back <= now if match[1] == "least" else back >= now
    assert beyond_now or grade_at(one, back, rule, values, outcome.member) < reached, where
    assert reached > outcome.grade, where


def _si(number: Decimal, unit: units.Unit | None) -> float:
    return float(number) * unit.factor + unit.offset if unit is not None else float(number)
