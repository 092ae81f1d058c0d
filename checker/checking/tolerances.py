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

from collections.abc import Iterable, Iterator
from itertools import pairwise, product
from typing import Any, NamedTuple

from checker.checking.following import Answers, Band, Box, Place
from checker.checking.outcomes import Outcome, Values, outcome_of
from checker.grades import Grade
from checker.installation.record import Installation
from checker.rulebook.model import Rule, Rulebook

__all__ = ["Band", "Tolerances", "WorstCase", "can_read", "rank", "utilisation"]

_ALL_CORNERS_UP_TO = 6
_INSIDE = 9
_ROUNDS = 2
_THIRDS = 60
# As a part of a step.
_BESIDE = 1e-6


Rank = tuple[float, float]


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
        self._by_path: dict[str, list[int]] = {}
        for number, (path, _, _) in enumerate(self.bands):
            self._by_path.setdefault(path, []).append(number)
        readers = [values.rulebook.readers(path) for path in self._by_path]
        self.rules = frozenset[str]().union(*(r.rules for r in readers))
        self.applies = frozenset[str]().union(*(r.applies for r in readers))
        self.derived = frozenset[int]().union(*(r.derived for r in readers))
        self._box: Box | None = None

    @property
    def runs(self) -> int:
        """How many formulas were run so far, rules and derived values alike."""
        return self._box.runs if self._box is not None else 0

    def bands_of(self, rule: Rule, member: int | None) -> list[Band]:
        """The toleranced fields that a rule's answer can rest on."""
        return [self.bands[number][2] for number in self._numbers_of(rule, member)]

    def _numbers_of(self, rule: Rule, member: int | None) -> list[int]:
        if rule.name not in self.rules:
            return []
        return sorted(
            number
            for path in rule.fields
            for number in self._by_path.get(path, ())
            if can_read(rule, member, path, self.bands[number][1], self.values.rulebook)
        )

    def worst_case(self, outcome: Outcome) -> WorstCase | None:
        """The worst outcome of a rule inside the tolerances, or None where no field has one.

        The values are put back as they were, whatever happens.
        """
        if outcome.grade is Grade.NOT_APPLICABLE and outcome.rule.name not in self.applies:
            return None  # Nothing inside the tolerances makes it apply.
        numbers = self._numbers_of(outcome.rule, outcome.member)
        if not numbers:
            return None
        if self._box is None:
            self._box = Box([band for _, _, band in self.bands], self.values, self.derived)
        try:
            return _Search(self, self._box, numbers, outcome).worst()
        finally:
            self._box.go_home()

    def whole_outcome(self, outcome: Outcome) -> Outcome:
        """A rule's outcome at the values as they are now, with all of its reasons."""
        values = self.values.without(self.derived, brief=False)
        return outcome_of(outcome.rule, values, outcome.member)


def _bands(installation: Installation) -> Iterator[tuple[str, str, Band]]:
    if not any(record.uncertain for record in installation.every_record()):
        return
    for prefix, record in installation.records():
        for slot in record.uncertain:
            path, fact = record.layout.fields[slot].path, record.facts[slot]
            if fact is not None:
                shown = prefix + path.rpartition("[].")[2]
                yield path, prefix, Band(shown, record, slot, fact.low, fact.high)


def can_read(rule: Rule, member: int | None, path: str, prefix: str, rulebook: Rulebook) -> bool:
    """Whether a field that a rule reads is read where it stands, in the list member of a prefix.

    A rule that speaks of each member of a list reads that one, and the others only where it
    goes through the whole list itself, or a derived value behind it does.
    """
    if rule.each is None:
        return True
    among = rule.each.field.path
    if not prefix.startswith(f"{among}[") or prefix.startswith(f"{among}[{member}]."):
        return True
    if among in rule.uses.fields:
        return True
    return not rulebook.readers(path).derived.isdisjoint(rule.derived)


class _Spot(NamedTuple):
    """Where a rule is asked: at a place, or with one of its bands, by its number, moved from there."""

    place: Place
    moved: int = -1
    value: float = 0.0


_Found = tuple[Rank, Outcome]


