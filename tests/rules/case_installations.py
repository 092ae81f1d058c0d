"""Every case of every shipped rule as a bound installation: the widest ground for properties."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from checker.checking.outcomes import Outcome, Values, check
from checker.installation.record import Installation
from checker.rulebook import Rulebook, load_rulebook
from checker.rulebook.cases import case_installation, only
from checker.rulebook.model import Case, Rule


@cache
def shipped() -> Rulebook:
    """The shipped rulebook with its cases."""
    return load_rulebook()


def outcomes(rule: Rule) -> Iterator[tuple[Case, Installation, Values, Outcome]]:
    """Each outcome of each of a rule's cases, with the values it was reached on."""
    rulebook = shipped()
    for case in rule.cases:
        installation = case_installation(case, rulebook)
        values = Values(rulebook, installation.record.values)
        for outcome in check(only(rule, rulebook), installation):
            yield case, installation, values, outcome
