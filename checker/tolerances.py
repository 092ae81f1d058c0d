"""The worst case inside the stated tolerances.

Up to six toleranced fields, every corner of the box is tried; for more, each field's
worse end alone and then all of them together. A rule that is monotone in each field,
whatever the directions, has its worst point in a corner, and is answered exactly. Some
rules turn inside a band (a range with two ends, a resonance between two speeds): from
the worst corner and from the stated point each field is therefore looked along as well,
and the worst place found there narrowed down by thirds. For such rules the answer is
the worst of the points tried, not a proof.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Any, NamedTuple

from checker.checking import Outcome, Values, outcome_of
from checker.grades import Grade
from checker.installation.record import Installation, Record
from checker.rulebook.model import Rule

__all__ = ["Band", "WorstCase", "bands_of", "rank", "worst_case"]

_ALL_CORNERS_UP_TO = 6
_INSIDE = 9
_ROUNDS = 2
_THIRDS = 60


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
    stated = tuple(band.record.values[band.slot] for band in bands)
    try:
        return _Search(rule, values, bands, outcome).worst(stated)
    finally:
        for band, value in zip(bands, stated, strict=True):
            band.record.values[band.slot] = value


Point = tuple[float, ...]


class _Search:
    """Looks for the worst outcome of one rule in one box."""

    def __init__(self, rule: Rule, values: Values, bands: list[Band], outcome: Outcome) -> None:
        self.rule = rule
        self.values = values
        self.bands = bands
        self.outcome = outcome

    def at(self, point: Point) -> Outcome:
        """The outcome at a point of the box."""
        for band, value in zip(self.bands, point, strict=True):
            band.record.values[band.slot] = value
        fresh = Values(self.values.rulebook, self.values.S)
        return outcome_of(self.rule, fresh, self.outcome.member)

    def worst(self, stated: Point) -> WorstCase:
        """The worst outcome found, and the field that matters most at the stated point."""
        alone = [self.worse_end(i, stated) for i in range(len(self.bands))]
        heaviest = min(range(len(alone)), key=lambda i: rank(alone[i][1]))
        if len(self.bands) <= _ALL_CORNERS_UP_TO:
            corners: Iterator[Point] = product(*((b.low, b.high) for b in self.bands))
        else:
            corners = iter([tuple(end for end, _ in alone)])
        points = [stated, *corners]
        found = [(self.at(point), point) for point in points]
        best, where = min(found, key=lambda f: rank(f[0]))
        for start in dict.fromkeys((where, stated)):
            best, where = self.along_each_field(best, where, start)
        return WorstCase(best, self.bands[heaviest].path)

    def worse_end(self, i: int, stated: Point) -> tuple[float, Outcome]:
        """The end of one band that is the worse, the others as stated."""
        ends = (self.bands[i].low, self.bands[i].high)
        found = [(end, self.at(_moved(stated, i, end))) for end in ends]
        return min(found, key=lambda f: rank(f[1]))

    def along_each_field(self, best: Outcome, where: Point, start: Point) -> tuple[Outcome, Point]:
        """Look along every field in turn from a point, for what is worse than the best so far."""
        point = start
        for i in [*range(len(self.bands))] * _ROUNDS:
            band = self.bands[i]
            step = (band.high - band.low) / (_INSIDE + 1)
            inside = [band.low + step * n for n in range(1, _INSIDE + 1)]
            value = min(inside, key=lambda v: rank(self.at(_moved(point, i, v))))
            if rank(self.at(_moved(point, i, value))) >= rank(best):
                continue
            value = self.narrowed(point, i, value - step, value + step)
            point = _moved(point, i, value)
            best, where = self.at(point), point
        return best, where

    def narrowed(self, point: Point, i: int, low: float, high: float) -> float:
        """The worst place between two values of one field, by thirds."""
        for _ in range(_THIRDS):
            third = (high - low) / 3
            if rank(self.at(_moved(point, i, low + third))) <= rank(
                self.at(_moved(point, i, high - third))
            ):
                high -= third
            else:
                low += third
        return (low + high) / 2


def _moved(point: Point, i: int, value: float) -> Point:
    return (*point[:i], value, *point[i + 1 :])


def rank(outcome: Outcome) -> tuple[float, float]:
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
