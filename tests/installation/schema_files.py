"""The schema files, and the registry in which they find each other."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from referencing import Registry, Resource

from checker.places import SCHEMAS

SMALL_SCHEMA = Path(__file__).parents[1] / "data" / "small" / "schemas" / "installation.schema.json"
SCHEMA_FILES = sorted(SCHEMAS.rglob("*.schema.json"))


def registry(*folders: Path) -> Any:
    found: Any = Registry()
    for folder in folders:
        for path in folder.rglob("*.schema.json"):
            contents = json.loads(path.read_text(encoding="utf-8"))
            found = found.with_resource(contents["$id"], Resource.from_contents(contents))
    return found
