"""Which fields each rule can come to read, with what is stated: one walk through all rules.

What a rule can read follows from a few values of the description. A walk remembers them,
so that the next one, an answer later, goes only through the rules that the answer moved.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Any, NamedTuple

from checker.absent import Absent
from checker.formulas.grammar import parse_formula
from checker.formulas.reaching import UNKNOWN, Member, Reach
from checker.installation.record import Installation, Record
from checker.rulebook.model import Derived, Line, Rule, Rulebook
from checker.rulebook.soundness import PLACEHOLDER

__all__ = ["Memory", "Reads", "slots_of", "walk_rules"]

# What a compiled formula takes from the description itself: S[12], or S[12:20] for a section.
_SLOTS = re.compile(r"\bS\[(\d+)(?::(\d+))?\]")


class Reads(NamedTuple):
    """What a rule can read: each path with the condition on which it does, or None.

    ``lacked`` are the paths that it would miss if nothing more were stated.
    """

    paths: Mapping[str, str | None]
    lacked: frozenset[str]


class Memory:
    """What earlier walks found, for as long as the rulebook stays the same."""

    def __init__(self) -> None:
        self.rulebook: Rulebook | None = None
        self.slots: dict[str, tuple[int, ...]] = {}
        self.kept: dict[str, tuple[tuple[Any, ...], Reads]] = {}

    def turn_to(self, rulebook: Rulebook) -> None:
        """Forget what was found in another rulebook."""
        if self.rulebook is not rulebook:
            self.rulebook, self.kept = rulebook, {}
            self.slots = {rule.name: slots_of(rule, rulebook) for rule in rulebook.rules}


def walk_rules(
    rulebook: Rulebook, installation: Installation, memory: Memory
) -> Iterator[tuple[Rule, Reads]]:
    """Every rule that is asked at this stage, with what it can read."""
    memory.turn_to(rulebook)
    record = installation.record
    stage = installation.value("job.stage")
    state = _state(record.values)
    wide = _Walk(rulebook, record, as_it_is=False)
    narrow = _Walk(rulebook, record, as_it_is=True)
    for rule in rulebook.rules:
        if rule.switched_off or stage not in rule.stages:
            continue
        rests_on = tuple(state[slot] for slot in memory.slots[rule.name])
        before, reads = memory.kept.get(rule.name, (None, None))
        if reads is None or before != rests_on:
            lacked = frozenset(narrow.reads_of(rule, sentences=False))
            reads = Reads(wide.reads_of(rule), lacked)
            memory.kept[rule.name] = (rests_on, reads)
        yield rule, reads


def _state(values: Iterable[Any]) -> tuple[Any, ...]:
    """A record's values so that they can be compared: nothing stated is None."""
    return tuple(
        None if isinstance(v, Absent) else tuple(map(_state, v)) if isinstance(v, list) else v
        for v in values
    )


def slots_of(rule: Rule, rulebook: Rulebook) -> tuple[int, ...]:
    """The fields and lists of the description itself that a rule's reads rest on."""
    derived = [rulebook.order[i] for i in rule.derived]
    formulas = [
        *(line.formula for line in rule.lines),
        *(x.formula for x in (rule.demand, rule.limit) if x is not None),
        *(condition for _, condition in rule.expect),
        *(line.condition for line in rule.sheet if line.condition is not None),
        *(x for x in (rule.applies, rule.subject) if x is not None),
        *(line.formula for one in derived for line in (*one.lines, one.result)),
    ]
    found: set[int] = set()
    for formula in formulas:
        for first, last in _SLOTS.findall(formula.source):
            found.update(range(int(first), int(last or int(first) + 1)))
    if rule.each is not None:
        found.add(rule.each.field.slot)
    return tuple(sorted(found))


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
            if applies is UNKNOWN and not self.as_it_is:
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
        """What of a rule's condition is not decided yet, in the rule's own words."""
        assert rule.applies is not None  # noqa: S101 - the caller looked
        variable = "" if rule.each is None else rule.each.variable
        parts = _conjuncts(rule.applies.text, rule.applies.source, variable)
        if len(parts) == 1:
            return parts[0][0]
        kept = [said for said, source in parts if reach.value(source) is UNKNOWN]
        return kept[0] if len(kept) == 1 else " and ".join(f"({said})" for said in kept)


@cache
def _conjuncts(text: str, source: str, variable: str) -> tuple[tuple[str, str], ...]:
    """The conditions that a rule's condition joins by 'and': as they are written, and compiled.

    The member that the rule speaks of is called ``item``, whatever the rule calls it.
    """
    said, compiled = parse_formula(text), ast.parse(source, mode="eval").body
    for node in ast.walk(said):
        if isinstance(node, ast.Name) and node.id == variable:
            node.id = "item"
    match said, compiled:
        case ast.BoolOp(op=ast.And(), values=parts), ast.BoolOp(values=nodes):
            pairs = zip(parts, nodes, strict=True)
            return tuple((_unparsed(part), ast.unparse(node)) for part, node in pairs)
    return ((_unparsed(said), source),)


def _unparsed(node: ast.expr) -> str:
    return ast.unparse(node).replace("'", '"')
