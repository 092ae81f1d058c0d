"""The worst case inside the stated tolerances.

Each toleranced field that a rule reads is set to either end of its band alone, to
see which end is the worse; then all are set to their worse ends together. Up to
six such fields every corner of the box is tried as well, so for a rule that is
monotone in each field, whatever the directions, the worst corner is exact. For
more fields, or a rule that turns inside the band (a resonance between two speeds),
the answer is the worst of the points tried, and the middle of each band is one.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Any, NamedTuple

from checker.checking import Outcome, Values, outcome_of
from checker.grades import Grade
from checker.installation.record import Installation, Record
from checker.rulebook.model import Rule

__all__ = ["Band", "WorstCase", "bands_of", "worst_case"]

_ALL_CORNERS_UP_TO = 6


class Band(NamedTuple):
    """One toleranced field: its path, and where its value stands."""

    path: str
    record: Record
    slot: int
    low: float
    high: float


class WorstCase(NamedTuple):
    """The worst outcome found, and the field whose band matters most."""

    outcome: Outcome
    tighten: str


def bands_of(rule: Rule, installation: Installation, member: int | None) -> list[Band]:
    """The toleranced fields that a rule's answer can rest on."""
    wanted = set(rule.fields)
    own = f"{rule.each.field.path}[{member}]." if rule.each is not None else ""
    among = f"{rule.each.field.path}[" if rule.each is not None else "\0"
    bands = []
    for prefix, record in installation.records():
        if record.uncertain and (not prefix.startswith(among) or prefix == own):
            for slot in record.uncertain:
                field = record.layout.fields[slot]
                fact = record.facts[slot]
                if field.path in wanted and fact is not None:
                    bands.append(
                        Band(
                            prefix + field.path.rpartition("[].")[2],
                            record,
                            slot,
                            fact.low,
                            fact.high,
                        )
                    )
    return bands


def worst_case(
    rule: Rule, installation: Installation, values: Values, outcome: Outcome
) -> WorstCase | None:
    """The worst outcome inside the tolerances, or None where no field has one.

    The values are put back as they were, whatever happens.
    """
    bands = bands_of(rule, installation, outcome.member)
    if not bands:
        return None
    stated = [band.record.values[band.slot] for band in bands]
    worst, tighten = outcome, bands[0].path
    heaviest: tuple[float, ...] = (0.0, 0.0)
    ends: list[float] = []
    try:
        for i, band in enumerate(bands):
            found = {
                end: _at(rule, values, [band], [end], outcome.member)
                for end in (band.low, band.high)
            }
            band.record.values[band.slot] = stated[i]
            end = min(found, key=lambda e: _rank(found[e]))
            ends.append(end)
            weight = tuple(b - a for a, b in zip(_rank(found[end]), _rank(outcome), strict=True))
            if weight > heaviest:
                heaviest, tighten = weight, band.path
            worst = min(worst, found[end], key=_rank)
        for corner in _corners(bands, ends):
            worst = min(worst, _at(rule, values, bands, corner, outcome.member), key=_rank)
    finally:
        for band, value in zip(bands, stated, strict=True):
            band.record.values[band.slot] = value
    return WorstCase(worst, tighten)


def _corners(bands: list[Band], ends: list[float]) -> Iterator[list[float]]:
    yield ends
    if len(bands) <= _ALL_CORNERS_UP_TO:
        for corner in product(*((band.low, band.high) for band in bands)):
            yield list(corner)


def _at(
    rule: Rule, values: Values, bands: list[Band], ends: list[float], member: int | None
) -> Outcome:
    for band, end in zip(bands, ends, strict=True):
        band.record.values[band.slot] = end
    return outcome_of(rule, Values(values.rulebook, values.S), member)


def _rank(outcome: Outcome) -> tuple[float, float]:
    """Lower is worse: the grade first, then the utilisation."""
    grade = Grade.MET if outcome.grade is Grade.NOT_APPLICABLE else outcome.grade
    return float(grade), -utilisation(outcome.demand, outcome.limit)


def utilisation(demand: Any, limit: Any) -> float:
    """Demand over limit; endless where nothing is allowed and something is asked."""
    if demand is None or limit is None:
        return 0.0
    if limit <= 0:
        return float("inf") if demand > limit else 0.0
    return float(demand / limit)
