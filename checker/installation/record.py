"""A bound description: values in SI slot by slot, beside how each was stated."""

from __future__ import annotations

from typing import Any, NamedTuple

from checker.errors import Place
from checker.installation.fields import Layout
from checker.reading import Mark, place_of
from checker.units import Unit

__all__ = ["Installation", "Record", "Stated"]


class Stated(NamedTuple):
    """How a field was stated: the text, the band, the origin and the place."""

    text: str
    low: float
    high: float
    unit: Unit | None
    origin: str | None
    mark: Mark


class Record:
    """One record's values in SI, slot by slot, beside how each was stated.

    A slot that was not stated holds an Absent in ``values`` and None in ``facts``.
    For a list, ``values`` holds the values of its members and ``members`` their records.
    """

    __slots__ = (
        "estimated",
        "facts",
        "layout",
        "mark",
        "members",
        "uncertain",
        "unusual",
        "values",
    )

    def __init__(self, layout: Layout, mark: Mark) -> None:
        self.layout = layout
        self.mark = mark
        self.values: list[Any] = layout.template.copy()
        self.facts: list[Stated | None] = [None] * len(self.values)
        self.members: dict[int, list[Record]] = {}
        # The slots whose value was stated with a tolerance, those that were estimated, and
        # those outside their usual range.
        self.uncertain: list[int] = []
        self.estimated: list[int] = []
        self.unusual: list[int] = []


class Installation:
    """A bound description: its record, its name and the digest of its bytes."""

    __slots__ = ("digest", "name", "record")

    def __init__(self, record: Record, name: str, digest: str) -> None:
        self.record = record
        self.name = name
        self.digest = digest

    def value(self, path: str) -> Any:
        """The SI value of a field of the description itself, Absent if not stated."""
        field = self.record.layout.leaf(path)
        if field is None:
            raise KeyError(path)
        return self.record.values[field.slot]

    def records(self) -> list[tuple[str, Record]]:
        """The description's own record and those of all list members, with their paths."""
        found: list[tuple[str, Record]] = [("", self.record)]
        for path, record in found:
            for slot, members in record.members.items():
                name = record.layout.fields[slot].path.rpartition("[].")[2]
                found.extend((f"{path}{name}[{i}].", member) for i, member in enumerate(members))
        return found

    def every_record(self) -> list[Record]:
        """The description's own record and those of all list members, without their paths."""
        found = [self.record]
        for record in found:
            for members in record.members.values():
                found.extend(members)
        return found

    def place(self, mark: Mark) -> Place:
        """A mark of this description as a place for a person."""
        return place_of(mark, self.name)
