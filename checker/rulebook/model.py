"""The rulebook as data: rules, derived values, tables, sources."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from checker.errors import Place, fault, near
from checker.formulas.cells import Probe
from checker.formulas.scope import Compiled, TableColumn, Uses
from checker.formulas.types import Numeric, Type
from checker.grades import Grade
from checker.installation.fields import Field, Layout
from checker.units import Unit, need

__all__ = [
    "CONFIDENCES", "Basis", "Case", "Derived", "Doubt", "Each", "Head", "Line", "Parameter", "Readers", "Recalled", "Rule", "Rulebook", "SheetLine", "Source", "Table",
]  # fmt: skip

_LEVEL = need("dB").dimension
# From the most to the least to be relied on.
CONFIDENCES = ("checked", "common-practice", "from-memory")


def not_linked(*_: Any) -> Any:
    """Stands where a compiled function belongs until the rulebook is linked."""
    raise RuntimeError("the rulebook is not linked")


class Source(NamedTuple):
    """A published document, or a practice that is said to be one."""

    name: str
    title: str
    edition: str
    publisher: str
    note: str = ""


class Basis(NamedTuple):
    """Where in a source a rule, a parameter or a table comes from."""

    source: Source
    clause: str
    confidence: str
    note: str = ""

    def __str__(self) -> str:
        edition = f", {self.source.edition}" if self.source.edition else ""
        return f"{self.source.title}{edition}, {self.clause}"


class Recalled(NamedTuple):
    """A function behind an answer that is from memory: what it works out, and after what text."""

    name: str
    does: str
    source: str


class Parameter(NamedTuple):
    """A number, text or list that a rule's formulas use by name; overlays replace it."""

    name: str
    type: Type
    value: Any
    text: str
    unit: Unit | None
    basis: Basis
    why: str
    place: Place


class Line(NamedTuple):
    """One line of a working; ``unit`` is None for a text or a yes-or-no."""

    name: str
    formula: Compiled
    unit: Unit | None
    meaning: str = ""


class Each(NamedTuple):
    """The list that a rule speaks of member by member."""

    variable: str
    field: Field
    layout: Layout


class SheetLine(NamedTuple):
    """A line that a rule puts on the fitting sheet, with {names} as in its sentences.

    Of a rule that speaks of each member of a list, members whose line is otherwise the same
    share it: ``sums`` are the names whose values are then added up.
    """

    part: str
    line: str
    order: int
    condition: Compiled | None
    sums: tuple[str, ...] = ()


class Case(NamedTuple):
    """One of a rule's own examples: what is given and what must come out."""

    name: str
    given: Any
    place: Place
    stage: str
    grade: Grade
    demand: str | None
    limit: str | None
    subject: str | None
    missing: tuple[str, ...]
    boundary: bool
    # Lines of the working, or derived values, as they must come out.
    lines: tuple[tuple[str, Any], ...] = ()


@dataclass(slots=True, eq=False)
class Derived:
    """A value that several rules need, with its working."""

    name: str
    title: str
    index: int
    parameters: Mapping[str, Parameter]
    lines: tuple[Line, ...]
    result: Line
    basis: tuple[Basis, ...]
    uses: Uses
    place: Place
    # The derived values that this one needs, each behind those it needs itself.
    order: tuple[int, ...]
    # The functions from memory that its own formulas rest on.
    recalled: tuple[Recalled, ...] = ()
    # Its look-ups in tables of which single cells rest on less than the rest.
    probes: tuple[Probe, ...] = ()
    changes: tuple[str, ...] = ()
    run: Callable[..., Any] = not_linked


@dataclass(slots=True, eq=False)
class Rule:
    """One declarative check, compiled.

    Linked, ``run(S, D[, member])`` gives ``(grade number, demand, limit)`` for SI slots; it
    raises what the values raise, and the evaluator then goes line by line to say why.
    """

    name: str
    title: str
    protects: str
    stages: tuple[str, ...]
    applies: Compiled | None
    each: Each | None
    subject: Compiled | None
    parameters: Mapping[str, Parameter]
    lines: tuple[Line, ...]
    demand: Line | None
    limit: Line | None
    expect: tuple[tuple[Grade, Compiled], ...]
    says: Mapping[str, str]
    danger: str
    sheet: tuple[SheetLine, ...]
    adjust: tuple[str, ...]
    basis: tuple[Basis, ...]
    caution: str
    cases: tuple[Case, ...]
    uses: Uses
    # Every field that an answer can rest on, those behind derived values included.
    fields: tuple[str, ...]
    derived: tuple[int, ...]
    place: Place
    digest: str
    changes: tuple[str, ...] = ()
    switched_off: str = ""
    # Whether anything behind an answer is from memory, and the tables behind it of which
    # single cells rest on less than the rest.
    remembered: bool = False
    doubtful: tuple[str, ...] = ()
    # The functions from memory that its own formulas rest on.
    recalled: tuple[Recalled, ...] = ()
    # Its own look-ups in the doubtful tables.
    probes: tuple[Probe, ...] = ()
    run: Callable[..., tuple[int, Any, Any]] = not_linked
    test: Callable[..., bool] | None = None
    lines_of: Callable[..., tuple[Any, ...]] = not_linked

    @property
    def family(self) -> str:
        """The folder that the rule stands in."""
        return self.name.rpartition("/")[0]

    @property
    def has_ratio(self) -> bool:
        """Whether demand over limit says anything: not for temperatures, dates and levels."""
        kind = self.demand.formula.type if self.demand is not None else None
        return isinstance(kind, Numeric) and kind.point is None and kind.dimension != _LEVEL

    @property
    def can_stop(self) -> bool:
        """Whether the rule can grade ``stop``."""
        return any(grade is Grade.STOP for grade, _ in self.expect)


