"""The calls of the formula language: built-in functions, engineering functions, tables."""

from __future__ import annotations

import ast
from collections.abc import Callable
from typing import TYPE_CHECKING

from checker.errors import near
from checker.formulas.agreement import at, unify, whole
from checker.formulas.functions import BUILT_IN, engineering_names, signature
from checker.formulas.grammar import FormulaError, dotted
from checker.formulas.scope import look_up_name
from checker.formulas.types import FLAG, PLAIN, Flag, Items, Members, Numeric, Text, Type, say
from checker.installation.fields import Section
from checker.units.dimensions import NONE, power

if TYPE_CHECKING:
    from checker.formulas.compiling import Walker

__all__ = ["call"]


def call(walker: Walker, node: ast.Call) -> tuple[Type, str]:
    """The type and the source of a call."""
    name = dotted(node.func) or ""
    column = at(node)
    if node.keywords:
        raise FormulaError("an argument with a name", column, "give the arguments in their order")
    if name == "stated":
        return FLAG, _stated(walker, node, column)
    if name.startswith("table."):
        return _table(walker, node, name, column)
    if name in _SHAPES:
        return _SHAPES[name](walker, node, name, column)
    found = signature(name)
    if found is None:
        raise FormulaError(
            f"there is no function '{name}'",
            column,
            near(name, [*engineering_names(), *BUILT_IN, "stated"]),
        )
    wanted = ", ".join(p for p, _ in found.parameters)
    if len(node.args) != len(found.parameters):
        raise FormulaError(
            f"'{name}' takes {len(found.parameters)} values, not {len(node.args)}",
            column,
            f"{name}({wanted})",
        )
    arguments = [
        _argument(walker, argument, kind, f"{name}: {parameter}")
        for argument, (parameter, kind) in zip(node.args, found.parameters, strict=True)
    ]
    walker.uses.functions[name] = None
    return found.returns, f"F_{name}({', '.join(arguments)})"


def _argument(walker: Walker, node: ast.expr, wanted: Type, where: str) -> str:
    kind, source = walker.visit(node)
    column = at(node)
    if fits(kind, wanted):
        return source
    if isinstance(kind, Text) and isinstance(wanted, Text) and kind.choices and wanted.choices:
        extra = [c for c in kind.choices if c not in wanted.choices]
        raise FormulaError(
            f"{where} cannot be '{extra[0]}'", column, "it takes " + ", ".join(wanted.choices)
        )
    raise FormulaError(f"{where} wants {say(wanted)}, this is {say(kind)}", column)


def fits(kind: Type, wanted: Type) -> bool:
    """Whether a value may stand where another type is wanted."""
    match kind, wanted:
        case Numeric(is_zero=True), Numeric(point=None):
            return True
        case Numeric(), Numeric():
            return kind.dimension == wanted.dimension and kind.point == wanted.point
        case Text(choices=a), Text(choices=b):
            return b is None or (a is not None and set(a) <= set(b))
        case Flag(), Flag():
            return True
        case Items(of=a), Items(of=b):
            return fits(a, b)
    return False


def _stated(walker: Walker, node: ast.Call, column: int) -> str:
    path = dotted(node.args[0]) if len(node.args) == 1 else None
    if path is None:
        raise FormulaError("'stated' takes one field", column, "write: stated(mount.post.wall)")
    head, _, rest = path.partition(".")
    member = walker.local.get(head)
    found = (
        member.layout.by_path.get(rest)
        if member is not None
        else walker.scope.layout.by_path.get(path)
    )
    base = f"m_{head}" if member is not None else "S"
    if isinstance(found, Section):
        if found.first == found.last:
            raise FormulaError(f"'{path}' has no fields yet", column)
        return f"any(type(x) is not _Absent for x in {base}[{found.first}:{found.last}])"
    # What was only asked about is no value that the rule lacks, but a finding still
    # shows that it was looked at.
    _, source = walker.visit(node.args[0])
    return f"(type({source}) is not _Absent)"


