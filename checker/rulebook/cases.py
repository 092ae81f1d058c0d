"""Each rule's own cases: run, held against what they say, and asked whether they suffice."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from typing import Any, NamedTuple, NoReturn

from checker.absent import Absent, Unstated
from checker.checking.outcomes import Outcome, Values, check, working_of
from checker.errors import Mistake, Mistakes
from checker.formulas.lacking import evaluate
from checker.grades import Grade
from checker.installation.binding import bind_node
from checker.installation.record import Installation
from checker.reading import Mark, place_of
from checker.reporting.lacking_fields import missing_fields
from checker.rulebook.files import File
from checker.rulebook.model import Case, Line, Rule, Rulebook
from checker.units.quantities import NotAQuantity, parse

__all__ = ["CaseResult", "case_installation", "judge", "only", "run_cases", "what_cases_lack"]

_STEP = re.compile(r"([a-z_0-9]+)(?:\[(\d+)\])?")


class CaseResult(NamedTuple):
    """One case run: the complaint is empty where it came out as it says."""

    rule: Rule
    case: Case
    complaint: str
    outcome: Outcome | None


def run_cases(rule: Rule, rulebook: Rulebook) -> Iterator[CaseResult]:
    """Run every case of a rule."""
    for case in rule.cases:
        try:
            installation = case_installation(case, rulebook)
        except Mistakes as error:
            yield CaseResult(rule, case, str(error), None)
            continue
        yield judge(rule, case, rulebook, installation)


def judge(rule: Rule, case: Case, rulebook: Rulebook, installation: Installation) -> CaseResult:
    """One case of a rule on the installation that it describes."""
    outcomes = check(only(rule, rulebook), installation)
    outcome = _chosen(outcomes, case, rule, rulebook, installation)
    if outcome is None:
        return CaseResult(rule, case, f"no member is called '{case.subject}'", None)
    return CaseResult(rule, case, _complaint(case, outcome, rulebook, installation), outcome)


def what_cases_lack(rule: Rule) -> list[str]:
    """What a rule's cases should show and do not."""
    shown = {case.grade for case in rule.cases}
    wanted = {Grade.MET, *(grade for grade, _ in rule.expect)}
    lacks = [f"no case for '{grade.word}'" for grade in sorted(wanted - shown)]
    if not any(case.missing for case in rule.cases):
        lacks.append("no case with a missing value")
    if rule.demand is not None and not any(case.boundary for case in rule.cases):
        lacks.append("no case on the boundary")
    return lacks


def only(rule: Rule, rulebook: Rulebook) -> Rulebook:
    """A rulebook of one rule, with all that it rests on."""
    one = copy.copy(rulebook)
    one.rules = (rule,)
    return one


def case_installation(case: Case, rulebook: Rulebook) -> Installation:
    """The installation that a case describes; raises Mistakes."""
    file: File
    file, index = case.given
    entry = file.data["cases"][index]
    root = file.node[0]
    base = root["example"][1] if "example" in root else ({}, file.node[1])
    tree = _copied(base)
    given = root["cases"][1][0][index][0].get("given")
    if given is not None:
        for path, (mark, node) in given[1][0].items():
            _put(tree, path, node, mark, file)
    _default(tree, "job.stage", entry.get("stage", "plan"), file)
    if "stage" in entry:
        _put(tree, "job.stage", (entry["stage"], tree[1]), tree[1], file)
    _default(tree, "mount.kind", "side-post", file)
    return Installation(bind_node(tree, rulebook.layout, file.name), file.name, "")


def _default(tree: Any, path: str, value: str, file: File) -> None:
    """What every description states, for an example that does not say it."""
    section, _, name = path.partition(".")
    found = tree[0].get(section)
    if found is None or found[1][0] is None or name not in (found[1][0] or ()):
        _put(tree, path, (value, tree[1]), tree[1], file)


def _copied(node: Any) -> Any:
    value, mark = node
    if isinstance(value, dict):
        return {k: (m, _copied(n)) for k, (m, n) in value.items()}, mark
    if isinstance(value, list):
        return [_copied(n) for n in value], mark
    return node


def _put(tree: Any, path: str, node: Any, mark: Any, file: File) -> None:
    """Set, or with nothing behind it take away, the value at a dotted path."""
    steps: list[str | int] = []
    for part in path.split("."):
        match = _STEP.fullmatch(part)
        if match is None:
            _refuse(f"'{path}' is no field path", mark, file, "mount.fixings[0].thread")
        steps.append(match[1])
        if match[2] is not None:
            steps.append(int(match[2]))
    at = tree
    for step, following in zip(steps, [*steps[1:], None], strict=True):
        value = at[0]
        if isinstance(step, int):
            if not isinstance(value, list) or step >= len(value):
                _refuse(f"'{path}' names a member that the example does not have", mark, file)
            if following is None:
                value[step] = _copied(node)
                return
            at = value[step]
            continue
        if not isinstance(value, dict):
            _refuse(f"'{path}' goes through what is no group of fields", mark, file)
        if following is None:
            if node[0] is None:
                value.pop(step, None)
            else:
                value[step] = (mark, _copied(node))
            return
        if step not in value or value[step][1][0] is None:
            value[step] = (mark, ({}, mark))
        at = value[step][1]


