"""A page for a rule, a shared value or a table, and an index of them all: no network, no script.

Alone a rule's page holds all that it rests on. In a folder of pages the shared values and
tables have pages of their own as well, which say what uses them.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from markupsafe import Markup, escape

import checker
from checker.formulas.functions import engineering_names
from checker.grades import Grade
from checker.installation.fields import Field
from checker.output.templating import fill
from checker.reporting.fitting_sheet import PARTS
from checker.rulebook.model import Basis, Case, Derived, Line, Parameter, Rule, Rulebook, Table
from checker.rulebook.register import Entry, function_entry, register

__all__ = ["INDEX", "pages", "render_rule_page"]

INDEX = "index.html"
# A table of more rows than this stands on its own page only, where there is one.
_SMALL = 40
_LINKED = re.compile(r"\b(?:(derived\.\w+)|(table\.\w+)(?=\.)|([a-z_0-9]+)(?=\())")
_PIECES = re.compile(r"[^._(]*[._(]|[^._(]+")
_BETWEEN = {
    "interpolate": "straight lines between two rows",
    "next-higher": "the next higher row between two rows",
    "next-lower": "the next lower row between two rows",
    "exact": "exact",
}


class _Shown(NamedTuple):
    """A parameter as a page shows it."""

    name: str
    anchor: str
    text: str
    why: str
    basis: Basis


class _Cell(NamedTuple):
    text: str
    doubt: str


@dataclass(frozen=True, slots=True)
class _Links:
    """Where other pages are, seen from one page; nowhere for a page that stands alone."""

    here: str
    alone: bool

    def to(self, page: str) -> str:
        return "" if self.alone else posixpath.relpath(page, posixpath.dirname(self.here) or ".")


def render_rule_page(rule: Rule, rulebook: Rulebook) -> str:
    """One rule's page with everything it rests on, the same bytes for the same rulebook."""
    return _rule_page(rule, rulebook, _Links("", alone=True))


def pages(rulebook: Rulebook) -> Iterator[tuple[str, str]]:
    """Every page of the rulebook as (path, content): the index first."""
    entries = register(rulebook)
    yield INDEX, _index(rulebook, entries)
    for rule in rulebook.rules:
        path = _page_of(rule.name)
        yield path, _rule_page(rule, rulebook, _Links(path, alone=False))
    users = {e.rule: e.used_by for e in entries if e.kind in ("derived", "table")}
    for derived in rulebook.order:
        name = f"derived.{derived.name}"
        yield _page_of(name), _derived_page(derived, rulebook, users.get(name, ()))
    for table in rulebook.tables.values():
        name = f"table.{table.name}"
        yield _page_of(name), _table_page(table, rulebook, users.get(name, ()))


def _page_of(name: str) -> str:
    """The page of a rule, of ``derived.NAME`` or of ``table.NAME``."""
    for prefix, folder in (("derived.", "derived"), ("table.", "tables")):
        if name.startswith(prefix):
            return f"{folder}/{name.removeprefix(prefix)}.html"
    return f"{name}.html"


def _page(template: str, kind: str, heading: str, rulebook: Rulebook, links: _Links, **values: Any) -> str:  # fmt: skip
    return fill(
        template, kind=kind, heading=heading, index=links.to(INDEX), tool=checker.__version__,
        digest=rulebook.digest, overlays=rulebook.overlays, **values,
    )  # fmt: skip


# --- pages ----------------------------------------------------------------------


def _rule_page(rule: Rule, rulebook: Rulebook, links: _Links) -> str:
    behind = [rulebook.order[i] for i in rule.derived]
    uses = [rule.uses, *(d.uses for d in behind)]
    tables = list(dict.fromkeys(path.split(".")[0] for u in uses for path in u.tables))
    called = dict.fromkeys(name for u in uses for name in u.functions)
    # One that was read may call one that was not: that one stands there too.
    owners: tuple[Rule | Derived, ...] = (rule, *behind)
    called |= dict.fromkeys(found.name for owner in owners for found in owner.recalled)
    functions = [e for e in (_function_entry(name) for name in called) if e is not None]
    known = {
        *(f"derived.{d.name}" for d in behind),
        *(f"table.{name}" for name in tables),
        *(f"function.{f['name']}" for f in functions),
    }
    example, cases = _cases(rule)
    return _page(
        "rule.html.jinja", "Rule", rule.title, rulebook, links,
        rule=rule,
        family=rulebook.families.get(rule.family, rule.family),
        each=None if rule.each is None else f"{rule.each.variable} in {rule.each.field.path}",
        subject=None if rule.subject is None else _linked(rule.subject.text, known),
        applies=None if rule.applies is None else _linked(rule.applies.text, known),
        parameters=_parameters(rule.parameters, "p."),
        lines=[_line(x, known) for x in rule.lines],
        demand=None if rule.demand is None else _linked(rule.demand.formula.text, known),
        limit=None if rule.limit is None else _linked(rule.limit.formula.text, known),
        grades=list(_grades(rule, known)),
        derived=[_derived(d, known, links) for d in behind],
        tables=[_table(rulebook.tables[name], links, whole=False) for name in tables],
        functions=functions,
        fields=[x for x in (_described(path, rulebook) for path in rule.fields) if x],
        adjust=rule.adjust,
        sheet=[(PARTS[s.part], _sentence(s.line)) for s in rule.sheet],
        example=example,
        cases=cases,
    )  # fmt: skip


