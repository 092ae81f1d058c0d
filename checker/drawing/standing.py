"""How each dimension stands against the findings that read it."""

from __future__ import annotations

from typing import NamedTuple

from checker import units
from checker.findings import Extent, Finding, Measure
from checker.grades import Grade
from checker.units import quantities

__all__ = ["Standing", "standings"]

_NEAR = 1e-6


class Standing(NamedTuple):
    """The gravest answer about a dimension: its limit as a text, and in metres where it is a length."""

    grade: Grade
    rule: str
    limit: str
    metres: float | None


def standings(extents: tuple[Extent, ...], findings: tuple[Finding, ...]) -> dict[str, Standing]:
    """By field: the gravest finding whose demand or limit is this very dimension."""
    lengths = {e.field: abs(e.end - e.start) for e in extents}
    found: dict[str, Standing] = {}
    for finding in findings:
        if finding.grade is Grade.NOT_APPLICABLE:
            continue
        for field in dict.fromkeys(f.path for f in finding.fields if f.path in lengths):
            standing = _standing(finding, field, lengths[field])
            if standing is not None and (field not in found or standing.grade < found[field].grade):
                found[field] = standing
    return found


def _standing(finding: Finding, field: str, length: float) -> Standing | None:
    needed = next((r.needed for r in finding.remedies if r.path == field and r.needed), "")
    against = _against(finding, length)
    if needed:
        # What would meet the rule: of a range, the end that was missed.
        return Standing(finding.grade, finding.rule, needed, _metres_of(needed))
    if against is not None:
        return Standing(finding.grade, finding.rule, against.text, _metres(against))
    return None


def _against(finding: Finding, length: float) -> Measure | None:
    """What the dimension is held against: a rule may ask it to be at most or at least so long."""
    demand, limit = finding.demand, finding.limit
    if demand is None or limit is None:
        return None
    for one, other in ((demand, limit), (limit, demand)):
        metres = _metres(one)
        if metres is not None and abs(metres - length) <= _NEAR * max(1.0, length):
            return other
    return None


def _metres(measure: Measure) -> float | None:
    unit = units.need(measure.unit)
    return measure.value * unit.factor if unit.kind == "length" else None


def _metres_of(needed: str) -> float | None:
    try:
        stated = quantities.parse(needed.removeprefix("at least ").removeprefix("at most "))
    except quantities.NotAQuantity:
        return None
    return stated.value if stated.unit.kind == "length" else None