def _table(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Type, str]:
    parts = name.split(".")
    tables = walker.scope.tables
    if len(parts) != 3 or parts[1] not in tables:
        raise FormulaError(
            f"there is no table '{'.'.join(parts[1:2])}'",
            column,
            near(parts[1] if len(parts) > 1 else "", tables) or "write: table.NAME.COLUMN(key)",
        )
    columns = tables[parts[1]]
    if parts[2] not in columns:
        raise FormulaError(
            f"the table '{parts[1]}' has no column '{parts[2]}'",
            column,
            near(parts[2], columns) or "it has " + ", ".join(columns),
        )
    found = columns[parts[2]]
    if len(node.args) != len(found.keys):
        raise FormulaError(
            f"the table '{parts[1]}' is looked up by {', '.join(k for k, _ in found.keys)}", column
        )
    arguments = []
    for argument, (key, kind) in zip(node.args, found.keys, strict=True):
        given, source = walker.visit(argument)
        wanted = Text() if isinstance(kind, Text) else kind
        if not fits(given, wanted):
            raise FormulaError(
                f"table.{parts[1]}: {key} wants {say(kind)}, this is {say(given)}",
                at(argument),
            )
        arguments.append(source)
    walker.uses.tables[f"{parts[1]}.{parts[2]}"] = None
    return found.gives, f"{look_up_name(parts[1], parts[2])}({', '.join(arguments)})"


def _items(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Type, str]:
    """The one argument of sum, any, all, count: a comprehension or a list."""
    if len(node.args) != 1:
        raise FormulaError(
            f"'{name}' takes one list", column, f"write: {name}(part.length for part in duct.parts)"
        )
    argument = node.args[0]
    if isinstance(argument, (ast.GeneratorExp, ast.ListComp)):
        kind, source = walker.comprehension(argument)
        return kind, f"[{source}]" if name == "count" else f"({source})"
    kind, source = walker.visit(argument)
    if isinstance(kind, Members) and kind.many:
        return kind, source
    if isinstance(kind, Items):
        return kind.of, source
    raise FormulaError(f"'{name}' takes a list, this is {say(kind)}", column)


def _sum(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Type, str]:
    kind, source = _items(walker, node, name, column)
    if not isinstance(kind, Numeric) or kind.point:
        raise FormulaError(f"'sum' adds numbers, these are {say(kind)}", column)
    return Numeric(kind.dimension), f"sum({source})"


def _logic(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Type, str]:
    kind, source = _items(walker, node, name, column)
    if not isinstance(kind, Flag):
        raise FormulaError(f"'{name}' asks conditions, these are {say(kind)}", column)
    return FLAG, f"{name}({source})"


def _count(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Type, str]:
    _, source = _items(walker, node, name, column)
    return PLAIN, f"len({source})"


def _extreme(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Type, str]:
    if len(node.args) == 1:
        kind, source = _items(walker, node, name, column)
        if not isinstance(kind, Numeric):
            raise FormulaError(f"'{name}' compares numbers, these are {say(kind)}", column)
        return kind, f"_{name}_of({source})"
    if not node.args:
        raise FormulaError(f"'{name}' takes at least one value", column)

    first, source = walker.number(node.args[0])
    sources = [source]
    common: Type = first
    for argument in node.args[1:]:
        kind, source = walker.number(argument)
        common = unify(common, kind, at(argument), f"'{name}' compares two different dimensions")
        sources.append(source)
    return common, f"{name}({', '.join(sources)})"


def _abs(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Type, str]:
    kind, source = _one(walker, node, name, column)
    return kind, f"abs({source})"


def _sqrt(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Type, str]:

    kind, source = _one(walker, node, name, column)
    result = power(kind.dimension, 0.5)
    whole(result, kind, column)
    return Numeric(result), f"_sqrt({source})"


def _plain(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Type, str]:
    kind, source = _one(walker, node, name, column)
    if kind.dimension != NONE:
        raise FormulaError(
            f"'{name}' takes a plain number or an angle, this is {say(kind)}",
            column,
            "divide by a reference first",
        )
    return PLAIN, f"_{name}({source})"


def _one(walker: Walker, node: ast.Call, name: str, column: int) -> tuple[Numeric, str]:
    if len(node.args) != 1:
        raise FormulaError(f"'{name}' takes one number", column)
    kind, source = walker.number(node.args[0])
    if kind.point:
        raise FormulaError(f"'{name}' of {say(kind)}", column, "take a difference first")
    return kind, source


_SHAPES: dict[str, Callable[[Walker, ast.Call, str, int], tuple[Type, str]]] = {
    "sum": _sum, "any": _logic, "all": _logic, "count": _count,
    "min": _extreme, "max": _extreme, "abs": _abs, "sqrt": _sqrt,
    **dict.fromkeys(("exp", "ln", "log10", "sin", "cos", "tan", "atan", "round_up", "round_down"), _plain),
}  # fmt: skip
