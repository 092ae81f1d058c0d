"""A new description as it is written: every field explained, ready to be filled in."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from new_descriptions import EVERY, KINDS, fields_of, template

from checker.asking.starting import begun, needs_of
from checker.checking.judging import judge
from checker.installation.binding import bind
from checker.installation.fields import Field, Layout
from checker.output.field_words import condition_in_words
from checker.output.new_description import draw_item, schema_for
from checker.places import SCHEMAS
from checker.reading import plain, read_yaml
from checker.rulebook.model import Rulebook

# --- the drawing ---------------------------------------------------------------


def test_the_first_line_leads_an_editor_to_the_schema(tmp_path: Path) -> None:
    assert Path(schema_for(tmp_path / "a.yaml")).samefile(SCHEMAS / "installation.schema.json")
    inside = SCHEMAS.parent / "fixtures" / "a.yaml"
    assert (inside.parent / schema_for(inside)).resolve() == SCHEMAS / "installation.schema.json"
    assert (SCHEMAS.parent / schema_for(SCHEMAS.parent / "a.yaml")).exists()


def test_a_schema_behind_a_space_is_named_as_an_address(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("checker.output.new_description.SCHEMAS", Path("/a folder/schemas"))
    assert schema_for(None) == "file:///a%20folder/schemas/installation.schema.json"


@pytest.mark.parametrize(("kind", "stage"), EVERY)
def test_each_field_is_explained_above_it(shipped: Rulebook, kind: str, stage: str) -> None:
    text = template(shipped, kind, stage)
    lines = text.splitlines()
    assert lines[0].startswith("# yaml-language-server: $schema=")
    assert max(map(len, lines[1:])) <= 100
    assert "\t" not in text
    for i, line in enumerate(lines):
        if line.strip() and not line.lstrip().startswith("#"):
            assert lines[i - 1].lstrip().startswith("#"), line


def test_a_field_says_its_unit_its_choices_and_where_to_get_it(shipped: Rulebook) -> None:
    text = " ".join(template(shipped, "side-post", "plan").replace("#", "").split())
    assert "Wall thickness of the tube. [length, such as in mm, usually 1 mm to 16 mm] Where: Ultrasonic gauge, cut end or invoice. wall:" in text  # fmt: skip
    assert "[one of square, rectangular, round]" in text
    assert "If there is none, delete them and write 'fixings: []'." in text


def test_an_item_to_copy_binds_as_it_is(shipped: Rulebook) -> None:
    start = begun(shipped.layout, "side-post", "plan", None)
    needs = needs_of(shipped, start)
    for field in shipped.layout.fields:
        if field.item is None or field.path not in needs:
            continue
        once = draw_item(field.item, needs, "", comments=False)
        tree = plain(read_yaml("\n".join([*once, *once]).encode(), "item"))
        assert len(tree) == 2
        assert tree[0] == tree[1]


# --- filled in -----------------------------------------------------------------


def test_filled_in_it_binds_and_is_judged(shipped: Rulebook) -> None:
    # Every field of the template gets a value of its kind; a field that took none would fail.
    for kind in KINDS:
        text = template(shipped, kind, "fitted")
        filled, asked = _filled(text, shipped.layout), fields_of(text)
        installation = bind(filled.encode(), "filled.yaml")
        for record in installation.every_record():
            for field, fact in zip(record.layout.fields, record.facts, strict=True):
                if field.path in asked:
                    assert fact is not None, field.path
        judge(shipped, installation)


def _filled(text: str, layout: Layout) -> str:
    by_path = {f.path: f for f in layout.walk()}
    lines, names = [], []
    for line in text.splitlines():
        match = re.fullmatch(r"( *)(- )?([a-z_0-9]+):", line)
        if match is None:
            lines.append(line)
            continue
        depth = len(match[1]) + len(match[2] or "")
        names = [(d, n) for d, n in names if d < depth]
        names.append((depth, match[3]))
        path = ""
        for _, name in names:
            joint = "[]." if path and path in by_path else "."
            path = f"{path}{joint}{name}" if path else name
        field = by_path.get(path)
        lines.append(line if field is None or field.item else f"{line} {_value(field)}")
    return "\n".join(lines) + "\n"


def _value(field: Field) -> str:
    match field.type:
        case "quantity":
            return field.plausible_text.partition(" to ")[0] or f"1 {field.unit.symbol}"  # type: ignore[union-attr]
        case "choice":
            return f'"{field.choices[0]}"'
        case "flag":
            return "true"
        case "date":
            return "2026-03-31"
        case "text":
            return '"a text"'
    return str(int(field.least or 1) if field.plausible is None else field.plausible[0])


# --- conditions in words -------------------------------------------------------


@pytest.mark.parametrize(
    ("condition", "words"),
    [
        ("item.kind == 'tapped'", "kind is tapped"),
        ("not work.hot_work.done", "work.hot_work.done is false"),
        ("item.clip.fitted > 0", "clip.fitted is above 0"),
        ("stated(item.edge)", "edge is stated"),
        ("a.b != 'x' and (a.c or a.d)", "a.b is not x, and a.c is true or a.d is true"),
        ("derived.fast > derived.slow", ""),
        ("a.b + a.c > 3", ""),
        ("not (a.b and a.c)", ""),
    ],
)
def test_conditions_in_words(condition: str, words: str) -> None:
    assert condition_in_words(condition) == words


def test_every_condition_of_the_shipped_rules_has_words_or_none(shipped: Rulebook) -> None:
    conditions = {
        condition
        for kind in KINDS
        for need in needs_of(shipped, begun(shipped.layout, kind, "fitted", None)).values()
        for condition in need.only_where
    }
    words = [condition_in_words(condition) for condition in conditions]
    assert not [w for w in words if "'" in w or "(" in w]
    assert sum(map(bool, words)) > len(words) / 2
