"""The source register: everything in a rulebook that rests on a published text, one line each.

A rule and a derived value rest on the bases of their formulas, a parameter on its own, a
table on one for all of it, for a column of it, or for single cells of it; a function that
a formula calls, or that such a function calls, says in its docstring where it comes from.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from checker.formulas.scope import Uses
from checker.rulebook.function_sources import functions_behind, source_of_function
from checker.rulebook.model import CONFIDENCES, Basis, Derived, Parameter, Rule, Rulebook, Table

__all__ = ["KINDS", "Entry", "count_by", "function_entry", "narrowed", "register"]

KINDS = ("rule", "derived", "parameter", "table", "column", "cell", "function")
_NUMBER_AND_UNIT = re.compile(r"([+-]?[0-9][0-9.eE+-]*)(?: +(.+))?")


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that rests on a source: what it is, what it says, and how far that was read."""

    kind: str
    family: str
    rule: str
    name: str
    value: str
    unit: str
    source: str
    title: str
    edition: str
    clause: str
    confidence: str
    note: str
    # The rules whose answer can rest on it.
    used_by: tuple[str, ...]


def register(rulebook: Rulebook) -> tuple[Entry, ...]:
    """Every entry of the register, rules first, in the rulebook's order."""
    users = _Users(rulebook)
    found: list[Entry] = []
    for rule in rulebook.rules:
        mine = (rule.name,)
        found += [
            _entry("rule", rule.family, rule.name, "", rule.title, b, mine) for b in rule.basis
        ]
        found += [_parameter(rule.family, rule.name, p, mine) for p in rule.parameters.values()]
    for derived in rulebook.order:
        name, using = f"derived.{derived.name}", users.of_derived.get(derived.name, ())
        found += [
            _entry("derived", "derived", name, "", derived.title, b, using) for b in derived.basis
        ]
        found += [_parameter("derived", name, p, using) for p in derived.parameters.values()]
    for table in rulebook.tables.values():
        found += _of_table(table, users.of_table.get(table.name, ()))
    found += [function_entry(name, using) for name, using in sorted(users.of_function.items())]
    return tuple(found)


def narrowed(
    entries: Iterable[Entry],
    *,
    confidences: Iterable[str] = (),
    families: Iterable[str] = (),
    kinds: Iterable[str] = (),
) -> tuple[Entry, ...]:
    """The entries of these confidences, families and kinds; all where none is named."""
    words, names, wanted = set(confidences), set(families), set(kinds)
    return tuple(
        e
        for e in entries
        if (not words or e.confidence in words)
        and (not names or e.family in names)
        and (not wanted or e.kind in wanted)
    )


def count_by(entries: Iterable[Entry], what: str) -> dict[str, dict[str, int]]:
    """How many entries of each confidence: by ``family``, ``kind`` or ``source``."""
    counted: dict[str, Counter[str]] = {}
    for entry in entries:
        counted.setdefault(getattr(entry, what), Counter())[entry.confidence] += 1
    return {name: {word: count[word] for word in CONFIDENCES} for name, count in counted.items()}


class _Users:
    """Which rules an answer of which rests on each derived value, table and function."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.of_derived: dict[str, tuple[str, ...]] = {}
        self.of_table: dict[str, tuple[str, ...]] = {}
        self.of_function: dict[str, tuple[str, ...]] = {}
        for rule in rulebook.rules:
            behind = [rulebook.order[i] for i in rule.derived]
            for derived in behind:
                _add(self.of_derived, derived.name, rule.name)
            for uses in _all_uses(rule, behind):
                for path in uses.tables:
                    _add(self.of_table, path.split(".")[0], rule.name)
                for called in uses.functions:
                    for name in (called, *functions_behind(called)):
                        _add(self.of_function, name, rule.name)


def _all_uses(rule: Rule, behind: Iterable[Derived]) -> Iterator[Uses]:
    yield rule.uses
    for derived in behind:
        yield derived.uses


def _add(users: dict[str, tuple[str, ...]], name: str, rule: str) -> None:
    before = users.get(name, ())
    if rule not in before:
        users[name] = (*before, rule)


def _entry(
    kind: str, family: str, rule: str, name: str, value: str, basis: Basis, used_by: tuple[str, ...], unit: str = ""
) -> Entry:  # fmt: skip
    source = basis.source
    return Entry(
        kind, family, rule, name, value, unit, source.name, source.title, source.edition,
        basis.clause, basis.confidence, basis.note or source.note, used_by,
    )  # fmt: skip


def _parameter(family: str, rule: str, parameter: Parameter, used_by: tuple[str, ...]) -> Entry:
    value, unit = parameter.text, ""
    if parameter.unit is not None and (parts := _NUMBER_AND_UNIT.fullmatch(parameter.text)):
        value, unit = parts[1], parts[2] or ""
    return _entry("parameter", family, rule, parameter.name, value, parameter.basis, used_by, unit)


def _of_table(table: Table, used_by: tuple[str, ...]) -> Iterator[Entry]:
    name = f"table.{table.name}"
    units = {head.name: head.unit.shown if head.unit is not None else "" for head in table.heads}
    rows = "1 row" if len(table.rows) == 1 else f"{len(table.rows)} rows"
    for column, basis in table.basis.items():
        if column:
            yield _entry("column", "tables", name, column, rows, basis, used_by, units[column])
        else:
            yield _entry("table", "tables", name, "", f"{table.title}: {rows}", basis, used_by)
    heads = [head.name for head in table.heads]
    for doubt in table.doubtful:
        basis = table.basis.get(doubt.column, table.basis[""])
        row = next(r for r in table.rows if r[: len(doubt.row)] == doubt.row)
        weaker = Basis(basis.source, basis.clause, doubt.confidence, doubt.note or basis.note)
        key = ", ".join(map(str, doubt.row))
        cell = str(row[heads.index(doubt.column)])
        yield _entry(
            "cell",
            "tables",
            name,
            f"{doubt.column}({key})",
            cell,
            weaker,
            used_by,
            units[doubt.column],
        )


def function_entry(name: str, used_by: tuple[str, ...] = ()) -> Entry:
    """A function's own statement of its source; the tests refuse one without."""
    stated = source_of_function(name)
    return Entry(
        "function", "functions", name, "", stated.does, "", "", stated.text, "", "", stated.confidence, "", used_by
    )  # fmt: skip
