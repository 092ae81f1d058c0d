"""Filling in a description by question and answer: nothing lost, nothing else touched."""

from __future__ import annotations

import datetime
import io
import os
import pty
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from checker.absent import Absent
from checker.asking.answers import as_yaml, numbered
from checker.asking.conversation import ask as hold
from checker.asking.editing import CannotEdit, add_item, clear, empty_list, put
from checker.asking.questions import questions_of
from checker.asking.starting import begun, needs_of
from checker.asking.terminal import Terminal
from checker.checking.judging import judge
from checker.errors import Mistakes
from checker.installation.binding import bind
from checker.installation.fields import Layout
from checker.installation.record import Installation
from checker.installation.schema import installation_layout
from checker.output.new_description import render, schema_for
from checker.places import SCHEMAS
from checker.reading import plain, read_yaml
from checker.running import Checker

FIXTURES = SCHEMAS.parent / "fixtures"
LAYOUT = installation_layout()


def _field(path: str) -> Any:
    return next(f for f in LAYOUT.walk() if f.path == path)


def _value(path: Path, name: str) -> Any:
    value = bind(path.read_bytes(), "a.yaml").value(name)
    return None if isinstance(value, Absent) else value


def _stated(path: Path, name: str) -> str | None:
    record = bind(path.read_bytes(), "a.yaml").record
    fact = record.facts[record.layout.leaf(name).slot]  # type: ignore[union-attr]
    return None if fact is None else fact.text


@pytest.fixture
def ask(run: Any, tmp_path: Path) -> Callable[..., Any]:
    """Holds one conversation about a file, each answer on a line."""

    def asked(*answers: str, name: str = "job.yaml", options: tuple[str, ...] = ()) -> Any:
        lines = "".join(f"{a}\n" for a in answers)
        return run("ask", tmp_path / name, *options, stdin=lines.encode("utf-8", "surrogateescape"))

    return asked


@pytest.fixture
def job(run: Any, tmp_path: Path) -> Path:
    path = tmp_path / "job.yaml"
    assert run("new", "side-post", "--output", path).status == 0
    return path


# --- one value in its place -----------------------------------------------------

TEXT = """\
# head ± é
job:
  a: "x ± y"   # c ±
  b:   # comment

  # about c
  c: {is: 3 mm, origin: measured}  # d
  d:
    # about q
    - q:   # qq
      # about r
      r:
      s: {k: 1, l: }
  e: []   # none
  f:
  g: null
sec:
  # more
  deep:
    x: 1
last: {a: 1}
"""


@pytest.mark.parametrize(
    ("parts", "before", "after"),
    [
        (("job", "a"), '  a: "x ± y"   # c ±\n', "  a: NEW   # c ±\n"),
        (("job", "b"), "  b:   # comment\n", "  b: NEW   # comment\n"),
        (("job", "c"), "  c: {is: 3 mm, origin: measured}  # d\n", "  c: NEW  # d\n"),
        (("job", "d", 0, "q"), "    - q:   # qq\n", "    - q: NEW   # qq\n"),
        (("job", "d", 0, "r"), "      r:\n", "      r: NEW\n"),
        (("job", "d", 0, "s", "l"), "{k: 1, l: }", "{k: 1, l: NEW}"),
        (("job", "d", 0, "s", "m"), "{k: 1, l: }", "{m: NEW, k: 1, l: }"),
        (("job", "d", 0, "t"), "      s: {k: 1, l: }\n", "      s: {k: 1, l: }\n      t: NEW\n"),
        (("job", "f", "g", "h"), "  f:\n", "  f:\n    g:\n      h: NEW\n"),
        (("job", "g"), "  g: null\n", "  g: NEW\n"),
        (("sec", "deep", "y"), "    x: 1\n", "    x: 1\n    y: NEW\n"),
        (("sec", "n", "y"), "    x: 1\n", "    x: 1\n  n:\n    y: NEW\n"),
        (("new", "n", "y"), "last: {a: 1}\n", "last: {a: 1}\nnew:\n  n:\n    y: NEW\n"),
        (("last", "c", "d"), "last: {a: 1}\n", "last: {c: {d: NEW}, a: 1}\n"),
    ],
)
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_a_value_goes_to_its_place_and_nothing_else_moves(
    parts: tuple[str | int, ...], before: str, after: str, newline: str
) -> None:
    assert TEXT.count(before) == 1
    text = TEXT.replace("\n", newline)
    wanted = TEXT.replace(before, after).replace("\n", newline)
    assert put(text, parts, "NEW") == wanted


