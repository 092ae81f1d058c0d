"""When two values agree: common types, dimensions that come out whole, possible texts."""

from __future__ import annotations

import ast

from checker import units
from checker.errors import near
from checker.formulas.grammar import FormulaError
from checker.formulas.types import FLAG, PLAIN, ZERO, Flag, Members, Numeric, Text, Type, say
from checker.installation.fields import Field

__all__ = ["at", "field_type", "fixed_number", "possible", "unify", "whole"]


def unify(left: Type, right: Type, column: int, doing: str) -> Type:
    """The common type of two values that must be of one kind.

    Raises FormulaError naming both.
    """
    match left, right:
        case Numeric(is_zero=True), Numeric(is_zero=True):
            return ZERO
        case Numeric(is_zero=True), Numeric(point=None):
            return right
        case Numeric(point=None), Numeric(is_zero=True):
            return left
        case Numeric(), Numeric() if (
            left.dimension == right.dimension and left.point == right.point
        ):
            return Numeric(left.dimension, left.point)
        case Flag(), Flag():
            return FLAG
        case Text(choices=a), Text(choices=b):
            return Text(tuple(dict.fromkeys((*a, *b))) if a is not None and b is not None else None)
    raise FormulaError(f"{doing}: {say(left)} and {say(right)}", column)


def field_type(field: Field) -> Type:
    """The type of a field of the description."""
    match field.type:
        case "quantity":
            assert field.unit is not None  # noqa: S101 - a quantity always has its unit
            return Numeric(
                field.unit.dimension, "temperature" if field.unit.kind == "temperature" else None
            )
        case "number" | "count":
            return PLAIN
        case "choice":
            return Text(field.choices)
        case "text":
            return Text()
        case "flag":
            return FLAG
        case "date":
            return Numeric(units.need("s").dimension, "date")
    assert field.item is not None  # noqa: S101 - what is left is a list
    return Members(field.item, field.path, many=True)


def at(node: ast.expr) -> int:
    """A node's column in the formula's text (its tree was parsed in brackets)."""
    return max(node.col_offset - 1, 0)


def whole(dimension: tuple[float, ...], base: Numeric, column: int) -> None:
    """Refuse a root that leaves a dimension with a broken exponent."""
    if any(e != int(e) for e in dimension):
        raise FormulaError(
            f"a root of {say(base)} has no dimension",
            column,
            "the exponents of what stands under the root must come out whole",
        )


def fixed_number(node: ast.expr) -> float | None:
    """The value of a node that is a fixed number, or a quotient of two; else None."""
    match node:
        case ast.Constant(value=int() | float() as value) if not isinstance(value, bool):
            return value
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            inner = fixed_number(operand)
            return None if inner is None else -inner
        case ast.BinOp(left=left, op=ast.Div(), right=right):
            a, b = fixed_number(left), fixed_number(right)
            return None if a is None or not b else a / b
    return None


def possible(left: Text, right: Text, column: int) -> None:
    """Refuse a comparison of two texts that can never be equal."""
    if (
        left.choices is not None
        and right.choices is not None
        and not set(left.choices) & set(right.choices)
    ):
        word = right.choices[0] if len(right.choices) == 1 else left.choices[0]
        others = left.choices if len(right.choices) == 1 else right.choices
        raise FormulaError(
            f"it can never be '{word}'",
            column,
            near(word, others) or "it is one of " + ", ".join(others),
        )
