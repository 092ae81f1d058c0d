"""Fitting sheets of the shipped descriptions, each drawn once, and of ones with something taken out."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from checker.installation.binding import bind
from checker.installation.record import Installation
from checker.reporting.fitting_sheet import Sheet, sheet_for
from checker.reporting.sheet_lines import Entry
from checker.rulebook.model import Rulebook
from checker.running import Checker

DATA = Path(__file__).parents[1] / "data"
FIXTURES = Path(__file__).parents[2] / "fixtures"
MAIN = sorted(path.name for path in FIXTURES.glob("*.yaml"))
DEFECTIVE = sorted(path.name for path in (FIXTURES / "defective").glob("*.yaml"))
TURNING = "turning-cell-side-post.yaml"
EMPTY = b"job: {stage: plan}\nmount: {kind: side-post}\n"


@cache
def the_checker() -> Checker:
    return Checker()


def entries(sheet: Sheet) -> Iterator[tuple[str, Entry]]:
    for part in sheet.parts:
        for entry in part.entries:
            yield part.name, entry


@cache
def drawn(name: str) -> tuple[Sheet, Installation, Rulebook]:
    data = (FIXTURES / name).read_bytes()
    installation = bind(data, name)
    rulebook = the_checker().rulebook_for(installation)
    return sheet_for(rulebook, installation), installation, rulebook


def sheet_of(description: Any) -> Sheet:
    data = description if isinstance(description, bytes) else json.dumps(description).encode()
    installation = bind(data, "sheet.yaml")
    return sheet_for(the_checker().rulebook_for(installation), installation)


def turning() -> dict[str, Any]:
    """The description as plain data, to take something out of."""
    found: dict[str, Any] = yaml.load((FIXTURES / TURNING).read_bytes(), _Plain)
    return found


class _Plain(yaml.SafeLoader):
    """Reads ``on`` as the word that it is; only true and false are flags."""


_Plain.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in found if not tag.endswith(":bool")]
    for first, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
_Plain.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("(true|false)$"), ["t", "f"])


def text_of(sheet: Sheet, part: str) -> str:
    return "\n".join(entry.text for name, entry in entries(sheet) if name == part)
