"""The fields of a description on a terminal: meaning, unit, range, where to get it, rules."""

from __future__ import annotations

import textwrap

from checker.output.field_words import kind_in_words
from checker.rulebook.model import Rulebook

__all__ = ["render"]


def render(rulebook: Rulebook, words: tuple[str, ...], *, width: int = 80) -> str:
    """Every field whose path or meaning holds all the words."""
    readers: dict[str, list[str]] = {}
    for rule in rulebook.rules:
        for path in rule.fields:
            readers.setdefault(path, []).append(rule.name)
    wanted = [w.lower() for w in words]
    found = [
        f
        for f in rulebook.layout.walk()
        if all(w in f"{f.path} {f.description}".lower() for w in wanted)
    ]
    out: list[str] = []
    for field in found:
        out.append(field.path)
        out += _wrapped(f"{field.description} [{kind_in_words(field)}]", width)
        if field.where:
            out += _wrapped(f"Where: {field.where}", width)
        if field.path in readers:
            out += _wrapped("Rules: " + ", ".join(readers[field.path]), width)
        elif field.item is None:
            out += _wrapped("No rule reads it; it is for the record.", width)
        out.append("")
    out.append(f"{len(found)} fields" if found else f"No field speaks of {' '.join(words)}.")
    return "\n".join(out) + "\n"


def _wrapped(text: str, width: int) -> list[str]:
    return textwrap.wrap(
        text, width, initial_indent="    ", subsequent_indent="    ", break_on_hyphens=False
    )
