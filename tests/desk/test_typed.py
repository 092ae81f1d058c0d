"""What is typed on the page means what the same words mean in a file."""

from __future__ import annotations

import copy
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from checker.desk.typed import bound, read_typed, shown, value_of
from checker.errors import Mistakes
from checker.installation.binding import bind
from checker.installation.record import Record
from checker.reading import read_yaml

FIXTURES = Path(__file__).parents[2] / "fixtures"
WHOLE = sorted(p for p in FIXTURES.rglob("*.yaml") if ".fitted." not in p.name)
Tree = dict[str, Any]


def facts(record: Record) -> Any:
    """Everything that is stated, without its place."""
    own = [None if fact is None else fact[:5] for fact in record.facts]
    return own, {slot: [facts(m) for m in members] for slot, members in record.members.items()}


@pytest.mark.parametrize("path", WHOLE, ids=lambda p: p.stem)
def test_a_file_by_way_of_the_page_is_the_same_installation(path: Path, checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    data = path.read_bytes()
    layout = checker.rulebook.layout
    typed = read_typed(tree_of(data), layout, "page")
    record = bound(typed, layout)
    assert record is not None
    assert typed.entries == []
    assert facts(record) == facts(bind(data, "file").record)


@pytest.mark.parametrize(
    ("path", "text", "words"),
    [
        ("collector.mass", "28 kq", "unknown unit 'kq'"),
        ("collector.mass", "28", "collector.mass has no unit"),
        ("collector.mass", "1,5 kg", "a decimal comma"),
        ("collector.mass", "28 N", "'N' is a unit of force, not of mass"),
        ("host.kind", "turning-center", "host.kind has no such choice"),
        ("host.drilling_allowed", "perhaps", "host.drilling_allowed is a yes-or-no field"),
        ("collector.blades", "eleven", "collector.blades is a whole number"),
        ("job.planned_on", "tomorrow", "job.planned_on is not a date"),
        ("job.title", "a\u200bb", "a character that cannot be seen"),
    ],
)
def test_what_is_wrong_is_told_where_it_is_and_the_rest_stands(path: str, text: str, words: str, checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    layout = checker.rulebook.layout
    tree = tree_of((FIXTURES / "turning-cell-side-post.yaml").read_bytes())
    section, _, name = path.partition(".")
    tree[section][name] = text
    typed = read_typed(tree, layout, "page")
    record = bound(typed, layout)
    assert [e.path for e in typed.entries] == [path]
    assert words in typed.entries[0].what
    # Bound as if it were not stated: everything else is as it was.
    assert record is not None
    del tree[section][name]
    assert facts(record) == facts(bound(read_typed(tree, layout, "page"), layout))  # type: ignore[arg-type]


def test_the_words_are_those_of_the_command_line(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    data = (FIXTURES / "turning-cell-side-post.yaml").read_bytes()
    data = data.replace(b"46 kg \xc2\xb1 0.5 kg", b"46 kq").replace(b"fluid: emulsion", b"fluid: emulsoin")  # fmt: skip
    with pytest.raises(Mistakes) as caught:
        bind(data, "file")
    typed = read_typed(tree_of(data), checker.rulebook.layout, "page")
    bound(typed, checker.rulebook.layout)
    told = [(e.what, e.found, e.expected, e.hint) for e in typed.entries]
    assert told == [(m.what, m.found, m.expected, m.hint) for m in caught.value.mistakes]


def test_several_wrong_things_are_all_told(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:
    tree = tree_of((FIXTURES / "turning-cell-side-post.yaml").read_bytes())
    tree["collector"]["mass"] = {"is": "46 kq", "origin": "nameplat"}
    tree["drain"]["segments"][1]["bore"] = "20"
    tree["colector"] = {"mass": "1 kg"}
    tree["duct"]["parts"].insert(0, "a part")
    typed = read_typed(tree, checker.rulebook.layout, "page")
    assert bound(typed, checker.rulebook.layout) is not None
    assert {"collector.mass", "drain.segments[1].bore", "colector", "duct.parts[0]"} <= {e.path for e in typed.entries}  # fmt: skip


def test_without_stage_or_mount_there_is_nothing_to_check(checker: Any) -> None:
    typed = read_typed({"job": {"title": "x"}}, checker.rulebook.layout, "page")
    assert bound(typed, checker.rulebook.layout) is None
    assert {"job.stage", "mount"} <= {e.path for e in typed.entries}


@pytest.mark.parametrize(
    ("path", "text", "value"),
    [
        ("collector.mass", "28 kg ± 0.5 kg", "28 kg ± 0.5 kg"),
        ("collector.mass", "28 kg, measured", {"is": "28 kg", "origin": "measured"}),
        ("host.drilling_allowed", "yes", True),
        ("collector.blades", "11", 11),
        ("process.capture_efficiency", "0.50", 0.5),
        ("process.capture_efficiency", "98 %", "98 %"),
        ("job.title", "no", "no"),
        ("job.title", "12:30", "12:30"),
        ("job.title", "1.0", "1.0"),
        ("job.title", '"quoted"', '"quoted"'),
        ("job.title", " spaces ", " spaces "),
        ("job.planned_on", "2026-03-31", "2026-03-31"),
        ("host.kind", "turning centre", "turning-centre"),
    ],
)
def test_a_text_becomes_the_value_that_the_file_will_hold(path: str, text: str, value: Any, checker: Any) -> None:  # fmt: skip
    field = checker.rulebook.layout.leaf(path)
    assert value_of(field, text) == value
    assert type(value_of(field, text)) is type(value)


def test_numbers_are_shown_as_they_count(checker: Any) -> None:
    data = b"job: {stage: plan}\nmount: {kind: side-post}\ncollector: {blades: 11, mass: 28}\nprocess: {capture_efficiency: 1.0}\n"  # fmt: skip
    tree = shown(read_yaml(data, ""), checker.rulebook.layout.root)
    assert tree["collector"] == {"blades": "11", "mass": 28}
    assert tree["process"] == {"capture_efficiency": "1.0"}


def test_reading_a_tree_leaves_it_alone(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:
    tree = tree_of((FIXTURES / "turning-cell-side-post.yaml").read_bytes())
    before = copy.deepcopy(tree)
    bound(read_typed(tree, checker.rulebook.layout, "page"), checker.rulebook.layout)
    assert tree == before
