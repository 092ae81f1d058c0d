"""The rulebook on a terminal: the list, one rule whole, the cases run."""

from __future__ import annotations

import textwrap

from checker.rulebook.cases import run_cases, what_cases_lack
from checker.rulebook.model import Basis, Rule, Rulebook

__all__ = ["render_list", "render_rule", "render_test"]


def render_list(rulebook: Rulebook, *, width: int = 80) -> str:
    """Every rule by family, with its title."""
    out: list[str] = []
    family = None
    for rule in rulebook.rules:
        if rule.family != family:
            family = rule.family
            out += ["", rulebook.families.get(family, family)]
        out += textwrap.wrap(
            f"  {rule.name:<42} {rule.title}",
            width,
            subsequent_indent=" " * 45,
            break_on_hyphens=False,
        )
    out += [
        "",
        f"{len(rulebook.rules)} rules, {len(rulebook.derived)} derived values, {len(rulebook.tables)} tables, {len(rulebook.sources)} sources; digest {rulebook.digest[:12]}",
    ]
    return "\n".join(out).lstrip("\n") + "\n"


def render_rule(rule: Rule, rulebook: Rulebook, *, width: int = 80) -> str:
    """One rule with its formulas, figures, sources and cases."""
    out: list[str] = []

    def say(label: str, text: str) -> None:
        out.extend(
            textwrap.wrap(
                f"{label:<12}{' '.join(text.split())}",
                width,
                subsequent_indent=" " * 12,
                break_on_hyphens=False,
                break_long_words=False,
            )
        )

    say(rule.name, "")
    say("title", rule.title)
    say("protects", rule.protects)
    say("stages", ", ".join(rule.stages))
    if rule.each is not None:
        say("each", f"{rule.each.variable} in {rule.each.field.path}")
    if rule.applies is not None:
        say("applies", rule.applies.text)
    for index in rule.derived:
        derived = rulebook.order[index]
        say("uses", f"derived.{derived.name} = {derived.result.formula.text}  [{derived.title}]")
    for parameter in rule.parameters.values():
        say(
            "parameter",
            f"{parameter.name} = {parameter.text}. {parameter.why} [{_basis(parameter.basis)}]",
        )
    for line in rule.lines:
        unit = f"  [{line.unit.shown or 'plain number'}]" if line.unit else ""
        say(
            "working",
            f"{line.name} = {line.formula.text}{unit}"
            + (f"  {line.meaning}" if line.meaning else ""),
        )
    if rule.demand is not None and rule.limit is not None:
        say("demand", rule.demand.formula.text)
        say("against", rule.limit.formula.text)
    for grade, condition in rule.expect:
        say(grade.word, f"unless {condition.text}")
        say("", rule.says[grade.word])
    say("met", rule.says["met"])
    if rule.danger:
        say("danger", rule.danger)
    for basis in rule.basis:
        say("basis", _basis(basis))
    for path in rule.uses.tables:
        table = rulebook.tables[path.split(".")[0]]
        say("table", f"{table.name}: {table.title} [{_basis(table.basis[''])}]")
    say("caution", rule.caution)
    for change in rule.changes:
        say("local", change)
    for case in rule.cases:
        say(
            "case",
            f"{case.name}: {case.grade.word}" + (f", demand {case.demand}" if case.demand else ""),
        )
    return "\n".join(out) + "\n"


def _basis(basis: Basis) -> str:
    return f"{basis}; {basis.confidence}"


def render_test(rulebook: Rulebook) -> tuple[str, int]:
    """All cases run: the text, and how many rules failed."""
    out: list[str] = []
    cases = failed = changed = 0
    for rule in rulebook.rules:
        if any(not change.endswith(f"adds the rule {rule.name}.") for change in rule.changes):
            # Its cases were written for the values that an overlay has replaced.
            changed += 1
            continue
        complaints = [
            f"{r.case.place}: case '{r.case.name}': {r.complaint}"
            for r in run_cases(rule, rulebook)
            if r.complaint
        ]
        complaints += [f"{rule.place.file}: {lack}" for lack in what_cases_lack(rule)]
        cases += len(rule.cases)
        if complaints:
            failed += 1
            out.append(f"{rule.name}")
            out += [f"  {c}" for c in complaints]
    left = f"; {changed} changed by an overlay were not run" if changed else ""
    out.append(f"{len(rulebook.rules)} rules, {cases} cases, {failed} rules with complaints{left}")
    return "\n".join(out) + "\n", failed
