"""What the tests of properties move: one value of a bound installation at a time, and back.

The ground is every fixture and the installation of every case of every rule. A field is
taken away by putting what stands in the place of an unstated value into its slot, which is
what binding a description without it does; a test holds the two against each other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from case_installations import shipped

from checker.checking.outcomes import Outcome, Values, check
from checker.installation.binding import bind
from checker.installation.fields import Field
from checker.installation.record import Installation, Record
from checker.rulebook.cases import case_installation, only
from checker.rulebook.model import Rule

__all__ = [
    "FIXTURES", "Leaf", "answers", "case_grounds", "fixture", "leaves", "put", "readers", "rules_by_field", "without",
]  # fmt: skip

ROOT = Path(__file__).resolve().parents[2]
FIXTURES = tuple(sorted((ROOT / "fixtures").glob("*.yaml"))) + tuple(
    sorted((ROOT / "fixtures" / "defective").glob("*.yaml"))
)


class Leaf(NamedTuple):
    """One stated field: its own path, its path with the members' numbers, where it stands."""

    field: Field
    shown: str
    record: Record


def fixture(path: Path) -> Installation:
    """A fixture, bound anew."""
    return bind(path.read_bytes(), path.name)


def case_grounds(rule: Rule) -> Iterator[tuple[str, Installation]]:
    """The installation of each of a rule's cases, bound anew."""
    for case in rule.cases:
        yield case.name, case_installation(case, shipped())


def leaves(installation: Installation) -> list[Leaf]:
    """Every stated field, those of list members and the lists themselves included."""
    found = []
    for prefix, record in installation.records():
        for field in record.layout.fields:
            if record.facts[field.slot] is not None:
                name = field.path.rpartition("[].")[2]
                found.append(Leaf(field, prefix + name, record))
    return found


@cache
def rules_by_field() -> dict[str, frozenset[str]]:
    """The rules that can read a field, by its path; a list's own path names all that go through it."""
    found: dict[str, set[str]] = {}
    for rule in shipped().rules:
        for path in (*rule.fields, *([rule.each.field.path] if rule.each is not None else [])):
            found.setdefault(path, set()).add(rule.name)
            # What stands inside a list is gone with the list.
            outer = path
            while "[]" in outer:
                outer = outer.rpartition("[]")[0]
                found.setdefault(outer, set()).add(rule.name)
    return {path: frozenset(names) for path, names in found.items()}


def readers(leaf: Leaf) -> frozenset[str]:
    """The rules whose answer a field can move."""
    return rules_by_field().get(leaf.field.path, frozenset())


def answers(
    rules: Iterable[Rule], installation: Installation
) -> dict[tuple[str, int | None], Outcome]:
    """The outcomes of some rules, by rule and member."""
    whole = shipped()
    values = Values(whole, installation.record.values)
    found = {}
    for rule in rules:
        for outcome in check(only(rule, whole), installation, values):
            found[rule.name, outcome.member] = outcome
    return found


@contextmanager
def without(leaf: Leaf) -> Iterator[None]:
    """The installation with one field not stated."""
    with put(leaf, leaf.record.layout.template[leaf.field.slot]):
        yield


@contextmanager
def put(leaf: Leaf, value: Any) -> Iterator[None]:
    """The installation with another value in one field."""
    slot, values = leaf.field.slot, leaf.record.values
    before = values[slot]
    values[slot] = value
    try:
        yield
    finally:
        values[slot] = before
