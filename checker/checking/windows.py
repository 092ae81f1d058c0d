"""The grade of every rule across one field's range.

It answers "how long may this post be?" for all rules at once.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from checker.checking.outcomes import Outcome, Values, check, outcome_of
from checker.errors import Mistake, Mistakes, Place, near
from checker.findings import FieldWindow, RuleAcross
from checker.grades import Grade
from checker.installation.fields import Field
from checker.installation.record import Installation, Record
from checker.rulebook.model import Rule, Rulebook
from checker.units import Unit
from checker.units.quantities import format_value

__all__ = ["Target", "field_window", "find_target", "grades_across"]

_HALVINGS = 40


class Target(NamedTuple):
    """The field that is swept: its path, its place, its unit and its range in SI."""

    path: str
    field: Field
    record: Record
    unit: Unit | None
    low: float
    high: float
    member: int | None


def find_target(path: str, installation: Installation) -> Target:
    """The numeric field of a path such as ``mount.post.wall`` or ``mount.fixings[0].torque``.

    Raises Mistakes for a path that does not exist, is no number or was not stated.
    """
    place = Place(installation.name)
    for prefix, record in installation.records():
        for field in record.layout.fields:
            own = f"{prefix}{field.path.rpartition('[].')[2]}" if prefix else field.path
            if own != path:
                continue
            fact = record.facts[field.slot]
            if field.type not in ("quantity", "number", "count") or field.plausible is None:
                raise Mistakes(
                    [
                        Mistake(
                            f"'{path}' has no range to look at",
                            place,
                            expected="a field that is a number",
                        )
                    ]
                )
            if fact is None:
                raise Mistakes(
                    [Mistake(f"'{path}' is not stated", place, hint="state a value to start from")]
                )
            index = int(prefix.rpartition("[")[2].rstrip("].")) if prefix else None
            return Target(path, field, record, fact.unit or field.unit, *field.plausible, index)
    known = [
        f"{prefix}{f.path.rpartition('[].')[2]}" if prefix else f.path
        for prefix, record in installation.records()
        for f in record.layout.fields
    ]
    raise Mistakes([Mistake(f"there is no field '{path}'", place, hint=near(path, known))])


def grades_across(
    target: Target, rulebook: Rulebook, installation: Installation, points: int = 61
) -> FieldWindow:
    """The grades of every rule that reads the field, at evenly spread values and at each change."""
    rows: list[RuleAcross] = []
    values = Values(rulebook, installation.record.values)
    stated = target.record.values[target.field.slot]
    steps = [target.low + (target.high - target.low) * i / (points - 1) for i in range(points)]
    if target.field.type == "count":
        steps = [float(n) for n in range(int(target.low), int(target.high) + 1)]
    windows: list[list[tuple[float, float]]] = []
    for outcome in check(rulebook, installation):
        rule = outcome.rule
        if target.field.path not in rule.fields or outcome.grade is Grade.NOT_APPLICABLE:
            continue
        if rule.each is not None and outcome.member is None:
            continue  # There is no member to ask the rule about.
        if (
            rule.each is not None
            and rule.each.layout is target.record.layout
            and outcome.member != target.member
        ):
            continue
        grades = [_at(target, step, rule, values, outcome).word for step in steps]
        if len(set(grades)) > 1 or grades[0] not in ("met", "not-applicable"):
            rows.append(RuleAcross(rule.name, _subject(outcome), tuple(grades)))
        windows.append(_accepted(target, steps, rule, values, outcome))
    target.record.values[target.field.slot] = stated
    low, high = field_window(windows, target)
    unit = target.unit
    return FieldWindow(
        target.path, _text(stated, unit), unit.symbol if unit else "",
        tuple(_written(s, unit) for s in steps), tuple(rows),
        None if low is None else _written(low, unit), None if high is None else _written(high, unit),
        _sentence(target.path, low, high, target, unit),
    )  # fmt: skip


def field_window(
    windows: list[list[tuple[float, float]]], target: Target
) -> tuple[float | None, float | None]:
    """The widest range that lies in one accepted range of every rule, or (None, None)."""
    common = [(target.low, target.high)]
    for ranges in windows:
        common = [
            (max(a, c), min(b, d)) for a, b in common for c, d in ranges if max(a, c) <= min(b, d)
        ]
    if not common:
        return None, None
    return max(common, key=lambda r: r[1] - r[0])


def _at(target: Target, value: Any, rule: Rule, values: Values, outcome: Outcome) -> Grade:
    slot = target.field.slot
    stated = target.record.values[slot]
    target.record.values[slot] = int(value) if target.field.type == "count" else value
    try:
        return outcome_of(rule, Values(values.rulebook, values.S), outcome.member).grade
    finally:
        target.record.values[slot] = stated


def _accepted(
    target: Target, steps: list[float], rule: Rule, values: Values, outcome: Outcome
) -> list[tuple[float, float]]:
    """The ranges in which a rule is neither stop, correct nor confirm; edges by halving."""

    def good(value: float) -> bool:
        return _at(target, value, rule, values, outcome) >= Grade.ADVISE

    ranges: list[tuple[float, float]] = []
    start: float | None = None
    before: float | None = None
    for step in steps:
        if good(step):
            if start is None:
                start = step if before is None else _edge(before, step, good, target)
        elif start is not None and before is not None:
            ranges.append((start, _edge(step, before, good, target)))
            start = None
        before = step
    if start is not None and before is not None:
        ranges.append((start, before))
    return ranges


def _edge(bad: float, fine: float, good: Any, target: Target) -> float:
    if target.field.type == "count":
        return fine
    for _ in range(_HALVINGS):
        middle = (bad + fine) / 2
        if good(middle):
            fine = middle
        else:
            bad = middle
    return fine


def _subject(outcome: Outcome) -> str:
    return "" if outcome.member is None else f"[{outcome.member + 1}]"


def _written(value: float, unit: Unit | None) -> float:
    return float(f"{((value - unit.offset) / unit.factor if unit else value):.6g}")


def _text(value: Any, unit: Unit | None) -> str:
    return format_value(float(value), unit, 4) if unit else str(value)


def _sentence(
    path: str, low: float | None, high: float | None, target: Target, unit: Unit | None
) -> str:
    if low is None or high is None:
        return f"No value of {path} between {_text(target.low, unit)} and {_text(target.high, unit)} meets all its rules with the rest as stated."
    if low == target.low and high == target.high:
        return f"Every usual value of {path} meets all its rules."
    return f"{path} from {_text(low, unit)} to {_text(high, unit)} meets all its rules with the rest as stated."
