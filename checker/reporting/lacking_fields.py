"""The fields that an outcome lacked, with where to get each and where it belongs."""

from __future__ import annotations

from collections.abc import Iterator

from checker.absent import Absent, Unstated
from checker.checking.outcomes import Outcome
from checker.findings import MissingField
from checker.installation.fields import Field, Section
from checker.installation.record import Installation, Record
from checker.reading import Mark

__all__ = ["missing_fields"]


def missing_fields(outcome: Outcome, installation: Installation) -> tuple[MissingField, ...]:
    """The missing fields of an outcome; empty where nothing was missing."""
    if not isinstance(outcome.why, Unstated):
        return ()
    # A rule's own member may be among the members that one of its loops names.
    found = {
        missing.path: missing
        for path in dict.fromkeys(outcome.why.paths)
        for missing in _resolve(path, outcome, installation)
    }
    return tuple(found.values())


def _resolve(path: str, outcome: Outcome, installation: Installation) -> list[MissingField]:
    record = installation.record
    if "[" not in path:
        field = record.layout.leaf(path)
        return (
            []
            if field is None
            else [_missing(path, field, _parent_mark(path, record), installation)]
        )
    found = list(_in_members(path, record, "", installation))
    each = outcome.rule.each
    if each is None or "[]" not in path:
        return found
    own, among = f"{each.field.path}[{outcome.member}].", f"{each.field.path}["
    # A rule that speaks of one member lacks that member's value, unless only others lack it.
    mine = [m for m in found if not m.path.startswith(among) or m.path.startswith(own)]
    return mine or found


def _in_members(
    path: str, record: Record, prefix: str, installation: Installation
) -> Iterator[MissingField]:
    """The members of a list (and of lists inside them) that lack what a path names.

    A list whose member the path numbers has only that one looked at.
    """
    outer, _, rest = path.partition("[")
    number, _, inner = rest.partition("].")
    if not inner:
        field = record.layout.leaf(path)
        if field is not None and isinstance(record.values[field.slot], Absent):
            yield _missing(f"{prefix}{path}", field, record.mark, installation)
        return
    list_field = record.layout.leaf(outer)
    if list_field is not None:
        for i, member in enumerate(record.members.get(list_field.slot, [])):
            if number and i != int(number):
                continue
            yield from _in_members(inner, member, f"{prefix}{outer}[{i}].", installation)


def _missing(path: str, field: Field, mark: Mark, installation: Installation) -> MissingField:
    place = installation.place(mark)
    unit = field.unit.symbol if field.unit else ""
    return MissingField(
        path, field.description, field.where, unit, place.file, place.line, place.column
    )


def _parent_mark(path: str, record: Record) -> Mark:
    """The place of a stated neighbour in the same section, else of the description."""
    section = path.rpartition(".")[0]
    while section:
        found = record.layout.by_path.get(section)
        if isinstance(found, Section):
            for fact in record.facts[found.first : found.last]:
                if fact is not None:
                    return fact.mark
        section = section.rpartition(".")[0]
    return record.mark
