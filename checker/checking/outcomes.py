"""One installation against one rulebook: a pure function, no screen, no files."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import isfinite
from typing import Any, NamedTuple

from checker.absent import Absent, CannotTell, Unstated
from checker.formulas.lacking import evaluate, why_not
from checker.grades import Grade
from checker.installation.record import Installation
from checker.rulebook.model import Derived, Line, Rule, Rulebook

__all__ = ["Outcome", "Values", "check", "derived_names", "outcome_of", "outcomes_of", "working_of"]

_NAMES = {int(g): g for g in Grade}


class Outcome(NamedTuple):
    """A rule's answer for one installation, or for one member of a list.

    ``member`` is the position in the rule's list, from nought. ``why`` says what
    stood in the way of an answer. ``reason`` explains a grade that no formula gave.
    """

    rule: Rule
    member: int | None
    grade: Grade
    demand: Any
    limit: Any
    why: CannotTell | None = None
    reason: str = ""


class Values:
    """The slots that formulas run on, with the derived values worked out so far.

    brief: whether the first thing in the way of an answer will do; finding all that is
    missing costs ten times the answer.
    """

    __slots__ = ("D", "S", "_scratch", "brief", "rulebook")

    def __init__(self, rulebook: Rulebook, values: list[Any], *, brief: bool = False) -> None:
        self.rulebook = rulebook
        self.S = values
        self.brief = brief
        self.D: list[Any] = [None] * len(rulebook.order)
        self._scratch: dict[str, Any] | None = None

    def without(self, indices: frozenset[int], *, brief: bool) -> Values:
        """The same slots, with these derived values to be worked out again."""
        other = Values(self.rulebook, self.S, brief=brief)
        other.D = [None if i in indices else value for i, value in enumerate(self.D)]
        return other

    def work_out(self, order: tuple[int, ...]) -> None:
        """Work out the derived values of an order that are still missing."""
        D = self.D
        for i in order:
            if D[i] is None:
                derived = self.rulebook.order[i]
                try:
                    D[i] = derived.run(self.S, D)
                except Exception as error:
                    why = why_not(error)
                    D[i] = Absent(why) if self.brief else self._slowly(derived)

    def names(self) -> dict[str, Any]:
        """The names that formulas run with; lines are added to what is given here."""
        return {**self.rulebook.names, "S": self.S, "D": self.D}

    def scratch(self) -> dict[str, Any]:
        """The same, one for all formulas, where nobody looks at the lines afterwards.

        A copy costs more than the lines do. A line of another rule that is left over is in
        nobody's way: a formula sees those above it only, and each is worked out anew.
        """
        if self._scratch is None:
            self._scratch = self.names()
        return self._scratch

    def _slowly(self, derived: Derived) -> Any:
        names = self.scratch()
        _work_out_lines(derived.lines, names)
        return evaluate(derived.result.formula.source, names)


def derived_names(derived: Derived, values: Values) -> dict[str, Any]:
    """The names that a derived value's formulas see, every line worked out."""
    names = values.names()
    _work_out_lines(derived.lines, names)
    return names


def _work_out_lines(lines: Iterable[Line], names: dict[str, Any]) -> None:
    for line in lines:
        names[f"v_{line.name}"] = evaluate(line.formula.source, names)


def check(
    rulebook: Rulebook, installation: Installation, values: Values | None = None
) -> list[Outcome]:
    """Every rule's outcome, in the order of the rulebook.

    values: those of the installation, to go on with afterwards; new ones where none are given.
    """
    values = values or Values(rulebook, installation.record.values)
    stage = installation.value("job.stage")
    return [outcome for rule in rulebook.rules for outcome in outcomes_of(rule, values, stage)]


def outcomes_of(rule: Rule, values: Values, stage: str) -> Iterator[Outcome]:
    """One rule's outcomes at a stage: one, or one for each member of its list."""
    if rule.switched_off:
        yield Outcome(rule, None, Grade.NOT_APPLICABLE, None, None, None, rule.switched_off)
    elif stage not in rule.stages:
        other = "once fitted" if stage == "plan" else "at the planning stage"
        yield Outcome(rule, None, Grade.NOT_APPLICABLE, None, None, None, f"Checked {other}.")
    elif rule.each is None:
        yield outcome_of(rule, values, None)
    else:
        members = values.S[rule.each.field.slot]
        if type(members) is Absent:
            yield _without_list(rule, values, members)
        elif not members:
            yield Outcome(
                rule,
                None,
                Grade.NOT_APPLICABLE,
                None,
                None,
                None,
                f"The list {rule.each.field.path} is empty.",
            )
        else:
            for i in range(len(members)):
                yield outcome_of(rule, values, i)


