"""What a description needs to state, worked out from the rules that can still apply to it.

A field is needed if a rule that can apply reads it. A rule drops out once its condition
is false with what is stated; so does a branch of a formula that can no longer be taken.
"""

from __future__ import annotations

import ast
import json
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from checker.formulas.grammar import parse_formula
from checker.formulas.reaching import UNKNOWN, Member, Reach
from checker.installation.binding import bind_node
from checker.installation.fields import Field, Layout, Section
from checker.installation.record import Installation, Record
from checker.reading import read_yaml
from checker.rulebook.model import Derived, Line, Rule, Rulebook
from checker.rulebook.soundness import PLACEHOLDER

__all__ = [
    "Need",
    "begun",
    "choices_of",
    "for_the_record",
    "general_path",
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


def needs_of(rulebook: Rulebook, installation: Installation) -> dict[str, Need]:
    """Every field that is needed as things stand, by its path.

    A member of a list has its number in the path; ``[]`` stands for any member of a list
    of which nothing is stated. Fields that only file the job or name a member are in it too.
    """
    record = installation.record
    stage = installation.value("job.stage")
    readers: dict[str, dict[str, str | None]] = {}
    lacked: set[str] = set()
    wide = _Walk(rulebook, record, as_it_is=False)
    narrow = _Walk(rulebook, record, as_it_is=True)
    for rule in rulebook.rules:
        if rule.switched_off or stage not in rule.stages:
            continue
        for path, condition in wide.reads_of(rule).items():
            readers.setdefault(path, {})[rule.name] = condition
        lacked.update(narrow.reads_of(rule, sentences=False))
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


def general_path(path: str) -> str:
    """A path without the numbers of its members.

    >>> general_path("gauge.tubes[1].end")
    'gauge.tubes[].end'
    """
    return "[]".join(
        part.partition("]")[2] if i else part for i, part in enumerate(path.split("["))
    )


def _conditions(by: Mapping[str, str | None]) -> tuple[str, ...]:
    conditions = dict.fromkeys(by.values())
    return () if None in conditions else tuple(c for c in conditions if c is not None)


class _Walk:
    """One walk through the rules with what is stated; each derived value is walked once."""

    def __init__(self, rulebook: Rulebook, record: Record, *, as_it_is: bool) -> None:
        self.rulebook = rulebook
        self.root = Member(record.layout, "", record.values)
        self.as_it_is = as_it_is
        self.derived: dict[int, tuple[Any, dict[str, None]]] = {}

    def reads_of(self, rule: Rule, *, sentences: bool = True) -> dict[str, str | None]:
        """The paths that a rule can read, each with the condition on which it does."""
        found: dict[str, str | None] = {}
        for member in self._members(rule, found):
            reach = self._reach()
            if rule.each is not None and member is not None:
                reach.local[f"m_{rule.each.variable}"] = member
            applies = True if rule.applies is None else reach.value(rule.applies.source)
            if applies is not UNKNOWN and not applies:
                # The condition itself is read all the same: what decided it stays a question,
                # or its answer could never be changed, and what stands before that in the
                # formula the check still asks for.
                found.update(dict.fromkeys(reach.reads))
                continue
            if rule.each is not None:
                found.setdefault(rule.each.field.path, None)
            found.update(dict.fromkeys(reach.reads))
            condition = None
            if applies is UNKNOWN:
                condition = self._left_open(rule, reach)
            before = set(reach.reads)
            self._lines(reach, (*rule.lines, *(x for x in (rule.demand, rule.limit) if x)))
            for _, formula in rule.expect:
                reach.value(formula.source)
            if sentences:
                self._sentences(rule, reach)
            for path in reach.reads:
                if path not in before:
                    found.setdefault(path, condition)
        return found

    def _members(self, rule: Rule, found: dict[str, str | None]) -> Iterable[Member | None]:
        if rule.each is None:
            return [None]
        members = self.root.members(rule.each.field)
        if members is None:
            return [self.root.any_member(rule.each.field)]
        if not members:
            # An empty list is an answer: the rule reads it, and nothing more.
            found[rule.each.field.path] = None
        return members

    def _reach(self) -> Reach:
        def derived(index: int) -> Any:
            value, reads = self._derived(index)
            reach.reads.update(reads)
            return value

        reach = Reach(self.root, self.rulebook.names, derived, as_it_is=self.as_it_is)
        return reach

    def _derived(self, index: int) -> tuple[Any, dict[str, None]]:
        if index not in self.derived:
            one: Derived = self.rulebook.order[index]
            reach = self._reach()
            self._lines(reach, one.lines)
            self.derived[index] = (reach.value(one.result.formula.source), reach.reads)
        return self.derived[index]

    @staticmethod
    def _lines(reach: Reach, lines: Iterable[Line]) -> None:
        for line in lines:
            reach.lines[f"v_{line.name}"] = reach.value(line.formula.source)

    @staticmethod
    def _sentences(rule: Rule, reach: Reach) -> None:
        """What stands in sentences and on the fitting sheet: named there, lacked by nobody."""
        if rule.subject is not None:
            reach.value(rule.subject.source)
        for line in rule.sheet:
            if line.condition is not None:
                reach.value(line.condition.source)
        for text in (*rule.says.values(), *(line.line for line in rule.sheet)):
            for name in PLACEHOLDER.findall(text):
                head, _, rest = name.partition(".")
                member = reach.local.get(f"m_{head}")
                field = member.layout.leaf(rest) if member else reach.root.layout.leaf(name)
                if field is not None:
                    reach.reads[(member or reach.root).path_of(field)] = None

    @staticmethod
    def _left_open(rule: Rule, reach: Reach) -> str:
        """What of a rule's condition is not decided yet, in the rule's own words.

        The member that the rule speaks of is called ``item``, whatever the rule calls it.
        """
        assert rule.applies is not None  # noqa: S101 - the caller looked
        said, source = parse_formula(rule.applies.text), ast.parse(rule.applies.source, mode="eval")
        if rule.each is not None:
            for node in ast.walk(said):
                if isinstance(node, ast.Name) and node.id == rule.each.variable:
                    node.id = "item"
        match said, source.body:
            case ast.BoolOp(op=ast.And(), values=parts), ast.BoolOp(values=nodes):
                open_ = [
                    part
                    for part, node in zip(parts, nodes, strict=True)
                    if reach.value(ast.unparse(node)) is UNKNOWN
                ]
                said = open_[0] if len(open_) == 1 else ast.BoolOp(ast.And(), open_)
        return ast.unparse(said).replace("'", '"')
