"""A rule's file, checked and compiled into one function over slots."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping

from checker.errors import Mistakes, near
from checker.formulas.scope import Compiled, Scope, Uses
from checker.formulas.types import Flag, Numeric, Text, say
from checker.grades import Grade
from checker.rulebook.files import File
from checker.rulebook.function_sources import recalled
from checker.rulebook.model import (
    Case,
    Derived,
    Each,
    Line,
    Parameter,
    Rule,
    SheetLine,
    Source,
)
from checker.rulebook.parts import bases_from, formula_from, line_from, lines_from, parameters_from
from checker.rulebook.soundness import PLACEHOLDER, check_soundness

__all__ = ["build_derived", "build_rule", "run_order"]

_EACH = re.compile(r"([a-z][a-z_0-9]*) in ([a-z][a-z_0-9.]*)")
_ORDER = (Grade.STOP, Grade.CORRECT, Grade.CONFIRM, Grade.ADVISE)


def build_derived(
    file: File,
    name: str,
    index: int,
    scope: Scope,
    sources: dict[str, Source],
    derived: Mapping[str, Derived],
    changed: Mapping[str, Parameter] | None = None,
) -> Derived:
    """A derived value from its file, with the parameters an overlay changed. Raises Mistakes."""
    parameters = parameters_from(file, sources, scope)
    parameters.update(changed or {})
    scope.parameters = {p.name: (p.type, p.value) for p in parameters.values()}
    lines = lines_from(file, scope)
    formula = formula_from(file, scope, "result", "formula")
    unit = file.data["result"].get("unit")
    result = line_from(
        file,
        name,
        formula,
        ("result", "unit") if unit is not None else ("result",),
        None if unit is None else str(unit),
    )
    uses = Uses()
    for line in (*lines, result):
        uses.add(line.formula.uses)
    return Derived(
        name,
        file.data["title"],
        index,
        parameters,
        lines,
        result,
        bases_from(file, sources),
        uses,
        file.place(),
        run_order(uses, derived),
        recalled(uses.functions),
    )


def build_rule(
    file: File,
    name: str,
    scope: Scope,
    sources: dict[str, Source],
    derived: Mapping[str, Derived],
    changed: Mapping[str, Parameter] | None = None,
) -> Rule:
    """A rule from its file, with the parameters an overlay changed. Raises Mistakes."""
    data = file.data
    each = _each(file, scope)
    parameters = parameters_from(file, sources, scope)
    parameters.update(changed or {})
    scope.parameters = {p.name: (p.type, p.value) for p in parameters.values()}
    applies = _condition(file, scope, "applies") if "applies" in data else None
    subject = None
    if "subject" in data:
        subject = formula_from(file, scope, "subject")
        if not isinstance(subject.type, Text):
            raise Mistakes(
                [file.mistake("'subject' must be a text", "subject", found=say(subject.type))]
            )
    lines = lines_from(file, scope)
    demand, limit = _compare(file, scope, lines)
    expect = tuple(
        (grade, _condition(file, scope, "expect", grade.word))
        for grade in _ORDER
        if grade.word in data["expect"]
    )
    sheet = _sheet(file, scope)
    uses = Uses()
    for compiled in (
        *([applies] if applies else []),
        *([subject] if subject else []),
        *(line.formula for line in lines),
        *(x.formula for x in (demand, limit) if x),
        *(c for _, c in expect),
        *(line.condition for line in sheet if line.condition is not None),
    ):
        uses.add(compiled.uses)
    rule = Rule(
        name, data["title"], data["protects"], tuple(data.get("stages", ("plan", "fitted"))), applies, each, subject,
        parameters, lines, demand, limit, expect, data["says"], data.get("danger", ""), sheet, tuple(data.get("adjust", ())),
        bases_from(file, sources), data["caution"], (), uses, _all_fields(uses, derived), run_order(_shown([*data["says"].values(), *(s.line for s in sheet)], uses, derived), derived), file.place(),
        hashlib.sha256(file.raw + repr(sorted((p.name, p.text) for p in parameters.values())).encode()).hexdigest(),
    )  # fmt: skip
    rule.recalled = recalled(uses.functions)
    check_soundness(file, rule, scope, derived)
    rule.cases = _cases(file)
    return rule


def _sheet(file: File, scope: Scope) -> tuple[SheetLine, ...]:
    found = []
    for i, entry in enumerate(file.data.get("sheet", ())):
        condition = _condition(file, scope, "sheet", i, "if") if "if" in entry else None
        sums = tuple(entry.get("sum", ()))
        found.append(
            SheetLine(entry["part"], entry["line"], entry.get("order", 50), condition, sums)
        )
    return tuple(found)


def run_order(uses: Uses, derived: Mapping[str, Derived]) -> tuple[int, ...]:
    """The derived values that a formula needs, each behind those it needs itself."""
    order: dict[int, None] = {}

    def visit(name: str) -> None:
        one = derived[name]
        for inner in one.uses.derived:
            visit(inner)
        order[one.index] = None

    for name in uses.derived:
        visit(name)
    return tuple(order)


def _shown(texts: Iterable[str], uses: Uses, derived: Mapping[str, Derived]) -> Uses:
    """What the formulas use, and the derived values that only a sentence or the sheet names."""
    found = Uses()
    found.add(uses)
    for text in texts:
        for name in PLACEHOLDER.findall(text):
            if name.removeprefix("derived.") in derived and name.startswith("derived."):
                found.derived[name.removeprefix("derived.")] = None
    return found


def _all_fields(uses: Uses, derived: Mapping[str, Derived]) -> tuple[str, ...]:
    found = dict(uses.fields)
    pending = list(uses.derived)
    while pending:
        inner = derived[pending.pop(0)].uses
        found.update(inner.fields)
        pending.extend(inner.derived)
    return tuple(found)


def _each(file: File, scope: Scope) -> Each | None:
    text = file.data.get("each")
    scope.members = {}
    if text is None:
        return None
    match = _EACH.fullmatch(str(text).strip())
    if match is None:
        raise Mistakes(
            [
                file.mistake(
                    "'each' is not understood",
                    "each",
                    found=str(text),
                    expected="'fixing in mount.fixings'",
                )
            ]
        )
    if match[1] in scope.layout.root.children or match[1] in ("derived", "table"):
        raise Mistakes(
            [
                file.mistake(
                    f"the name '{match[1]}' is taken",
                    "each",
                    found=str(text),
                    hint="choose another for the member",
                )
            ]
        )
    field = scope.layout.leaf(match[2])
    if field is None or field.item is None:
        lists = [f.path for f in scope.layout.fields if f.item is not None]
        raise Mistakes(
            [
                file.mistake(
                    f"'{match[2]}' is no list of the description",
                    "each",
                    hint=near(match[2], lists) or "lists: " + ", ".join(lists),
                )
            ]
        )
    scope.members = {match[1]: (field.item, field.path)}
    return Each(match[1], field, field.item)


def _condition(file: File, scope: Scope, *path: str | int) -> Compiled:
    compiled = formula_from(file, scope, *path)
    if not isinstance(compiled.type, Flag):
        raise Mistakes(
            [
                file.mistake(
                    f"'{'.'.join(map(str, path))}' must be a condition",
                    *path,
                    found=f"{compiled.text}: {say(compiled.type)}",
                    hint="compare it with something",
                )
            ]
        )
    return compiled


def _compare(file: File, scope: Scope, lines: tuple[Line, ...]) -> tuple[Line | None, Line | None]:
    entry = file.data.get("compare")
    if entry is None:
        return None, None
    formulas = {side: formula_from(file, scope, "compare", side) for side in ("demand", "limit")}
    known = {line.name: line.unit for line in lines}
    unit = str(entry["unit"]) if "unit" in entry else None
    if unit is None:
        # The unit of a line that stands alone on one side serves both.
        found = [known[f.text] for f in formulas.values() if known.get(f.text) is not None]
        unit = found[0].symbol if found and found[0] is not None else None
    if unit is None:
        leaf = next(
            (scope.layout.leaf(f.text) for f in formulas.values() if scope.layout.leaf(f.text)),
            None,
        )
        unit = leaf.unit.symbol if leaf is not None and leaf.unit is not None else None
    sides = {}
    for side, formula in formulas.items():
        if not isinstance(formula.type, Numeric):
            raise Mistakes(
                [
                    file.mistake(
                        f"'{side}' must be a number", "compare", side, found=say(formula.type)
                    )
                ]
            )
        sides[side] = line_from(file, side, formula, ("compare", side), unit)
        scope.lines[side] = formula.type
    return sides["demand"], sides["limit"]


def _cases(file: File) -> tuple[Case, ...]:
    cases = []
    for i, entry in enumerate(file.data["cases"]):
        cases.append(
            Case(
                str(entry["name"]), (file, i), file.place("cases", i), entry.get("stage", "plan"), Grade.of(entry["grade"]),
                None if "demand" not in entry else str(entry["demand"]), None if "limit" not in entry else str(entry["limit"]),
                entry.get("subject"), tuple(entry.get("missing", ())), bool(entry.get("boundary", False)),
                tuple(entry.get("lines", {}).items()),
            )
        )  # fmt: skip
    return tuple(cases)