def _without_list(rule: Rule, values: Values, members: Absent) -> Outcome:
    """A list that is not stated: the rule may still turn out not to apply."""
    if rule.test is not None:
        values.work_out(rule.derived)
        try:
            if not rule.test(values.S, values.D, members):
                return Outcome(rule, None, Grade.NOT_APPLICABLE, None, None)
        except Exception as error:
            return Outcome(
                rule, None, Grade.CONFIRM, None, None, _reason(rule, values, members, error)
            )
    return Outcome(rule, None, Grade.CONFIRM, None, None, members.why)


def outcome_of(rule: Rule, values: Values, member: int | None) -> Outcome:
    """One rule on one set of values."""
    if rule.derived:
        values.work_out(rule.derived)
    try:
        if member is None:
            if rule.test is not None and not rule.test(values.S, values.D):
                return Outcome(rule, None, Grade.NOT_APPLICABLE, None, None)
            grade, demand, limit = rule.run(values.S, values.D)
        else:
            one = values.S[rule.each.field.slot][member]  # type: ignore[union-attr]
            if rule.test is not None and not rule.test(values.S, values.D, one):
                return Outcome(rule, member, Grade.NOT_APPLICABLE, None, None)
            grade, demand, limit = rule.run(values.S, values.D, one)
        if demand is not None and not (isfinite(demand) and isfinite(limit)):
            # Products overflow to infinity without a word; a grade would rest on nothing.
            raise OverflowError
    except Exception as error:
        one = None if member is None else values.S[rule.each.field.slot][member]  # type: ignore[union-attr]
        return Outcome(rule, member, Grade.CONFIRM, None, None, _reason(rule, values, one, error))
    return Outcome(rule, member, _NAMES[grade], demand, limit)


def working_of(rule: Rule, values: Values, member: int | None) -> dict[str, Any]:
    """The names that a rule's formulas see, every line worked out one by one.

    A line that has no value holds an Absent that says why.
    """
    values.work_out(rule.derived)
    one = None
    if rule.each is not None:
        members = values.S[rule.each.field.slot]
        # Of a list that is not stated every member lacks the same: the list.
        one = members if member is None else members[member]
    names = values.names()
    if rule.each is not None:
        names[f"m_{rule.each.variable}"] = one
    lines = _lines(rule)
    try:
        found = (
            rule.lines_of(values.S, values.D)
            if rule.each is None
            else rule.lines_of(values.S, values.D, one)
        )
    except Exception as error:
        why_not(error)
        _work_out_lines(lines, names)
        return names
    for line, value in zip(lines, found, strict=True):
        names[f"v_{line.name}"] = value
    return names


def _lines(rule: Rule) -> tuple[Line, ...]:
    return (*rule.lines, *(x for x in (rule.demand, rule.limit) if x is not None))


def _reason(rule: Rule, values: Values, one: Any, error: Exception) -> CannotTell:
    """Why a rule had no answer: every missing field that any of its lines needed."""
    first = why_not(error)
    if values.brief:
        return first
    names = values.scratch()
    if rule.each is not None:
        names[f"m_{rule.each.variable}"] = one
    if rule.applies is not None:
        asked = evaluate(rule.applies.source, names)
        if isinstance(asked, Absent):
            return asked.why
    missing: dict[str, None] = {}
    for line in _lines(rule):
        value = names[f"v_{line.name}"] = evaluate(line.formula.source, names)
        if isinstance(value, Absent) and isinstance(value.why, Unstated):
            missing.update(dict.fromkeys(value.why.paths))
    for _, condition in rule.expect:
        value = evaluate(condition.source, names)
        if isinstance(value, Absent):
            if isinstance(value.why, Unstated):
                missing.update(dict.fromkeys(value.why.paths))
            break
        if not value:
            break
    return Unstated(*missing) if missing else first
