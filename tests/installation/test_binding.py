"""A description held against its fields: what is refused and where, and what is read."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.absent import Absent
from checker.errors import Mistake, Mistakes
from checker.installation.binding import bind, seconds_of
from checker.installation.record import Installation

Describe = Callable[[str], Installation]


def mistakes_in(describe: Describe, text: str) -> tuple[Mistake, ...]:
    with pytest.raises(Mistakes) as caught:
        describe(text)
    return caught.value.mistakes


# --- one mistake each: text, what is said, found, expected, hint, line, column ----

REFUSED = [
    ("an unknown field", "shelf: {masss: 5 kg}", "unknown field 'masss' in shelf", "", "", "did you mean 'mass'?", 1, 9),
    ("an unknown section", "shelff: {mass: 5 kg}", "unknown field 'shelff'", "", "", "did you mean 'shelf'?", 1, 1),
    ("an unknown field like none", "shelf: {zzzz: 5}", "unknown field 'zzzz' in shelf", "", "", "fields here: mass, capacity", 1, 9),
    ("an unknown field of a member", "boxes:\n- {name: a, colour: red}", "unknown field 'colour' in boxes[]", "", "", "fields here: name", 2, 13),
    ("a key that is a unit", "shelf: {kg: 5}", "unknown field 'kg' in shelf", "", "", "fields here", 1, 9),
    ("a bare number", "shelf: {mass: 28}", "shelf.mass has no unit", "28", "mass of the shelf (mass)", "'28 kg' if that is what is meant", 1, 15),
    ("a bare decimal", "shelf: {reach: 0.5}", "shelf.reach has no unit", "0.5", "how far it stands out (length)", "'0.5 m'", 1, 16),
    ("another dimension", "shelf: {mass: 28 mm}", "shelf.mass: 'mm' is a unit of length, not of mass", "'28 mm'", "(mass)", "kg, g", 1, 15),
    ("an unknown unit", "shelf: {mass: 28 kq}", "shelf.mass: unknown unit 'kq'", "'28 kq'", "(mass)", "did you mean 'kg'?", 1, 15),
    ("below nought", "shelf: {mass: -28 kg}", "shelf.mass cannot be below nought", "-28 kg", "Mass of the shelf.", "", 1, 15),
    ("below nought inside its tolerance", "shelf: {mass: 1 kg ± 2 kg}", "shelf.mass cannot be below nought", "1 kg ± 2 kg", "", "", 1, 15),
    ("true for a quantity", "shelf: {mass: true}", "shelf.mass is not a value with a unit", "true", "(mass)", "kg", 1, 15),
    ("a list for a quantity", "shelf: {mass: [1, 2]}", "shelf.mass is not a value with a unit", "a list", "", "kg", 1, 15),
    ("no, which is no number", "shelf: {mass: no}", "shelf.mass: ", "'no'", "(mass)", "a number and its unit", 1, 15),
    ("a time for a quantity", "shelf: {mass: 1:30}", "shelf.mass: unknown unit ':30'", "'1:30'", "(mass)", "kg", 1, 15),
    ("a date for a quantity", "shelf: {mass: 2026-03-31}", "a dash between two numbers", "'2026-03-31'", "(mass)", "", 1, 15),
    ("NaN", "shelf: {mass: .nan}", "not a number", "'.nan'", "(mass)", "leave the field out", 1, 15),
    ("an endless number", "shelf: {mass: 1e999 kg}", "more digits", "'1e999 kg'", "(mass)", "check the number", 1, 15),
    ("an unknown origin", "shelf: {mass: {is: 5 kg, origin: guessed}}", "shelf.mass has no such origin", "'guessed'", "one of nameplate, measured", "", 1, 34),
    ("an origin near to one", "shelf: {mass: {is: 5 kg, origin: messured}}", "no such origin", "'messured'", "", "did you mean 'measured'?", 1, 34),
    ("an origin that is a list", "shelf: {mass: {is: 5 kg, origin: [measured]}}", "no such origin", "a list", "", "", 1, 34),
    ("an origin without a value", "shelf: {mass: {origin: measured}}", "shelf.mass has no value", "", "'is: 28 kg'", "", 1, 15),
    ("a third entry beside the origin", "shelf: {mass: {is: 5 kg, form: measured}}", "unknown field 'form' in shelf.mass", "", "'is' and 'origin'", "", 1, 26),
    ("a value below a value", "shelf: {mass: {is: {is: 5 kg}}}", "not a value with a unit", "a group of fields", "", "", 1, 15),
    ("a text for a number", "shelf: {friction: low}", "shelf.friction is a number", "'low'", "Coefficient of friction.", "", 1, 19),
    ("a unit for a number", "shelf: {friction: 0.2 kg}", "shelf.friction is a number", "'0.2 kg'", "", "", 1, 19),
    ("a number below nought", "shelf: {friction: -0.2}", "outside what is possible", "'-0.2'", "at least 0", "", 1, 19),
    ("a number beyond all measure", "shelf: {friction: 1e99}", "outside what is possible", "'1e+99'", "", "", 1, 19),
    ("a percentage that is none", "shelf: {friction: x %}", "no number", "'x %'", "(ratio)", "", 1, 19),
    ("a broken count", "shelf: {bolts: 2.5}", "shelf.bolts is a whole number", "'2.5'", "Number of bolts.", "", 1, 16),
    ("a count with a unit", "shelf: {bolts: 4 pieces}", "shelf.bolts is a whole number", "'4 pieces'", "", "", 1, 16),
    ("too small a count", "shelf: {bolts: 0}", "outside what is possible", "'0'", "1 to 12", "", 1, 16),
    ("too large a count", "shelf: {bolts: 13}", "outside what is possible", "'13'", "1 to 12", "", 1, 16),
    ("a count that is true", "shelf: {bolts: true}", "shelf.bolts is a whole number", "true", "", "", 1, 16),
    ("Norway for a flag", "shelf: {locked: no}", "shelf.locked is a yes-or-no field", "'no'", "true or false", "write 'false'", 1, 17),
    ("yes for a flag", "shelf: {locked: Yes}", "shelf.locked is a yes-or-no field", "'Yes'", "true or false", "write 'true'", 1, 17),
    ("one for a flag", "shelf: {locked: 1}", "shelf.locked is a yes-or-no field", "'1'", "true or false", "", 1, 17),
    ("a choice that is none", "mount: {kind: side-pots}", "mount.kind has no such choice", "'side-pots'", "side-post, floor-stand", "did you mean 'side-post'", 1, 15),
    ("a choice that YAML reads as a number", "mount: {kind: side-post, bolts: 8.8}", "mount.bolts has no such choice", "'8.8'", "one of 4.6, 8.8", 'put it in quotes: "8.8"', 1, 33),
    ("a list for a choice", "mount: {kind: [side-post]}", "mount.kind has no such choice", "a list", "", "", 1, 15),
    ("a number for a text", "job: {stage: plan, reference: 4711}", "job.reference is a text", "'4711'", "Number of the job.", 'put it in quotes: "4711"', 1, 31),
    ("true for a text", "job: {stage: plan, title: true}", "job.title is a text", "true", "", "", 1, 27),
    ("a date in another order", "job: {stage: plan, due_on: 31.3.2026}", "job.due_on is not a date", "'31.3.2026'", "2026-03-31", "", 1, 28),
    ("a date in a week", "job: {stage: plan, due_on: 2026-W01-1}", "job.due_on is not a date", "'2026-W01-1'", "2026-03-31", "", 1, 28),
    ("a date that no calendar has", "job: {stage: plan, due_on: 2026-02-30}", "job.due_on is not a date", "'2026-02-30'", "2026-03-31", "", 1, 28),
    ("a date without its strokes", "job: {stage: plan, due_on: 20260331}", "job.due_on is not a date", "'20260331'", "2026-03-31", "", 1, 28),
    ("a group for a list", "boxes: {name: a}", "boxes is a list", "a group of fields", "each starting with '-'", "The boxes on it.", 1, 8),
    ("a text for a list", "boxes: none", "boxes is a list", "'none'", "", "", 1, 8),
    ("a word for a member", "boxes: [a]", "boxes[] is not a group of fields", "'a'", "'name: value'", "One box.", 1, 9),
    ("nothing for a member", "boxes:\n-\n", "boxes[] is not a group of fields", "nothing", "", "", 2, None),
    ("a member without what it must have", "boxes:\n- {mass: 5 kg}", "'name' is missing", "", "Name of the box.", "add 'name:' to boxes[]", 2, 3),
    ("too many members", "boxes: [{name: a}, {name: b}, {name: c}, {name: d}, {name: e}]", "boxes has too many items", "5 in the list", "at most 4", "", 1, 8),
    ("too few members", "boxes: [{name: a, lid: {screws: []}}]", "boxes[].lid.screws has too few items", "0 in the list", "at least 1", "", 1, 33),
    ("a value for a section", "shelf: 5 kg", "shelf is not a group of fields", "'5 kg'", "fields below it", "The shelf.", 1, 8),
    ("a list for a section", "shelf: [mass]", "shelf is not a group of fields", "a list", "fields below it", "", 1, 8),
    ("a section without what it must have", "job: {reference: x}", "'stage' is missing", "", "Stage.", "add 'stage:' to job", 1, 6),
    ("what it must have left blank", "job: {stage: }", "'stage' is missing", "", "Stage.", "add 'stage:' to job", 1, 6),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "what", "found", "expected", "hint", "line", "column"),
    [c[1:] for c in REFUSED],
    ids=[c[0] for c in REFUSED],
)
def test_refused_with_its_place(
    describe: Describe, text: str, what: str, found: str, expected: str, hint: str, line: int, column: int | None
) -> None:  # fmt: skip
    (mistake,) = mistakes_in(describe, text)
    assert what in mistake.what
    assert found in mistake.found
    assert expected in mistake.expected
    assert hint in mistake.hint
    assert mistake.place.file == "shelf.yaml"
    assert mistake.place.line == line
    assert column is None or mistake.place.column == column


def test_all_mistakes_are_told_in_the_order_of_the_file(describe: Describe) -> None:
    found = mistakes_in(
        describe,
        "shelf:\n  mass: 28\n  reach: 2 kg\n  colour: red\nboxes:\n- {name: 1}\n- {name: b, mass: x}\n",
    )
    assert [m.place.line for m in found] == [2, 3, 4, 6, 7]


def test_a_list_at_the_top_is_no_description() -> None:
    with pytest.raises(Mistakes) as caught:
        bind(b"- a\n", "a.yaml")
    assert caught.value.mistakes[0].what == "the description is not a group of fields"


# --- read right ------------------------------------------------------------------


def test_values_are_bound_to_si(describe: Describe) -> None:
    one = describe(
        "job: {stage: fitted, checked_on: 1970-01-02}\n"
        "shelf: {mass: 500 g, warmth: 20 degC, shift: -5 mm, friction: 14 %, bolts: 4, locked: true}\n"
        "boxes: [{name: a, kind: shut}]\n"
    )
    assert one.value("shelf.mass") == 0.5
    assert one.value("shelf.warmth") == 293.15
    assert one.value("shelf.shift") == -0.005
    assert one.value("shelf.friction") == 0.14
    assert one.value("shelf.bolts") == 4
    assert one.value("shelf.locked") is True
    assert one.value("job.checked_on") == 86400.0
    assert one.value("boxes")[0][0] == "a"


def test_a_whole_number_may_be_written_with_its_point(describe: Describe) -> None:
    """JSON knows one kind of number; an editor accepts 4.0 for a whole one."""
    bolts = describe("shelf: {bolts: 4.0}").value("shelf.bolts")
    assert bolts == 4
    assert type(bolts) is int


@pytest.mark.parametrize("blank", ["", "~", "null"])
def test_nothing_behind_a_name_is_not_stated(describe: Describe, blank: str) -> None:
    one = describe(
        f"shelf:\n  mass: {blank}\n  bolts: {blank}\n  friction: {blank}\nboxes: {blank}\n"
    )
    for path in ("shelf.mass", "shelf.bolts", "shelf.friction", "boxes"):
        assert isinstance(one.value(path), Absent)
    assert isinstance(describe(f"shelf: {blank}").value("shelf.mass"), Absent)


def test_nothing_behind_an_origin_is_no_origin(describe: Describe) -> None:
    one = describe("shelf: {mass: {is: 5 kg, origin: }}")
    assert one.record.facts[_slot(one, "shelf.mass")].origin is None  # type: ignore[union-attr]


def test_how_a_value_was_stated_is_kept(describe: Describe) -> None:
    one = describe("shelf:\n  mass: {is: 26..30 kg, origin: estimated}\n")
    fact = one.record.facts[_slot(one, "shelf.mass")]
    assert fact is not None
    assert (fact.text, fact.low, fact.high, fact.origin) == ("26..30 kg", 26.0, 30.0, "estimated")
    assert str(one.place(fact.mark)) == "shelf.yaml:2:9"
    assert one.record.uncertain == one.record.estimated == [_slot(one, "shelf.mass")]


def test_the_band_of_a_percentage_is_kept(describe: Describe) -> None:
    one = describe("shelf: {friction: 10..20 %}")
    fact = one.record.facts[_slot(one, "shelf.friction")]
    assert fact is not None
    assert (one.value("shelf.friction"), fact.low, fact.high) == pytest.approx((0.15, 0.1, 0.2))
    assert one.record.uncertain == [_slot(one, "shelf.friction")]


def test_members_of_lists_know_their_whole_path(describe: Describe) -> None:
    one = describe(
        "boxes:\n- {name: a, lid: {screws: [{length: 5 mm}, {length: 6 mm}]}}\n- {name: b}\n"
    )
    assert [path for path, _ in one.records()] == [
        "", "boxes[0].", "boxes[1].", "boxes[0].lid.screws[0].", "boxes[0].lid.screws[1].",
    ]  # fmt: skip


def test_the_order_of_keys_changes_no_value(describe: Describe) -> None:
    one = describe("shelf: {mass: 5 kg, reach: 1 m}\nmount: {bolts: '8.8', kind: floor-stand}")
    other = describe("mount: {kind: floor-stand, bolts: '8.8'}\nshelf: {reach: 1 m, mass: 5 kg}")
    paths = ("shelf.mass", "shelf.reach", "mount.kind", "mount.bolts")
    assert [one.value(p) for p in paths] == [other.value(p) for p in paths]


def test_an_unknown_path_is_a_fault_of_ours(describe: Describe) -> None:
    with pytest.raises(KeyError):
        describe("").value("shelf.colour")


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("1970-01-01", 0.0), ("2026-03-31", 20543 * 86400.0), ("2026-13-01", None), ("2026-W01-1", None),
     ("20260101", None), ("٢٠٢٦-٠١-٠١", None), ("2026-01-01 ", None), ("", None), ("0001-01-01", -719162 * 86400.0)],
)  # fmt: skip
def test_a_date_as_seconds(text: str, seconds: float | None) -> None:
    assert seconds_of(text) == seconds


def _slot(installation: Installation, path: str) -> int:
    field = installation.record.layout.leaf(path)
    assert field is not None
    return field.slot
