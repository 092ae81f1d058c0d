"""A compiled rulebook as plain data and back: what need not be worked out a second time.

The data is what marshal takes: texts, numbers, tuples, byte code. What a check asks of every
rule lies open; the rest of each rule stays packed until it is first asked for, since most
rules of a check are met or do not apply. The rules' own cases are left out, which only
their tests need. Tables are kept as their files said and built when first asked.
"""

from __future__ import annotations

import marshal
from collections.abc import Iterator, Mapping
from types import CodeType
from typing import Any

from checker import units
from checker.errors import Place
from checker.formulas.cells import Probe
from checker.formulas.scope import Compiled, Uses
from checker.formulas.types import FLAG, Items, Members, Numeric, Text, Type
from checker.grades import Grade
from checker.installation.fields import Layout
from checker.rulebook.files import File
from checker.rulebook.linking import Needs, link, needs_of
from checker.rulebook.model import (
    Basis,
    Derived,
    Each,
    Line,
    Parameter,
    Readers,
    Recalled,
    Rule,
    Rulebook,
    SheetLine,
    Source,
    Table,
)  # fmt: skip
from checker.units import Unit

__all__ = ["packed", "unpacked"]


def packed(rulebook: Rulebook, tables: Mapping[str, File], code: CodeType) -> dict[str, Any]:
    """The rulebook as plain data; ``tables`` are the files of its tables, ``code`` its functions."""
    return {
        "digest": rulebook.digest,
        "overlays": rulebook.overlays,
        "families": dict(rulebook.families),
        "sources": [
            (s.name, s.title, s.edition, s.publisher, s.note) for s in rulebook.sources.values()
        ],
        "tables": {
            name: (tables[name].name, marshal.dumps(tables[name].data)) for name in rulebook.tables
        },
        "derived": [_derived(d) for d in rulebook.order],
        "rules": [_rule(r) for r in rulebook.rules],
        "readers": {path: tuple(r) for path, r in rulebook.all_readers().items()},
        "needs": tuple(needs_of(rulebook)),
        "code": code,
    }


def unpacked(data: Mapping[str, Any], layout: Layout) -> Rulebook:
    """The rulebook that the data describes, linked."""
    sources = {s[0]: Source(*s) for s in data["sources"]}
    reader = _Reader(layout, sources)
    order = tuple(_KeptDerived(reader, *d) for d in data["derived"])
    rules = tuple(_KeptRule(reader, *r) for r in data["rules"])
    rulebook = Rulebook(
        layout, sources, _Tables(data["tables"], sources), {d.name: d for d in order}, rules,
        data["families"], data["digest"], data["overlays"], order,
        _readers={path: Readers(*r) for path, r in data["readers"].items()},
    )  # fmt: skip
    link(rulebook, data["code"], Needs(*data["needs"]))
    return rulebook


class _KeptDerived(Derived):
    """A derived value whose rest is unpacked when it is first asked for."""

    __slots__ = ("_reader", "_rest")

    def __init__(
        self, reader: _Reader, name: str, index: int, order: tuple[int, ...],
        changes: tuple[str, ...], rest: bytes,
    ) -> None:  # fmt: skip
        self._reader, self._rest = reader, rest
        self.name, self.index, self.order, self.changes = name, index, order, changes

    def __getattr__(self, name: str) -> Any:
        # Python asks here only for a slot that is still empty.
        if name.startswith("_"):
            raise AttributeError(name)
        self._reader.fill_derived(self, *marshal.loads(self._rest))  # noqa: S302 - see cache.py
        return getattr(self, name)


class _KeptRule(Rule):
    """A rule whose rest is unpacked when it is first asked for."""

    __slots__ = ("_reader", "_rest")

    def __init__(
        self, reader: _Reader, name: str, title: str, protects: str, caution: str,
        stages: tuple[str, ...], each: tuple[str, str] | None, fields: tuple[str, ...],
        derived: tuple[int, ...], digest: str, changes: tuple[str, ...], switched_off: str,
        remembered: bool, doubtful: tuple[str, ...], rest: bytes,
    ) -> None:  # fmt: skip
        self._reader, self._rest = reader, rest
        self.name, self.title, self.protects, self.caution = name, title, protects, caution
        self.stages, self.each, self.fields = stages, reader.each(each), fields
        self.derived, self.digest = derived, digest
        self.changes, self.switched_off = changes, switched_off
        self.remembered, self.doubtful = remembered, doubtful

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        self._reader.fill_rule(self, *marshal.loads(self._rest))  # noqa: S302 - see cache.py
        return getattr(self, name)


