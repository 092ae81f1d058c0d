"""What a rule must be besides well typed: sentences that fit, fields that exist, a stop that holds."""

from __future__ import annotations

import re

from checker.errors import Mistakes, near
from checker.formulas.scope import Scope
from checker.grades import Grade
from checker.rulebook.files import File
from checker.rulebook.model import Rule

__all__ = ["PLACEHOLDER", "check_soundness"]

PLACEHOLDER = re.compile(r"\{([^{}]*)\}")


def check_soundness(file: File, rule: Rule, scope: Scope) -> None:
    """Refuse a rule whose sentences, remedies or stop do not hold together; raises Mistakes."""
    _check_says(file, rule, scope)
    _check_adjust(file, rule, scope)
    _check_stop(file, rule)


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


def _check_stop(file: File, rule: Rule) -> None:
    """Nobody is stopped on a remembered figure alone: physics, or a source that was read."""
    if not rule.can_stop or rule.danger:
        return
    weak: list[str] = (
        []
        if any(b.confidence == "checked" for b in rule.basis)
        else ["no basis of the rule is 'checked'"]
    )
    used = _parameters_behind_stop(rule)
    weak += [
        f"the parameter '{p}' is '{rule.parameters[p].basis.confidence}'"
        for p in used
        if rule.parameters[p].basis.confidence != "checked"
    ]
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


def _parameters_behind_stop(rule: Rule) -> list[str]:
    by_name = {
        line.name: line.formula
        for line in (*rule.lines, *(x for x in (rule.demand, rule.limit) if x))
    }
    pending = [compiled for grade, compiled in rule.expect if grade is Grade.STOP]
    seen: set[str] = set()
    found: dict[str, None] = {}
    while pending:
        compiled = pending.pop()
        found.update(compiled.uses.parameters)
        for name in compiled.uses.lines:
            if name not in seen:
                seen.add(name)
                pending.append(by_name[name])
    return list(found)
