"""What a formula can come to read where only a part of the description is known."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from checker.absent import Absent, Unstated
from checker.formulas.compiling import compile_formula
from checker.formulas.reaching import UNKNOWN, Member, Reach, is_blank
from checker.formulas.running import surroundings
from checker.formulas.scope import DerivedName, Scope
from checker.formulas.types import PLAIN
from checker.installation.record import Installation

Met = Callable[..., tuple[Any, list[str]]]

SHELF = "shelf: {locked: true, mass: 3 kg, capacity: 5 kg, bolts: 4, shift: -2 mm}\n"
BOXES = "boxes: [{name: a, kind: open, mass: 1 kg}, {name: b, kind: shut, mass: 2 kg}]\n"
GAPS = "boxes: [{name: a, mass: 1 kg}, {name: b, kind: shut}]\n"


@pytest.fixture
def met(scope: Scope, look_ups: Callable[..., Any], describe: Callable[[str], Installation]) -> Met:
    """What a formula comes to on a description, and the fields that it can read."""

    def walked(
        text: str, description: str = "", *, as_it_is: bool = False
    ) -> tuple[Any, list[str]]:
        scope.derived["twice"] = DerivedName(7, PLAIN)
        compiled = compile_formula(text, scope)
        reach = Reach(
            Member(scope.layout, "", describe(description).record.values),
            surroundings(compiled.uses.functions, look_ups(scope)),
            lambda index: 2.0 * index,
            as_it_is=as_it_is,
        )
        reach.lines["v_arm"] = 2.0
        value = reach.value(compiled.source)
        assert not reach.local
        return value, list(reach.reads)

    return walked


KNOWN = [
    ("a number", "2.5", 2.5, []),
    ("a text", "'a'", "a", []),
    ("a line", "arm * 3", 6.0, []),
    ("a line that nobody knows", "ready * 3", UNKNOWN, []),
    ("a derived value", "derived.twice + 1", 15.0, []),
    ("a field", "shelf.mass + shelf.capacity", 8.0, ["shelf.mass", "shelf.capacity"]),
    ("a difference", "shelf.mass - shelf.capacity", -2.0, ["shelf.mass", "shelf.capacity"]),
    ("a product", "shelf.mass * shelf.bolts", 12.0, ["shelf.mass", "shelf.bolts"]),
    ("a quotient", "shelf.mass / shelf.bolts", 0.75, ["shelf.mass", "shelf.bolts"]),
    ("a power", "shelf.reach ** 2", UNKNOWN, ["shelf.reach"]),
    ("a power of what is stated", "shelf.mass ** 2", 9.0, ["shelf.mass"]),
    ("a negative", "-shelf.mass", -3.0, ["shelf.mass"]),
    ("the other way", "not shelf.locked", False, ["shelf.locked"]),
    ("by nought", "1 / (shelf.bolts - 4)", UNKNOWN, ["shelf.bolts"]),
    ("a call", "sqrt(shelf.mass * shelf.mass)", 3.0, ["shelf.mass"]),
    ("a call of what is not known", "sqrt(shelf.reach * shelf.reach)", UNKNOWN, ["shelf.reach"]),
    ("a look-up", "table.thread.pitch('M8')", 0.00125, []),
    ("this text", "mount.kind == 'side-post'", True, ["mount.kind"]),
    ("not this text", "mount.kind != 'side-post'", False, ["mount.kind"]),
    ("one of these", "mount.kind in ['side-post']", True, ["mount.kind"]),
    ("none of these", "mount.kind not in ['floor-stand']", True, ["mount.kind"]),
    ("one of these, not known", "mount.bolts in ['8.8']", UNKNOWN, ["mount.bolts"]),
    ("an order", "shelf.mass < shelf.capacity", True, ["shelf.mass", "shelf.capacity"]),
    ("the side taken", "shelf.mass if shelf.locked else shelf.reach * 0", 3.0, ["shelf.locked", "shelf.mass"]),
    ("the other side taken", "shelf.friction if not shelf.locked else shelf.mass / shelf.mass", 1.0, ["shelf.locked", "shelf.mass"]),
    ("either side", "shelf.mass if shelf.friction > 1 else shelf.capacity", UNKNOWN, ["shelf.friction", "shelf.mass", "shelf.capacity"]),
    ("the same on either side", "2 * shelf.mass if shelf.friction > 1 else shelf.mass + shelf.mass", 6.0, ["shelf.friction", "shelf.mass"]),
    ("one side that nobody knows", "shelf.mass if shelf.friction > 1 else shelf.mass + shelf.mass * shelf.noise / shelf.noise", UNKNOWN, ["shelf.friction", "shelf.mass", "shelf.noise"]),
    ("'and' that is decided", "not shelf.locked and shelf.friction > 1", False, ["shelf.locked"]),
    ("'and' that is not", "shelf.locked and shelf.friction > 1", UNKNOWN, ["shelf.locked", "shelf.friction"]),
    ("'and' of what holds", "shelf.locked and shelf.mass < shelf.capacity", True, ["shelf.locked", "shelf.mass", "shelf.capacity"]),
    ("'and' decided behind what is not known", "shelf.friction > 1 and not shelf.locked", False, ["shelf.friction", "shelf.locked"]),
    ("'or' that is decided", "shelf.locked or shelf.friction > 1", True, ["shelf.locked"]),
    ("'or' that is not", "not shelf.locked or shelf.friction > 1", UNKNOWN, ["shelf.locked", "shelf.friction"]),
    ("'or' of what does not hold", "not shelf.locked or shelf.mass > shelf.capacity", False, ["shelf.locked", "shelf.mass", "shelf.capacity"]),
    ("'or' decided behind what is not known", "shelf.friction > 1 or shelf.locked", True, ["shelf.friction", "shelf.locked"]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "value", "reads"), [c[1:] for c in KNOWN], ids=[c[0] for c in KNOWN]
)
def test_what_follows_from_what_is_stated(
    met: Met, text: str, value: Any, reads: list[str]
) -> None:
    found, read = met(text, SHELF)
    assert type(found) is type(value)
    assert found == value
    assert read == reads


OF_A_LIST = [
    ("a sum", "sum(box.mass for box in boxes)", BOXES, 3.0, ["boxes", "boxes[0].mass", "boxes[1].mass"]),
    ("some of it", "sum(box.mass for box in boxes if box.kind == 'open')", BOXES, 1.0, ["boxes", "boxes[0].kind", "boxes[0].mass", "boxes[1].kind"]),
    ("of an empty list", "sum(box.mass for box in boxes)", "boxes: []", 0, ["boxes"]),
    ("a list that is not stated", "sum(box.mass for box in boxes)", "", UNKNOWN, ["boxes", "boxes[].mass"]),
    ("a member that lacks it", "sum(box.mass for box in boxes)", GAPS, UNKNOWN, ["boxes", "boxes[0].mass", "boxes[1].mass"]),
    ("a member that may be left out", "sum(box.mass for box in boxes if box.kind == 'open')", GAPS, UNKNOWN, ["boxes", "boxes[0].kind", "boxes[0].mass", "boxes[1].kind"]),
    ("any", "any(box.mass > shelf.mass for box in boxes)", SHELF + BOXES, False, None),
    ("any that is found", "any(box.kind == 'shut' for box in boxes)", GAPS, True, ["boxes", "boxes[0].kind", "boxes[1].kind"]),
    ("any that may be", "any(box.kind == 'open' for box in boxes)", GAPS, UNKNOWN, ["boxes", "boxes[0].kind", "boxes[1].kind"]),
    ("any of what nobody lists", "any(box.kind == 'open' for box in boxes)", "", UNKNOWN, ["boxes", "boxes[].kind"]),
    ("all", "all(box.mass < shelf.mass for box in boxes)", SHELF + BOXES, True, None),
    ("all that are not", "all(box.kind == 'open' for box in boxes)", GAPS, False, ["boxes", "boxes[0].kind", "boxes[1].kind"]),
    ("all that may be", "all(box.kind == 'shut' for box in boxes)", GAPS, UNKNOWN, ["boxes", "boxes[0].kind", "boxes[1].kind"]),
    ("all of none", "all(box.mass < shelf.mass for box in boxes)", SHELF + "boxes: []", True, ["boxes"]),
    ("how many", "count(boxes)", BOXES, 2, ["boxes"]),
    ("how many of an unknown list", "count(boxes)", "", UNKNOWN, ["boxes"]),
    ("a list for a function", "max([box.mass for box in boxes])", BOXES, 2.0, ["boxes", "boxes[0].mass", "boxes[1].mass"]),
    ("a list within a list", "any(any(screw.length > arm for screw in box.lid.screws) for box in boxes)",
     "boxes: [{name: a, lid: {screws: [{length: 5 m}, {}]}}]", True, ["boxes", "boxes[0].lid.screws", "boxes[0].lid.screws[0].length", "boxes[0].lid.screws[1].length"]),
    ("a list within a list that nobody states", "any(any(screw.length > arm for screw in box.lid.screws) for box in boxes)",
     "boxes: [{name: a}]", UNKNOWN, ["boxes", "boxes[0].lid.screws", "boxes[0].lid.screws[].length"]),
    ("a list within any", "any(any(screw.length > arm for screw in box.lid.screws) for box in boxes)",
     "", UNKNOWN, ["boxes", "boxes[].lid.screws", "boxes[].lid.screws[].length"]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "description", "value", "reads"),
    [c[1:] for c in OF_A_LIST],
    ids=[c[0] for c in OF_A_LIST],
)
def test_what_follows_from_a_list(
    met: Met, text: str, description: str, value: Any, reads: list[str] | None
) -> None:
    found, read = met(text, description)
    assert type(found) is type(value)
    assert found == value
    assert reads is None or read == reads


ASKED = [
    ("stated(shelf.mass)", SHELF, True, True, ["shelf.mass"], ["shelf.mass"]),
    ("stated(shelf.reach)", SHELF, UNKNOWN, False, ["shelf.reach"], []),
    ("shelf.mass if stated(shelf.reach) else shelf.capacity", SHELF, UNKNOWN, 5.0, ["shelf.reach", "shelf.mass", "shelf.capacity"], ["shelf.capacity"]),
    ("stated(shelf)", SHELF, True, True, [], []),
    ("stated(shelf)", "", UNKNOWN, False, [], []),
    ("stated(boxes)", BOXES, True, True, ["boxes"], ["boxes"]),
    ("stated(boxes)", "", UNKNOWN, False, ["boxes"], []),
    ("any(stated(box.mass) for box in boxes)", GAPS, True, True, ["boxes", "boxes[0].mass", "boxes[1].mass"], ["boxes", "boxes[0].mass"]),
    ("any(stated(box.lid) for box in boxes)", GAPS, UNKNOWN, False, ["boxes"], ["boxes"]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "description", "later", "now", "reads_later", "reads_now"),
    ASKED,
    ids=[f"{c[0]} {bool(c[1])}" for c in ASKED],
)
def test_what_is_stated_may_come_later_or_is_asked_as_it_is(
    met: Met,
    text: str,
    description: str,
    later: Any,
    now: Any,
    reads_later: list[str],
    reads_now: list[str],
) -> None:
    found, read = met(text, description)
    assert (found, read) == (later, reads_later)
    found, read = met(text, description, as_it_is=True)
    assert (found, read) == (now, reads_now)


def test_a_list_that_is_only_begun_may_yet_hold_anything(
    scope: Scope, describe: Callable[[str], Installation]
) -> None:
    values = describe("").record.values
    boxes = scope.layout.leaf("boxes")
    assert boxes is not None
    assert boxes.item is not None
    values[boxes.slot] = [list(boxes.item.template), list(boxes.item.template)]
    for text, reads in (
        ("count(boxes)", ["boxes"]),
        ("sum(box.mass for box in boxes)", ["boxes", "boxes[].mass"]),
    ):
        compiled = compile_formula(text, scope)
        reach = Reach(Member(scope.layout, "", values), surroundings([], {}), float, as_it_is=False)
        assert reach.value(compiled.source) is UNKNOWN
        assert list(reach.reads) == reads


def test_what_no_formula_holds_is_refused(scope: Scope) -> None:
    reach = Reach(Member(scope.layout, "", None), {}, float, as_it_is=False)
    with pytest.raises(TypeError, match="no formula holds Lambda"):
        reach.value("lambda: 1")


def test_of_a_record_that_nobody_has_described_nothing_is_known(scope: Scope) -> None:
    mass = scope.layout.leaf("shelf.mass")
    assert mass is not None
    assert Member(scope.layout, "", None).value(mass) is UNKNOWN
    assert repr(UNKNOWN) == "UNKNOWN"


@pytest.mark.parametrize(
    ("values", "blank"),
    [
        ([], True),
        ([Absent(Unstated("a"))], True),
        ([Absent(Unstated("a")), 1.0], False),
        ([Absent(Unstated("a")), []], False),
        ([[[Absent(Unstated("a"))], [Absent(Unstated("a"))]]], True),
        ([[[Absent(Unstated("a"))], [2.0]]], False),
        ([0.0], False),
    ],
)
def test_a_record_that_says_nothing_is_blank(values: list[Any], blank: bool) -> None:
    assert is_blank(values) is blank
