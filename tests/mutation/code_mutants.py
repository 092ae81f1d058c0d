"""Small wrong versions of a Python module: one change each, named by where it is and what it was."""

from __future__ import annotations

import ast
import copy
from collections.abc import Iterator
from typing import NamedTuple

__all__ = ["CodeMutant", "code_mutants"]

_EQUALITY: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
}
_REVERSED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.GtE,
    ast.LtE: ast.Gt,
    ast.Gt: ast.LtE,
    ast.GtE: ast.Lt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
_ARITHMETIC: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
}


class CodeMutant(NamedTuple):
    """One wrong version: the module, the function, the change, the kind, the whole source."""

    module: str
    where: str
    change: str
    kind: str
    source: str

    @property
    def key(self) -> tuple[str, str, str]:
        """What the register of survivors knows it by."""
        return self.module, self.where, self.change


def code_mutants(module: str, source: str) -> Iterator[CodeMutant]:
    """Every wrong version of a module's functions and tables."""
    tree = ast.parse(source)
    told: dict[tuple[str, str], int] = {}
    for where, node in _nodes(tree, ""):
        for kind, change, other in _others(node):
            count = told[where, change] = told.get((where, change), 0) + 1
            named = change if count == 1 else f"{change} (no. {count})"
            wrong = ast.unparse(copy.deepcopy(tree, {id(node): other}))
            yield CodeMutant(module, where, named, kind, wrong)


def _nodes(node: ast.AST, where: str) -> Iterator[tuple[str, ast.AST]]:
    """All that runs, with the function it stands in; no annotation, no docstring, no message."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, (ast.FunctionDef, ast.ClassDef)):
            inner = f"{where}.{child.name}" if where else child.name
            for statement in child.body:
                if not _is_text(statement):
                    yield inner, statement
                    yield from _nodes(statement, inner)
        elif isinstance(child, (ast.Raise, ast.Assert, ast.Import, ast.ImportFrom, ast.JoinedStr)):
            yield where, child
        elif isinstance(child, ast.AnnAssign):
            if child.value is not None:
                yield where or "module", child.value
                yield from _nodes(child.value, where)
        elif isinstance(child, ast.If) and ast.unparse(child.test) == "TYPE_CHECKING":
            continue
        elif not _is_text(child) and not _is_names(child):
            yield where or "module", child
            yield from _nodes(child, where or "")


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def _is_names(node: ast.AST) -> bool:
    """``__all__`` and ``__slots__``."""
    return isinstance(node, ast.Assign) and ast.unparse(node.targets[0]).startswith("__")


def _others(node: ast.AST) -> Iterator[tuple[str, str, ast.AST]]:
    match node:
        case ast.Compare(left=left, ops=[op], comparators=[right]):
            for kind, table in (("equality", _EQUALITY), ("comparison", _REVERSED)):
                if type(op) in table:
                    other = ast.Compare(left, [table[type(op)]()], [right])
                    yield kind, f"{ast.unparse(node)} -> {ast.unparse(other)}", other
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _ARITHMETIC:
            other = ast.BinOp(left, _ARITHMETIC[type(op)](), right)
            yield "arithmetic", f"{ast.unparse(node)} -> {ast.unparse(other)}", other
        case ast.UnaryOp(op=ast.Not() | ast.USub(), operand=operand):
            yield "sign", f"{ast.unparse(node)} -> {ast.unparse(operand)}", operand
        case ast.BoolOp(op=op, values=values):
            other = ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values)
            yield "logic", f"{ast.unparse(node)} -> {ast.unparse(other)}", other
        case ast.Constant(value=value) if type(value) in (int, float):
            wrong = value + 1 if isinstance(value, int) else (value * 1.05 if value else 1.0)
            yield "constant", f"{value} -> {wrong:.6g}", ast.Constant(wrong)
        case ast.IfExp(body=body, orelse=orelse):
            yield "side", f"always {ast.unparse(body)}", body
            yield "side", f"always {ast.unparse(orelse)}", orelse
        case ast.If(test=test, body=body, orelse=orelse):
            for held in (True, False):
                other = ast.If(ast.Constant(held), body, orelse)
                yield "branch", f"if {ast.unparse(test)}: {'always' if held else 'never'}", other
        case ast.Raise(exc=ast.Call(func=func)):
            yield "raise", f"no {ast.unparse(func)}", ast.Pass()
        case ast.Expr(value=ast.Call(func=func)):
            yield "check", f"without {ast.unparse(node)}", ast.Pass()
        case ast.Call(func=ast.Name(id="min" | "max" as name), args=args, keywords=[]):
            other = ast.Call(ast.Name("max" if name == "min" else "min", ast.Load()), args, [])
            yield "extreme", f"{ast.unparse(node)} -> {ast.unparse(other.func)}", other
