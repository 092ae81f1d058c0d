"""What is typed, and what is written of it."""

from __future__ import annotations

import datetime
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from stated_values import LAYOUT, field_at

from checker.asking.answers import as_yaml, numbered
from checker.errors import Mistakes
from checker.reading import plain, read_yaml


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
    assert as_yaml(field_at(path), typed) == written


def test_choices_that_look_like_numbers_are_not_numbered() -> None:
    assert numbered(field_at("mount.post.shape"))
    assert not numbered(field_at("mount.fixings[].strength_class"))


@settings(deadline=None, max_examples=300)
@given(typed=st.text(max_size=60), field=st.sampled_from(LAYOUT.fields))
@example(typed="{is: 3 mm, origin: }", field=field_at("collector.mass"))
@example(typed="3 mm, measured", field=field_at("collector.mass"))
@example(typed="\u2028", field=field_at("job.reference"))
@example(typed="\ud800", field=field_at("job.reference"))
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