class _Search:
    """Looks for the worst outcome of one rule in one box."""

    def __init__(
        self, tolerances: Tolerances, box: Box, numbers: list[int], outcome: Outcome
    ) -> None:
        self.tolerances = tolerances
        self.box = box
        self.numbers = numbers
        self.outcome = outcome
        self.answers = Answers()
        self.is_single = len(numbers) == 1
        if not self.is_single:
            self.plain, self.followed = box.values(watched=False), box.values(watched=True)
        self.stated = box.stated if self.is_single else box.as_stated(numbers)
        self.found: dict[_Spot, _Found] = {}
        self.watched: dict[Place, tuple[_Found, frozenset[int]]] = {}

    def at(self, spot: _Spot) -> Rank:
        """How bad it is at a point of the box."""
        return self.found_at(spot)[0]

    def found_at(self, spot: _Spot) -> _Found:
        """How bad it is at a point of the box, and the outcome there."""
        place, moved, value = spot
        found = self.found.get(spot)
        if found is None:
            if moved < 0:
                return self.watched_at(place)[0]
            if self.is_single:
                found = self.run(self.box.with_alone(moved, value))
            elif moved in self.reads_at(place):
                self.box.go_to(place, moved, value)
                found = self.run(self.plain)
            else:
                found = self.watched_at(place)[0]
            self.found[spot] = found
        return found

    def reads_at(self, place: Place) -> frozenset[int]:
        """The bands that the rule reads at a place: along the others nothing changes there."""
        return self.watched_at(place)[1]

    def watched_at(self, place: Place) -> tuple[_Found, frozenset[int]]:
        """What is found at a place, and the bands that the rule read for it."""
        if place not in self.watched:
            if self.is_single:
                return (rank(self.outcome), self.outcome), frozenset(self.numbers)
            self.watched[place] = self.box.ask(self.answers, lambda: self.run(self.followed), place)
        return self.watched[place]

    def run(self, values: Values) -> _Found:
        """The rule where the values are."""
        self.box.runs += 1
        outcome = outcome_of(self.outcome.rule, values, self.outcome.member)
        return rank(outcome), outcome

    def worst(self) -> WorstCase:
        """The worst outcome found, and the field that matters most at the stated point."""
        stated = _Spot(self.stated)
        alone = [self.worse_end(number) for number in self.numbers]
        heaviest = min(alone, key=self.at).moved
        best = min((stated, *self.corners(alone)), key=self.at)
        # A single field is the same line from wherever one starts, as often as one looks.
        rounds = 1 if self.is_single else _ROUNDS
        if best.place is not self.stated and best.place.point != self.stated.point:
            best = self.along_each_field(best, best.place, rounds)
        best = self.along_each_field(best, self.stated, rounds)
        worst = self.found_at(best)[1]
        if worst.why is not None:
            self.box.go_to(self.place_of(best))
            worst = self.tolerances.whole_outcome(self.outcome)
        return WorstCase(worst, self.box.bands[heaviest].path)

    def corners(self, alone: list[_Spot]) -> Iterator[_Spot]:
        """The corners that are tried: all, or the one of each field's worse end."""
        if self.is_single:
            return iter(alone)
        bands = [self.box.bands[number] for number in self.numbers]
        points: Iterable[tuple[float, ...]] = (tuple(spot.value for spot in alone),)
        if len(bands) <= _ALL_CORNERS_UP_TO:
            points = product(*((band.low, band.high) for band in bands))
        return (_Spot(self.box.place(self.numbers, point)) for point in points)

    def worse_end(self, number: int) -> _Spot:
        """The end of one band that is the worse, the others as stated."""
        band = self.box.bands[number]
        ends = (_Spot(self.stated, number, end) for end in (band.low, band.high))
        return min(ends, key=self.at)

    def along_each_field(self, best: _Spot, start: Place, rounds: int) -> _Spot:
        """Look along every field in turn from a point, for what is worse than the best so far."""
        place, in_vain = start, 0
        for number in self.numbers * rounds:
            if in_vain == len(self.numbers):
                break  # From here every field was looked along.
            in_vain += 1
            if number not in self.reads_at(place):
                continue  # It is not read here: all along it nothing changes.
            band = self.box.bands[number]
            step = (band.high - band.low) / (_INSIDE + 1)
            inside = [_Spot(place, number, band.low + step * n) for n in range(1, _INSIDE + 1)]
            found = min(inside, key=self.at)
            if self.at(found) < self.at(best):
                best = min(found, self.narrowed(found, step), key=self.at)
                place, in_vain = self.place_of(best), 0
        return best

    def narrowed(self, spot: _Spot, step: float) -> _Spot:
        """The worst place within a step on either side of a point along one field, by thirds."""
        low, high = spot.value - step, spot.value + step
        end = self.end_beside(spot, step)
        if end is not None:
            return end
        for _ in range(_THIRDS):
            third = (high - low) / 3
            below, above = spot._replace(value=low + third), spot._replace(value=high - third)
            if self.at(below) <= self.at(above):
                high -= third
            else:
                low += third
        return spot._replace(value=(low + high) / 2)

    def end_beside(self, spot: _Spot, step: float) -> _Spot | None:
        """The end of a band that is a step away, if it gets worse all the way up to it.

        It is what thirds would close in on from the inside, at sixty times the cost.
        """
        band = self.box.bands[spot.moved]
        for end, inward in ((band.low, step), (band.high, -step)):
            if abs(spot.value - end) < 1.5 * step:
                way = [spot.value, end + inward * 2 / 3, end + inward / 3, end + inward * _BESIDE]
                ranks = [self.at(spot._replace(value=value)) for value in (*way, end)]
                if all(worse < rank for rank, worse in pairwise(ranks)):
                    return spot._replace(value=end)
        return None

    def place_of(self, spot: _Spot) -> Place:
        """The place where a spot is, to look on from there."""
        if spot.moved < 0:
            return spot.place
        moved = dict(zip(spot.place.bands, spot.place.point, strict=True)) | {
            spot.moved: spot.value
        }
        return self.box.place(self.numbers, tuple(moved.values()))


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
