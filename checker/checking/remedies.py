"""What would meet a rule: for each adjustable field, the value nearest to the one stated.

The field alone is moved, the others held, outwards from its stated value inside its
plausible range, until the rule is met; the edge is then found by halving and rounded
to the safe side in the reader's own unit. Every remedy has been checked by running
the rule again at the value printed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import Any, NamedTuple

from checker.checking.outcomes import Outcome, Values, outcome_of
from checker.findings import Remedy
from checker.grades import Grade
from checker.installation.fields import Field
from checker.installation.record import Installation, Record
from checker.rulebook.model import Rule
from checker.units import Unit

__all__ = ["Adjustable", "adjustables", "grade_at", "last_digit", "remedies_for"]

_STEPS = 24
_HALVINGS = 48


class Adjustable(NamedTuple):
    """A field that may be changed: its path, its place, and how it was stated."""

    path: str
    field: Field
    record: Record
    text: str
    unit: Unit | None


def adjustables(rule: Rule, installation: Installation, member: int | None) -> Iterator[Adjustable]:
    """The stated fields among those that a rule names as adjustable."""
    for path in rule.adjust:
        record, rest, shown = installation.record, path, path
        if rule.each is not None and path.startswith(f"{rule.each.variable}."):
            if member is None:
                continue
            record = record.members[rule.each.field.slot][member]
            rest = path.partition(".")[2]
            shown = f"{rule.each.field.path}[{member}].{rest}"
        field = record.layout.leaf(rest)
        fact = record.facts[field.slot] if field is not None else None
        if field is not None and fact is not None:
            yield Adjustable(shown, field, record, fact.text, fact.unit)


def remedies_for(
    rule: Rule, installation: Installation, values: Values, outcome: Outcome
) -> tuple[Remedy, ...]:
    """One remedy for each adjustable field that has one, and a plain word where none has."""
    found: list[Remedy] = []
    hopeless: list[str] = []
    for one in adjustables(rule, installation, outcome.member):
        remedy = _remedy(one, rule, values, outcome)
        if remedy is not None:
            found.append(remedy)
        else:
            hopeless.append(one.path)
    if not found and hopeless:
        listed = ", ".join(hopeless)
        found.append(
            Remedy(hopeless[0], "", "", f"No usual value of {listed} alone would meet it.")
        )
    return tuple(found)


def grade_at(one: Adjustable, value: Any, rule: Rule, values: Values, member: int | None) -> Grade:
    """The rule's grade with one field at another value; the field is put back."""
    slot = one.field.slot
    stated = one.record.values[slot]
    one.record.values[slot] = value
    # Derived values that do not rest on the field stay as they are.
    moved = values.rulebook.readers(one.field.path).derived
    try:
        return outcome_of(rule, values.without(moved, brief=True), member).grade
    finally:
        one.record.values[slot] = stated


def _remedy(one: Adjustable, rule: Rule, values: Values, outcome: Outcome) -> Remedy | None:
    # A rule that can only advise from here on is still put right by reaching that.
    for target in (Grade.MET, Grade.ADVISE):
        if target <= outcome.grade:
            return None
        match one.field.type:
            case "quantity" | "number":
                remedy = _number(one, rule, values, outcome, target)
            case "count":
                remedy = _count(one, rule, values, outcome, target)
            case "choice" | "flag":
                remedy = _choice(one, rule, values, outcome, target)
            case _:
                return None
        if remedy is not None:
            return remedy
    return None


def _meets(grade: Grade, target: Grade) -> bool:
    return target <= grade < Grade.NOT_APPLICABLE


def _number(
    one: Adjustable, rule: Rule, values: Values, outcome: Outcome, target: Grade
) -> Remedy | None:
    if one.field.plausible is None:
        return None
    low, high = one.field.plausible
    now = one.record.values[one.field.slot]

    def good(value: float) -> bool:
        return _meets(grade_at(one, value, rule, values, outcome.member), target)

    best: tuple[float, float, str] | None = None
    for end in (low, high):
        if not (now < end if end == high else now > end):
            continue
        edge = _edge(now, end, good)
        if edge is None:
            continue
        rounded = _rounded(edge, one, up=end == high, limit=end)
        if rounded is None or not good(rounded[0]):
            continue
        rounded = _nearest_digit(rounded, one, good, up=end == high, now=now)
        if best is None or abs(rounded[0] - now) < abs(best[1] - now):
            best = (edge, rounded[0], f"{'at least' if end == high else 'at most'} {rounded[1]}")
    if best is None:
        return None
    return Remedy(one.path, one.text, best[2], f"{one.path}: {one.text} -> {best[2]}.")