def _derived_page(derived: Derived, rulebook: Rulebook, users: tuple[str, ...]) -> str:
    name = f"derived.{derived.name}"
    links = _Links(_page_of(name), alone=False)
    beneath = [
        *(f"derived.{n}" for n in derived.uses.derived),
        *dict.fromkeys(f"table.{path.split('.')[0]}" for path in derived.uses.tables),
    ]
    return _page(
        "rule_shared.html.jinja", "Shared value", derived.title, rulebook, links,
        name=name, changes=derived.changes, derived=_derived(derived, set(), links), table=None,
        beneath=[_named(n, rulebook, links) for n in beneath],
        users=[_named(n, rulebook, links) for n in users],
    )  # fmt: skip


def _table_page(table: Table, rulebook: Rulebook, users: tuple[str, ...]) -> str:
    name = f"table.{table.name}"
    links = _Links(_page_of(name), alone=False)
    return _page(
        "rule_shared.html.jinja", "Table", table.title, rulebook, links,
        name=name, changes=(), derived=None, table=_table(table, links, whole=True), beneath=[],
        users=[_named(n, rulebook, links) for n in users],
    )  # fmt: skip


def _index(rulebook: Rulebook, entries: Iterable[Entry]) -> str:
    remembered = {f"derived.{d.name}" for d in rulebook.order if d.recalled}
    for entry in entries:
        if entry.confidence == "from-memory" and entry.kind != "cell":
            remembered |= {entry.rule, *entry.used_by}
    families: dict[str, list[dict[str, Any]]] = {}
    for rule in rulebook.rules:
        families.setdefault(rule.family, []).append(
            _entry(rule.name, rule.title, remembered) | {"off": bool(rule.switched_off)}
        )
    return _page(
        "rule_index.html.jinja", "Rulebook", "Rules, shared values and tables", rulebook, _Links(INDEX, alone=True),
        count=len(rulebook.rules),
        families=[(f, rulebook.families.get(f, f), found) for f, found in families.items()],
        derived=[_entry(f"derived.{d.name}", d.title, remembered) for d in rulebook.order],
        tables=[_entry(f"table.{t.name}", t.title, remembered) for t in rulebook.tables.values()],
    )  # fmt: skip


# --- parts of a page ------------------------------------------------------------


def _entry(name: str, title: str, remembered: set[str]) -> dict[str, Any]:
    return {"name": name, "title": title, "page": _page_of(name), "star": name in remembered}


def _named(name: str, rulebook: Rulebook, links: _Links) -> tuple[str, str, str]:
    if name.startswith("derived."):
        title = rulebook.derived[name.removeprefix("derived.")].title
    elif name.startswith("table."):
        title = rulebook.tables[name.removeprefix("table.")].title
    else:
        title = rulebook.named(name).title
    return name, title, links.to(_page_of(name))


def _linked(formula: str, known: set[str]) -> Markup:
    """A formula as written, each shared value, table and function linked to where it stands."""
    out, at = Markup(), 0
    for found in _LINKED.finditer(formula):
        name = found[1] or found[2] or f"function.{found[3]}"
        if name in known:
            link = Markup('<a href="#{}">{}</a>').format(name, _breakable(found[0]))
            out += _breakable(formula[at : found.start()]) + link
            at = found.end()
    return out + _breakable(formula[at:])


def _breakable(text: str) -> Markup:
    """A piece of a formula that may break where a name or an argument ends, and not within."""
    return Markup("<wbr>").join(escape(part) for part in _PIECES.findall(text))


def _sentence(text: str) -> Markup:
    """A sentence whose {names} stand out."""
    parts = re.split(r"(\{[^{}]*\})", " ".join(text.split()))
    return Markup().join(
        Markup("<code>{}</code>").format(part) if i % 2 else part for i, part in enumerate(parts)
    )


