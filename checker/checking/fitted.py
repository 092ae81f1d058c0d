"""What moved between the plan and the machine, and what it did to the grades."""

from __future__ import annotations

from collections.abc import Iterator

from checker.checking.outcomes import Values, check
from checker.checking.settling import Doubts
from checker.findings import BasisRead, FieldRead, Finding, Moved
from checker.grades import Grade
from checker.installation.record import Installation, Stated
from checker.rulebook.model import Rule, Rulebook
from checker.units.quantities import format_value

__all__ = ["RULE", "left_tolerance", "moved_fields", "moved_findings"]

RULE = "description/moved-from-plan"


def moved_fields(
    plan: Installation, fitted: Installation, rulebook: Rulebook | None
) -> tuple[Moved, ...]:
    """Every field whose value is not the planned one, in the order of the description.

    rulebook: by what the grades that changed are found; without one they are left out.
    """
    before = {} if rulebook is None else _grades(plan, rulebook)
    after = {} if rulebook is None else _grades(fitted, rulebook)
    changed = {
        key: (before.get(key), grade)
        for key, grade in after.items()
        if before.get(key) not in (None, grade)
    }
    found = []
    for path, field_path, was, now in _differences(plan, fitted):
        grades = tuple(
            f"{rule.name}{_member(member)}: {old.word} -> {new.word}"
            for (rule, member), (old, new) in changed.items()
            if field_path in rule.fields and old is not None
        )
        found.append(
            Moved(
                path,
                was.text if was else "not stated",
                now.text,
                _change(was, now),
                _beyond(was, now),
                grades,
            )
        )
    return tuple(found)


def moved_findings(moved: tuple[Moved, ...], fitted: Installation) -> Iterator[Finding]:
    """One finding for each field that left the tolerance of the plan."""
    places = {path: fact for path, _, fact in _facts(fitted)}
    for one in moved:
        if not one.beyond_tolerance:
            continue
        fact = places[one.path]
        where = fitted.place(fact.mark)
        yield Finding(
            RULE, "Outside the tolerance of the plan", "description", one.path, Grade.CONFIRM,
            f"{one.path} was planned as {one.planned} and is {one.fitted} ({one.change}): outside the tolerance that the plan allows. Have the planner agree or put it right.",
            "Whoever relies on the plan: the sheet, the order of parts, the next engineer.",
            None, None, None, None, (), (FieldRead(one.path, one.fitted, where.file, where.line, where.column, fact.origin),), (), (),
            (BasisRead("the tolerance", "plan", "The plan's own tolerance", "", one.planned, "checked"),), (), (),
            "A plan that no longer fits the machine is put right before work goes on.",
        )  # fmt: skip


def left_tolerance(plan: Installation, fitted: Installation) -> list[str]:
    """The fields that left the tolerance of the plan."""
    return [path for path, _, was, now in _differences(plan, fitted) if _beyond(was, now)]


def _grades(installation: Installation, rulebook: Rulebook) -> dict[tuple[Rule, int | None], Grade]:
    values = Values(rulebook, installation.record.values)
    doubts = Doubts(installation, values)
    return {(o.rule, o.member): doubts.grade(o) for o in check(rulebook, installation, values)}


def _facts(installation: Installation) -> Iterator[tuple[str, str, Stated]]:
    for prefix, record in installation.records():
        for field, fact in zip(record.layout.fields, record.facts, strict=True):
            if fact is not None and field.item is None:
                path = prefix + field.path.rpartition("[].")[2] if prefix else field.path
                yield path, field.path, fact


def _differences(
    plan: Installation, fitted: Installation
) -> Iterator[tuple[str, str, Stated | None, Stated]]:
    planned = {path: fact for path, _, fact in _facts(plan)}
    for path, field_path, now in _facts(fitted):
        was = planned.get(path)
        if field_path == "job.stage" or (was is not None and _same(was, now)):
            continue
        yield path, field_path, was, now


def _same(was: Stated, now: Stated) -> bool:
    if was.unit is None or now.unit is None:
        return was.text == now.text
    return was.low == now.low and was.high == now.high


def _change(was: Stated | None, now: Stated) -> str:
    if was is None:
        return "newly stated"
    if was.unit is None or now.unit is None:
        return "changed"
    difference = (now.low + now.high) / 2 - (was.low + was.high) / 2
    unit = was.unit._replace(offset=0.0)
    return f"{'+' if difference >= 0 else ''}{format_value(difference, unit)}"


def _beyond(was: Stated | None, now: Stated) -> bool:
    if was is None or was.unit is None or was.low == was.high:
        return False
    slack = 1e-9 * max(abs(was.low), abs(was.high))
    return now.low < was.low - slack or now.high > was.high + slack


def _member(member: int | None) -> str:
    return "" if member is None else f"[{member}]"
