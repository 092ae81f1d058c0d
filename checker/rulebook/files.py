"""A rulebook's files: read strictly, held against their schemas, mistakes with places."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from checker.errors import Mistake, Mistakes, Place, near
from checker.places import SCHEMAS
from checker.reading import Mark, Node, place_of, plain, read_bytes, read_yaml

if TYPE_CHECKING:
    from jsonschema.protocols import Validator

__all__ = ["File", "overlay_names", "read_file"]


class _Start(NamedTuple):
    line: int = -1
    column: int = -1


_START = _Start()


class File:
    """One file of a rulebook: its plain data, and where each part of it stands."""

    __slots__ = ("data", "name", "node", "raw")

    def __init__(self, name: str, raw: bytes) -> None:
        self.name = name
        self.raw = raw
        self.node = read_yaml(raw, name)
        self.data = plain(self.node)

    @classmethod
    def of_data(cls, name: str, data: Any) -> File:
        """A file that was read and checked before; of its places only the name is known."""
        file = cls.__new__(cls)
        file.name, file.raw, file.data, file.node = name, b"", data, ({}, _START)
        return file

    def place(self, *path: str | int, column: int = 0) -> Place:
        """Where a part of the file stands; ``column`` is an offset into its text."""
        mark, value = _mark(self.node, path)
        offset = 0
        if column and isinstance(value, str):
            # Exact inside a text that stands on one line as it is, or in quotes; a folded
            # text is known by its start only.
            line = re.split("\r\n|\r|\n", self.raw.decode("utf-8-sig"))[mark.line][mark.column :]
            quote = 1 if line[:1] in ("'", '"') else 0
            if line[quote:].startswith(value):
                offset = column + quote
        return Place(self.name, mark.line + 1, mark.column + 1 + offset)

    def mistake(
        self,
        what: str,
        *path: str | int,
        column: int = 0,
        found: str = "",
        expected: str = "",
        hint: str = "",
    ) -> Mistake:
        """A mistake at a part of the file."""
        return Mistake(what, self.place(*path, column=column), found, expected, hint)


def read_file(path: Path, name: str, schema: str) -> File:
    """Read one file of a rulebook and hold it against its schema.

    path: where it is. name: how messages call it. schema: ``"rule"``, ``"table"``, ...
    Raises Mistakes.
    """
    file = File(name, read_bytes(str(path)))
    errors = sorted(
        _validator(schema).iter_errors(file.data), key=lambda e: list(map(str, e.absolute_path))
    )
    if errors:
        raise Mistakes([m for e in errors for m in _explain(e, file)])
    return file


@cache
def _validator(schema: str) -> Validator:
    # jsonschema costs 70 ms to import; it is needed only where a rulebook is read from
    # its files, not where a compiled one is at hand.
    from jsonschema import Draft202012Validator  # noqa: PLC0415
    from referencing import Registry, Resource  # noqa: PLC0415

    loaded = {
        p.name: json.loads(p.read_text(encoding="utf-8")) for p in SCHEMAS.glob("*.schema.json")
    }
    registry: Any = Registry().with_resources(
        (n, Resource.from_contents(c)) for n, c in loaded.items()
    )
    return Draft202012Validator(loaded[f"{schema}.schema.json"], registry=registry)


def _cut_at_a_comma(key: str, entries: Any) -> str:
    """A hint where an entry is the rest of a text in braces that stood without quotes."""
    if entries[key] is None and re.search(r"[^a-z0-9_-]", key):
        return 'put a text with a comma in it in quotes: {formula: "min(a, b)"}'
    return ""


def _explain(error: Any, file: File) -> list[Mistake]:
    path = tuple(error.absolute_path)
    where = ".".join(str(p) for p in path) or "the file"
    match error.validator:
        case "additionalProperties":
            known = list(error.schema.get("properties", {}))
            extra = [k for k in error.instance if k not in known]
            return [
                Mistake(
                    f"unknown entry '{k}' in {where}",
                    _key_place(file, path, k),
                    hint=_cut_at_a_comma(k, error.instance)
                    or near(k, known)
                    or "entries here: " + ", ".join(known),
                )
                for k in extra
            ]
        case "required":
            missing = [k for k in error.validator_value if k not in error.instance]
            meaning = error.schema.get("properties", {}).get(missing[0], {}).get("description", "")
            return [file.mistake(f"'{missing[0]}' is missing in {where}", *path, expected=meaning)]
        case "pattern" if "propertyNames" in error.absolute_schema_path:
            return [
                Mistake(
                    f"'{error.instance[:60]}' cannot be a name in {where}",
                    _key_place(file, path, error.instance),
                    expected="small letters, digits and '_', a letter first",
                )
            ]
        case "enum":
            choices = [str(c) for c in error.validator_value]
            return [
                file.mistake(
                    f"{where} has no such choice",
                    *path,
                    found=repr(error.instance),
                    expected="one of " + ", ".join(choices),
                    hint=near(str(error.instance), choices),
                )
            ]
        case "type":
            wanted = (
                error.validator_value
                if isinstance(error.validator_value, str)
                else " or ".join(error.validator_value)
            )
            words = {
                "object": "a group of entries",
                "array": "a list",
                "string": "a text",
                "number": "a number",
                "boolean": "true or false",
            }
            return [
                file.mistake(
                    f"{where} is not what is wanted here",
                    *path,
                    found=str(error.instance)[:60],
                    expected=words.get(wanted, wanted),
                )
            ]
    return [file.mistake(f"{where}: {error.message[:120]}", *path)]


def _mark(node: Node, path: tuple[str | int, ...]) -> tuple[Mark, Any]:
    value, mark = node
    for step in path:
        if isinstance(value, dict) and step in value:
            value, mark = value[step][1]
        elif isinstance(value, list) and isinstance(step, int) and step < len(value):
            value, mark = value[step]
        else:
            break
    return mark, value


def _key_place(file: File, path: tuple[str | int, ...], key: str) -> Place:
    _, value = _mark(file.node, path)
    return place_of(value[key][0], file.name)


def overlay_names(roots: Iterable[Path]) -> list[str]:
    """The overlays that the rule folders offer."""
    return sorted({p.stem for root in roots for p in (root / "local").glob("*.yaml")})
