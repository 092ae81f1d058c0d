"""What kind of value a field takes, and where it is wanted at all, in a few words."""

from __future__ import annotations

import ast

from checker.formulas.grammar import dotted, parse_formula
from checker.installation.fields import Field

__all__ = ["LONGEST_CONDITION", "condition_in_words", "kind_in_words"]

# Longer ones stand in no one's way: they are told when asked for.
LONGEST_CONDITION = 90

_NUMBERS = {ast.Lt: "below", ast.LtE: "at most", ast.Gt: "above", ast.GtE: "at least"}


def kind_in_words(field: Field) -> str:
    """The kind of value that a field takes, with its usual range or its choices."""
    usual = f", usually {field.plausible_text}" if field.plausible_text else ""
    match field.type:
        case "quantity":
            assert field.unit is not None  # noqa: S101 - a quantity always has its unit
            return f"{field.unit.kind}, such as in {field.unit.symbol}{usual}"
        case "choice":
            return f"one of {', '.join(field.choices)}"
        case "count" | "number":
            return f"a {'whole ' if field.type == 'count' else ''}number{usual}"
        case "flag":
            return "true or false"
        case "date":
            return "a date such as 2026-03-31"
        case "list":
            return "a list"
    return "a text"


def condition_in_words(condition: str) -> str:
    """A rule's condition as a person would say it; '' where there are no plain words for it.

    What is called ``item`` is the member of a list that the words stand at.

    >>> condition_in_words('lifting.method in ["hoist", "crane"] and not stand.anchored')
    'lifting.method is hoist or crane, and stand.anchored is false'
    """
    return _say(parse_formula(condition), top=True) or ""


def _say(node: ast.expr, *, top: bool = False) -> str | None:
    match node:
        case ast.BoolOp(op=op, values=values):
            parts = [_say(v) for v in values]
            if None in parts or (not top and len(parts) > 1 and isinstance(op, ast.And)):
                return None
            word = "and" if isinstance(op, ast.And) else "or"
            return (f", {word} " if top else f" {word} ").join(p for p in parts if p)
        case ast.UnaryOp(op=ast.Not(), operand=operand) if _path(operand):
            return f"{_path(operand)} is false"
        case ast.Call(func=ast.Name(id="stated"), args=[asked]) if _path(asked):
            return f"{_path(asked)} is stated"
        case ast.Compare(left=left, ops=[op], comparators=[right]) if _path(left):
            return _compared(str(_path(left)), op, right)
        case ast.Name() | ast.Attribute() if _path(node):
            return f"{_path(node)} is true"
    return None


def _compared(path: str, op: ast.cmpop, right: ast.expr) -> str | None:
    no = "not " if isinstance(op, (ast.NotEq, ast.NotIn)) else ""
    match right:
        case ast.List(elts=items):
            return f"{path} is {no}{' or '.join(str(ast.literal_eval(i)) for i in items)}"
        case ast.Constant(value=value) if isinstance(op, (ast.Eq, ast.NotEq)):
            return f"{path} is {no}{value!s}"
        case ast.Constant(value=value) if type(op) in _NUMBERS:
            return f"{path} is {_NUMBERS[type(op)]} {value!s}"
    return None


def _path(node: ast.expr) -> str | None:
    """A field's path; a derived value stands in no description, so it has no name there."""
    path = dotted(node)
    if path is None or path.startswith("derived."):
        return None
    return path.removeprefix("item.")
