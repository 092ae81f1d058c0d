"""The last bit of a float decides nothing: 12 mm are 12 mm in inches too.

A value written in another unit comes out a few parts in ten million million away. Every
measured value of the fixtures and of every case, also those on a limit, is moved by so
much, up and down: grades, demands and limits stay.
"""

from __future__ import annotations

import math

import pytest
from case_installations import shipped
from moving import FIXTURES, answers, case_grounds, fixture, leaves, put, readers

from checker import units
from checker.installation.record import Installation

_MOVED = 3e-13
_RULES = {rule.name: rule for rule in shipped().rules}
_NOTHING_LEFT = (
    "two stated values whose difference is nought: beside it there is no measure of what is near"
)
# Rule and field: why the last bit does decide there.
ALLOWED: dict[tuple[str, str], str] = {
    ("airflow/working-flow", "collector.filters[].change_differential"): "a filter that may load to no more than it has when clean is refused; " + _NOTHING_LEFT,
    ("airflow/working-flow", "collector.filters[].clean_differential"): "as the resistance at change-out",
    ("load/panel-pull-through", "mount.fixings[].lever"): "a lever shorter than the rows stand apart is refused; both are the same number in the case",
    ("load/panel-pull-through", "mount.fixings[].row_spacing"): "as the lever",
}  # fmt: skip

Found = dict[tuple[str, str], str]


def move_each(installation: Installation, only: str | None, found: Found) -> int:
    """Every quantity that has several units, a hair up and down; what changed by it."""
    moved = 0
    before = {}
    for leaf in leaves(installation):
        value, unit = leaf.record.values[leaf.field.slot], leaf.field.unit
        names = readers(leaf) if only is None else readers(leaf) & {only}
        if leaf.field.type != "quantity" or unit is None or not value or not names:
            continue
        if len(units.by_kind(unit.kind)) < 2:
            continue
        for name in names - before.keys():
            before[name] = answers([_RULES[name]], installation)
        for factor in (1.0 - _MOVED, 1.0 + _MOVED):
            with put(leaf, value * factor):
                after = answers([_RULES[name] for name in names], installation)
            moved += 1
            for key, outcome in after.items():
                was = before[key[0]][key]
                if outcome.grade is not was.grade or not _near(outcome.demand, was.demand) or not _near(outcome.limit, was.limit):  # fmt: skip
                    found[key[0], leaf.field.path] = f"{was.grade.word} {was.demand} {was.limit} -> {outcome.grade.word} {outcome.demand} {outcome.limit}"  # fmt: skip
    return moved


def _near(a: float | None, b: float | None) -> bool:
    if a is None or b is None:
        return a is b
    return math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-9)


@pytest.mark.parametrize("path", FIXTURES[:6], ids=lambda p: p.stem)
def test_of_a_main_fixture(path: object) -> None:
    found: Found = {}
    assert move_each(fixture(path), None, found) > 300  # type: ignore[arg-type]
    assert {k: v for k, v in found.items() if k not in ALLOWED} == {}


@pytest.mark.slow
def test_of_every_case() -> None:
    """The boundary cases stand exactly on their limits; what is allowed does happen."""
    found: Found = {}
    moved = 0
    for rule in shipped().rules:
        for _, installation in case_grounds(rule):
            moved += move_each(installation, rule.name, found)
    print(f"{moved} values moved")
    assert moved > 20_000
    assert {k: v for k, v in found.items() if k not in ALLOWED} == {}
    assert set(ALLOWED) - set(found) == set()
