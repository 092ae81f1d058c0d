"""What a value rests on, found by watching what it reads, so that it is worked out once.

The worst case is looked for at thousands of points, and most of what is asked there was
worked out before: a rule reads a part of the fields that it could read, and many rules
share the derived values behind them. Whatever a formula gives follows from the toleranced
fields that it read on its way, and from nothing else that moves. What it gave at one point
therefore holds at every point where those fields are the same, and is taken from there:
the same answer, not one that is close to it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property
from operator import itemgetter
from typing import Any, NamedTuple

from checker.absent import Absent
from checker.checking.outcomes import Values
from checker.formulas.lacking import why_not
from checker.installation.record import Record
from checker.rulebook.model import Rulebook

__all__ = ["Answers", "Band", "Box", "Place"]


class Band(NamedTuple):
    """One toleranced field: its path, and where its value stands."""

    path: str
    record: Record
    slot: int
    low: float
    high: float


class Place:
    """A point of the box: these bands, by their numbers, at these values, all others as stated."""

    __slots__ = ("bands", "known", "point", "values")

    def __init__(
        self, stated: Sequence[float], bands: Sequence[int] = (), point: tuple[float, ...] = ()
    ) -> None:
        self.bands = bands
        self.point = point
        self.values = list(stated)
        for number, value in zip(bands, point, strict=True):
            self.values[number] = value
        # What _Footing.number gave here.
        self.known: dict[_Footing, int] = {}


class _Footing:
    """The bands that a formula read, and what it gave for each set of their values."""

    __slots__ = ("bits", "fields", "given", "numbers", "take")

    def __init__(self, bits: int) -> None:
        self.bits = bits
        self.fields = frozenset(n for n in range(bits.bit_length()) if bits >> n & 1)
        self.take: Callable[[list[float]], Any] = (
            itemgetter(*sorted(self.fields)) if bits else _none
        )
        # The sets of values, numbered: one of fifty values is then looked up once a place.
        self.numbers: dict[Any, int] = {}
        self.given: dict[Any, Any] = {}

    def number(self, place: Place) -> int:
        """The same for two places only if the bands that were read have the same values there."""
        number = self.numbers.setdefault(self.take(place.values), len(self.numbers))
        place.known[self] = number
        return number


def _none(_: list[float]) -> tuple[()]:
    return ()


class Answers:
    """What one formula gave at the points asked so far.

    It can read other bands at another point (the two sides of an if), so it has several
    footings. It reads them in one order, and what it reads decides what it reads next: a
    point that agrees with another on all that was read there is answered as that was.
    """

    __slots__ = ("footings",)

    def __init__(self) -> None:
        self.footings: dict[int, _Footing] = {}


class Box:
    """The toleranced fields of an installation, at one point after another.

    runs: how many formulas were run; what was known already is not among them, nor are the
    derived values of ``with_alone``.
    """

    def __init__(self, bands: Sequence[Band], values: Values, derived: frozenset[int]) -> None:
        self.bands = bands
        self.stated = Place([band.record.values[band.slot] for band in bands])
        self.runs = 0
        self._given = values
        self._answers = {i: Answers() for i in derived}
        self._reading = _Reading()
        self._place, self._moved, self._value = self.stated, -1, 0.0
        self._alone: dict[tuple[int, float], Values] = {}

    @cached_property
    def _watched(self) -> Any:
        slots: dict[int, dict[int, int]] = {}
        for number, band in enumerate(self.bands):
            slots.setdefault(id(band.record.values), {})[band.slot] = 1 << number
        return _watch(self._given.S, slots, self._reading)

    def with_alone(self, number: int, value: float) -> Values:
        """What rules run on with one band moved from where all are stated, and put there.

        Most descriptions have one tolerance, and most rules that read it read no other: what
        its few values give is kept as it is, and nothing has to be watched.
        """
        self.go_to(self.stated, number, value)
        values = self._alone.get((number, value))
        if values is None:
            values = self._given.without(frozenset(self._answers), brief=True)
            self._alone[number, value] = values
        return values

    def values(self, *, watched: bool) -> Values:
        """What rules run on where the values are; watched, it is noted which bands they read."""
        return _Followed(self, self._given.rulebook, self._watched if watched else self._given.S)

    def place(self, bands: Sequence[int], point: tuple[float, ...]) -> Place:
        """The point with these bands, by their numbers, at these values."""
        return Place(self.stated.values, bands, point)

    def as_stated(self, bands: Sequence[int]) -> Place:
        """The stated point, with these bands to move from there."""
        place = self.place(bands, tuple(self.stated.values[number] for number in bands))
        place.known = self.stated.known
        return place

    def ask(
        self, answers: Answers, run: Callable[[], Any], place: Place
    ) -> tuple[Any, frozenset[int]]:
        """What a formula gives at a place, and the bands that it reads there.

        The values stay as they are then; ``go_home`` puts them back.
        """
        self.go_to(place, -1, 0.0)
        known = self._known(answers)
        if known is None:
            self._reading.bits = 0
            known = self._keep(answers, run())
        return known[0], known[1].fields

    def go_home(self) -> None:
        """Put all values back as they were stated."""
        self.go_to(self.stated, -1, 0.0)

    def go_to(self, place: Place, moved: int = -1, value: float = 0.0) -> None:
        """Put the values as they are at a place, one band moved from there if so asked."""
        if self._moved >= 0:
            self._set(self._moved, self._place.values[self._moved])
        if place is not self._place:
            for number in self._place.bands:
                self._set(number, place.values[number])
            for number in place.bands:
                self._set(number, place.values[number])
            self._place = place
        if moved >= 0:
            self._set(moved, value)
        self._moved, self._value = moved, value

    def _set(self, number: int, value: float) -> None:
        band = self.bands[number]
        band.record.values[band.slot] = value

    def __getitem__(self, i: int) -> Any:
        """A derived value where the values are: what a formula reads as ``D[i]``."""
        answers = self._answers.get(i)
        if answers is None:
            return self._unmoved(i)
        known = self._known(answers)
        if known is None:
            known = self._worked_out(i, answers)
        self._reading.bits |= known[1].bits
        return known[0]

    def _known(self, answers: Answers) -> tuple[Any, _Footing] | None:
        numbers, moved = self._place.known, self._moved
        for footing in answers.footings.values():
            number = numbers.get(footing)
            if number is None:
                number = footing.number(self._place)
            key = (number, moved, self._value) if moved in footing.fields else number
            found = footing.given.get(key)
            if found is not None:
                return found, footing
        return None

    def _keep(self, answers: Answers, found: Any) -> tuple[Any, _Footing]:
        bits = self._reading.bits
        footing = answers.footings.get(bits)
        if footing is None:
            footing = answers.footings[bits] = _Footing(bits)
        number = footing.number(self._place)
        is_moved = self._moved in footing.fields
        footing.given[(number, self._moved, self._value) if is_moved else number] = found
        return found, footing

    def _worked_out(self, i: int, answers: Answers) -> tuple[Any, _Footing]:
        self.runs += 1
        reading = self._reading
        before, reading.bits = reading.bits, 0
        try:
            found = self._given.rulebook.order[i].run(self._watched, self)
        except Exception as error:
            found = Absent(why_not(error))
        known = self._keep(answers, found)
        reading.bits = before
        return known

    def _unmoved(self, i: int) -> Any:
        """A derived value that rests on nothing that moves."""
        if self._given.D[i] is None:
            self._given.work_out((*self._given.rulebook.order[i].order, i))
        return self._given.D[i]


class _Followed(Values):
    """Values whose derived values are worked out where a formula reads them."""

    __slots__ = ()

    def __init__(self, box: Box, rulebook: Rulebook, values: Any) -> None:
        super().__init__(rulebook, values, brief=True)
        # Formulas only look derived values up, and the box has them.
        self.D = box  # type: ignore[assignment]

    def work_out(self, order: tuple[int, ...]) -> None:
        """Nothing: see above."""


class _Reading:
    """The bands that the formula that is running has read so far, one bit each."""

    __slots__ = ("bits",)

    def __init__(self) -> None:
        self.bits = 0


class _Watched:
    """A record's values as formulas see them; which bands are read is noted."""

    __slots__ = ("bands", "lists", "reading", "values")

    def __init__(
        self, values: list[Any], bands: dict[int, int], lists: dict[int, Any], reading: _Reading
    ) -> None:
        self.values = values
        self.bands = bands
        self.lists = lists
        self.reading = reading

    def __getitem__(self, slot: Any) -> Any:
        if type(slot) is slice:
            # Asks which of these are stated; a tolerance changes nothing in that.
            return self.values[slot]
        bit = self.bands.get(slot)
        if bit is not None:
            self.reading.bits |= bit
        elif slot in self.lists:
            return self.lists[slot]
        return self.values[slot]


def _watch(values: list[Any], slots: dict[int, dict[int, int]], reading: _Reading) -> Any:
    """A record's values, watched if there is a band in it or in a member of one of its lists."""
    lists: dict[int, Any] = {}
    for slot, members in enumerate(values):
        if type(members) is list:
            watched = [_watch(m, slots, reading) if type(m) is list else m for m in members]
            if any(type(m) is _Watched for m in watched):
                lists[slot] = watched
    bands = slots.get(id(values), {})
    return _Watched(values, bands, lists, reading) if bands or lists else values