def test_a_value_is_taken_back() -> None:
    assert clear(TEXT, ("job", "a")) == TEXT.replace(' "x ± y"', "")
    assert clear(TEXT, ("job", "d", 0, "s", "k")) == TEXT.replace("k: 1", "k: null")
    assert clear(TEXT, ("job", "never")) == TEXT


def test_an_item_is_added_below_the_others() -> None:
    lines = ["- # about", "  q:", "  r:"]
    for parts, above in (
        (("job", "d"), "      s: {k: 1, l: }\n"),
        (("job", "f"), "  f:\n"),
        (("sec", "new"), "    x: 1\n"),
        (("other", "new"), "last: {a: 1}\n"),
    ):
        once = add_item(TEXT, parts, lines)
        twice = add_item(once, parts, lines)
        assert once.startswith(TEXT[: TEXT.index(above) + len(above)])
        for line in TEXT.splitlines():
            assert line in once
        assert len(once.splitlines()) + 3 == len(twice.splitlines())
        assert add_item(TEXT.replace("\n", "\r\n"), parts, lines) == once.replace("\n", "\r\n")
    assert "  e:   # none\n    - # about\n" in add_item(TEXT, ("job", "e"), lines)
    assert "last: {li: [{}], a: 1}" in add_item(TEXT, ("last", "li"), lines)


def test_a_list_without_members_keeps_its_lines_as_comments() -> None:
    text = empty_list(TEXT, ("job", "d"))
    assert plain(read_yaml(text.encode(), "a"))["job"]["d"] == []
    assert "  d: []\n    # about q\n    # - q:   # qq\n      # about r\n    #   r:\n" in text
    again = add_item(text, ("job", "d"), ["- q:"])
    assert "  d:\n    - q:\n    # about q\n" in again
    assert empty_list(TEXT, ("job", "e")) == TEXT
    assert "\nlast: {z: [], a: 1}\n" in empty_list(TEXT, ("last", "z"))


@pytest.mark.parametrize(
    ("text", "parts", "line"),
    [
        ("a:\n  b: |\n    x\nc: 1\n", ("a", "b"), 2),
        ("a:\n  b: >-\n    x\n", ("a", "new"), 2),
        ("a:\n  b: x\n    y\n", ("a", "b"), 2),
        ("a:\n  b:\n    is: 3 mm\n", ("a", "b"), 3),
        ("a: text\n", ("a", "b"), 1),
        ("a: [1]\n", ("a", "b"), 1),
    ],
)
def test_what_is_laid_out_in_another_way_is_left_alone(
    text: str, parts: tuple[str, ...], line: int
) -> None:
    with pytest.raises(CannotEdit) as found:
        put(text, parts, "NEW")
    assert found.value.line == line


_SCALARS = st.one_of(
    st.none(), st.booleans(), st.integers(0, 99), st.text("ab:#'\"-é ±", min_size=1, max_size=6)
)
_TREES = st.recursive(
    _SCALARS,
    lambda inner: st.one_of(
        st.dictionaries(st.sampled_from("abcdef"), inner, min_size=1, max_size=4),
        st.lists(
            st.dictionaries(st.sampled_from("abc"), inner, min_size=1, max_size=3), max_size=3
        ),
    ),
    max_leaves=14,
)


@settings(deadline=None)
@given(
    tree=st.dictionaries(st.sampled_from("abcdef"), _TREES, min_size=1, max_size=4),
    parts=st.lists(st.sampled_from("abcdef"), min_size=1, max_size=3),
    flow=st.sampled_from([None, True, False]),
    indent=st.integers(2, 5),
)
@example(tree={"a": None}, parts=["a", "b"], flow=False, indent=2)
def test_whatever_is_given_out_holds_the_value_and_all_else(
    tree: dict[str, Any], parts: list[str], flow: bool | None, indent: int
) -> None:
    text = yaml.safe_dump(tree, default_flow_style=flow, indent=indent, allow_unicode=True)
    try:
        before = plain(read_yaml(text.encode(), "a"))
        changed = put(text, tuple(parts), "28 kg")
    except (Mistakes, CannotEdit, KeyError):
        return
    after = plain(read_yaml(changed.encode(), "a"))
    at, was = after, before
    for part in parts[:-1]:
        was = (was or {}).get(part) or {}
        at = at[part]
    assert at[parts[-1]] == "28 kg"
    assert {k: v for k, v in at.items() if k != parts[-1]} == {
        k: v for k, v in was.items() if k != parts[-1]
    }