class _Tables(Mapping[str, Table]):
    """Tables by name, each built from its file's data when first asked."""

    def __init__(self, entries: Mapping[str, Any], sources: dict[str, Source]) -> None:
        self.entries = entries
        self.sources = sources
        self.built: dict[str, Table] = {}

    def __getitem__(self, name: str) -> Table:
        if name not in self.built:
            # Imported here: it brings the compiler along, and few checks need a table.
            from checker.rulebook.tables import build_table  # noqa: PLC0415

            shown, data = self.entries[name]
            file = File.of_data(shown, marshal.loads(data))  # noqa: S302 - see cache.py
            self.built[name] = build_table(file, name, self.sources)
        return self.built[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.entries)

    def __len__(self) -> int:
        return len(self.entries)


# --- to data ------------------------------------------------------------------


def _rule(rule: Rule) -> tuple[Any, ...]:
    each = None if rule.each is None else (rule.each.variable, rule.each.field.path)
    rest = (
        _compiled(rule.applies), _compiled(rule.subject), [_parameter(p) for p in rule.parameters.values()],
        [_line(x) for x in rule.lines], _line(rule.demand), _line(rule.limit),
        [(int(g), _compiled(c)) for g, c in rule.expect], dict(rule.says), rule.danger,
        [(s.part, s.line, s.order, _compiled(s.condition), s.sums) for s in rule.sheet], rule.adjust,
        [_basis(b) for b in rule.basis], _uses(rule.uses), rule.place.file,
        [tuple(r) for r in rule.recalled], [tuple(p) for p in rule.probes],
    )  # fmt: skip
    return (
        rule.name, rule.title, rule.protects, rule.caution, rule.stages, each, rule.fields,
        rule.derived, rule.digest, rule.changes, rule.switched_off, rule.remembered, rule.doubtful,
        marshal.dumps(rest),
    )  # fmt: skip


def _derived(derived: Derived) -> tuple[Any, ...]:
    rest = (
        derived.title, [_parameter(p) for p in derived.parameters.values()], [_line(x) for x in derived.lines],
        _line(derived.result), [_basis(b) for b in derived.basis], _uses(derived.uses), derived.place.file,
        [tuple(r) for r in derived.recalled], [tuple(p) for p in derived.probes],
    )  # fmt: skip
    return derived.name, derived.index, derived.order, derived.changes, marshal.dumps(rest)


def _parameter(p: Parameter) -> list[Any]:
    value = list(p.value) if isinstance(p.value, tuple) else p.value
    return [
        p.name,
        _type(p.type),
        value,
        p.text,
        p.unit.symbol if p.unit else None,
        _basis(p.basis),
        p.why,
        p.place.file,
    ]


def _line(line: Line | None) -> list[Any] | None:
    return (
        None
        if line is None
        else [
            line.name,
            _compiled(line.formula),
            line.unit.symbol if line.unit else None,
            line.meaning,
        ]
    )


def _basis(basis: Basis) -> list[str]:
    return [basis.source.name, basis.clause, basis.confidence, basis.note]


def _compiled(compiled: Compiled | None) -> list[Any] | None:
    return (
        None
        if compiled is None
        else [compiled.text, _type(compiled.type), compiled.source, _uses(compiled.uses)]
    )


def _uses(uses: Uses) -> list[list[str]]:
    return [list(getattr(uses, name)) for name in Uses.__slots__]


def _type(kind: Type) -> list[Any]:
    match kind:
        case Numeric():
            return ["number", list(kind.dimension), kind.point, kind.is_zero]
        case Text():
            return ["text", None if kind.choices is None else list(kind.choices)]
        case Items():
            return ["items", _type(kind.of)]
        case Members():
            raise TypeError("no line and no parameter is a member of a list")
    return ["flag"]


