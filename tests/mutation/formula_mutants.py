"""Small wrong versions of one formula of the rule language.

Each is what a slip of the pen would leave: a comparison turned round, a term or a factor
forgotten, the smaller taken for the larger, the neighbouring column of a table.
"""

from __future__ import annotations

import ast
import copy
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

__all__ = ["Slip", "slips"]

_EQUALITY: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
}
_REVERSED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.Gt,
    ast.LtE: ast.GtE,
    ast.Gt: ast.Lt,
    ast.GtE: ast.LtE,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
_EXTREME = {"min": "max", "max": "min"}


class Slip(NamedTuple):
    """A wrong version: its kind, what was changed into what, the whole formula."""

    kind: str
    change: str
    formula: str


def slips(
    text: str,
    columns: Mapping[str, tuple[str, ...]],
    can_be_equal: Callable[[ast.Compare], bool],
) -> Iterator[Slip]:
    """Every slip in a formula.

    columns: those of each table. can_be_equal: whether a description can put both sides
    of a comparison on the same value; only there do ``<`` and ``<=`` differ.
    """
    tree = ast.parse(f"({text}\n)", mode="eval").body
    seen = {ast.unparse(tree)}
    told: dict[str, int] = {}
    for node in ast.walk(tree):
        for kind, other in _others(node, columns, can_be_equal):
            whole = ast.unparse(_replaced(tree, node, other))
            if whole in seen:
                continue
            seen.add(whole)
            change = _told(kind, node, other)
            told[change] = told.get(change, 0) + 1
            if told[change] > 1:
                # The same piece again further on: the count tells them apart.
                change = f"{change} (no. {told[change]})"
            yield Slip(kind, change, whole)


def _told(kind: str, node: ast.AST, other: ast.expr) -> str:
    """A change in one short line."""
    match kind, node, other:
        case "branch", ast.BoolOp(op=op, values=values), _:
            rest = other.values if type(other) is ast.BoolOp and len(values) > 2 else [other]
            (gone,) = (ast.unparse(v) for v in values if not any(v is r for r in rest))
            return f"without '{'and' if isinstance(op, ast.And) else 'or'} {gone}'"
        case "word", ast.Compare(comparators=[ast.List(elts=a)]), ast.Compare(
            left=left, comparators=[ast.List(elts=b)]
        ):
            (gone,) = (ast.unparse(w) for w in a if not any(w is r for r in b))
            return f"{ast.unparse(left)} in [...] without {gone}"
        case "side", ast.IfExp(test=test), _:
            return f"always {ast.unparse(other)}, whether {ast.unparse(test)} or not"
        case "column", ast.Call(func=was), ast.Call(func=now):
            return f"{ast.unparse(was)} -> {ast.unparse(now)}"
        case "extreme", ast.Call(func=was), ast.Call(func=now):
            return f"{ast.unparse(node)} -> {ast.unparse(now)}"
    return f"{ast.unparse(node)} -> {ast.unparse(other)}"


def _replaced(tree: ast.expr, node: ast.AST, other: ast.expr) -> ast.expr:
    """A copy of a tree with another node in the place of one of its own."""
    return copy.deepcopy(tree, {id(node): other})


def _others(
    node: ast.AST,
    columns: Mapping[str, tuple[str, ...]],
    can_be_equal: Callable[[ast.Compare], bool],
) -> Iterator[tuple[str, ast.expr]]:
    match node:
        case ast.Compare(left=left, ops=[op], comparators=[right]):
            if type(op) in _EQUALITY and can_be_equal(node):
                yield "equality", ast.Compare(left, [_EQUALITY[type(op)]()], [right])
            if type(op) in _REVERSED:
                yield "comparison", ast.Compare(left, [_REVERSED[type(op)]()], [right])
            if isinstance(op, (ast.In, ast.NotIn)) and isinstance(right, (ast.List, ast.Tuple)):
                words = right.elts
                for i in range(len(words) if len(words) > 1 else 0):
                    fewer = ast.List([w for j, w in enumerate(words) if j != i], ast.Load())
                    yield "word", ast.Compare(left, [op], [fewer])
        case ast.BoolOp(op=op, values=values):
            for i in range(len(values)):
                rest = [v for j, v in enumerate(values) if j != i]
                yield "branch", rest[0] if len(rest) == 1 else ast.BoolOp(op, rest)
        case ast.UnaryOp(op=ast.Not(), operand=operand):
            yield "negation", operand
        case ast.IfExp(body=body, orelse=orelse):
            yield "side", body
            yield "side", orelse
        case ast.BinOp(left=left, op=ast.Add() | ast.Mult(), right=right):
            kind = "term" if isinstance(node.op, ast.Add) else "factor"
            yield kind, left
            yield kind, right
        case ast.BinOp(left=left, op=ast.Sub() | ast.Div()):
            yield "term" if isinstance(node.op, ast.Sub) else "factor", left
        case ast.BinOp(left=left, op=ast.Pow()):
            yield "factor", left
        case ast.Call(func=ast.Name(id=name), args=args) if name in _EXTREME:
            yield "extreme", ast.Call(ast.Name(_EXTREME[name], ast.Load()), args, [])
        case ast.Call(
            func=ast.Attribute(
                value=ast.Attribute(value=ast.Name(id="table"), attr=table), attr=column
            ),
            args=args,
        ):
            for other in columns.get(table, ()):
                if other != column:
                    base = ast.Attribute(ast.Name("table", ast.Load()), table, ast.Load())
                    yield "column", ast.Call(ast.Attribute(base, other, ast.Load()), args, [])