# --- what is typed --------------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "typed", "written"),
    [
        ("collector.mass", "28 kg", "28 kg"),
        ("collector.mass", "28 kg ± 0.5 kg", "28 kg ± 0.5 kg"),
        ("collector.mass", "28 kg, nameplate", "{is: 28 kg, origin: nameplate}"),
        ("collector.mass", "{is: 28 kg, origin: maker}", "{is: 28 kg, origin: maker}"),
        ("collector.mass", "28 kg, guessed", '"28 kg, guessed"'),
        ("collector.mass", "1,5 kg", '"1,5 kg"'),
        ("collector.mass", "28", "28"),
        ("collector.mass", "[1, 2]", '"[1, 2]"'),
        ("collector.mass", "28 kg # scale", '"28 kg # scale"'),
        ("process.air_temperature", "-5 degC", "-5 degC"),
        ("mount.post.shape", "2", "rectangular"),
        ("mount.post.shape", "round", "round"),
        ("mount.kind", "Side Post", "side-post"),
        ("collector.motor.drive", "direct_on line", "direct-on-line"),
        ("mount.post.shape", "9", '"9"'),
        ("mount.fixings[].strength_class", "1", '"1"'),
        ("mount.fixings[].strength_class", "4.6", '"4.6"'),
        ("host.drilling_allowed", "Yes", "true"),
        ("host.drilling_allowed", "n", "false"),
        ("host.drilling_allowed", "perhaps", "perhaps"),
        ("job.reference", "2047", '"2047"'),
        ("job.reference", "true", '"true"'),
        ("job.reference", "no", "no"),
        ("job.reference", "~", '"~"'),
        ("job.reference", "K-1: second", '"K-1: second"'),
        ("job.reference", '"q"', '"q"'),
        ("job.reference", '"', '"\\""'),
        ("job.planned_on", "2026-03-31", "2026-03-31"),
        ("job.planned_on", "Today", datetime.date.today().isoformat()),
    ],
)
def test_an_answer_as_it_is_written(path: str, typed: str, written: str) -> None:
    assert as_yaml(_field(path), typed) == written


def test_choices_that_look_like_numbers_are_not_numbered() -> None:
    assert numbered(_field("mount.post.shape"))
    assert not numbered(_field("mount.fixings[].strength_class"))


@settings(deadline=None, max_examples=300)
@given(typed=st.text(max_size=60), field=st.sampled_from(LAYOUT.fields))
@example(typed="{is: 3 mm, origin: }", field=_field("collector.mass"))
@example(typed="3 mm, measured", field=_field("collector.mass"))
@example(typed="\u2028", field=_field("job.reference"))
@example(typed="\ud800", field=_field("job.reference"))
def test_no_answer_can_do_more_than_give_one_value(typed: str, field: Any) -> None:
    # Whatever is typed stays one value at its own field, or is refused by the reader.
    if field.item is not None:
        return
    text = f"before: 1\nfield: {as_yaml(field, typed)}\nafter: 2\n"
    try:
        found = plain(read_yaml(text.encode("utf-8", "surrogateescape"), "a"))
    except (Mistakes, UnicodeEncodeError):
        return
    assert list(found) == ["before", "field", "after"]
    assert isinstance(found["field"], (str, int, float, bool)) or set(found["field"]) == {"is", "origin"}  # fmt: skip
    if field.type == "text" and not typed.strip().startswith('"'):
        assert found["field"] == typed.strip()


# --- the questions --------------------------------------------------------------


def test_questions_come_in_the_order_of_the_fields(small_layout: Layout) -> None:
    book = Checker().rulebook
    text = render(
        start := begun(book.layout, "side-post", "plan", None),
        needs_of(book, start),
        schema=schema_for(None),
    )
    installation = bind(text.encode(), "a")
    found = questions_of(installation, needs_of(book, installation), frozenset())
    assert [q.order for q in found] == sorted(q.order for q in found)
    slots = [f.path for f in book.layout.fields]
    assert [q.path for q in found] == sorted((q.path for q in found), key=slots.index)
    assert {q.path for q in found if not q.is_open} == {"job.stage", "mount.kind"}


def test_members_are_asked_one_after_the_other_and_then_for_more() -> None:
    book = Checker().rulebook
    text = (
        "job: {stage: plan}\nmount:\n  kind: side-post\n  fixings:\n    - {at: a}\n    - {at: b}\n"
    )
    installation = bind(text.encode(), "a")
    found = questions_of(installation, needs_of(book, installation), frozenset())
    paths = [(q.kind, q.path) for q in found if q.path.startswith("mount.fixings")]
    assert paths[0] == ("list", "mount.fixings")
    assert paths[-1] == ("more", "mount.fixings")
    first, second = (paths.index(("field", f"mount.fixings[{i}].at")) for i in (0, 1))
    assert 0 < first < second
    assert [q.order for q in found] == sorted(q.order for q in found)


