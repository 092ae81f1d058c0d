"""What the pages of a rulebook are made of: formulas with their links, tables, cases, in plain data."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from markupsafe import Markup, escape

from checker.formulas.functions import engineering_names
from checker.grades import Grade
from checker.installation.fields import Field
from checker.rulebook.model import Basis, Case, Derived, Line, Parameter, Rule, Rulebook, Table
from checker.rulebook.register import function_entry

__all__ = [
    "Links",
    "cases_shown",
    "derived_shown",
    "entry_shown",
    "field_shown",
    "function_shown",
    "grades_shown",
    "line_shown",
    "linked",
    "name_shown",
    "page_of",
    "parameters_shown",
    "sentence",
    "table_shown",
]

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
class Links:
    """Where other pages are, seen from one page; nowhere for a page that stands alone."""

    here: str
    alone: bool

    def to(self, page: str) -> str:
        """The address of a page, empty where there is none."""
        return "" if self.alone else posixpath.relpath(page, posixpath.dirname(self.here) or ".")


def page_of(name: str) -> str:
    """The page of a rule, of ``derived.NAME`` or of ``table.NAME``."""
    for prefix, folder in (("derived.", "derived"), ("table.", "tables")):
        if name.startswith(prefix):
            return f"{folder}/{name.removeprefix(prefix)}.html"
    return f"{name}.html"


def entry_shown(name: str, title: str, remembered: set[str]) -> dict[str, Any]:
    """A line of the index; with a star where something in it is remembered."""
    return {"name": name, "title": title, "page": page_of(name), "star": name in remembered}


def name_shown(name: str, rulebook: Rulebook, links: Links) -> tuple[str, str, str]:
    """A rule, shared value or table by its name: name, title, and where its page is."""
    if name.startswith("derived."):
        title = rulebook.derived[name.removeprefix("derived.")].title
    elif name.startswith("table."):
        title = rulebook.tables[name.removeprefix("table.")].title
    else:
        title = rulebook.named(name).title
    return name, title, links.to(page_of(name))


def linked(formula: str, known: set[str]) -> Markup:
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


def sentence(text: str) -> Markup:
    """A sentence whose {names} stand out."""
    parts = re.split(r"(\{[^{}]*\})", " ".join(text.split()))
    return Markup().join(
        Markup("<code>{}</code>").format(part) if i % 2 else part for i, part in enumerate(parts)
    )


def grades_shown(rule: Rule, known: set[str]) -> Iterator[tuple[Grade, Markup | None, Markup]]:
    """Each grade a rule can give, gravest first: the grade, what then does not hold, what is said."""
    for grade, condition in rule.expect:
        yield grade, linked(condition.text, known), sentence(rule.says[grade.word])
    for grade in (Grade.CONFIRM, Grade.MET, Grade.NOT_APPLICABLE):
        if grade.word in rule.says and all(grade is not g for g, _ in rule.expect):
            yield grade, None, sentence(rule.says[grade.word])


def parameters_shown(of: Mapping[str, Parameter], prefix: str) -> list[_Shown]:
    """The parameters of a rule or a shared value, each with its place on the page."""
    return [_Shown(p.name, f"{prefix}{p.name}", p.text, p.why, p.basis) for p in of.values()]


def line_shown(line: Line, known: set[str]) -> dict[str, Any]:
    """A line of the working, its formula linked."""
    unit = "" if line.unit is None else line.unit.shown or "plain number"
    return {
        "name": line.name, "unit": unit, "meaning": line.meaning,
        "formula": linked(line.formula.text, known),
    }  # fmt: skip


def derived_shown(derived: Derived, known: set[str], links: Links) -> dict[str, Any]:
    """A shared value with its parameters and lines."""
    name = f"derived.{derived.name}"
    result = Line(name, derived.result.formula, derived.result.unit)
    return {
        "name": derived.name, "title": derived.title, "page": links.to(page_of(name)),
        "parameters": parameters_shown(derived.parameters, f"p.{derived.name}."),
        "lines": [line_shown(x, known) for x in (*derived.lines, result)], "bases": derived.basis,
    }  # fmt: skip


def table_shown(table: Table, links: Links, *, whole: bool) -> dict[str, Any]:
    """A table with its rows, or without them where it is large and has a page of its own."""
    keys = len(table.keys)
    doubts = {(d.row, d.column): d.confidence for d in table.doubtful}
    names = [head.name for head in table.heads]
    between = "; ".join(
        f"{head.name}: {_BETWEEN[head.between]}" for head in table.heads[:keys] if head.between
    )
    return {
        "name": table.name, "title": table.title, "note": table.note, "key_count": keys, "between": between,
        "page": links.to(page_of(f"table.{table.name}")),
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


def function_shown(name: str) -> dict[str, str] | None:
    """A function with its source; None for what the language itself brings."""
    if name not in engineering_names():
        return None
    entry = function_entry(name)
    return {
        "name": name,
        "does": entry.value,
        "source": entry.title,
        "confidence": entry.confidence,
    }


def field_shown(path: str, rulebook: Rulebook) -> dict[str, str] | None:
    """A field of the description and what it is; None for a path that leads nowhere."""
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


def cases_shown(rule: Rule) -> tuple[str, list[dict[str, Any]]]:
    """A rule's example and its cases: what each changes in it, and what comes of that."""
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
