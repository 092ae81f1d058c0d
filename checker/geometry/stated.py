"""A description's lengths and words, asked for by path; what is missing is said, not invented."""

from __future__ import annotations

from collections.abc import Iterator

from checker.absent import Absent
from checker.findings import Extent
from checker.installation.record import Installation, Record

__all__ = ["Stated", "written"]


def written(metres: float) -> float:
    """A coordinate to the micrometre: the same text on every machine."""
    return round(metres, 6) + 0.0  # Adding nought turns -0.0, which prints differently, into 0.0.


class Stated:
    """What one record states: the description itself, or one member of a list."""

    def __init__(self, record: Record, prefix: str = "") -> None:
        self.record = record
        self.prefix = prefix

    @classmethod
    def of(cls, installation: Installation) -> Stated:
        """The description itself."""
        return cls(installation.record)

    def members(self, path: str) -> Iterator[Stated]:
        """The members of a list, none where it is not stated."""
        field = self.record.layout.leaf(path)
        members = [] if field is None else self.record.members.get(field.slot, [])
        for i, member in enumerate(members):
            yield Stated(member, f"{path}[{i}].")

    def length(self, path: str) -> float | None:
        """A length or another number in SI, None where it is not stated."""
        value = self._value(path)
        return value if isinstance(value, (int, float)) and not isinstance(value, bool) else None

    def word(self, path: str) -> str:
        """A word or a text, '' where it is not stated."""
        value = self._value(path)
        return value if isinstance(value, str) else ""

    def or_drawn(self, path: str, drawn: float) -> tuple[float, tuple[str, ...]]:
        """A length, or a size to draw in its place together with the name of what is missing."""
        length = self.length(path)
        return (drawn, (path.rpartition(".")[2],)) if length is None else (length, ())

    def extent(self, path: str, name: str, view: str, axis: str, start: float, end: float) -> list[Extent]:  # fmt: skip
        """The dimension of one stated field, none where it is not stated."""
        field = self.record.layout.leaf(path)
        fact = None if field is None else self.record.facts[field.slot]
        if fact is None:
            return []
        return [
            Extent(self.prefix + path, name, fact.text, view, axis, written(start), written(end))
        ]

    def _value(self, path: str) -> object:
        field = self.record.layout.leaf(path)
        value = None if field is None else self.record.values[field.slot]
        return None if isinstance(value, Absent) else value
