"""One rule's lines on the fitting sheet: alike ones drawn together, what is missing asked for."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from checker.absent import Absent, OutOfReach, Unstated
from checker.checking.outcomes import Outcome, Values, working_of
from checker.formulas.lacking import evaluate
from checker.grades import Grade
from checker.installation.fields import Field
from checker.installation.record import Record
from checker.reporting.bases import is_unverified
from checker.reporting.lacking_fields import missing_fields
from checker.reporting.wording import Wording
from checker.rulebook.model import Rule, Rulebook, SheetLine
from checker.rulebook.soundness import PLACEHOLDER

__all__ = ["Entry", "entries_of", "entry_for_list"]

# Stands for a figure that nobody stated; what to state follows the sentence.
_BLANK = "____"
_NAMED = 3
_PLAIN = re.compile(r"([0-9.]+) ?[^0-9 ±]\S*")
_HYPHEN = re.compile(r"(?<=[a-z])-(?=[a-z])")


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the sheet, the rule it comes from, and whether a figure is still missing.

    ``line`` is the place of its template in the rule, ``members`` are the members of the
    rule's list that share it, ``asks`` the fields to state before it is complete, ``grade``
    the rule's grade where it says that the line cannot be worked to as it stands,
    ``unverified`` that the rule rests on something from memory.
    """

    text: str
    rule: str
    complete: bool
    line: int = 0
    members: tuple[int, ...] = ()
    asks: tuple[str, ...] = ()
    grade: str = ""
    unverified: bool = False


@dataclass(slots=True)
class _Drawn:
    """A line as it stands for one member: what each name shows, and what is lacking."""

    names: dict[str, Any]
    shown: dict[str, str]
    asks: dict[str, None] = field(default_factory=dict)
    reasons: dict[str, None] = field(default_factory=dict)


def entries_of(
    rule: Rule,
    members: Mapping[int | None, Grade],
    values: Values,
    wording: Wording,
    rulebook: Rulebook,
    *,
    asks_whether: bool,
) -> Iterator[tuple[SheetLine, Entry]]:
    """The lines of a rule that applies, members whose line is otherwise the same in one.

    ``members`` are those of its list, or None alone, with the grade of each. ``asks_whether``
    says that what decides whether the rule applies is asked for too.
    """
    all_names = {member: working_of(rule, values, member) for member in members}
    for place, line in enumerate(rule.sheet):
        groups: dict[tuple[Any, ...], dict[int | None, _Drawn]] = {}
        apart = {"subject", "members", *line.sums}
        for member, names in all_names.items():
            one = _drawn(rule, line, names, member, wording, asks_whether=asks_whether)
            if one is None:
                continue
            alike = tuple(text for name, text in one.shown.items() if name not in apart)
            grade = members[member]
            wrong = grade.word if grade in (Grade.STOP, Grade.CORRECT) else ""
            key = (wrong, alike, tuple(one.asks), tuple(one.reasons))
            groups.setdefault(key, {})[member] = one
        for (wrong, *_), group in groups.items():
            doubtful = any(is_unverified(rule, rulebook, values, member) for member in group)
            yield line, replace(_entry(rule, place, group, wording, wrong), unverified=doubtful)


def entry_for_list(rule: Rule, place: int, paths: tuple[str, ...]) -> Entry:
    """What stands in the place of a rule's line where its list is not stated."""
    return Entry(f"{rule.title}: {_ask(dict.fromkeys(paths))}", rule.name, False, place, (), paths)


def _drawn(
    rule: Rule,
    line: SheetLine,
    names: dict[str, Any],
    member: int | None,
    wording: Wording,
    *,
    asks_whether: bool,
) -> _Drawn | None:
    one = _Drawn(names, {})
    conditions = [rule.applies] if asks_whether else []
    for condition in (*conditions, line.condition):
        if condition is None:
            continue
        holds = evaluate(condition.source, names)
        if isinstance(holds, Absent):
            _lack(one, holds, rule, member, wording)
        elif not holds:
            return None
    for name in PLACEHOLDER.findall(line.line):
        if name in ("subject", "members") and rule.each is not None and member is None:
            one.shown[name] = _BLANK
            listed = names["S"][rule.each.field.slot]
            if isinstance(listed, Absent):
                _lack(one, listed, rule, member, wording)
        elif name == "subject" and rule.each is not None and member is not None:
            called = evaluate(rule.subject.source, names) if rule.subject else None
            is_named = called is not None and not isinstance(called, Absent)
            one.shown[name] = str(called) if is_named else f"no. {member + 1}"
        elif name != "members":
            absent = _absent(name, rule, names, member, wording)
            if absent is None:
                one.shown[name] = _said(name, rule, names, member, wording)
            else:
                one.shown[name] = _BLANK
                _lack(one, absent, rule, member, wording)
    return one


