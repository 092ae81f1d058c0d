"""The questions in their order, and a whole conversation about a file."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from stated_values import stated_in, value_in

from checker.asking.questions import questions_of
from checker.asking.starting import begun, needs_of
from checker.installation.binding import bind
from checker.installation.fields import Layout
from checker.output.new_description import render, schema_for
from checker.reading import plain, read_yaml
from checker.running import Checker


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


def test_a_file_is_begun_with_three_questions(ask: Any, tmp_path: Path) -> None:
    found = ask("4", "fitted", "GB", "q")
    assert found.status == 0
    path = tmp_path / "job.yaml"
    assert stated_in(path, "mount.kind") == "wall-bracket"
    assert stated_in(path, "job.stage") == "fitted"
    assert stated_in(path, "job.jurisdiction") == "GB"
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
    assert value_in(job, "host.capacity") == 80
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
    assert value_in(job, "host.capacity") == 80000


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
    assert value_in(job, "job.reference") == "K-8"
    assert value_in(job, "job.title") is None
    assert "This is where it began." in ask("<", "q").out


def test_a_group_is_skipped(ask: Any, job: Path) -> None:
    found = ask(">", ">", "28 kg")
    assert "Skipped the rest of job." in found.out
    assert value_in(job, "collector.mass") == 28
    assert value_in(job, "host.capacity") is None


def test_it_goes_on_where_it_was_left(ask: Any, job: Path) -> None:
    ask("", "A title", "q")
    found = ask("US", "q")
    assert "Going on behind the last answer." in found.out
    assert stated_in(job, "job.jurisdiction") == "US"
    assert value_in(job, "job.reference") is None


def test_what_was_left_for_later_is_offered_at_the_end(ask: Any, job: Path) -> None:
    found = ask(">", "", "28 kg", "yes", "80 kg")
    assert "1 was left for later" in found.out
    assert value_in(job, "host.capacity") == 80


def test_one_section_or_one_field(ask: Any, job: Path) -> None:
    ask("80 kg", options=("--section", "host"))
    assert value_in(job, "host.capacity") == 80
    found = ask("90 kg", options=("--section", "host.capacity"))
    assert "Now: 80 kg" in found.out
    assert value_in(job, "host.capacity") == 90
    done = ask("95 kg", options=("--section", "host"))
    assert "Nothing is open under host." in done.out
    assert value_in(job, "host.capacity") == 90


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
        assert value_in(job, "job.reference") == typed.strip('"'), typed


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
