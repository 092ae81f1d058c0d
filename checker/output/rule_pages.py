"""A page for a rule, a shared value or a table, and an index of them all: no network, no script.

Alone a rule's page holds all that it rests on. In a folder of pages the shared values and
tables have pages of their own as well, which say what uses them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

import checker
from checker.output.rule_page_parts import (
    Links,
    cases_shown,
    derived_shown,
    entry_shown,
    field_shown,
    function_shown,
    grades_shown,
    line_shown,
    linked,
    name_shown,
    page_of,
    parameters_shown,
    sentence,
    table_shown,
)
from checker.output.templating import fill
from checker.reporting.fitting_sheet import PARTS
from checker.rulebook.model import Derived, Rule, Rulebook, Table
from checker.rulebook.register import Entry, register

__all__ = ["INDEX", "pages", "render_rule_page"]

INDEX = "index.html"


def render_rule_page(rule: Rule, rulebook: Rulebook) -> str:
    """One rule's page with everything it rests on, the same bytes for the same rulebook."""
    return _rule_page(rule, rulebook, Links("", alone=True))


def pages(rulebook: Rulebook) -> Iterator[tuple[str, str]]:
    """Every page of the rulebook as (path, content): the index first."""
    entries = register(rulebook)
    yield INDEX, _index(rulebook, entries)
    for rule in rulebook.rules:
        path = page_of(rule.name)
        yield path, _rule_page(rule, rulebook, Links(path, alone=False))
    users = {e.rule: e.used_by for e in entries if e.kind in ("derived", "table")}
    for derived in rulebook.order:
        name = f"derived.{derived.name}"
        yield page_of(name), _derived_page(derived, rulebook, users.get(name, ()))
    for table in rulebook.tables.values():
        name = f"table.{table.name}"
        yield page_of(name), _table_page(table, rulebook, users.get(name, ()))


def _page(template: str, kind: str, heading: str, rulebook: Rulebook, links: Links, **values: Any) -> str:  # fmt: skip
    return fill(
        template, kind=kind, heading=heading, index=links.to(INDEX), tool=checker.__version__,
        digest=rulebook.digest, overlays=rulebook.overlays, **values,
    )  # fmt: skip


def _rule_page(rule: Rule, rulebook: Rulebook, links: Links) -> str:
    behind = [rulebook.order[i] for i in rule.derived]
    uses = [rule.uses, *(d.uses for d in behind)]
    tables = list(dict.fromkeys(path.split(".")[0] for u in uses for path in u.tables))
    called = dict.fromkeys(name for u in uses for name in u.functions)
    # One that was read may call one that was not: that one stands there too.
    owners: tuple[Rule | Derived, ...] = (rule, *behind)
    called |= dict.fromkeys(found.name for owner in owners for found in owner.recalled)
    functions = [e for e in (function_shown(name) for name in called) if e is not None]
    known = {
        *(f"derived.{d.name}" for d in behind),
        *(f"table.{name}" for name in tables),
        *(f"function.{f['name']}" for f in functions),
    }
    example, cases = cases_shown(rule)
    return _page(
        "rule.html.jinja", "Rule", rule.title, rulebook, links,
        rule=rule,
        family=rulebook.families.get(rule.family, rule.family),
        each=None if rule.each is None else f"{rule.each.variable} in {rule.each.field.path}",
        subject=None if rule.subject is None else linked(rule.subject.text, known),
        applies=None if rule.applies is None else linked(rule.applies.text, known),
        parameters=parameters_shown(rule.parameters, "p."),
        lines=[line_shown(x, known) for x in rule.lines],
        demand=None if rule.demand is None else linked(rule.demand.formula.text, known),
        limit=None if rule.limit is None else linked(rule.limit.formula.text, known),
        grades=list(grades_shown(rule, known)),
        derived=[derived_shown(d, known, links) for d in behind],
        tables=[table_shown(rulebook.tables[name], links, whole=False) for name in tables],
        functions=functions,
        fields=[x for x in (field_shown(path, rulebook) for path in rule.fields) if x],
        adjust=rule.adjust,
        sheet=[(PARTS[s.part], sentence(s.line)) for s in rule.sheet],
        example=example,
        cases=cases,
    )  # fmt: skip


def _derived_page(derived: Derived, rulebook: Rulebook, users: tuple[str, ...]) -> str:
    name = f"derived.{derived.name}"
    links = Links(page_of(name), alone=False)
    beneath = [
        *(f"derived.{n}" for n in derived.uses.derived),
        *dict.fromkeys(f"table.{path.split('.')[0]}" for path in derived.uses.tables),
    ]
    return _page(
        "rule_shared.html.jinja", "Shared value", derived.title, rulebook, links,
        name=name, changes=derived.changes, derived=derived_shown(derived, set(), links), table=None,
        beneath=[name_shown(n, rulebook, links) for n in beneath],
        users=[name_shown(n, rulebook, links) for n in users],
    )  # fmt: skip


def _table_page(table: Table, rulebook: Rulebook, users: tuple[str, ...]) -> str:
    name = f"table.{table.name}"
    links = Links(page_of(name), alone=False)
    return _page(
        "rule_shared.html.jinja", "Table", table.title, rulebook, links,
        name=name, changes=(), derived=None, table=table_shown(table, links, whole=True), beneath=[],
        users=[name_shown(n, rulebook, links) for n in users],
    )  # fmt: skip


def _index(rulebook: Rulebook, entries: Iterable[Entry]) -> str:
    remembered = {f"derived.{d.name}" for d in rulebook.order if d.recalled}
    for entry in entries:
        if entry.confidence == "from-memory" and entry.kind != "cell":
            remembered |= {entry.rule, *entry.used_by}
    families: dict[str, list[dict[str, Any]]] = {}
    for rule in rulebook.rules:
        families.setdefault(rule.family, []).append(
            entry_shown(rule.name, rule.title, remembered) | {"off": bool(rule.switched_off)}
        )
    return _page(
        "rule_index.html.jinja", "Rulebook", "Rules, shared values and tables", rulebook, Links(INDEX, alone=True),
        count=len(rulebook.rules),
        families=[(f, rulebook.families.get(f, f), found) for f, found in families.items()],
        derived=[entry_shown(f"derived.{d.name}", d.title, remembered) for d in rulebook.order],
        tables=[entry_shown(f"table.{t.name}", t.title, remembered) for t in rulebook.tables.values()],
    )  # fmt: skip
