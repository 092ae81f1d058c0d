"""The binder and the published schemas accept the same descriptions, written at random."""

from __future__ import annotations

import json
from pathlib import Path
from random import Random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from schema_files import SMALL_SCHEMA, registry

from checker.errors import Mistakes
from checker.installation.binding import bind_node
from checker.installation.fields import Field, Layout, Section
from checker.installation.schema import installation_layout, layout_from
from checker.places import SCHEMAS
from checker.reading import Node


def _validator(path: Path) -> Draft202012Validator:
    schema = json.loads(path.read_text(encoding="utf-8"))
    return Draft202012Validator(schema, registry=registry(SCHEMAS, SMALL_SCHEMA.parent))


class _Mark:
    line = column = 0


def _node(value: Any) -> Node:
    if isinstance(value, dict):
        return {k: (_Mark, _node(v)) for k, v in value.items()}, _Mark
    if isinstance(value, list):
        return [_node(v) for v in value], _Mark
    return value, _Mark


def _without_blanks(value: Any) -> Any:
    """A name with nothing behind it is a field not stated; JSON Schema has no such thought."""
    if isinstance(value, dict):
        return {k: _without_blanks(v) for k, v in value.items() if v is not None}
    if isinstance(value, list):
        return [_without_blanks(v) for v in value]
    return value


class _Writer:
    """Writes descriptions of a layout: mostly right, now and then wrong in their structure.

    What only the binder knows (that a unit is of the kind, that a day is in the calendar, that
    a mass is not below nought) is always written right.
    """

    def __init__(self, random: Random, faults: int) -> None:
        self.random = random
        self.faults = faults

    def slips(self) -> bool:
        return self.random.randrange(100) < self.faults

    def section(self, section: Section) -> Any:
        if self.slips():
            return self.random.choice([5, "text", [], True, None])
        names = [n for n in section.children if n in section.required or self.random.random() < 0.3]
        if len(names) > 8:
            must = [n for n in names if n in section.required]
            names = must + self.random.sample(names, 8 - len(must))
        written = {}
        for name in names:
            child = section.children[name]
            if name in section.required and self.slips():
                continue
            written[name] = self.section(child) if isinstance(child, Section) else self.field(child)
        if self.slips():
            written["colour of it"] = 5
        return written

    def field(self, field: Field) -> Any:
        if self.slips():
            return self.random.choice(self.wrong(field))
        return self.random.choice([*self.right(field), None] if self.slips() else self.right(field))

    def right(self, field: Field) -> list[Any]:
        match field.type:
            case "quantity":
                text = f"5 {field.unit.symbol}"  # type: ignore[union-attr]
                return [text, {"is": text}, {"is": text, "origin": "measured"}, f"{text} ± {text}"]
            case "number":
                least = field.least or 0
                return [least + 0.5, least + 1, f"{100 * least + 14} %"]
            case "count":
                return [int(field.least or 0) + 1, float(int(field.least or 0) + 1)]
            case "text":
                return ["words", "", "5 kg"]
            case "flag":
                return [True, False]
            case "date":
                return ["2026-03-31"]
            case "choice":
                return list(field.choices)
        assert field.item is not None
        least, most = int(field.least or 0), int(field.most or 3)
        many = self.random.randint(least, min(most, least + 2))
        return [[self.section(field.item.root) for _ in range(many)]]

    def wrong(self, field: Field) -> list[Any]:
        everywhere: list[Any] = [[1], {"x": 1}]
        match field.type:
            case "quantity":
                text = f"5 {field.unit.symbol}"  # type: ignore[union-attr]
                return [
                    5, 5.5, True, "heavy", "", "5", "5.", [], {}, {"origin": "measured"}, {"is": 5}, {"is": {"is": text}},
                    {"is": text, "origin": "guessed"}, {"is": text, "x": 1}, {"is": text, "origin": 5}, "5" * 90,
                ]  # fmt: skip
            case "number":
                ends = [x for x in (field.least, field.most) if x is not None]
                return [
                    *everywhere,
                    "low",
                    True,
                    "5 kg",
                    *[x + (1 if x == field.most else -1) for x in ends],
                ]
            case "count":
                ends = [x for x in (field.least, field.most) if x is not None]
                return [
                    *everywhere,
                    2.5,
                    "2",
                    -1,
                    False,
                    *[x + (1 if x == field.most else -1) for x in ends],
                ]
            case "text":
                return [*everywhere, 5, 1.5, True]
            case "flag":
                return [*everywhere, "yes", 1, 0, "true"]
            case "date":
                return [*everywhere, "31.3.2026", 20260331, "2026-W01-1", "2026-3-31", True]
            case "choice":
                return [*everywhere, "nonsense", 5, True, ""]
        assert field.item is not None
        too_many = [{} for _ in range(int(field.most) + 1)] if field.most is not None else 5
        return [{}, "none", 5, [5], [None], ["x"], too_many]


def _binds(document: Any, layout: Layout) -> bool:
    try:
        bind_node(_node(document), layout, "a.yaml")
    except Mistakes:
        return False
    return True


@given(st.randoms(use_true_random=False), st.sampled_from([0, 3, 10]))
def test_the_small_schema_and_the_binder_agree(random: Random, faults: int) -> None:
    _agree(_LAYOUT, _VALIDATOR, random, faults)


@settings(max_examples=40)
@given(st.randoms(use_true_random=False), st.sampled_from([0, 1, 3]))
def test_the_shipped_schema_and_the_binder_agree(random: Random, faults: int) -> None:
    """The shipped schema files are what an editor completes from; this and the checks of
    each field rest on them."""
    _agree(_SHIPPED_LAYOUT, _SHIPPED_VALIDATOR, random, faults)


def _agree(layout: Layout, validator: Draft202012Validator, random: Random, faults: int) -> None:
    document = _Writer(random, faults).section(layout.root)
    errors = [e.message for e in validator.iter_errors(_without_blanks(document))]
    if document is None:
        return
    assert _binds(document, layout) == (not errors), (document, errors)
    if not faults:
        assert not errors


_LAYOUT = layout_from(SMALL_SCHEMA)
_VALIDATOR = _validator(SMALL_SCHEMA)
_SHIPPED_LAYOUT = installation_layout()
_SHIPPED_VALIDATOR = _validator(SCHEMAS / "installation.schema.json")