def _refuse(what: str, mark: Mark, file: File, expected: str = "") -> NoReturn:
    raise Mistakes([Mistake(what, place_of(mark, file.name), expected=expected)])


def _chosen(
    outcomes: list[Outcome], case: Case, rule: Rule, rulebook: Rulebook, installation: Installation
) -> Outcome | None:
    if case.subject is None:
        # Of several members the gravest answers for the case.
        return min(outcomes, key=lambda o: o.grade)
    values = Values(rulebook, installation.record.values)
    for outcome in outcomes:
        if (
            outcome.member is not None
            and rule.subject is not None
            and evaluate(rule.subject.source, working_of(rule, values, outcome.member))
            == case.subject
        ):
            return outcome
    return None


def _complaint(case: Case, outcome: Outcome, rulebook: Rulebook, installation: Installation) -> str:
    if outcome.grade is not case.grade:
        why = ""
        if outcome.why is not None:
            why = f" ({', '.join(outcome.why.paths) + ' not stated' if isinstance(outcome.why, Unstated) else outcome.why})"
        figures = (
            f"; demand {outcome.demand}, limit {outcome.limit} in SI"
            if outcome.demand is not None
            else ""
        )
        return f"the grade is {outcome.grade.word}, not {case.grade.word}{why}{figures}"
    for side, wanted, value, line in (
        ("demand", case.demand, outcome.demand, outcome.rule.demand),
        ("limit", case.limit, outcome.limit, outcome.rule.limit),
    ):
        if wanted is not None:
            complaint = _figure(side, wanted, value, line)
            if complaint:
                return complaint
    if case.lines:
        complaint = _lines_complaint(case, outcome, rulebook, installation)
        if complaint:
            return complaint
    if case.missing:
        found = {m.path for m in missing_fields(outcome, installation)}
        if set(case.missing) != found:
            return (
                f"missing are {', '.join(sorted(found)) or 'none'}, not {', '.join(case.missing)}"
            )
    if case.boundary and not _on_boundary(outcome, rulebook, installation):
        return "the case does not stand on a boundary: the grade stays the same half a percent up and down"
    return ""


def _lines_complaint(
    case: Case, outcome: Outcome, rulebook: Rulebook, installation: Installation
) -> str:
    """What is wrong with the lines that a case names; nothing if they come out as it says."""
    rule = outcome.rule
    values = Values(rulebook, installation.record.values)
    names = working_of(rule, values, outcome.member)
    lines = {line.name: (line, names[f"v_{line.name}"]) for line in rule.lines}
    for index in rule.derived:
        derived = rulebook.order[index]
        lines[f"derived.{derived.name}"] = (derived.result, values.D[index])
    for name, wanted in case.lines:
        if name not in lines:
            return f"there is no line '{name}'"
        line, value = lines[name]
        if isinstance(value, Absent):
            return f"'{name}' has no value: {value.why}"
        if isinstance(value, (bool, str)):
            if value != wanted:
                return f"'{name}' is {value}, not {wanted}"
            continue
        complaint = _figure(name, str(wanted), value, line)
        if complaint:
            return complaint
    return ""


def _figure(side: str, wanted: str, value: Any, line: Line | None) -> str:
    if value is None or line is None or line.unit is None:
        return f"there is no {side}"
    try:
        quantity = parse(wanted)
        low, high, unit = quantity.low, quantity.high, quantity.unit
    except NotAQuantity as error:
        unit = line.unit
        try:
            low = high = float(wanted)
        except ValueError:
            return f"'{wanted}' is no value of the {side}: {error.what}"
    if unit.dimension != line.unit.dimension:
        return f"the {side} is in {line.unit.symbol}, '{wanted}' is in another dimension"
    number = wanted.split(maxsplit=1)[0].split("±", maxsplit=1)[0].strip()
    if low == high:
        # As exact as the digits that the case writes.
        digits = len(number.partition(".")[2].partition("e")[0])
        half = 0.5000001 * 10.0**-digits * unit.factor
        low, high = low - half, high + half
    if low <= value <= high:
        return ""
    return f"the {side} is {(value - unit.offset) / unit.factor:.6g} {unit.symbol}, not {wanted}"


def _on_boundary(outcome: Outcome, rulebook: Rulebook, installation: Installation) -> bool:
    """Whether the grade changes when the demand moves by half a percent either way."""
    rule = outcome.rule
    if outcome.demand is None:
        return False
    values = Values(rulebook, installation.record.values)
    names = working_of(rule, values, outcome.member)
    grades = set()
    for factor in (0.995, 1.0, 1.005):
        moved = {**names, "v_demand": names["v_demand"] * factor}
        if rule.demand is not None:
            # A condition may name the line that the demand repeats.
            for line in rule.lines:
                if line.name == rule.demand.formula.text:
                    moved[f"v_{line.name}"] = moved["v_demand"]
        grade = Grade.MET
        for one, condition in rule.expect:
            if evaluate(condition.source, moved) is not True:
                grade = one
                break
        grades.add(grade)
    return len(grades) > 1
