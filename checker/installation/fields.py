"""The fields of a description, as data: what each is, its unit, where to get it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, Literal

from checker.units import Unit

__all__ = ["Field", "FieldType", "Layout", "Section", "general_path"]

FieldType = Literal["quantity", "number", "count", "text", "choice", "flag", "date", "list"]


@dataclass(eq=False, slots=True)
class Field:
    """One field; ``path`` is its full name, with ``[]`` behind each list."""

    path: str
    name: str
    type: FieldType
    slot: int
    description: str
    where: str = ""
    unit: Unit | None = None
    choices: tuple[str, ...] = ()
    plausible: tuple[float, float] | None = None
    plausible_text: str = ""
    signed: bool = False
    least: float | None = None
    most: float | None = None
    item: Layout | None = None
    required: bool = False


@dataclass(eq=False, slots=True)
class Section:
    """A group of fields; ``first`` and ``last`` bound its slots in the record."""

    path: str
    description: str
    children: dict[str, Field | Section] = field(default_factory=dict)
    required: tuple[str, ...] = ()
    first: int = 0
    last: int = 0


@dataclass(eq=False, slots=True)
class Layout:
    """A record laid out flat: the whole description, or one item of a list.

    A field's value stands at ``values[field.slot]``, so that a compiled formula
    reaches it by one index, whatever the depth of the section it was written in.
    """

    root: Section
    fields: list[Field] = field(default_factory=list)
    by_path: dict[str, Field | Section] = field(default_factory=dict)
    template: list[Any] = field(default_factory=list)

    def leaf(self, path: str) -> Field | None:
        """The field at a path below this record, or None."""
        found = self.by_path.get(path)
        return found if isinstance(found, Field) else None

    def walk(self) -> Iterator[Field]:
        """Every field, those of list items after the list itself."""
        for one in self.fields:
            yield one
            if one.item is not None:
                yield from one.item.walk()


@lru_cache(maxsize=8192)
def general_path(path: str) -> str:
    """A path without the numbers of its members.

    >>> general_path("gauge.tubes[1].end")
    'gauge.tubes[].end'
    """
    return "[]".join(
        part.partition("]")[2] if i else part for i, part in enumerate(path.split("["))
    )
