"""A rulebook loaded once, and the judgement of one wrong version of one of its files.

A wrong rule is compiled alone against the names that the loaded rulebook has; a wrong
derived value or table takes its place in a copy of the book, and the rules that rest on
it are asked. No file is read again.
"""

from __future__ import annotations

import copy
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from reachable import equality
from rule_mutants import Mutant, derived_mutants, rule_mutants, table_mutants

from checker.checking.outcomes import check
from checker.errors import Mistakes
from checker.formulas.scope import DerivedName, Scope, look_up_name
from checker.grades import Grade
from checker.installation.binding import bind_node
from checker.installation.fields import Layout
from checker.installation.record import Installation
from checker.places import RULES
from checker.reading import read_yaml
from checker.rulebook.cases import case_installation, judge, only, run_cases
from checker.rulebook.files import File
from checker.rulebook.gathering import gather
from checker.rulebook.linking import source_of
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Case, Rule, Rulebook
from checker.rulebook.rules import build_derived, build_rule
from checker.rulebook.tables import build_table
from checker.units.quantities import NotAQuantity

__all__ = ["Bench", "Refused"]


class Refused(Exception):
    """The loader does not let this version in."""


@dataclass
class Expected:
    """What a whole description must come to: rules with the grade that they find, or no grave one."""

    installation: Installation
    finds: dict[str, Grade] = field(default_factory=dict)
    is_ready: bool = False