def test_a_list_of_empty_items_is_one_question() -> None:
    book = Checker().rulebook
    text = "job: {stage: plan}\nmount:\n  kind: side-post\n  fixings:\n    - at:\n      thread:\n"
    installation = bind(text.encode(), "a")
    needs = needs_of(book, installation)
    closed = questions_of(installation, needs, frozenset())
    assert [q.kind for q in closed if q.path.startswith("mount.fixings")] == ["list"]
    opened = questions_of(installation, needs, {"mount.fixings"})
    assert any(q.path == "mount.fixings[0].thread" for q in opened)


# --- a conversation -------------------------------------------------------------


def test_a_file_is_begun_with_three_questions(ask: Any, tmp_path: Path) -> None:
    found = ask("4", "fitted", "GB", "q")
    assert found.status == 0
    path = tmp_path / "job.yaml"
    assert _stated(path, "mount.kind") == "wall-bracket"
    assert _stated(path, "job.stage") == "fitted"
    assert _stated(path, "job.jurisdiction") == "GB"
    assert path.read_text(encoding="utf-8").startswith("# yaml-language-server: $schema=")
    assert "VERDICT  confirm" in found.out


@pytest.mark.parametrize("answers", [(), ("",), ("q",), ("side-post", "q"), ("sofa", "", "7")])
def test_no_file_is_begun_by_halves(ask: Any, tmp_path: Path, answers: tuple[str, ...]) -> None:
    found = ask(*answers)
    assert found.status == 0
    assert "Nothing was written." in found.out
    assert list(tmp_path.iterdir()) == []


def test_answers_are_written_into_their_lines(ask: Any, job: Path) -> None:
    before = job.read_text(encoding="utf-8")
    found = ask("K-7", "A post", "US", "", "user", "", "", "", "", "80 kg, maker", "28 kg ± 0.5 kg")
    assert found.status == 0
    assert "All 2 questions are answered." in found.out
    assert "VERDICT  ready" in found.out
    after = job.read_text(encoding="utf-8")
    changed = [(a, b) for a, b in zip(before.splitlines(), after.splitlines(), strict=True) if a != b]  # fmt: skip
    assert changed == [
        ("  reference:", "  reference: K-7"),
        ("  title:", "  title: A post"),
        ("  jurisdiction:", "  jurisdiction: US"),
        ("  customer:", "  customer: user"),
        ("  capacity:", "  capacity: {is: 80 kg, origin: maker}"),
        ("  mass:", "  mass: 28 kg ± 0.5 kg"),
    ]


def test_a_wrong_answer_is_told_and_asked_again(ask: Any, job: Path) -> None:
    found = ask(*[""] * 9, "80", "80 N", "1,5 t", "eighty", "80 kg")
    assert "host.capacity has no unit" in found.out
    assert "try       write the unit: '80 kg' if that is what is meant" in found.out
    assert "'N' is a unit of force, not of mass" in found.out
    assert "a decimal comma or a thousands comma" in found.out
    assert "no number" in found.out
    assert _value(job, "host.capacity") == 80
    assert str(job) + ":" not in found.out.replace(f"check {job}", "")


def test_the_messages_are_those_of_the_check(ask: Any, run: Any, job: Path, tmp_path: Path) -> None:
    asked = ask(*[""] * 9, "80 N")
    other = tmp_path / "other.yaml"
    other.write_text("job: {stage: plan}\nmount: {kind: side-post}\nhost: {capacity: 80 N}\n", encoding="utf-8")  # fmt: skip
    checked = run("check", other)
    what, *rest = checked.err.partition(": ")[2].splitlines()
    assert "\n".join([f"    {what}", *rest]) in asked.out


def test_a_value_outside_its_usual_range_is_kept_and_asked_about(ask: Any, job: Path) -> None:
    found = ask(*[""] * 9, "80000 kg")
    assert "Kept, but it usually lies within 10 kg to 2000 kg" in " ".join(found.out.split())
    assert _value(job, "host.capacity") == 80000


def test_a_question_mark_tells_more(ask: Any, job: Path) -> None:
    found = ask(*[""] * 9, "?")
    told = " ".join(found.out.split())
    assert "Write a number and its unit: kg, g," in told
    assert "'28 kg ± 0.5 kg' or '26..30 kg'" in told
    assert "nameplate, measured, drawing, maker (its data sheet or letter) or estimated" in told
    assert "Mass on the host (load/capacity)" in told
    assert "q stop" in told


