"""All formulas of a rulebook as one Python module, and its functions put in their places.

The source is put together from checked formulas only; no text of a file reaches it but
through the walk that checked its dimension.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import CodeType
from typing import Any, NamedTuple

from checker.formulas.functions import engineering_names
from checker.formulas.running import surroundings
from checker.formulas.scope import Compiled, Uses
from checker.grades import Grade
from checker.rulebook.model import Derived, Line, Rule, Rulebook, Table

__all__ = ["Needs", "link", "needs_of", "source_of"]


class Needs(NamedTuple):
    """What a rulebook's formulas call: functions with their modules, columns of tables."""

    functions: dict[str, str]
    columns: tuple[str, ...]


def source_of(rules: Iterable[Rule], derived: Iterable[Derived]) -> str:
    """The source of a module with every function of the rulebook.

    ``dN(S, D)`` gives the derived value of slot N; ``rN`` a rule's grade, demand and limit,
    ``aN`` whether it applies, ``lN`` the values of its lines, each of ``(S, D[, member])``.
    """
    out: list[str] = []
    for one in derived:
        out += [
            f"def d{one.index}(S, D):",
            *_assign(one.lines),
            f"    return {one.result.formula.source}",
        ]
    for i, rule in enumerate(rules):
        head = f"(S, D, m_{rule.each.variable}):" if rule.each else "(S, D):"
        lines = [*rule.lines, *(x for x in (rule.demand, rule.limit) if x is not None)]
        out += [f"def r{i}{head}", *_assign(lines), *_grade(rule)]
        if rule.applies is not None:
            out += [f"def a{i}{head}", f"    return {rule.applies.source}"]
        names = "".join(f"v_{line.name}, " for line in lines)
        out += [f"def l{i}{head}", *_assign(lines), f"    return ({names})"]
    return "\n".join(out) + "\n"


def needs_of(rulebook: Rulebook) -> Needs:
    """What all formulas of a rulebook call."""
    uses = Uses()
    for used in (*(d.uses for d in rulebook.order), *(r.uses for r in rulebook.rules)):
        uses.add(used)
    modules = engineering_names() if uses.functions else {}
    return Needs({name: modules[name] for name in uses.functions}, tuple(uses.tables))


def link(rulebook: Rulebook, code: CodeType, needs: Needs) -> None:
    """Run the module's code and give every rule and derived value its functions."""
    look_ups = {path: _LookUp(path, rulebook.tables) for path in needs.columns}
    names = surroundings(needs.functions, look_ups, needs.functions)
    exec(code, names)  # noqa: S102 - see the head of this module
    for one in rulebook.order:
        one.run = names[f"d{one.index}"]
    for i, rule in enumerate(rulebook.rules):
        rule.run, rule.lines_of = names[f"r{i}"], names[f"l{i}"]
        rule.test = names.get(f"a{i}")
    rulebook.names = names


class _LookUp:
    """A column's look-up, found in its table when it is first asked."""

    __slots__ = ("call", "path", "tables")

    def __init__(self, path: str, tables: Mapping[str, Table]) -> None:
        self.path = path
        self.tables = tables
        self.call: Any = None

    def __call__(self, *given: Any) -> Any:
        if self.call is None:
            table, column = self.path.split(".")
            self.call = self.tables[table].columns[column].look_up
        return self.call(*given)


def _assign(lines: Iterable[Line]) -> list[str]:
    return [f"    v_{line.name} = {line.formula.source}" for line in lines]


def _grade(rule: Rule) -> list[str]:
    body = []
    for i, (grade, condition) in enumerate(rule.expect):
        body.append(f"    {'if' if i == 0 else 'elif'} not {_source(condition)}: g = {int(grade)}")
    body.append(f"    else: g = {int(Grade.MET)}")
    sides = [f"v_{x.name}" if x is not None else "None" for x in (rule.demand, rule.limit)]
    return [*body, f"    return g, {sides[0]}, {sides[1]}"]


def _source(condition: Compiled) -> str:
    return condition.source