class Bench:
    """The loaded rulebook, its files, and every case as a bound installation."""

    def __init__(
        self,
        folders: Iterable[Path] = (),
        *,
        shipped: bool = True,
        layout: Layout | None = None,
        descriptions: Iterable[Path] = (),
    ) -> None:
        folders = list(folders)
        self.book = load_rulebook(folders, shipped=shipped, layout=layout)
        self.files = gather([*([RULES] if shipped else []), *folders])
        self.columns = {name: tuple(t.columns) for name, t in self.book.tables.items()}
        self.derived_data = {name: file.data for name, file in self.files.derived.items()}
        self._installations: dict[tuple[str, int], Installation] = {}
        self._complaints: dict[str, list[str]] = {}
        self.expected = [self._expectation(path) for path in descriptions]

    def _expectation(self, path: Path) -> Expected:
        """What a description must come to: what its head names, else nothing that holds it up."""
        data = path.read_bytes()
        node = read_yaml(data, path.name)
        installation = Installation(bind_node(node, self.book.layout, path.name), path.name, "")
        mark = "# finds: "
        lines = data.decode().splitlines()
        pairs = [line.removeprefix(mark).split() for line in lines if line.startswith(mark)]
        finds = {rule: Grade.of(grade) for rule, grade in pairs}
        return Expected(installation, finds, is_ready=not finds)

    # --- the wrong versions ------------------------------------------------------

    def mutants(self, owner: str) -> Iterator[Mutant]:
        """Every wrong version of a rule, ``derived.NAME`` or ``table.NAME``."""
        kind, _, name = owner.partition(".")
        if not self._resting_on(owner):
            return
        if kind == "table":
            yield from table_mutants(owner, self.files.tables[name].data)
            return
        if kind == "derived":
            data = self.files.derived[name].data
            yield from derived_mutants(owner, data, self.columns, equality(data, self.derived_data))
            return
        data = self.files.rules[owner].data
        yield from rule_mutants(owner, data, self.columns, equality(data, self.derived_data))

    def owners(self) -> list[str]:
        """The names of all that can be mutated."""
        return [
            *(rule.name for rule in self.book.rules),
            *(f"derived.{name}" for name in self.book.derived),
            *(f"table.{name}" for name in self.book.tables),
        ]

    def idle(self) -> list[str]:
        """Derived values and tables that no rule rests on: nothing can notice that they are wrong."""
        return [owner for owner in self.owners() if not self._resting_on(owner)]

    # --- the judgement -----------------------------------------------------------

    def killed_by(self, mutant: Mutant) -> str:
        """The case or the description that shows a version to be wrong; empty if none does.

        Raises Refused where the loader does not let it in.
        """
        kind, _, name = mutant.owner.partition(".")
        try:
            if kind == "table":
                book, rules = self._with_table(name, mutant)
            elif kind == "derived":
                book, rules = self._with_derived(name, mutant)
            else:
                rule = self._rule(mutant)
                book, rules = copy.copy(self.book), [rule]
        except (Mistakes, NotAQuantity) as error:
            raise Refused(str(error)) from None
        for rule in rules:
            for case in rule.cases:
                result = judge(rule, case, book, self.installation(rule, case))
                if result.complaint:
                    return f"{rule.name}: {case.name}"
        for expected in self.expected:
            for rule in rules:
                if self._is_off(rule, book, expected):
                    return expected.installation.name
        return ""

    def unmutated_complaints(self, owner: str) -> list[str]:
        """What the cases say of a rule, or of those that rest on it, as they stand; nothing if all is well."""
        found = []
        for rule in self._resting_on(owner):
            if rule.name not in self._complaints:
                results = [r for r in run_cases(rule, self.book) if r.complaint]
                self._complaints[rule.name] = [
                    f"{rule.name}: {r.case.name}: {r.complaint}" for r in results
                ]
            found += self._complaints[rule.name]
        return found

    def _resting_on(self, owner: str) -> list[Rule]:
        """The rules whose cases can notice a change of a rule, a derived value or a table."""
        kind, _, name = owner.partition(".")
        if kind == "derived":
            index = self.book.derived[name].index
            return [r for r in self.book.rules if index in r.derived]
        if kind == "table":
            users = {d.index for d in self.book.order if _uses(d.uses.tables, name)}
            return [
                r for r in self.book.rules if _uses(r.uses.tables, name) or users & set(r.derived)
            ]
        return [r for r in self.book.rules if r.name == owner]

    def installation(self, rule: Rule, case: Case) -> Installation:
        """What a case describes, bound once."""
        key = (rule.name, case.given[1])
        if key not in self._installations:
            self._installations[key] = case_installation(case, self.book)
        return self._installations[key]

    def _is_off(self, rule: Rule, book: Rulebook, expected: Expected) -> bool:
        if not expected.is_ready and rule.name not in expected.finds:
            return False
        if self._meets(self.book.rule(rule.name), self.book, expected):
            return not self._meets(rule, book, expected)
        return False  # An overlay that the description names decides there.

    @staticmethod
    def _meets(rule: Rule | None, book: Rulebook, expected: Expected) -> bool:
        assert rule is not None
        grades = {o.grade for o in check(only(rule, book), expected.installation)}
        if expected.is_ready:
            return not grades & {Grade.STOP, Grade.CORRECT, Grade.CONFIRM}
        return expected.finds[rule.name] in grades

    def _scope(self, *, before: int | None = None) -> Scope:
        return Scope(
            self.book.layout,
            derived={
                name: DerivedName(d.index, d.result.formula.type)
                for name, d in self.book.derived.items()
                if before is None or d.index < before
            },
            tables={name: dict(t.columns) for name, t in self.book.tables.items()},
        )

    def _rule(self, mutant: Mutant) -> Rule:
        was = self.files.rules[mutant.owner]
        rule = build_rule(
            _file(was, mutant.data),
            mutant.owner,
            self._scope(),
            dict(self.book.sources),
            self.book.derived,
        )
        original = self.book.rule(mutant.owner)
        assert original is not None
        rule.cases = original.cases
        names = self._run(source_of([rule], ()), rule.uses.tables)
        rule.run, rule.lines_of = names["r0"], names["l0"]
        rule.test = names["a0"] if rule.applies is not None else None
        return rule

    def _with_derived(self, name: str, mutant: Mutant) -> tuple[Rulebook, list[Rule]]:
        original = self.book.derived[name]
        wrong = build_derived(
            _file(self.files.derived[name], mutant.data),
            name,
            original.index,
            self._scope(before=original.index),
            dict(self.book.sources),
            self.book.derived,
        )
        names = self._run(source_of((), [wrong]), wrong.uses.tables)
        wrong.run = names[f"d{wrong.index}"]
        book = copy.copy(self.book)
        book.order = tuple(wrong if d is original else d for d in self.book.order)
        return book, self._resting_on(f"derived.{name}")

    def _with_table(self, name: str, mutant: Mutant) -> tuple[Rulebook, list[Rule]]:
        table = build_table(
            _file(self.files.tables[name], mutant.data), name, dict(self.book.sources)
        )
        rules = self._resting_on(f"table.{name}")
        book = copy.copy(self.book)
        names = dict(self.book.names)
        for column, built in table.columns.items():
            names[look_up_name(name, column)] = built.look_up
        wrong_rules = [copy.copy(r) for r in rules]
        wrong_order = [copy.copy(d) for d in self.book.order]
        exec(compile(source_of(wrong_rules, wrong_order), "<mutant>", "exec"), names)
        for one in wrong_order:
            one.run = names[f"d{one.index}"]
        for i, rule in enumerate(wrong_rules):
            rule.run, rule.lines_of = names[f"r{i}"], names[f"l{i}"]
            rule.test = names[f"a{i}"] if rule.applies is not None else None
        book.order, book.names = tuple(wrong_order), names
        return book, wrong_rules

    def _run(self, code: str, tables: Iterable[str]) -> dict[str, Any]:
        names = self.book.names
        for path in tables:
            table, column = path.split(".")
            names.setdefault(
                look_up_name(table, column), self.book.tables[table].columns[column].look_up
            )
        own = dict(names)
        exec(compile(code, "<mutant>", "exec"), own)
        return own


def _uses(tables: Iterable[str], name: str) -> bool:
    return any(path.partition(".")[0] == name for path in tables)


def _file(was: File, data: dict[str, Any]) -> File:
    """The same file with other data; its places and its cases stay."""
    file = File.__new__(File)
    file.name, file.raw, file.node, file.data = was.name, was.raw, was.node, data
    return file
