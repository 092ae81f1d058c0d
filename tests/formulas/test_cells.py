"""Which cells of a table a formula read: those that had a say, with the keys they were asked for."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from checker.formulas.cells import cells_read, probes_of
from checker.formulas.compiling import compile_formula
from checker.formulas.running import surroundings
from checker.formulas.scope import Scope
from checker.formulas.types import Numeric
from checker.installation.record import Installation
from checker.units import need

Read = Callable[..., list[tuple[str, str, tuple[Any, ...]]]]

SHELF = (
    "shelf: {locked: true, mass: 3 kg}\nboxes: [{name: M8, mass: 1 kg}, {name: M10, mass: 2 kg}]\n"
)
M8 = ("thread", "pitch", ("M8",))
M10 = ("thread", "pitch", ("M10",))


@pytest.fixture
def read(
    scope: Scope, look_ups: Callable[..., Any], describe: Callable[[str], Installation]
) -> Read:
    """The cells that formulas read on a description."""

    def cells(
        *texts: str,
        description: str = SHELF,
        wanted: tuple[str, ...] = ("thread", "cable"),
        **more: Any,
    ) -> list[tuple[str, str, tuple[Any, ...]]]:
        scope.lines["amps"] = Numeric(need("A").dimension)
        formulas = [compile_formula(text, scope) for text in texts]
        names = surroundings([], look_ups(scope))
        names |= {"S": describe(description).record.values, "D": [], **more}
        probes = [p for formula in formulas for p in probes_of(formula, wanted)]
        return list(cells_read(probes, names))

    return cells


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("table.thread.pitch('M8')", [M8]),
        ("table.thread.pitch('M8') + 2 * table.thread.pitch('M10')", [M8, M10]),
        ("sqrt(table.thread.pitch('M8') * arm)", [M8]),
        ("shelf.mass * 2", []),
        ("max(shelf.mass, 0)", []),
        ("table.thread.pitch('M8') if shelf.locked else table.thread.pitch('M10')", [M8]),
        ("table.thread.pitch('M8') if not shelf.locked else table.thread.pitch('M10')", [M10]),
        ("arm if shelf.locked else table.thread.pitch('M10')", []),
        ("arm if table.thread.pitch('M8') > arm else arm * 2", [M8]),
        ("table.thread.pitch('M10') if table.thread.pitch('M8') < arm else arm", [M8, M10]),
        ("2 * (arm if shelf.locked else arm * 3) + table.thread.pitch('M8')", [M8]),
        ("table.thread.pitch('M8' if shelf.locked else 'M10')", [M8]),
    ],
)  # fmt: skip
def test_what_had_a_say_is_told(
    read: Read, text: str, cells: list[tuple[str, str, tuple[Any, ...]]]
) -> None:
    assert read(text, v_arm=2.0) == cells


def test_of_a_choice_that_cannot_be_made_no_side_is_told(read: Read) -> None:
    text = "table.thread.pitch('M8') if shelf.locked else table.thread.pitch('M10')"
    assert read(text, description="") == []


def test_a_key_that_is_not_known_tells_no_cell(read: Read) -> None:
    text = "table.thread.pitch('M8') + table.thread.pitch('M8' if shelf.locked else 'M10')"
    assert read(text, description="") == [M8]


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("sum(table.thread.pitch('M10' if box.mass < shelf.mass / 2 else 'M8') for box in boxes)", [M10, M8]),
        ("max([table.thread.pitch('M10' if box.mass < shelf.mass / 2 else 'M8') for box in boxes])", [M10, M8]),
        ("sum(table.thread.pitch('M10') for box in boxes if box.mass > shelf.mass / 2)", [M10]),
        ("sum(table.thread.pitch('M10') for box in boxes if box.mass > shelf.mass)", []),
        ("sum(box.mass for box in boxes if table.thread.pitch('M8') < arm)", [M8, M8]),
        ("sum(table.thread.pitch('M8') if shelf.locked else arm for box in boxes)", [M8, M8]),
        ("sum(table.thread.pitch('M8') for box in boxes) + table.thread.pitch('M10')", [M8, M8, M10]),
        ("sum(sum(table.thread.pitch('M8') for screw in box.lid.screws) for box in boxes)", [M8, M8, M8]),
    ],
)  # fmt: skip
def test_the_cells_of_a_loop_are_those_of_its_members(
    read: Read, text: str, cells: list[tuple[str, str, tuple[Any, ...]]]
) -> None:
    boxes = "shelf: {locked: true, mass: 3 kg}\nboxes: [{name: a, mass: 1 kg, lid: {screws: [{}, {}]}}, {name: b, mass: 2 kg, lid: {screws: [{}]}}]"
    assert read(text, description=boxes, v_arm=2.0) == cells


def test_of_a_list_that_is_not_stated_no_cell_is_told(read: Read) -> None:
    text = "sum(table.thread.pitch('M8') for box in boxes) + table.thread.pitch('M10')"
    assert read(text, description="") == [M10]


def test_the_cells_of_the_member_a_rule_speaks_of_are_told(
    scope: Scope, read: Read, describe: Callable[[str], Installation]
) -> None:
    boxes = scope.layout.leaf("boxes")
    assert boxes is not None
    assert boxes.item is not None
    scope.members["box"] = (boxes.item, "boxes")
    members = describe(SHELF).record.values[boxes.slot]
    text = "table.thread.pitch('M8' if box.mass < shelf.mass / 2 else 'M10')"
    assert read(text, m_box=members[0]) == [M8]
    assert read(text, m_box=members[1]) == [M10]


def test_only_the_tables_wanted_are_told(read: Read) -> None:
    text = "table.thread.pitch('M8') * 2"
    assert read(text, wanted=("cable",)) == []
    assert read("arm * 2", text, wanted=("thread",)) == [M8]
    both = "table.cable.area(amps) * table.thread.pitch('M8')"
    assert read(both, wanted=("thread",), v_amps=16.0) == [M8]
    assert read(both, wanted=("cable",), v_amps=16.0) == [("cable", "area", (16.0,))]