def test_going_back_shows_the_answer_and_lets_it_be_changed(ask: Any, job: Path) -> None:
    found = ask("K-7", "<", "K-8", "A", "<", "-", "q")
    assert "Now: K-7. Enter keeps it, '-' takes it back." in found.out
    assert "Taken back." in found.out
    assert _value(job, "job.reference") == "K-8"
    assert _value(job, "job.title") is None
    assert "This is where it began." in ask("<", "q").out


def test_a_group_is_skipped(ask: Any, job: Path) -> None:
    found = ask(">", ">", "28 kg")
    assert "Skipped the rest of job." in found.out
    assert _value(job, "collector.mass") == 28
    assert _value(job, "host.capacity") is None


def test_it_goes_on_where_it_was_left(ask: Any, job: Path) -> None:
    ask("", "A title", "q")
    found = ask("US", "q")
    assert "Going on behind the last answer." in found.out
    assert _stated(job, "job.jurisdiction") == "US"
    assert _value(job, "job.reference") is None


def test_what_was_left_for_later_is_offered_at_the_end(ask: Any, job: Path) -> None:
    found = ask(">", "", "28 kg", "yes", "80 kg")
    assert "1 was left for later" in found.out
    assert _value(job, "host.capacity") == 80


def test_one_section_or_one_field(ask: Any, job: Path) -> None:
    ask("80 kg", options=("--section", "host"))
    assert _value(job, "host.capacity") == 80
    found = ask("90 kg", options=("--section", "host.capacity"))
    assert "Now: 80 kg" in found.out
    assert _value(job, "host.capacity") == 90
    done = ask("95 kg", options=("--section", "host"))
    assert "Nothing is open under host." in done.out
    assert _value(job, "host.capacity") == 90


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("hots", "did you mean 'host'?"),
        ("mount.stand", "one that a rule reads for this mount at this stage"),
        ("nonsense-beyond-words", "sections: job, host, collector, mount"),
    ],
)
def test_a_section_that_is_not_asked(ask: Any, job: Path, name: str, said: str) -> None:
    found = ask(options=("--section", name))
    assert found.status == 3
    assert said in " ".join(found.err.split())


def test_text_that_looks_like_something_else_stays_text(ask: Any, job: Path) -> None:
    for typed in ("2047", "no", "1:30", "- a", "# b", "a: b", "{x}", "*y", "'", "é ± 日本", '"q"'):
        ask(typed, options=("--section", "job.reference"))
        assert _value(job, "job.reference") == typed.strip('"'), typed


@pytest.mark.parametrize(
    "typed",
    [
        "\x00", "\x1b[A", "a\x07b", "\u202eevil", "\ufeff", "x" * 5000, "\udcff", "a\u2028b",
        "28 kg\n<", "\t",
    ],
)  # fmt: skip
def test_hostile_answers_leave_the_file_whole(ask: Any, job: Path, typed: str) -> None:
    before = job.read_bytes()
    found = ask(">", typed, "80 kg")
    assert found.status == 0
    assert "\x1b" not in found.out
    assert "Traceback" not in found.err
    bind(job.read_bytes(), "job.yaml")
    assert len(job.read_bytes().splitlines()) == len(before.splitlines())


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])  # fmt: skip
@given(answers=st.lists(st.one_of(
    st.sampled_from(["", "?", "<", ">", "-", "yes", "none", "1", "28 kg", "US", "today"]), st.text(max_size=8),
), max_size=25))  # fmt: skip
def test_any_answers_at_all(ask: Any, run: Any, tmp_path: Path, answers: list[str]) -> None:
    path = tmp_path / "any.yaml"
    path.unlink(missing_ok=True)
    run("new", "side-post", "--output", path)
    found = ask(*[a.replace("\n", " ") for a in answers], name="any.yaml")
    assert found.status == 0
    installation = bind(path.read_bytes(), "any.yaml")
    assert installation.value("mount.kind") in ("side-post",)
    assert "VERDICT" in found.out


# --- lists ----------------------------------------------------------------------

FIXINGS = """\
title: Fixings
protects: People below.
each: fixing in mount.fixings
subject: fixing.at
working:
  area: {formula: "3 * collector.mass if fixing.kind == \\"screw\\" else 2 * collector.mass", unit: kg}
compare: {demand: area, limit: fixing.count * host.capacity, unit: kg}
expect: {advise: demand <= limit}
says: {advise: a, met: m}
basis: [{source: statics, clause: c, confidence: checked}]
caution: Mind it.
cases: [{name: one, grade: met}]
"""


@pytest.fixture
def with_list(rules_in: Any, run: Any, tmp_path: Path) -> tuple[Path, tuple[str, ...]]:
    options = ("--rules", str(rules_in({"load/fixings.yaml": FIXINGS})))
    path = tmp_path / "job.yaml"
    assert run("new", "side-post", "--output", path, *options).status == 0
    return path, options


