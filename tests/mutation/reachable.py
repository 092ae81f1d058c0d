"""Where a comparison can stand on equality: both sides made of stated values by plain arithmetic.

A root, a table's straight line or an engineering function gives a value that nobody can
bring to a limit to the last of nine digits; there ``<`` and ``<=`` are the same rule.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Mapping
from typing import Any

__all__ = ["equality"]

_PLAIN_CALLS = {"min", "max", "abs", "sum", "count", "round_up", "round_down"}


def equality(
    data: Mapping[str, Any], derived: Mapping[str, Mapping[str, Any]]
) -> Callable[[ast.Compare], bool]:
    """The judgement for the comparisons of one rule or derived value.

    data: its file. derived: the files of all derived values.
    """
    lines = {name: entry["formula"] for name, entry in data.get("working", {}).items()}
    for side in ("demand", "limit"):
        if side in data.get("compare", {}):
            lines[side] = data["compare"][side]

    def plain(node: ast.expr, seen: frozenset[str] = frozenset()) -> bool:
        match node:
            case ast.Constant():
                return True
            case ast.Name(id=name):
                if name in seen or name not in lines:
                    return True
                return plain(_tree(lines[name]), seen | {name})
            case ast.Attribute(value=ast.Name(id="derived"), attr=name) if name in derived:
                file = derived[name]
                inner = {n: e["formula"] for n, e in file.get("working", {}).items()}
                return all(
                    _plain_text(t, derived) for t in (*inner.values(), file["result"]["formula"])
                )
            case ast.Attribute():
                return True
            case ast.BinOp(
                left=left, op=ast.Add() | ast.Sub() | ast.Mult() | ast.Div(), right=right
            ):
                return plain(left, seen) and plain(right, seen)
            case ast.UnaryOp(operand=operand):
                return plain(operand, seen)
            case ast.IfExp(body=body, orelse=orelse):
                return plain(body, seen) or plain(orelse, seen)
            case ast.Call(func=ast.Name(id=name), args=args) if name in _PLAIN_CALLS:
                return all(plain(a, seen) for a in args)
            case ast.Call(func=ast.Attribute()):
                # A table gives its printed cells exactly.
                return True
            case ast.GeneratorExp(elt=elt) | ast.ListComp(elt=elt):
                return plain(elt, seen)
        return False

    return lambda node: plain(node.left) and all(plain(c) for c in node.comparators)


def _plain_text(text: Any, derived: Mapping[str, Mapping[str, Any]]) -> bool:
    """Whether a derived value's formula has no call in it but a table's and the plain ones."""
    for node in ast.walk(_tree(text)):
        match node:
            case ast.Call(func=ast.Name(id=name)):
                if name not in {*_PLAIN_CALLS, "stated", "any", "all"}:
                    return False
            case ast.BinOp(op=ast.Pow()):
                return False
            case ast.Attribute(value=ast.Name(id="derived"), attr=name) if name in derived:
                file = derived[name]
                texts = [entry["formula"] for entry in file.get("working", {}).values()]
                if not all(_plain_text(t, derived) for t in (*texts, file["result"]["formula"])):
                    return False
    return True


def _tree(text: Any) -> ast.expr:
    text = str(text).strip()
    return ast.parse(
        f"({ {'true': 'True', 'false': 'False'}.get(text.lower(), text) }\n)", mode="eval"
    ).body
