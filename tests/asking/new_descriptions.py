"""A new description of each kind at each stage, and the fields that it asks for."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from checker.asking.starting import begun, needs_of
from checker.output.new_description import render, schema_for
from checker.reading import read_yaml
from checker.rulebook.model import Rulebook

KINDS = ("side-post", "floor-stand", "roof-plate", "wall-bracket")
EVERY = list(itertools.product(KINDS, ("plan", "fitted")))


@lru_cache
def template(book: Rulebook, kind: str, stage: str, place: str | None = None) -> str:
    start = begun(book.layout, kind, stage, place)
    return render(start, needs_of(book, start), schema=schema_for(None))


def _asked(node: Any, path: str = "") -> Iterator[str]:
    """The fields named in a template, lists too."""
    value = node[0]
    if isinstance(value, dict):
        for name, (_, child) in value.items():
            yield from _asked(child, f"{path}.{name}" if path else name)
        return
    yield path
    for child in value if isinstance(value, list) else ():
        yield from _asked(child, f"{path}[]")


@lru_cache
def fields_of(text: str) -> frozenset[str]:
    return frozenset(_asked(read_yaml(text.encode(), "new.yaml")))
