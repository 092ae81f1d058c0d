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

from checker.checking.outcomes import Outcome, Values, outcome_of
from checker.grades import Grade
from checker.installation.record import Installation, Record
from checker.rulebook.model import Rule

__all__ = ["Band", "Tolerances", "WorstCase", "rank", "utilisation"]

_ALL_CORNERS_UP_TO = 6
_INSIDE = 9
_ROUNDS = 2
_THIRDS = 60


Point = tuple[float, ...]
Rank = tuple[float, float]


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


class Tolerances:
    """The toleranced fields of one installation, gathered once for all rules."""

    def __init__(self, installation: Installation, values: Values) -> None:
        self.values = values
        # Each with the path of its field and the prefix of its list member.
        self.bands = list(_bands(installation))
        readers = [values.rulebook.readers(path) for path, _, _ in self.bands]
        self.rules = frozenset[str]().union(*(r.rules for r in readers))
        self.applies = frozenset[str]().union(*(r.applies for r in readers))
        self.derived = frozenset[int]().union(*(r.derived for r in readers))
        # Most rules with a tolerance have one, the same one: what its ends give is kept.
        self.kept: dict[tuple[str, float], Values] = {}

    def bands_of(self, rule: Rule, member: int | None) -> list[Band]:
        """The toleranced fields that a rule's answer can rest on."""
        if rule.name not in self.rules:
            return []
        own = f"{rule.each.field.path}[{member}]." if rule.each is not None else ""
        among = f"{rule.each.field.path}[" if rule.each is not None else "\0"
        return [
            band
            for path, prefix, band in self.bands
            if path in rule.fields and (not prefix.startswith(among) or prefix == own)
        ]

    def worst_case(self, outcome: Outcome) -> WorstCase | None:
        """The worst outcome of a rule inside the tolerances, or None where no field has one.

        The values are put back as they were, whatever happens.
        """
        if outcome.grade is Grade.NOT_APPLICABLE and outcome.rule.name not in self.applies:
            return None  # Nothing inside the tolerances makes it apply.
        bands = self.bands_of(outcome.rule, outcome.member)
        if not bands:
            return None
        stated = tuple(band.record.values[band.slot] for band in bands)
        try:
            return _Search(self, bands, outcome).worst(stated)
        finally:
            self._move(bands, stated)

    def outcome_at(self, bands: list[Band], point: Point, outcome: Outcome) -> Outcome:
        """A rule's outcome with these fields moved, without all of its reasons."""
        return outcome_of(outcome.rule, self._moved(bands, point), outcome.member)

    def whole_outcome_at(self, bands: list[Band], point: Point, outcome: Outcome) -> Outcome:
        """The same with all of its reasons."""
        self._move(bands, point)
        values = self.values.without(self.derived, brief=False)
        return outcome_of(outcome.rule, values, outcome.member)

    def _moved(self, bands: list[Band], point: Point) -> Values:
        """The values with these fields moved; derived values that read none of them stay."""
        self._move(bands, point)
        if len(bands) > 1:
            return self.values.without(self.derived, brief=True)
        key = (bands[0].path, point[0])
        if key not in self.kept:
            self.kept[key] = self.values.without(self.derived, brief=True)
        return self.kept[key]

    @staticmethod
    def _move(bands: list[Band], point: Point) -> None:
        for band, value in zip(bands, point, strict=True):
            band.record.values[band.slot] = value


def _bands(installation: Installation) -> Iterator[tuple[str, str, Band]]:
    if not any(record.uncertain for record in installation.every_record()):
        return
    for prefix, record in installation.records():
        for slot in record.uncertain:
            path, fact = record.layout.fields[slot].path, record.facts[slot]
            if fact is not None:
                shown = prefix + path.rpartition("[].")[2]
                yield path, prefix, Band(shown, record, slot, fact.low, fact.high)


class _Search:
    """Looks for the worst outcome of one rule in one box."""

    def __init__(self, tolerances: Tolerances, bands: list[Band], outcome: Outcome) -> None:
        self.tolerances = tolerances
        self.bands = bands
        self.outcome = outcome
        self.found: dict[Point, tuple[Rank, Outcome]] = {}

    def at(self, point: Point) -> Rank:
        """How bad it is at a point of the box."""
        known = self.found.get(point)
        if known is None:
            outcome = self.tolerances.outcome_at(self.bands, point, self.outcome)
            known = self.found[point] = (rank(outcome), outcome)
        return known[0]

    def worst(self, stated: Point) -> WorstCase:
        """The worst outcome found, and the field that matters most at the stated point."""
        self.found[stated] = (rank(self.outcome), self.outcome)
        alone = [self.worse_end(i, stated) for i in range(len(self.bands))]
        heaviest = min(range(len(alone)), key=lambda i: self.at(_moved(stated, i, alone[i])))
        if len(self.bands) <= _ALL_CORNERS_UP_TO:
            corners: Iterator[Point] = product(*((b.low, b.high) for b in self.bands))
        else:
            corners = iter([tuple(alone)])
        best = min((stated, *corners), key=self.at)
        # A single field is the same line from wherever one starts, as often as one looks.
        starts, rounds = ((best, stated), _ROUNDS) if len(self.bands) > 1 else ((stated,), 1)
        for start in dict.fromkeys(starts):
            best = self.along_each_field(best, start, rounds)
        worst = self.found[best][1]
        if worst.why is not None:
            worst = self.tolerances.whole_outcome_at(self.bands, best, self.outcome)
        return WorstCase(worst, self.bands[heaviest].path)

    def worse_end(self, i: int, stated: Point) -> float:
        """The end of one band that is the worse, the others as stated."""
        ends = (self.bands[i].low, self.bands[i].high)
        return min(ends, key=lambda end: self.at(_moved(stated, i, end)))

    def along_each_field(self, best: Point, start: Point, rounds: int) -> Point:
        """Look along every field in turn from a point, for what is worse than the best so far."""
        point = start
        for i in [*range(len(self.bands))] * rounds:
            band = self.bands[i]
            step = (band.high - band.low) / (_INSIDE + 1)
            inside = [_moved(point, i, band.low + step * n) for n in range(1, _INSIDE + 1)]
            found = min(inside, key=self.at)
            if self.at(found) < self.at(best):
                point = best = min(found, self.narrowed(found, i, step), key=self.at)
        return best

    def narrowed(self, point: Point, i: int, step: float) -> Point:
        """The worst place within a step on either side of a point along one field, by thirds."""
        low, high = point[i] - step, point[i] + step
        for _ in range(_THIRDS):
            third = (high - low) / 3
            below, above = _moved(point, i, low + third), _moved(point, i, high - third)
            if self.at(below) <= self.at(above):
                high -= third
            else:
                low += third
        return _moved(point, i, (low + high) / 2)


def _moved(point: Point, i: int, value: float) -> Point:
    return (*point[:i], value, *point[i + 1 :])


def rank(outcome: Outcome) -> Rank:
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