class Head(NamedTuple):
    """What stands over one column of a table's rows, a key's or a value's."""

    name: str
    unit: Unit | None
    meaning: str = ""
    # Of a key that is a number: what a value between two rows takes.
    between: str = ""


class Doubt(NamedTuple):
    """A cell that rests on less than its column: the keys of its row as written."""

    row: tuple[Any, ...]
    column: str
    confidence: str
    note: str = ""


@dataclass(slots=True, eq=False)
class Table:
    """A published table; ``columns`` are what a formula can call."""

    name: str
    title: str
    keys: tuple[str, ...]
    columns: Mapping[str, TableColumn]
    basis: Mapping[str, Basis]
    confidence_of: Callable[..., str]
    say_keys: Callable[..., str]
    rows: tuple[tuple[Any, ...], ...]
    place: Place
    note: str = ""
    # Over the cells of a row, the keys first; and the cells that are less sure.
    heads: tuple[Head, ...] = ()
    doubtful: tuple[Doubt, ...] = ()


class Readers(NamedTuple):
    """What can rest on a field: rules by name, whether they apply, derived values by index."""

    rules: frozenset[str]
    applies: frozenset[str]
    derived: frozenset[int]


@dataclass(slots=True, eq=False)
class Rulebook:
    """Everything that one run checks against."""

    layout: Layout
    sources: Mapping[str, Source]
    tables: Mapping[str, Table]
    derived: Mapping[str, Derived]
    rules: tuple[Rule, ...]
    families: Mapping[str, str]
    digest: str
    overlays: tuple[str, ...] = ()
    order: tuple[Derived, ...] = field(default_factory=tuple)
    # The names that compiled formulas run with: functions, look-ups, comparisons.
    names: dict[str, Any] = field(default_factory=dict)
    _readers: dict[str, Readers] = field(default_factory=dict)

    def readers(self, path: str) -> Readers:
        """The rules and the derived values whose answers can rest on a field."""
        return self.all_readers().get(path, _NO_READERS)

    def all_readers(self) -> Mapping[str, Readers]:
        """What can rest on each field that anything rests on."""
        if not self._readers:
            self._find_readers()
        return self._readers

    def _find_readers(self) -> None:
        rules: dict[str, set[str]] = {}
        applies: dict[str, set[str]] = {}
        derived: dict[str, set[int]] = {}
        for one in self.order:
            for behind in (one, *(self.order[i] for i in one.order)):
                for path in behind.uses.fields:
                    derived.setdefault(path, set()).add(one.index)
        for rule in self.rules:
            for path in rule.fields:
                rules.setdefault(path, set()).add(rule.name)
            asked = rule.applies.uses if rule.applies is not None else Uses()
            behind_it = {self.derived[name].index for name in asked.derived}
            for path in rule.fields:
                if path in asked.fields or derived.get(path, set()) & behind_it:
                    applies.setdefault(path, set()).add(rule.name)
        for path in (*rules, *derived):
            self._readers[path] = Readers(
                frozenset(rules.get(path, ())),
                frozenset(applies.get(path, ())),
                frozenset(derived.get(path, ())),
            )

    def rule(self, name: str) -> Rule | None:
        """The rule of a name, or None."""
        return next((rule for rule in self.rules if rule.name == name), None)

    def named(self, name: str) -> Rule:
        """The rule of a name. Raises Mistakes, with the nearest names, if there is none."""
        found = self.rule(name)
        if found is None:
            hint = near(name, [rule.name for rule in self.rules])
            fault(
                f"there is no rule '{name}'",
                Place("rulebook"),
                hint=hint or "list them with 'mistwright rulebook list'",
            )
        return found


_NO_READERS = Readers(frozenset(), frozenset(), frozenset())