# --- from data ----------------------------------------------------------------


class _Reader:
    def __init__(self, layout: Layout, sources: dict[str, Source]) -> None:
        self.layout = layout
        self.sources = sources

    def fill_rule(
        self, rule: Rule, applies: Any, subject: Any, parameters: Any, lines: Any, demand: Any,
        limit: Any, expect: Any, says: Any, danger: str, sheet: Any, adjust: Any, basis: Any,
        uses: Any, place: str, recalled: Any, probes: Any,
    ) -> None:  # fmt: skip
        """Give a kept rule its rest, in the order in which it was packed."""
        rule.applies, rule.subject = self.compiled(applies), self.compiled(subject)
        rule.parameters = self.parameters(parameters)
        rule.lines = tuple(self.line(x) for x in lines)
        rule.demand = self.line(demand) if demand else None
        rule.limit = self.line(limit) if limit else None
        rule.expect = tuple((Grade(g), self.formula(c)) for g, c in expect)
        rule.says, rule.danger, rule.adjust = says, danger, adjust
        rule.sheet = tuple(
            SheetLine(part, line, order, self.compiled(c), sums)
            for part, line, order, c, sums in sheet
        )
        rule.basis = tuple(self.basis(b) for b in basis)
        rule.cases, rule.uses, rule.place = (), _uses_from(uses), Place(place)
        rule.recalled = tuple(Recalled(*r) for r in recalled)
        rule.probes = tuple(Probe(*p) for p in probes)

    def fill_derived(
        self, derived: Derived, title: str, parameters: Any, lines: Any, result: Any, basis: Any,
        uses: Any, place: str, recalled: Any, probes: Any,
    ) -> None:  # fmt: skip
        """Give a kept derived value its rest, in the order in which it was packed."""
        derived.title, derived.parameters = title, self.parameters(parameters)
        derived.lines = tuple(self.line(x) for x in lines)
        derived.result = self.line(result)
        derived.basis = tuple(self.basis(b) for b in basis)
        derived.uses, derived.place = _uses_from(uses), Place(place)
        derived.recalled = tuple(Recalled(*r) for r in recalled)
        derived.probes = tuple(Probe(*p) for p in probes)

    def each(self, entry: tuple[str, str] | None) -> Each | None:
        if entry is None:
            return None
        field = self.layout.leaf(entry[1])
        if field is None or field.item is None:
            raise KeyError(entry[1])
        return Each(entry[0], field, field.item)

    def parameters(self, entries: list[Any]) -> dict[str, Parameter]:
        found = {}
        for name, kind, value, text, unit, basis, why, place in entries:
            si = tuple(value) if isinstance(value, list) else value
            found[name] = Parameter(
                name, _type_from(kind), si, text, _unit(unit), self.basis(basis), why, Place(place)
            )
        return found

    def line(self, entry: list[Any]) -> Line:
        return Line(entry[0], self.formula(entry[1]), _unit(entry[2]), entry[3])

    def basis(self, entry: list[str]) -> Basis:
        return Basis(self.sources[entry[0]], entry[1], entry[2], entry[3])

    def compiled(self, entry: list[Any] | None) -> Compiled | None:
        return None if entry is None else self.formula(entry)

    def formula(self, entry: list[Any]) -> Compiled:
        return Compiled(entry[0], _type_from(entry[1]), entry[2], _uses_from(entry[3]))


def _uses_from(entry: list[list[str]]) -> Uses:
    return Uses(*(dict.fromkeys(names) for names in entry))


def _unit(symbol: str | None) -> Unit | None:
    return None if symbol is None else units.need(symbol)


def _type_from(entry: list[Any]) -> Type:
    match entry:
        case ["number", dimension, point, is_zero]:
            return Numeric(tuple(dimension), point, is_zero)
        case ["text", choices]:
            return Text(None if choices is None else tuple(choices))
        case ["items", of]:
            inner = _type_from(of)
            if isinstance(inner, (Numeric, Text)):
                return Items(inner)
    return FLAG
