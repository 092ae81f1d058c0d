"""What a description needs to state, worked out from the rules that can still apply to it.

A field is needed if a rule that can apply reads it. A rule drops out once its condition
is false with what is stated; so does a branch of a formula that can no longer be taken.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import NamedTuple

from checker.checking.rule_reads import Memory, walk_rules
from checker.installation.binding import bind_node
from checker.installation.fields import Field, Layout, Section, general_path
from checker.installation.record import Installation, Record
from checker.reading import read_yaml
from checker.rulebook.model import Rulebook

__all__ = [
    "Need",
    "begun",
    "choices_of",
    "for_the_record",
    "naming_field",
    "needs_of",
]

# What a job is filed under; no rule need read it for it to be asked.
_JOB = "job"


class Need(NamedTuple):
    """Why a field is asked for.

    ``rules`` are those that can come to read it. ``may_be_left_out`` says that none of
    them lacks it if it is left out. ``only_where`` holds the conditions, as formulas of the
    rule language, outside which no rule reads it; empty where there is no such condition.
    In them a member of a list is called ``item``.
    """

    rules: tuple[str, ...]
    may_be_left_out: bool
    only_where: tuple[str, ...] = ()


def begun(layout: Layout, kind: str, stage: str, jurisdiction: str | None) -> Installation:
    """A description of which only kind, stage and jurisdiction are known.

    Raises Mistakes for a word that is not one of the choices.
    """
    job = {"stage": stage} if jurisdiction is None else {"stage": stage, "jurisdiction": jurisdiction}  # fmt: skip
    known = {"job": job, "mount": {"kind": kind}}
    name = "<what is known>"
    node = read_yaml(json.dumps(known).encode(), name)
    return Installation(bind_node(node, layout, name), name, "")


def choices_of(layout: Layout, path: str) -> tuple[str, ...]:
    """The words that a field of choices takes."""
    field = layout.leaf(path)
    return () if field is None else field.choices


def needs_of(
    rulebook: Rulebook, installation: Installation, memory: Memory | None = None
) -> dict[str, Need]:
    """Every field that is needed as things stand, by its path.

    A member of a list has its number in the path; ``[]`` stands for any member of a list
    of which nothing is stated. Fields that only file the job or name a member are in it too.
    memory: what an earlier look at the same description found, to go on from.
    """
    record = installation.record
    readers: dict[str, dict[str, str | None]] = {}
    lacked: set[str] = set()
    for rule, reads in walk_rules(rulebook, installation, memory or Memory()):
        for path, condition in reads.paths.items():
            readers.setdefault(path, {})[rule.name] = condition
        lacked |= reads.lacked
    found = {
        path: Need(tuple(by), path not in lacked, _conditions(by)) for path, by in readers.items()
    }
    for path in (*_always(record.layout), *_names(record, found)):
        found.setdefault(path, Need((), may_be_left_out=True))
    return found


def for_the_record(path: str, layout: Layout) -> bool:
    """Whether a field is asked even if no rule reads it: it files the job or names a member."""
    if path.partition(".")[0] == _JOB:
        return True
    owner, bracket, name = path.rpartition("[].")
    field = next((f for f in layout.walk() if f.path == owner), None) if bracket else None
    return field is not None and naming_field(field) == name


def naming_field(field: Field) -> str | None:
    """The name of the text that tells the members of a list apart, or None."""
    assert field.item is not None  # noqa: S101 - only lists are asked
    names = (f.name for f in field.item.fields if f.type == "text" and f.path == f"{field.path}[].{f.name}")  # fmt: skip
    return next(names, None)


def _always(layout: Layout) -> list[str]:
    """The fields that file the job, and those that no description may lack."""
    found = [f.path for f in layout.fields if f.path.partition(".")[0] == _JOB]
    for section in layout.by_path.values():
        if isinstance(section, Section):
            needed = (section.children[name] for name in section.required)
            found += [f.path for f in needed if isinstance(f, Field)]
    return found


def _names(record: Record, found: Mapping[str, Need]) -> list[str]:
    """The naming field of every member that is asked about."""
    lists = {f.path: f for f in record.layout.walk() if f.item is not None}
    names: dict[str, None] = {}
    for path in found:
        owner = path
        while "]" in owner:
            owner = owner.rpartition("]")[0]
            field = lists[general_path(owner.rpartition("[")[0])]
            name = naming_field(field)
            if name is not None:
                names[f"{owner}].{name}"] = None
            owner = owner.rpartition("[")[0]
    return list(names)


def _conditions(by: Mapping[str, str | None]) -> tuple[str, ...]:
    conditions = dict.fromkeys(by.values())
    return () if None in conditions else tuple(c for c in conditions if c is not None)