def test_members_of_a_list_are_added_as_long_as_there_are_more(ask: Any, with_list: Any) -> None:
    path, options = with_list
    found = ask(
        "yes", "upper", "screw", "4", "yes", "lower", "1", "2", "no",
        options=(*options, "--section", "mount.fixings"),
    )  # fmt: skip
    assert "mount.fixings: 2 so far" in found.out
    tree = plain(read_yaml(path.read_bytes(), "a"))["mount"]["fixings"]
    assert tree == [
        {"at": "upper", "kind": "screw", "count": 4},
        {"at": "lower", "kind": "through-bolt", "count": 2},
    ]


def test_a_list_of_which_there_is_none(ask: Any, with_list: Any) -> None:
    path, options = with_list
    section = (*options, "--section", "mount.fixings")
    found = ask("no", "hm", "none", options=section)
    assert "Is there none at all? Then write 'none'." in found.out
    assert "Write yes or none" in found.out
    text = path.read_text(encoding="utf-8")
    assert plain(read_yaml(text.encode(), "a"))["mount"]["fixings"] == []
    assert "# - at:" in text


def test_a_list_is_left_and_taken_up_again(ask: Any, with_list: Any) -> None:
    path, options = with_list
    ask("", options=(*options, "--section", "mount.fixings"))
    assert bind(path.read_bytes(), "a").record.layout
    ask("yes", "upper", "q", options=(*options, "--section", "mount.fixings"))
    found = ask("3", "8", "no", options=(*options, "--section", "mount.fixings"))
    assert "mount.fixings: 1 so far" in found.out
    tree = plain(read_yaml(path.read_bytes(), "a"))["mount"]["fixings"]
    assert tree == [{"at": "upper", "kind": "rivet-nut", "count": 8}] or tree[0]["count"] == 8


def test_a_list_that_the_file_does_not_name_yet(ask: Any, with_list: Any) -> None:
    path, options = with_list
    path.write_text("job: {stage: plan}\nmount: {kind: side-post}\n", encoding="utf-8")
    ask("yes", "upper", "screw", "4", "no", options=(*options, "--section", "mount.fixings"))
    tree = plain(read_yaml(path.read_bytes(), "a"))["mount"]
    assert tree == {"kind": "side-post", "fixings": [{"at": "upper", "kind": "screw", "count": 4}]}


# --- files of any kind ----------------------------------------------------------


def test_a_description_of_ones_own_hand_is_completed(ask: Any, tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_bytes(b"# mine\r\njob: {stage: plan}\r\nmount:\r\n    kind: side-post   # post\r\n")
    ask(*[""] * 9, "80 kg", "28 kg")
    assert path.read_bytes() == (
        b"# mine\r\njob: {stage: plan}\r\nmount:\r\n    kind: side-post   # post\r\n"
        b"host:\r\n  capacity: 80 kg\r\ncollector:\r\n  mass: 28 kg\r\n"
    )


def test_a_value_over_several_lines_is_left_to_its_writer(ask: Any, tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    text = "job:\n  stage: plan\n  title: >-\n    a\n    b\nmount: {kind: side-post}\n"
    path.write_text(text, encoding="utf-8")
    found = ask("new", "", options=("--section", "job.title"))
    assert "only you can change: line 3" in " ".join(found.out.split())
    assert path.read_text(encoding="utf-8") == text


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("job: {stage: plan}\n", "'mount' is missing"),
        ("job: {a\n  b: [}\n", "try"),
        ("", "the file is empty"),
        ("job: {stage: plan}\nmount: {kind: side-post}\nhost: {capacity: 5}\n", "has no unit"),
    ],
)
def test_a_file_that_cannot_be_read_is_not_touched(
    ask: Any, tmp_path: Path, text: str, said: str
) -> None:
    path = tmp_path / "job.yaml"
    path.write_text(text, encoding="utf-8")
    found = ask("x")
    assert found.status == 3
    assert said in found.err
    assert path.read_text(encoding="utf-8") == text


def test_a_folder_is_no_description(ask: Any, tmp_path: Path) -> None:
    (tmp_path / "job.yaml").mkdir()
    assert ask("x").status == 3
    found = ask("side-post", "", "", name="no/such/job.yaml")
    assert found.status == 3
    assert "there is no such folder" in found.err


