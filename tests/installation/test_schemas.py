"""The schema files: valid, leading somewhere, each field explained, nothing in them unused."""

from __future__ import annotations

import json
import keyword
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from schema_files import SCHEMA_FILES, SMALL_SCHEMA, registry

from checker.installation.fields import Field
from checker.installation.schema import SchemaFault, installation_layout, layout_from
from checker.places import SCHEMAS


@pytest.mark.parametrize(
    "path", [*SCHEMA_FILES, SMALL_SCHEMA], ids=lambda p: p.name if p != SMALL_SCHEMA else "small"
)
def test_every_schema_is_valid_json_schema(path: Path) -> None:
    schema = json.loads(path.read_text(encoding="utf-8"))
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("path", SCHEMA_FILES, ids=lambda p: p.name)
def test_every_schema_is_called_what_its_file_is(path: Path) -> None:
    schema = json.loads(path.read_text(encoding="utf-8"))
    assert schema["$id"] == path.relative_to(SCHEMAS).as_posix()


@pytest.mark.parametrize("path", SCHEMA_FILES, ids=lambda p: p.name)
def test_every_reference_leads_somewhere(path: Path) -> None:
    resolver = registry(SCHEMAS).resolver(path.relative_to(SCHEMAS).as_posix())

    def walk(node: Any) -> None:
        if isinstance(node, dict):
            if "$ref" in node:
                resolver.lookup(node["$ref"])
            for inner in node.values():
                walk(inner)
        elif isinstance(node, list):
            for inner in node:
                walk(inner)

    walk(json.loads(path.read_text(encoding="utf-8")))


def _all_fields() -> list[Field]:
    """Every field of the shipped schema."""
    return list(installation_layout().walk())


@pytest.mark.parametrize("field", _all_fields(), ids=lambda f: f.path)
def test_every_field_says_what_it_is_and_where_to_get_it(field: Field) -> None:
    assert field.description[:1].isupper() or field.description[:1] in "'"
    assert field.description.endswith(".")
    assert field.where.strip()
    assert not keyword.iskeyword(field.name), "a formula could not name it"
    if field.type == "quantity":
        assert field.unit is not None
        assert field.unit.symbol != "1", "a plain number is of the kind 'number'"
    if field.plausible is not None:
        low, high = field.plausible
        assert low < high
        assert field.signed or low >= 0
        assert field.least is None or low >= field.least
        assert field.most is None or high <= field.most
    if field.type == "choice":
        assert len(set(field.choices)) == len(field.choices) > 0


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"pattern": "x"}, "'pattern' is not used"),
        ({"$ref": "../common.schema.json#/$defs/colour"}, "refer to one of"),
        ({"description": ""}, "needs a description"),
        ({"default": "5 kg"}, "'default' is not used"),
    ],
)
def test_a_schema_that_says_something_unused_is_refused(
    tmp_path: Path, change: dict[str, str], said: str
) -> None:
    schema = json.loads(SMALL_SCHEMA.read_text(encoding="utf-8"))
    schema["properties"]["shelf"]["properties"]["mass"].update(change)
    path = tmp_path / "a.schema.json"
    path.write_text(json.dumps(schema))
    with pytest.raises(SchemaFault, match=said):
        layout_from(path)


def test_a_section_that_is_open_is_refused(tmp_path: Path) -> None:
    schema = json.loads(SMALL_SCHEMA.read_text(encoding="utf-8"))
    del schema["properties"]["shelf"]["additionalProperties"]
    path = tmp_path / "a.schema.json"
    path.write_text(json.dumps(schema))
    with pytest.raises(SchemaFault, match="must close itself"):
        layout_from(path)