def _grades(rule: Rule, known: set[str]) -> Iterator[tuple[Grade, Markup | None, Markup]]:
    for grade, condition in rule.expect:
        yield grade, _linked(condition.text, known), _sentence(rule.says[grade.word])
    for grade in (Grade.CONFIRM, Grade.MET, Grade.NOT_APPLICABLE):
        if grade.word in rule.says and all(grade is not g for g, _ in rule.expect):
            yield grade, None, _sentence(rule.says[grade.word])


def _parameters(of: Mapping[str, Parameter], prefix: str) -> list[_Shown]:
    return [_Shown(p.name, f"{prefix}{p.name}", p.text, p.why, p.basis) for p in of.values()]


def _line(line: Line, known: set[str]) -> dict[str, Any]:
    unit = "" if line.unit is None else line.unit.shown or "plain number"
    return {
        "name": line.name, "unit": unit, "meaning": line.meaning,
        "formula": _linked(line.formula.text, known),
    }  # fmt: skip


def _derived(derived: Derived, known: set[str], links: _Links) -> dict[str, Any]:
    name = f"derived.{derived.name}"
    result = Line(name, derived.result.formula, derived.result.unit)
    return {
        "name": derived.name, "title": derived.title, "page": links.to(_page_of(name)),
        "parameters": _parameters(derived.parameters, f"p.{derived.name}."),
        "lines": [_line(x, known) for x in (*derived.lines, result)], "bases": derived.basis,
    }  # fmt: skip


def _table(table: Table, links: _Links, *, whole: bool) -> dict[str, Any]:
    keys = len(table.keys)
    doubts = {(d.row, d.column): d.confidence for d in table.doubtful}
    names = [head.name for head in table.heads]
    between = "; ".join(
        f"{head.name}: {_BETWEEN[head.between]}" for head in table.heads[:keys] if head.between
    )
    return {
        "name": table.name, "title": table.title, "note": table.note, "key_count": keys, "between": between,
        "page": links.to(_page_of(f"table.{table.name}")),
        "bases": [table.basis[""]], "column_bases": [(n, b) for n, b in table.basis.items() if n],
        "heads": [
            {"name": h.name, "unit": h.unit.shown if h.unit else "", "meaning": h.meaning}
            for h in table.heads
        ],
        "rows": [
            [
                _Cell("" if cell is None else str(cell), doubts.get((row[:keys], names[i]), ""))
                for i, cell in enumerate(row)
            ]
            for row in table.rows
        ],
        "whole": whole or links.alone or len(table.rows) <= _SMALL,
    }  # fmt: skip


def _function_entry(name: str) -> dict[str, str] | None:
    if name not in engineering_names():
        return None
    entry = function_entry(name)
    return {
        "name": name,
        "does": entry.value,
        "source": entry.title,
        "confidence": entry.confidence,
    }


def _described(path: str, rulebook: Rulebook) -> dict[str, str] | None:
    layout, rest, description = rulebook.layout, path, ""
    while rest:
        head, listed, tail = rest.partition("[].")
        found = layout.by_path.get(head)
        if not isinstance(found, Field):
            return {"path": path, "description": found.description} if found is not None else None
        description = found.description
        if not listed or found.item is None:
            break
        layout, rest = found.item, tail
    return {"path": path, "description": description}


def _cases(rule: Rule) -> tuple[str, list[dict[str, Any]]]:
    example, cases = "", []
    for case in rule.cases:
        file, index = case.given
        example = _yaml(file.data.get("example", {}))
        given = file.data["cases"][index].get("given") or {}
        cases.append(
            _case(case) | {"given": "; ".join(f"{k}: {_flow(v)}" for k, v in given.items())}
        )
    return example, cases


def _case(case: Case) -> dict[str, Any]:
    return {
        "name": case.name, "grade": case.grade, "demand": case.demand, "limit": case.limit,
        "boundary": case.boundary,
    }  # fmt: skip


def _yaml(value: Any, indent: int = 0) -> str:
    """Plain data as a reader of the rule's file saw it, near enough: for eyes only."""
    pad = "  " * indent
    out = []
    for key, inner in value.items():
        if isinstance(inner, dict):
            out += [f"{pad}{key}:", _yaml(inner, indent + 1)]
        elif isinstance(inner, list) and any(isinstance(x, dict) for x in inner):
            out += [f"{pad}{key}:", *(f"{pad}  - {_flow(x)}" for x in inner)]
        else:
            out.append(f"{pad}{key}: {_flow(inner)}")
    return "\n".join(out)


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k}: {_flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    if isinstance(value, bool):
        return str(value).lower()
    return "taken away" if value is None else str(value)
