"""The published JSON Schemas of a description, turned into fields.

The schema files are the one place where a field is defined: an editor completes
from them, and this module reads from the same lines each field's type, unit,
plausible range, meaning and where to get it. Only the keywords listed here are
used; a schema with any other is refused, so that nothing in a schema is ignored.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from checker import units
from checker.absent import Absent, Unstated
from checker.installation.fields import Field, FieldType, Layout, Section
from checker.places import SCHEMAS
from checker.units.quantities import parse

__all__ = ["SchemaFault", "installation_layout", "layout_from"]


class SchemaFault(ValueError):
    """A schema file that says something this project does not use."""


_ANNOTATIONS = {
    "$schema",
    "$id",
    "$comment",
    "$defs",
    "title",
    "description",
    "examples",
    "x-where",
}
_SECTION = _ANNOTATIONS | {"type", "properties", "required", "additionalProperties"}
_LIST = _ANNOTATIONS | {"type", "items", "minItems", "maxItems"}
_LEAF = _ANNOTATIONS | {
    "$ref",
    "enum",
    "type",
    "minimum",
    "maximum",
    "x-unit",
    "x-plausible",
    "x-signed",
}
_TYPES: dict[str, FieldType] = {
    "quantity": "quantity",
    "number": "number",
    "count": "count",
    "text": "text",
    "flag": "flag",
    "date": "date",
}


@cache
def installation_layout() -> Layout:
    """The layout of a whole description, from the shipped schema files."""
    return layout_from(SCHEMAS / "installation.schema.json")


def layout_from(path: Path) -> Layout:
    """The layout that a schema file and the files it refers to describe.

    Raises SchemaFault for a keyword that is not used here.
    """
    builder = _Builder(path.parent)
    return builder.layout(builder.load(path), path.parent, "")


class _Builder:
    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.files: dict[Path, dict[str, Any]] = {}

    def load(self, path: Path) -> dict[str, Any]:
        if path not in self.files:
            self.files[path] = json.loads(path.read_bytes())
        return self.files[path]

    def layout(self, schema: dict[str, Any], folder: Path, prefix: str) -> Layout:
        layout = Layout(Section(prefix, schema.get("description", "")))
        self.section(schema, folder, prefix, "", layout, layout.root)
        layout.by_path[""] = layout.root
        return layout

    def section(
        self,
        schema: dict[str, Any],
        folder: Path,
        prefix: str,
        inner: str,
        layout: Layout,
        section: Section,
    ) -> None:
        _only(schema, _SECTION, prefix + inner)
        if schema.get("additionalProperties") is not False:
            raise SchemaFault(
                f"{prefix}{inner}: a section must close itself with additionalProperties: false"
            )
        section.first = len(layout.fields)
        section.required = tuple(schema.get("required", ()))
        for name, child in schema["properties"].items():
            path = f"{inner}.{name}" if inner else name
            part, part_folder = self.resolved(child, schema, folder)
            built: Field | Section
            if part.get("type") == "object":
                built = Section(prefix + path, part.get("description", ""))
                self.section(part, part_folder, prefix, path, layout, built)
            else:
                built = self.field(part, part_folder, prefix, path, layout)
            layout.by_path[path] = built
            section.children[name] = built
        section.last = len(layout.fields)

    def resolved(
        self, child: dict[str, Any], schema: dict[str, Any], folder: Path
    ) -> tuple[dict[str, Any], Path]:
        """A property with the section it refers to put in, and the folder that one stands in."""
        ref = child.get("$ref", "")
        if not ref or ("#" in ref and not ref.startswith("#/$defs/")):
            return child, folder
        own = {k: v for k, v in child.items() if k != "$ref"}
        if "#" not in ref:
            target = folder / ref
            return {**self.load(target), **own}, target.parent
        # A section that stands in two places of one file.
        found = schema["$defs"][ref.removeprefix("#/$defs/")]
        return {**found, "$defs": schema["$defs"], **own}, folder

    def field(
        self, schema: dict[str, Any], folder: Path, prefix: str, path: str, layout: Layout
    ) -> Field:
        full = prefix + path
        field = Field(
            full,
            path.rpartition(".")[2],
            "text",
            len(layout.fields),
            schema.get("description", ""),
            schema.get("x-where", ""),
        )
        layout.fields.append(field)
        layout.template.append(Absent(Unstated(full)))
        if not field.description:
            raise SchemaFault(f"{full}: a field needs a description")
        if schema.get("type") == "array":
            _only(schema, _LIST, full)
            items = schema["items"]
            if items.get("$ref", "").startswith("#/$defs/"):
                raise SchemaFault(f"{full}: write a list's items where the list stands")
            field.type = "list"
            field.least, field.most = schema.get("minItems"), schema.get("maxItems")
            field.item = self.layout(items, folder, f"{full}[].")
            return field
        _only(schema, _LEAF, full)
        if "enum" in schema:
            field.type = "choice"
            field.choices = tuple(schema["enum"])
            return field
        name = schema.get("$ref", "").rpartition("/")[2]
        if name not in _TYPES:
            raise SchemaFault(f"{full}: refer to one of {', '.join(_TYPES)} or list an enum")
        field.type = _TYPES[name]
        field.signed = bool(schema.get("x-signed", False))
        field.least, field.most = schema.get("minimum"), schema.get("maximum")
        if field.type == "quantity":
            field.unit = units.need(schema["x-unit"])
            field.signed = field.signed or field.unit.kind == "temperature"
        elif field.type == "number":
            field.unit = units.need("1")
        if "x-plausible" in schema:
            low, high = schema["x-plausible"]
            if field.type == "quantity" and field.unit is not None:
                field.plausible = (
                    parse(low, field.unit.kind).value,
                    parse(high, field.unit.kind).value,
                )
                field.plausible_text = f"{low} to {high}"
            else:
                field.plausible = (float(low), float(high))
                field.plausible_text = f"{low:g} to {high:g}"
        return field


def _only(schema: dict[str, Any], allowed: set[str], path: str) -> None:
    if not schema.keys() <= allowed:
        extra = min(schema.keys() - allowed)
        raise SchemaFault(
            f"{path or 'the schema'}: the keyword {extra!r} is not used in these schemas"
        )