def _edge(now: float, end: float, good: Any) -> float | None:
    """The value nearest to ``now`` on the way to ``end`` that is good, by halving."""
    bad = now
    ratio = now > 0 and end > 0 and max(now, end) / min(now, end) > 3
    for i in range(1, _STEPS + 1):
        share = i / _STEPS
        value = now * (end / now) ** share if ratio else now + (end - now) * share
        if good(value):
            for _ in range(_HALVINGS):
                middle = (bad + value) / 2
                if good(middle):
                    value = middle
                else:
                    bad = middle
            return value
        bad = value
    return None


def _rounded(
    edge: float, one: Adjustable, *, up: bool, limit: float
) -> tuple[float, str, Decimal] | None:
    """The edge rounded away from the stated value to three digits, as value, text and last digit."""
    unit = one.unit or one.field.unit
    written = (edge - unit.offset) / unit.factor if unit else edge
    last = last_digit(written, one)
    number = Decimal(repr(written)).quantize(last, rounding=ROUND_CEILING if up else ROUND_FLOOR)
    value = float(number) * unit.factor + unit.offset if unit else float(number)
    if (value > limit) if up else (value < limit):
        value = limit
        return value, _text((limit - unit.offset) / unit.factor if unit else limit, unit), last
    return value, _text(number, unit), last


def last_digit(written: float, one: Adjustable) -> Decimal:
    """The last digit that is worth writing: the third, but none that nobody could measure.

    Not finer than a ten-thousandth of the field's usual range, in the reader's unit.
    """
    unit = one.unit or one.field.unit
    low, high = one.field.plausible or (0.0, abs(written) or 1.0)
    span = (high - low) / (unit.factor if unit else 1.0)
    finest = math.floor(math.log10(span)) - 4
    third = math.floor(math.log10(abs(written))) - 2 if written else finest
    return Decimal(1).scaleb(max(third, finest))


def _nearest_digit(
    rounded: tuple[float, str, Decimal], one: Adjustable, good: Any, *, up: bool, now: float
) -> tuple[float, str, Decimal]:
    """Step back by one digit as long as the rule is still met."""
    unit = one.unit or one.field.unit
    value, text, last = rounded
    for _ in range(10):
        written = Decimal(text.split(" ")[0]) + (-last if up else last)
        back = float(written) * unit.factor + unit.offset if unit else float(written)
        if (back <= now) if up else (back >= now):
            break
        if not good(back):
            break
        value, text = back, _text(written, unit)
    return value, text, last


def _text(number: Any, unit: Unit | None) -> str:
    text = f"{Decimal(repr(number)) if isinstance(number, float) else number:f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return f"{text} {unit.symbol}" if unit is not None and unit.symbol != "1" else text


def _count(
    one: Adjustable, rule: Rule, values: Values, outcome: Outcome, target: Grade
) -> Remedy | None:
    if one.field.plausible is None:
        return None
    low, high = (int(x) for x in one.field.plausible)
    now = one.record.values[one.field.slot]
    for distance in range(1, high - low + 1):
        for value in (now + distance, now - distance):
            if low <= value <= high and _meets(
                grade_at(one, value, rule, values, outcome.member), target
            ):
                word = "at least" if value > now else "at most"
                return Remedy(
                    one.path,
                    one.text,
                    f"{word} {value}",
                    f"{one.path}: {one.text} -> {word} {value}.",
                )
    return None


def _choice(
    one: Adjustable, rule: Rule, values: Values, outcome: Outcome, target: Grade
) -> Remedy | None:
    options: tuple[Any, ...] = one.field.choices if one.field.type == "choice" else (True, False)
    good = [
        o
        for o in options
        if o != one.record.values[one.field.slot]
        and _meets(grade_at(one, o, rule, values, outcome.member), target)
    ]
    if not good:
        return None
    shown = " or ".join(str(o).lower() if isinstance(o, bool) else str(o) for o in good)
    return Remedy(one.path, one.text, shown, f"{one.path}: {one.text} -> {shown}.")