def _said(
    name: str, rule: Rule, names: dict[str, Any], member: int | None, wording: Wording
) -> str:
    text = wording.named(name, rule, names, member)
    if _is_line(name, rule) or name in rule.parameters:
        return text
    found, record = _field(name, rule, member, wording)
    stated = None if found is None else record.facts[found.slot]
    if found is None or stated is None:
        return text
    if stated.unit is not None and (plain := _PLAIN.fullmatch(text)):
        # As it was stated, digit for digit, the unit as it is printed everywhere else.
        shown = stated.unit.shown
        return f"{plain[1]}{'' if shown == '°' else ' '}{shown}".rstrip()
    # The words to choose from are written with hyphens; a class such as A2-70 is none of them.
    return _HYPHEN.sub(" ", text) if found.type == "choice" else text


def _lack(one: _Drawn, absent: Absent, rule: Rule, member: int | None, wording: Wording) -> None:
    if isinstance(absent.why, Unstated):
        outcome = Outcome(rule, member, Grade.CONFIRM, None, None, absent.why)
        found = missing_fields(outcome, wording.installation)
        one.asks.update(dict.fromkeys(field.path for field in found))
    elif isinstance(absent.why, OutOfReach):
        one.reasons[absent.why.reason] = None


def _entry(
    rule: Rule, place: int, group: dict[int | None, _Drawn], wording: Wording, wrong: str
) -> Entry:
    line, first = rule.sheet[place], next(iter(group.values()))
    known = dict(first.shown)
    if "subject" in known:
        known["subject"] = _listed([one.shown["subject"] for one in group.values()])
    known["members"] = str(len(group))
    if len(group) > 1 and not first.asks and not first.reasons:
        known |= {name: _total(name, rule, group, wording) for name in line.sums}
    text = PLACEHOLDER.sub(lambda match: known[match[1]], " ".join(line.line.split()))
    if first.asks:
        text += f" {_ask(first.asks)}"
    text = " ".join([text, *first.reasons])
    complete = not first.asks and not first.reasons
    members = tuple(member for member in group if member is not None)
    return Entry(text, rule.name, complete, place, members, tuple(first.asks), wrong)


def _ask(paths: dict[str, None]) -> str:
    named = list(paths)[:_NAMED]
    rest = len(paths) - len(named)
    return f"State {', '.join(named)}{f' and {rest} more' if rest else ''}."


def _listed(texts: list[str]) -> str:
    unlike = list(dict.fromkeys(texts))
    return unlike[0] if len(unlike) == 1 else f"{', '.join(unlike[:-1])} and {unlike[-1]}"


# --- values -------------------------------------------------------------------


def _absent(
    name: str, rule: Rule, names: dict[str, Any], member: int | None, wording: Wording
) -> Absent | None:
    """Why a name of a line has no value, or None if it has one."""
    if _is_line(name, rule):
        value = names[f"v_{name}"]
    elif name in rule.parameters:
        return None
    elif name.startswith("derived."):
        value = names["D"][_slot(name, wording)]
    else:
        found, record = _field(name, rule, member, wording)
        value = record.values[found.slot] if found is not None else None
    return value if isinstance(value, Absent) else None


def _total(name: str, rule: Rule, group: dict[int | None, _Drawn], wording: Wording) -> str:
    for line in _lines(rule):
        if line.name == name:
            total = sum(one.names[f"v_{name}"] for one in group.values())
            return wording.value(total, line.unit)
    total, unit = 0.0, None
    for member in group:
        found, record = _field(name, rule, member, wording)
        if found is not None:
            total, unit = total + record.values[found.slot], found.unit
    return wording.value(total, unit) if unit is not None else str(round(total))


def _is_line(name: str, rule: Rule) -> bool:
    return any(line.name == name for line in _lines(rule))


def _lines(rule: Rule) -> tuple[Any, ...]:
    return (*rule.lines, *(side for side in (rule.demand, rule.limit) if side is not None))


def _slot(name: str, wording: Wording) -> int:
    bare = name.removeprefix("derived.")
    return next(derived.index for derived in wording.order if derived.name == bare)


def _field(
    path: str, rule: Rule, member: int | None, wording: Wording
) -> tuple[Field | None, Record]:
    record = wording.installation.record
    if rule.each is not None and path.startswith(f"{rule.each.variable}."):
        path = path.partition(".")[2]
        if member is not None:
            record = record.members[rule.each.field.slot][member]
    return record.layout.leaf(path), record
