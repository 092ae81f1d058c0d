"""Which cells of which tables a rule's formulas read, with the keys they asked for."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from typing import Any

from checker.absent import Absent
from checker.formulas.lacking import evaluate
from checker.formulas.scope import Compiled, look_up_name

__all__ = ["cells_read"]


def cells_read(
    formulas: list[Compiled], names: dict[str, Any]
) -> Iterator[tuple[str, str, tuple[Any, ...]]]:
    """Each look-up of the formulas as (table, column, keys), where its keys are known."""
    for formula in formulas:
        if not formula.uses.tables:
            continue
        tables = {look_up_name(*path.split(".")): path for path in formula.uses.tables}
        for node in _reached(ast.parse(formula.source, mode="eval").body, names):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id in tables
            ):
                # Inside a loop the keys depend on the member; those are not traced.
                keys = [
                    evaluate(ast.unparse(a), names) if not _loops(a, names) else None
                    for a in node.args
                ]
                if not any(k is None or isinstance(k, Absent) for k in keys):
                    table, _, column = tables[node.func.id].partition(".")
                    yield table, column, tuple(keys)


def _reached(node: ast.AST, names: dict[str, Any]) -> Iterator[ast.AST]:
    """Every node that had a say in the result: of two sides of an 'if', the one that was taken."""
    yield node
    if isinstance(node, ast.IfExp):
        yield from _reached(node.test, names)
        asked = None if _loops(node.test, names) else evaluate(ast.unparse(node.test), names)
        if isinstance(asked, bool):
            yield from _reached(node.body if asked else node.orelse, names)
            return
        yield from _reached(node.body, names)
        yield from _reached(node.orelse, names)
        return
    for child in ast.iter_child_nodes(node):
        yield from _reached(child, names)


def _loops(node: ast.expr, names: dict[str, Any]) -> bool:
    return any(
        isinstance(n, ast.Name) and n.id.startswith("m_") and n.id not in names
        for n in ast.walk(node)
    )
