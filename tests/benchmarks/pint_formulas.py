"""The rulebook's own formulas, on pint quantities instead of floats: the yardstick.

Every line of every rule is compiled from the same text by the same walker; only the
values differ. Functions run on quantities too where their code allows it; the others, and
tables, take magnitudes in base units and give quantities back, which is the least that a
program built on pint would have to do.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from typing import Any

import pint
from pint_functions import Either, twin

from checker import units
from checker.absent import Absent, CannotTell
from checker.checking.outcomes import Outcome
from checker.formulas import compiling
from checker.formulas.compiling import compile_formula
from checker.formulas.functions import CONSTANTS, signature
from checker.formulas.running import _COMMON
from checker.formulas.scope import DerivedName, Scope, look_up_name
from checker.formulas.types import Numeric, Type
from checker.installation.fields import Layout
from checker.rulebook.model import Rulebook

_REGISTRY = pint.UnitRegistry(cache_folder=None)
_SYMBOLS = ("m", "kg", "s", "A", "K", "cd", "dimensionless")


def quantity(value: Any, kind: Type) -> Any:
    """A value with its unit, where its type is a number."""
    if not isinstance(kind, Numeric) or isinstance(value, (bool, str)):
        return value
    exponents = {
        s: e for s, e in zip(_SYMBOLS, kind.dimension, strict=True) if e and s != "dimensionless"
    }
    return _REGISTRY.Quantity(
        value, pint.util.UnitsContainer({_REGISTRY.get_name(k): v for k, v in exponents.items()})
    )


class _Named:
    """Stands for a parameter in a scope; its source is a look-up of the quantity."""

    def __init__(self, key: str) -> None:
        self.key = key

    def __repr__(self) -> str:
        return f"P[{self.key!r}]"


def evaluator(
    rulebook: Rulebook, outcomes: list[Outcome], *, twins: bool = True
) -> Callable[[list[Any], Layout], int]:
    """A function that evaluates the lines behind these outcomes on quantities; gives their number.

    twins: whether engineering functions run on quantities where they can.
    """
    P: dict[str, Any] = {}
    names: dict[str, Any] = {**_COMMON, "P": P}
    for one in ("_le", "_ge", "_lt", "_gt", "_eq", "_ne"):
        names[one] = _COMPARE[one]
    names["_power"] = names["_sqrt"] = lambda a, b=0.5: a**b
    constants = {}
    for name, (value, symbol) in CONSTANTS.items():
        P[f"constant {name}"] = quantity(value, Numeric(units.need(symbol).dimension))
        constants[name] = (_Named(f"constant {name}"), symbol)

    def scope_of(parameters: Any, owner: str) -> Scope:
        for p in parameters.values():
            P[f"{owner} {p.name}"] = quantity(p.value, p.type)
        return Scope(
            rulebook.layout,
            parameters={
                p.name: (
                    p.type,
                    _Named(f"{owner} {p.name}") if isinstance(p.type, Numeric) else p.value,
                )
                for p in parameters.values()
            },
            derived={
                n: DerivedName(d.index, d.result.formula.type) for n, d in rulebook.derived.items()
            },
            tables={n: dict(t.columns) for n, t in rulebook.tables.items()},
        )

    programs: list[tuple[str, Any, int | None, int | None]] = []
    kept, compiling.CONSTANTS = compiling.CONSTANTS, constants
    try:
        wanted = {i for o in outcomes for i in o.rule.derived}
        for derived in rulebook.order:
            if derived.index not in wanted:
                continue
            scope = scope_of(derived.parameters, f"derived {derived.name}")
            body = _body(derived.lines, scope, names, rulebook, twins=twins)
            result = compile_formula(derived.result.formula.text, scope)
            _surround(result, names, rulebook, twins=twins)
            programs.append(
                (
                    _define("run(S, D)", [*body, f"    return {result.source}"], names),
                    None,
                    derived.index,
                    None,
                )
            )
        for outcome in outcomes:
            rule = outcome.rule
            scope = scope_of(rule.parameters, rule.name)
            argument = ""
            if rule.each is not None:
                scope.members = {rule.each.variable: (rule.each.layout, rule.each.field.path)}
                argument = f", m_{rule.each.variable}"
            lines = (*rule.lines, *(x for x in (rule.demand, rule.limit) if x is not None))
            body = _body(lines, scope, names, rulebook, twins=twins)
            for _, condition in rule.expect:
                compiled = compile_formula(condition.text, scope)
                _surround(compiled, names, rulebook, twins=twins)
                body.append(f"    if not {compiled.source}: return 0")
            programs.append(
                (
                    _define(f"run(S, D{argument})", [*body, "    return 1"], names),
                    rule.each,
                    None,
                    outcome.member,
                )
            )
    finally:
        compiling.CONSTANTS = kept

    def run(S: list[Any], layout: Layout) -> int:
        D: list[Any] = [None] * len(rulebook.order)
        for function, each, index, member in programs:
            if index is not None:
                # Some are there for other installations, and have no value here on floats either.
                with contextlib.suppress(CannotTell):
                    D[index] = function(S, D)
            elif each is None:
                function(S, D)
            else:
                function(S, D, S[each.field.slot][member])
        return len(programs)

    return run


def with_units(values: list[Any], layout: Layout) -> list[Any]:
    """A record's SI values as quantities, members of lists included."""
    found = []
    for field, value in zip(layout.fields, values, strict=True):
        if isinstance(value, Absent):
            found.append(value)
        elif field.item is not None:
            found.append([with_units(v, field.item) for v in value])
        else:
            found.append(quantity(value, compiling.field_type(field)))
    return found


