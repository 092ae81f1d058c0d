"""What a rule must be besides well typed: sentences that fit, fields that exist, a stop that holds."""

from __future__ import annotations

import re
from collections.abc import Mapping

from checker.errors import Mistakes, near
from checker.formulas.scope import Compiled, Scope
from checker.formulas.types import Numeric
from checker.grades import Grade
from checker.rulebook.files import File
from checker.rulebook.function_sources import recalled
from checker.rulebook.model import Derived, Line, Rule

__all__ = ["PLACEHOLDER", "check_soundness"]

PLACEHOLDER = re.compile(r"\{([^{}]*)\}")


def check_soundness(file: File, rule: Rule, scope: Scope, derived: Mapping[str, Derived]) -> None:
    """Refuse a rule whose sentences, remedies or stop do not hold together; raises Mistakes."""
    _check_says(file, rule, scope)
    _check_sums(file, rule, scope)
    _check_adjust(file, rule, scope)
    _check_stop(file, rule, scope, derived)


def _check_says(file: File, rule: Rule, scope: Scope) -> None:
    mistakes = [
        file.mistake(f"'says' has no sentence for '{word}'", "says", hint=f"add '{word}: ...'")
        for word in [*(grade.word for grade, _ in rule.expect), "met"]
        if word not in rule.says
    ]
    texts: list[tuple[str, tuple[str | int, ...]]] = [
        *((text, ("says", word)) for word, text in rule.says.items()),
        *((line.line, ("sheet", i, "line")) for i, line in enumerate(rule.sheet)),
    ]
    for text, path in texts:
        for name in PLACEHOLDER.findall(text):
            if name == "members" and path[0] == "sheet" and rule.each is not None:
                continue
            if not _is_known(name, rule, scope):
                known = [*scope.lines, *scope.parameters, "utilisation", "subject"]
                mistakes.append(
                    file.mistake(
                        f"'{{{name}}}' stands for nothing",
                        *path,
                        hint=near(name, known) or "names: " + ", ".join(known),
                    )
                )
    if mistakes:
        raise Mistakes(mistakes)


def _check_sums(file: File, rule: Rule, scope: Scope) -> None:
    """Only numbers that the line shows can be added up, and only over the members of a list."""
    mistakes = [
        file.mistake(f"'{name}' cannot be added up here", "sheet", i, "sum", hint=hint)
        for i, line in enumerate(rule.sheet)
        for name in line.sums
        if (hint := _why_no_sum(name, line.line, rule, scope))
    ]
    if mistakes:
        raise Mistakes(mistakes)


def _why_no_sum(name: str, line: str, rule: Rule, scope: Scope) -> str:
    if rule.each is None:
        return "only members of a list share a line: the rule needs 'each'"
    if name not in PLACEHOLDER.findall(line):
        return f"write {{{name}}} in the line"
    if name.startswith(f"{rule.each.variable}."):
        field = rule.each.layout.leaf(name.partition(".")[2])
        return "" if field is not None and field.type in ("quantity", "count") else "name a number"
    kind = scope.lines.get(name)
    is_number = isinstance(kind, Numeric) and kind.point is None
    return "" if is_number else "name a line of the working, or a field of the member"


def _is_known(name: str, rule: Rule, scope: Scope) -> bool:
    if name in scope.lines or name in scope.parameters:
        return True
    if name == "subject":
        return rule.each is not None
    if name == "utilisation":
        return rule.has_ratio
    if rule.each is not None and name.startswith(f"{rule.each.variable}."):
        return rule.each.layout.leaf(name.partition(".")[2]) is not None
    if name.startswith("derived."):
        # Only what the rule's own formulas rest on has been worked out.
        found = scope.derived.get(name.removeprefix("derived."))
        return found is not None and found[0] in rule.derived
    return scope.layout.leaf(name) is not None


def _check_adjust(file: File, rule: Rule, scope: Scope) -> None:
    mistakes = []
    for i, path in enumerate(rule.adjust):
        layout, rest = scope.layout, path
        if rule.each is not None and path.startswith(f"{rule.each.variable}."):
            layout, rest = rule.each.layout, path.partition(".")[2]
        field = layout.leaf(rest)
        if field is None:
            mistakes.append(
                file.mistake(
                    f"unknown field '{path}'", "adjust", i, hint=near(rest, layout.by_path)
                )
            )
        elif field.plausible is None and field.type in ("quantity", "number", "count"):
            mistakes.append(
                file.mistake(
                    f"'{path}' has no plausible range to search in",
                    "adjust",
                    i,
                    hint="add x-plausible to its schema",
                )
            )
    if mistakes:
        raise Mistakes(mistakes)


def _check_stop(file: File, rule: Rule, scope: Scope, derived: Mapping[str, Derived]) -> None:
    """Nobody is stopped on a remembered figure alone: physics, or a source that was read."""
    if not rule.can_stop or rule.danger:
        return
    weak: list[str] = (
        []
        if any(b.confidence == "checked" for b in rule.basis)
        else ["no basis of the rule is 'checked'"]
    )
    weak += _weak_behind_stop(rule, scope, derived)
    if weak:
        raise Mistakes(
            [
                file.mistake(
                    "'stop' rests on a figure that is not checked",
                    "expect",
                    "stop",
                    found="; ".join(weak),
                    expected="a checked source, or physics",
                    hint="say in 'danger:' why it is a plain danger, or make it 'correct'",
                )
            ]
        )


def _weak_behind_stop(rule: Rule, scope: Scope, derived: Mapping[str, Derived]) -> list[str]:
    """The parameters, tables, functions and derived values behind 'stop' that are not checked."""
    found: dict[str, None] = {}
    pending: list[tuple[Compiled, Rule | Derived]] = [
        (compiled, rule) for grade, compiled in rule.expect if grade is Grade.STOP
    ]
    seen: set[tuple[str, str]] = set()
    while pending:
        compiled, owner = pending.pop()
        for name in compiled.uses.parameters:
            confidence = owner.parameters[name].basis.confidence
            if confidence != "checked":
                found[f"the parameter '{name}' is '{confidence}'"] = None
        for path in compiled.uses.tables:
            table, column = path.split(".")
            confidence = scope.tables[table][column].confidence
            if confidence != "checked":
                found[f"the table '{table}' is '{confidence}'"] = None
        for function in recalled(compiled.uses.functions):
            found[f"the function '{function.name}' is 'from-memory'"] = None
        for name in compiled.uses.lines:
            if (owner.name, name) not in seen:
                seen.add((owner.name, name))
                pending.append((_line(owner, name), owner))
        for name in compiled.uses.derived:
            if ("derived", name) not in seen:
                seen.add(("derived", name))
                one = derived[name]
                pending.append((one.result.formula, one))
                if all(b.confidence != "checked" for b in one.basis):
                    found[f"no basis of derived.{name} is 'checked'"] = None
    return list(found)


def _line(owner: Rule | Derived, name: str) -> Compiled:
    sides: tuple[Line | None, ...] = ()
    if isinstance(owner, Rule):
        sides = (owner.demand, owner.limit)
    lines = [line for line in (*owner.lines, *sides) if line is not None]
    return next(line.formula for line in lines if line.name == name)