def test_a_link_stays_a_link(ask: Any, job: Path, tmp_path: Path) -> None:
    (tmp_path / "link.yaml").symlink_to(job)
    ask("K-7", name="link.yaml")
    assert (tmp_path / "link.yaml").is_symlink()
    assert _value(job, "job.reference") == "K-7"


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_may_not_be_written_ends_it(ask: Any, job: Path, tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        found = ask("K-7")
    finally:
        tmp_path.chmod(0o700)
    assert found.status == 3
    assert "the file cannot be written" in found.err


def test_a_disk_that_is_full_ends_it_and_the_file_is_as_it_was(
    ask: Any, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = job.read_bytes()

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    found = ask("K-7", "A title")
    assert found.status == 3
    assert "No space left on device" in found.err
    assert job.read_bytes() == before
    assert list(job.parent.glob(".job*")) == []


class _Typist:
    """Answers that do something to the file before each is given."""

    def __init__(self, *acts: tuple[Callable[[], Any], str]) -> None:
        self.acts = list(acts)

    def isatty(self) -> bool:
        return False

    def readline(self) -> str:
        if not self.acts:
            return ""
        act, answer = self.acts.pop(0)
        act()
        return f"{answer}\n"


def _hold(path: Path, typist: _Typist) -> str:
    screen = io.StringIO()
    assert hold(path, None, Checker(), Terminal(typist, screen, 80)) == 0  # type: ignore[arg-type]
    return screen.getvalue()


def test_what_an_editor_saves_meanwhile_is_kept(job: Path) -> None:
    def edited() -> None:
        text = job.read_text(encoding="utf-8")
        job.write_text(text.replace("  site:\n", "  site: Hall 3   # by hand\n"), encoding="utf-8")

    _hold(job, _Typist((edited, "K-7"), (lambda: None, "A title")))
    assert _value(job, "job.site") == "Hall 3"
    assert _value(job, "job.reference") == "K-7"
    assert _value(job, "job.title") == "A title"
    assert "# by hand" in job.read_text(encoding="utf-8")


def test_a_file_broken_meanwhile_is_not_written_over(job: Path) -> None:
    whole = job.read_text(encoding="utf-8")
    broken = whole.replace("  site:\n", "  site: [\n")
    seen = _hold(
        job,
        _Typist(
            (lambda: job.write_text(broken, encoding="utf-8"), "K-7"),
            (lambda: job.write_text(whole, encoding="utf-8"), "K-8"),
        ),
    )
    assert "was changed meanwhile and cannot be read" in " ".join(seen.split())
    assert _value(job, "job.reference") == "K-8"


# --- stopped at any moment ------------------------------------------------------

COMMAND = [sys.executable, "-u", "-m", "checker", "ask"]


def _started(path: Path, *arguments: str, **options: Any) -> subprocess.Popen[bytes]:
    environment = {**os.environ, "PYTHONPATH": str(SCHEMAS.parent)}
    return subprocess.Popen([*COMMAND, str(path), *arguments], env=environment, **options)


def _until(process: subprocess.Popen[bytes], what: bytes, times: int = 1) -> None:
    assert process.stdout is not None
    seen = b""
    while seen.count(what) < times:
        piece = os.read(process.stdout.fileno(), 65536)
        assert piece, seen
        seen += piece


def _new(path: Path) -> None:
    book = Checker().rulebook
    start = begun(book.layout, "side-post", "plan", None)
    path.write_text(render(start, needs_of(book, start), schema=schema_for(path)), encoding="utf-8")


@pytest.mark.slow
def test_a_kill_at_any_moment_leaves_the_file_whole_with_all_that_was_answered(
    tmp_path: Path,
) -> None:
    path = tmp_path / "job.yaml"
    _new(path)
    chance = random.Random(4)
    held = ""
    for turn in range(8):
        process = _started(
            path, "--section", "job.title", stdin=subprocess.PIPE, stdout=subprocess.PIPE
        )
        assert process.stdin is not None
        try:
            _until(process, b"\n> ")
            process.stdin.write(f"answer {turn}\n".encode())
            process.stdin.flush()
            if turn % 2:
                # It has gone on: what was answered before has to be on the disk by now.
                _until(process, b"still open")
                held = f"answer {turn}"
            else:
                time.sleep(chance.random() * 0.2)
        finally:
            process.kill()
            process.wait()
            process.stdin.close()
            process.stdout.close()  # type: ignore[union-attr]
        assert _value(path, "job.title") in (held or None, f"answer {turn}")
        held = _value(path, "job.title") or ""
        if turn % 2:
            assert held == f"answer {turn}"


@pytest.mark.slow
@pytest.mark.parametrize("times", [1, 3])
def test_an_interrupt_says_that_nothing_is_lost(tmp_path: Path, times: int) -> None:
    path = tmp_path / "job.yaml"
    _new(path)
    process = _started(
        path, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
    )
    assert process.stdin is not None
    _until(process, b"\n> ")
    process.stdin.write(b"K-7\n" * (times - 1))
    process.stdin.flush()
    if times > 1:
        _until(process, b"\n> ", times - 1)
    process.send_signal(signal.SIGINT)
    out, _ = process.communicate(timeout=60)
    assert process.returncode == 130
    assert b"Stopped. Every answer so far is in" in out
    assert b"Traceback" not in out


@pytest.mark.slow
def test_at_a_terminal(tmp_path: Path) -> None:
    # A real terminal: prompts by input(), the end of input by Ctrl-D.
    path = tmp_path / "job.yaml"
    _new(path)
    master, slave = pty.openpty()
    process = _started(path, stdin=slave, stdout=slave, stderr=slave)
    os.close(slave)
    seen = b""

    def until(*wanted: bytes) -> None:
        nonlocal seen
        while not all(what in seen for what in wanted):
            seen += os.read(master, 65536)
        seen = b""

    until(b"job.reference", b"\n> ")
    os.write(master, b"K-7\n")
    until(b"job.title", b"\n> ")
    os.write(master, b"\x04")
    until(b"VERDICT  confirm")
    assert process.wait(timeout=60) == 0
    os.close(master)
    assert _value(path, "job.reference") == "K-7"


def test_without_any_input_it_says_how_things_stand(ask: Any, job: Path) -> None:
    before = job.read_bytes()
    found = ask()
    assert found.status == 0
    assert "2 of 2 questions are still open: host 1, collector 1." in found.out
    assert job.read_bytes() == before


# --- from an empty file to a checked one ------------------------------------------


class _Papers:
    """Somebody with all the papers of a job at hand, who answers whatever is asked."""

    def __init__(self, papers: Installation, screen: io.StringIO) -> None:
        self.screen = screen
        self.read_up_to = 0
        self.answers: dict[str, str] = {}
        self.members: dict[str, int] = {}
        for prefix, record in papers.records():
            for field, fact in zip(record.layout.fields, record.facts, strict=True):
                if fact is None:
                    continue
                path = prefix + field.path.rpartition("[].")[2]
                if field.item is not None:
                    self.members[path] = len(record.members[field.slot])
                    continue
                quoted = f'"{fact.text}"' if fact.text in ("q", "<", ">", "-", "?") else fact.text
                self.answers[path] = f"{quoted}, {fact.origin}" if fact.origin else quoted

    def isatty(self) -> bool:
        return False

    def readline(self) -> str:
        said = self.screen.getvalue()[self.read_up_to :].splitlines()
        self.read_up_to = len(self.screen.getvalue())
        assert not [line for line in said if line.startswith("    found ")], "\n".join(said)
        question = next((x for x in reversed(said) if x[:1].isalpha() or x.startswith("==")), "")
        path = question.removeprefix("== ").partition(":")[0].strip()
        if question.startswith("=="):
            known = [*self.answers, *self.members]
            return "yes\n" if any(p.startswith(f"{path}.") for p in known) else "\n"
        if question.endswith("so far"):
            so_far = int(question.rpartition(": ")[2].split()[0])
            return "yes\n" if so_far < self.members[path] else "no\n"
        if "left for later" in question:
            return "no\n"
        if path in self.members:
            return "yes\n" if self.members[path] else "none\n"
        if path == "work.ordered":
            # Nothing was ordered by length; a list that is begun and left would count as stated.
            return "none\n"
        return f"{self.answers.get(path, '')}\n"


@pytest.mark.slow
@pytest.mark.parametrize("name", ["milling-floor-stand-inch"])
def test_with_all_papers_at_hand_the_result_is_that_of_the_file_written_by_hand(
    tmp_path: Path, name: str
) -> None:
    # Nothing that a rule reads is left unasked, and nothing is changed on its way into the file.
    checker = Checker()
    papers = bind((FIXTURES / f"{name}.yaml").read_bytes(), name)
    path = tmp_path / "job.yaml"
    screen = io.StringIO()
    assert hold(path, None, checker, Terminal(_Papers(papers, screen), screen, 80)) == 0  # type: ignore[arg-type]
    asked = bind(path.read_bytes(), "job.yaml")
    book = checker.rulebook_for(papers)
    by_hand, by_asking = judge(book, papers), judge(book, asked)
    assert [a for a in by_asking.answers if a not in by_hand.answers] == []
    assert by_asking.verdict is by_hand.verdict
    assert f"VERDICT  {by_hand.verdict.value}" in screen.getvalue()