def _body(
    lines: Any, scope: Scope, names: dict[str, Any], rulebook: Rulebook, *, twins: bool
) -> list[str]:
    body = []
    for line in lines:
        compiled = compile_formula(line.formula.text, scope)
        _surround(compiled, names, rulebook, twins=twins)
        scope.lines[line.name] = compiled.type
        body.append(f"    v_{line.name} = {compiled.source}")
    return body


def _surround(compiled: Any, names: dict[str, Any], rulebook: Rulebook, *, twins: bool) -> None:
    for name in compiled.uses.functions:
        found = signature(name)
        assert found is not None
        if f"F_{name}" not in names:
            bare = _wrapped(found.call, found.returns)
            names[f"F_{name}"] = Either(twin(name, found.module), bare, _alike) if twins else bare
    for path in compiled.uses.tables:
        table, column = path.split(".")
        entry = rulebook.tables[table].columns[column]
        names[look_up_name(table, column)] = _wrapped(entry.look_up, entry.gives)


def _wrapped(function: Callable[..., Any], gives: Type) -> Callable[..., Any]:
    def call(*arguments: Any) -> Any:
        return quantity(function(*(_bare(a) for a in arguments)), gives)

    return call


def _alike(one: Any, other: Any) -> bool:
    if not isinstance(other, _REGISTRY.Quantity):
        return bool(one == other)
    one = one if isinstance(one, _REGISTRY.Quantity) else _REGISTRY.Quantity(one)
    return bool(one.is_compatible_with(other)) and abs(_bare(one) - _bare(other)) <= 1e-9 * abs(
        _bare(other)
    )


def _bare(value: Any) -> Any:
    if isinstance(value, _REGISTRY.Quantity):
        return value.to_base_units().magnitude
    if isinstance(value, list):
        return [_bare(v) for v in value]
    return value


def _define(head: str, body: list[str], names: dict[str, Any]) -> Callable[..., Any]:
    space: dict[str, Any] = names
    exec(compile(f"def {head}:\n" + "\n".join(body), "<pint>", "exec"), space)
    function: Callable[..., Any] = space["run"]
    return function


_COMPARE = {
    "_le": lambda a, b: a <= b, "_ge": lambda a, b: a >= b, "_lt": lambda a, b: a < b, "_gt": lambda a, b: a > b,
    "_eq": lambda a, b: a == b, "_ne": lambda a, b: a != b,
}  # fmt: skip
