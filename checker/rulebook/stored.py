"""A compiled rulebook as plain data and back: what need not be worked out a second time.

The data is JSON; the rules' own cases are left out, which only their tests need. Tables
are kept as their files said and built when first asked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from checker import units
from checker.errors import Place
from checker.formulas.scope import Compiled, Uses
from checker.formulas.types import FLAG, Items, Members, Numeric, Text, Type
from checker.grades import Grade
from checker.installation.fields import Layout
from checker.rulebook.files import File
from checker.rulebook.model import (
    Basis,
    Derived,
    Each,
    Line,
    Parameter,
    Rule,
    Rulebook,
    SheetLine,
    Source,
    Table,
)  # fmt: skip
from checker.rulebook.tables import build_table
from checker.units import Unit

__all__ = ["as_data", "from_data"]


def as_data(rulebook: Rulebook, tables: Mapping[str, File]) -> dict[str, Any]:
    """The rulebook as plain data; ``tables`` are the files of its tables."""
    return {
        "digest": rulebook.digest,
        "overlays": list(rulebook.overlays),
        "families": dict(rulebook.families),
        "sources": {
            k: [s.title, s.edition, s.publisher, s.note] for k, s in rulebook.sources.items()
        },
        "tables": {name: [tables[name].name, tables[name].data] for name in rulebook.tables},
        "derived": [_derived(d) for d in rulebook.order],
        "rules": [_rule(r) for r in rulebook.rules],
    }


def from_data(data: Mapping[str, Any], layout: Layout) -> Rulebook:
    """The rulebook that the data describes, not linked yet.

    Raises KeyError, TypeError, ValueError or IndexError where the data is not of this form.
    """
    sources = {k: Source(k, *s) for k, s in data["sources"].items()}
    reader = _Reader(layout, sources)
    order = tuple(reader.derived(d, i) for i, d in enumerate(data["derived"]))
    rules = tuple(reader.rule(r) for r in data["rules"])
    return Rulebook(
        layout, sources, _Tables(data["tables"], sources), {d.name: d for d in order}, rules,
        data["families"], data["digest"], tuple(data["overlays"]), order,
    )  # fmt: skip


class _Tables(Mapping[str, Table]):
    """Tables by name, each built from its file's data when first asked."""

    def __init__(self, entries: Mapping[str, Any], sources: dict[str, Source]) -> None:
        self.entries = entries
        self.sources = sources
        self.built: dict[str, Table] = {}

    def __getitem__(self, name: str) -> Table:
        if name not in self.built:
            shown, data = self.entries[name]
            self.built[name] = build_table(File.of_data(shown, data), name, self.sources)
        return self.built[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.entries)

    def __len__(self) -> int:
        return len(self.entries)


# --- to data ------------------------------------------------------------------


def _rule(rule: Rule) -> dict[str, Any]:
    return {
        "name": rule.name, "title": rule.title, "protects": rule.protects, "stages": list(rule.stages),
        "applies": _compiled(rule.applies), "subject": _compiled(rule.subject),
        "each": None if rule.each is None else [rule.each.variable, rule.each.field.path],
        "parameters": [_parameter(p) for p in rule.parameters.values()],
        "lines": [_line(x) for x in rule.lines], "demand": _line(rule.demand), "limit": _line(rule.limit),
        "expect": [[int(g), _compiled(c)] for g, c in rule.expect], "says": dict(rule.says), "danger": rule.danger,
        "sheet": [[s.part, s.line, s.order, _compiled(s.condition), list(s.sums)] for s in rule.sheet], "adjust": list(rule.adjust),
        "basis": [_basis(b) for b in rule.basis], "caution": rule.caution, "uses": _uses(rule.uses),
        "fields": list(rule.fields), "derived": list(rule.derived), "place": rule.place.file, "digest": rule.digest,
        "changes": list(rule.changes), "switched_off": rule.switched_off,
    }  # fmt: skip


def _derived(derived: Derived) -> dict[str, Any]:
    return {
        "name": derived.name, "title": derived.title, "parameters": [_parameter(p) for p in derived.parameters.values()],
        "lines": [_line(x) for x in derived.lines], "result": _line(derived.result),
        "basis": [_basis(b) for b in derived.basis], "uses": _uses(derived.uses), "place": derived.place.file,
        "order": list(derived.order), "changes": list(derived.changes),
    }  # fmt: skip


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

    def rule(self, d: dict[str, Any]) -> Rule:
        return Rule(
            d["name"], d["title"], d["protects"], tuple(d["stages"]), self.compiled(d["applies"]), self.each(d["each"]),
            self.compiled(d["subject"]), self.parameters(d["parameters"]), tuple(self.line(x) for x in d["lines"]),
            self.line(d["demand"]) if d["demand"] else None, self.line(d["limit"]) if d["limit"] else None,
            tuple((Grade(g), self.formula(c)) for g, c in d["expect"]), d["says"], d["danger"],
            tuple(SheetLine(part, line, order, self.compiled(c), tuple(sums)) for part, line, order, c, sums in d["sheet"]), tuple(d["adjust"]),
            tuple(self.basis(b) for b in d["basis"]), d["caution"], (), _uses_from(d["uses"]), tuple(d["fields"]),
            tuple(d["derived"]), Place(d["place"]), d["digest"], tuple(d["changes"]), d["switched_off"],
        )  # fmt: skip

    def derived(self, d: dict[str, Any], index: int) -> Derived:
        return Derived(
            d["name"], d["title"], index, self.parameters(d["parameters"]), tuple(self.line(x) for x in d["lines"]),
            self.line(d["result"]), tuple(self.basis(b) for b in d["basis"]), _uses_from(d["uses"]), Place(d["place"]),
            tuple(d["order"]), tuple(d["changes"]),
        )  # fmt: skip

    def each(self, entry: list[str] | None) -> Each | None:
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
