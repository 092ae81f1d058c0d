"""The fields that an outcome lacked, with where to get each and where it belongs."""

from __future__ import annotations

from checker.absent import Absent, Unstated
from checker.checking import Outcome
from checker.findings import MissingField
from checker.installation.fields import Field, Section
from checker.installation.record import Installation, Record
from checker.reading import Mark

__all__ = ["missing_fields"]


def missing_fields(outcome: Outcome, installation: Installation) -> tuple[MissingField, ...]:
    """The missing fields of an outcome; empty where nothing was missing."""
    if not isinstance(outcome.why, Unstated):
        return ()
    found: list[MissingField] = []
    for path in dict.fromkeys(outcome.why.paths):
        found.extend(_resolve(path, outcome, installation))
    return tuple(found)


def _resolve(path: str, outcome: Outcome, installation: Installation) -> list[MissingField]:
    record = installation.record
    if "[]" not in path:
        field = record.layout.leaf(path)
        return (
            []
            if field is None
            else [_missing(path, field, _parent_mark(path, record), installation)]
        )
    outer, _, inner = path.partition("[].")
    list_field = record.layout.leaf(outer)
    if list_field is None or list_field.item is None:
        return []
    members = record.members.get(list_field.slot, [])
    own = outcome.rule.each is not None and outcome.rule.each.field is list_field
    found = []
    for i, member in enumerate(members):
        if own and i != outcome.member:
            continue
        field = member.layout.leaf(inner)
        if field is not None and isinstance(member.values[field.slot], Absent):
            found.append(_missing(f"{outer}[{i}].{inner}", field, member.mark, installation))
    return found


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
