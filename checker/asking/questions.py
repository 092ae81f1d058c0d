"""The questions that a description leaves to be asked, in their order."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Set
from typing import Literal, NamedTuple

from checker.asking.editing import Parts
from checker.asking.starting import Need
from checker.formulas.reaching import is_blank
from checker.installation.fields import Field, Section
from checker.installation.record import Installation, Record, Stated

__all__ = ["Order", "Question", "questions_of"]

# Where a question stands among all: slots, and the positions of members between them.
Order = tuple[float, ...]


class Question(NamedTuple):
    """One thing to ask: a field, whether a list has anything to describe, or one member more.

    ``group`` is the section or the member that the field stands in, ``leave`` the order
    behind which the next group begins. ``answer`` is how it is stated now.
    """

    kind: Literal["field", "list", "more"]
    path: str
    parts: Parts
    field: Field
    need: Need
    order: Order
    group: str
    section: Section
    leave: Order
    answer: Stated | None
    members: int = 0

    @property
    def is_open(self) -> bool:
        """Whether it has no answer yet."""
        return self.answer is None


class _Place(NamedTuple):
    path: str
    parts: Parts
    order: Order


def questions_of(
    installation: Installation, needs: Mapping[str, Need], opened: Set[str]
) -> list[Question]:
    """Every question that can still matter, answered ones too.

    opened: the lists whose members are being described although nothing is stated yet.
    """
    return list(_record(installation.record, _Place("", (), ()), _Needs(needs), opened))


class _Needs:
    """Finds a field's need by its numbered path, or by that of a member that stands for any."""

    def __init__(self, needs: Mapping[str, Need]) -> None:
        self.needs = needs

    def of(self, path: str) -> Need | None:
        head, tail = path, ""
        while True:
            found = self.needs.get(head + tail)
            if found is not None or "[" not in head:
                return found
            head, _, rest = head.rpartition("[")
            tail = f"[{']' + rest.partition(']')[2]}{tail}"


def _record(record: Record, place: _Place, needs: _Needs, opened: Set[str]) -> Iterator[Question]:
    layout = record.layout
    for field in layout.fields:
        inner = field.path.rpartition("[].")[2]
        path = place.path + inner
        parts = (*place.parts, *inner.split("."))
        order = (*place.order, field.slot)
        section = layout.by_path[inner.rpartition(".")[0]]
        assert isinstance(section, Section)  # noqa: S101 - what holds a field is a section
        group = path.rpartition(".")[0]
        leave = (*place.order, section.last - 1, math.inf)
        fact = record.facts[field.slot]
        need = needs.of(path)
        if field.item is None:
            if need is not None:
                yield Question(
                    "field", path, parts, field, need, order, group, section, leave, fact
                )
            continue
        if need is None:
            continue
        members = record.members.get(field.slot, [])
        described = bool(members) and not all(is_blank(m.values) for m in members)
        yield Question(
            "list", path, parts, field, need, order, group, section, leave,
            fact if described or not members else None, len(members),
        )  # fmt: skip
        if described or (path in opened and members):
            for i, member in enumerate(members):
                below = _Place(f"{path}[{i}].", (*parts, i), (*order, i))
                yield from _record(member, below, needs, opened)
            yield Question(
                "more", path, parts, field, need, (*order, math.inf), group, section, leave, None, len(members),
            )  # fmt: skip
