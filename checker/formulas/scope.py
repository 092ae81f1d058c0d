"""What a formula can see, and what it turned out to use."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from checker.formulas.types import Type
from checker.installation.fields import Layout

__all__ = ["Compiled", "DerivedName", "Scope", "TableColumn", "Uses", "look_up_name"]


class DerivedName(NamedTuple):
    """A derived value as a formula sees it."""

    slot: int
    type: Type


def look_up_name(table: str, column: str) -> str:
    """The name of a table's look-up in compiled source, different for every two columns.

    >>> look_up_name("bolt_a", "b"), look_up_name("bolt", "a_b")
    ('T6_bolt_a_b', 'T4_bolt_a_b')
    """
    return f"T{len(table)}_{table}_{column}"


class TableColumn(NamedTuple):
    """A column of a table: what its keys are, what it gives, the look-up, how far it is to be relied on."""

    keys: tuple[tuple[str, Type], ...]
    gives: Type
    look_up: Callable[..., Any]
    confidence: str = "checked"


@dataclass(slots=True)
class Uses:
    """Everything that a formula refers to, in the order met."""

    fields: dict[str, None] = field(default_factory=dict)
    derived: dict[str, None] = field(default_factory=dict)
    parameters: dict[str, None] = field(default_factory=dict)
    lines: dict[str, None] = field(default_factory=dict)
    functions: dict[str, None] = field(default_factory=dict)
    tables: dict[str, None] = field(default_factory=dict)

    def add(self, other: Uses) -> None:
        """Take over what another formula uses."""
        for name in self.__slots__:
            getattr(self, name).update(getattr(other, name))


@dataclass(slots=True)
class Scope:
    """The names that a formula can see.

    layout: the description's fields. parameters: the rule's own constants, with their
    SI value. lines: the working lines above this one. members: the name of each list
    member that is in sight. derived, tables: what the rulebook offers.
    """

    layout: Layout
    parameters: dict[str, tuple[Type, Any]] = field(default_factory=dict)
    lines: dict[str, Type] = field(default_factory=dict)
    members: dict[str, tuple[Layout, str]] = field(default_factory=dict)
    derived: dict[str, DerivedName] = field(default_factory=dict)
    tables: dict[str, dict[str, TableColumn]] = field(default_factory=dict)


class Compiled(NamedTuple):
    """A checked formula: its type, its Python source over slots, and what it uses."""

    text: str
    type: Type
    source: str
    uses: Uses
