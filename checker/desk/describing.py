"""The fields of a description as the page draws its form from: what each is, how it is written, who reads it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from checker import units
from checker.asking.starting import Need, naming_field
from checker.drawing.grades import grade_icon
from checker.grades import Grade
from checker.installation.binding import ORIGINS
from checker.installation.fields import Field, Section
from checker.output.field_words import LONGEST_CONDITION, condition_in_words, kind_in_words
from checker.output.html import VERDICT_GRADE
from checker.output.text import GRADE_MEANING, VERDICT_MEANING
from checker.reporting.reports import CAUTIONS
from checker.rulebook.model import Rulebook

__all__ = ["form_of", "needs_told"]

_MOST_UNITS = 8


def form_of(rulebook: Rulebook) -> dict[str, Any]:
    """Everything that the page needs once: fields, rules, the words and shapes of the grades."""
    readers: dict[str, list[str]] = {}
    for rule in rulebook.rules:
        for path in rule.fields:
            readers.setdefault(path, []).append(rule.name)
    return {
        "fields": _section(rulebook.layout.root, readers),
        "rules": {r.name: r.title for r in rulebook.rules},
        "origins": list(ORIGINS),
        "grades": {g.word: {"meaning": GRADE_MEANING[g], "icon": grade_icon(g)} for g in Grade},
        "verdicts": {
            v.value: {"meaning": m, "grade": VERDICT_GRADE[v.value].word}
            for v, m in VERDICT_MEANING.items()
        },
        "cautions": list(CAUTIONS),
    }


def _section(section: Section, readers: Mapping[str, list[str]]) -> dict[str, Any]:
    return {
        "about": section.description,
        "children": {
            name: _section(child, readers) if isinstance(child, Section) else _field(child, readers)
            for name, child in section.children.items()
        },
    }


def _field(field: Field, readers: Mapping[str, list[str]]) -> dict[str, Any]:
    told: dict[str, Any] = {
        "type": field.type,
        "about": field.description,
        "where": field.where,
        "how": kind_in_words(field) if field.type not in ("choice", "list") else "",
        "rules": readers.get(field.path, []),
    }
    if field.choices:
        told["choices"] = list(field.choices)
    if field.unit is not None and field.type == "quantity":
        told["units"] = [u.symbol for u in units.by_kind(field.unit.kind)][:_MOST_UNITS]
        told["unit"] = field.unit.symbol
    if field.plausible_text:
        told["usual"] = field.plausible_text
    if field.item is not None:
        told["item"] = _section(field.item.root, readers)
        told["naming"] = naming_field(field) or ""
    return told


def needs_told(needs: Mapping[str, Need]) -> dict[str, list[Any]]:
    """By path: whether nothing waits for it, and the conditions under which it is looked at at all."""
    return {path: [int(need.may_be_left_out), _only_where(need)] for path, need in needs.items()}


def _only_where(need: Need) -> str:
    conditions = [condition_in_words(c) for c in need.only_where]
    together = ", or ".join(conditions)
    return together if all(conditions) and len(together) <= LONGEST_CONDITION else ""
