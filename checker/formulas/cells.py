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
        for node in ast.walk(ast.parse(formula.source, mode="eval")):
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


def _loops(node: ast.expr, names: dict[str, Any]) -> bool:
    return any(
        isinstance(n, ast.Name) and n.id.startswith("m_") and n.id not in names
        for n in ast.walk(node)
    )
