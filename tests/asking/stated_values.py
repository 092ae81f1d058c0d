"""What a file states, read back in another way than it was written."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from checker.absent import Absent
from checker.installation.binding import bind
from checker.installation.schema import installation_layout

LAYOUT = installation_layout()


def field_at(path: str) -> Any:
    """The field of the shipped schema at a path."""
    return next(f for f in LAYOUT.walk() if f.path == path)


def value_in(path: Path, name: str) -> Any:
    """The SI value that a file states, or None."""
    value = bind(path.read_bytes(), "a.yaml").value(name)
    return None if isinstance(value, Absent) else value


def stated_in(path: Path, name: str) -> str | None:
    """The words in which a file states a value, or None."""
    record = bind(path.read_bytes(), "a.yaml").record
    fact = record.facts[record.layout.leaf(name).slot]  # type: ignore[union-attr]
    return None if fact is None else fact.text
