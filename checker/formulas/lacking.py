"""Which values a formula lacked: asked only after it has failed."""

from __future__ import annotations

import ast
from functools import lru_cache
from types import CodeType
from typing import Any

from checker.absent import Absent, CannotTell, OutOfReach, Unstated
from checker.engineering.limits import OutOfRange

__all__ = ["evaluate", "why_not"]


def evaluate(source: str, names: dict[str, Any]) -> Any:
    """The value of a compiled formula's source, or an Absent that says why there is none."""
    try:
        return eval(_code(source), names)  # noqa: S307 - checked source, see rulebook/linking.py
    except Exception as error:
        reason = why_not(error)
        if isinstance(reason, Unstated):
            paths: dict[str, None] = dict.fromkeys(
                _missing(ast.parse(source, mode="eval").body, names)
            )
            reason = Unstated(*(paths or dict.fromkeys(reason.paths)))
        return Absent(reason)


@lru_cache(maxsize=20_000)
def _code(source: str) -> CodeType:
    return compile(source, "<formula>", "eval")


def why_not(error: Exception) -> CannotTell:
    """The reason that an exception of a running formula stands for.

    Raises the exception itself if it is none that values can cause.
    """
    if isinstance(error, CannotTell):
        return error
    if isinstance(error, OutOfRange):
        return OutOfReach(str(error))
    if isinstance(error, ZeroDivisionError):
        return OutOfReach("A value of nought stands where something is divided by it.")
    if isinstance(error, (OverflowError, ValueError)):
        return OutOfReach("The numbers leave the range in which the formula can be computed.")
    raise error


def _missing(node: ast.expr, names: dict[str, Any]) -> list[str]:
    """Every missing field that the value of a node needs, in the order of the formula.

    The formula stopped at the first thing it lacked. What stands behind that was never
    reached, and may itself have no value (a division by nought): that part then names none.
    """
    match node:
        case ast.BoolOp(op=op, values=values):
            stops_at = isinstance(op, ast.Or)
            for value in values:
                found = _missing(value, names)
                if found:
                    return found
                try:
                    if bool(_value(value, names)) is stops_at:
                        return []
                except Exception:
                    return []
            return []
        case ast.IfExp(test=test, body=body, orelse=orelse):
            found = _missing(test, names)
            if found:
                return found
            try:
                taken = body if _value(test, names) else orelse
            except Exception:
                return []
            return _missing(taken, names)
        case ast.Compare(left=ast.Call(func=ast.Name(id="type"))):
            return []
        case ast.Name() | ast.Subscript():
            try:
                value = _value(node, names)
            except Unstated as error:
                # A member of a list that is itself not stated.
                return list(error.paths)
            return (
                list(value.why.paths)
                if isinstance(value, Absent) and isinstance(value.why, Unstated)
                else []
            )
        case ast.GeneratorExp() | ast.ListComp():
            try:
                value = _value(node, names)
                list(value)
            except Unstated as error:
                return list(error.paths)
            except Exception:
                return []
            return []
    return [
        path
        for child in ast.iter_child_nodes(node)
        if isinstance(child, ast.expr)
        for path in _missing(child, names)
    ]


def _value(node: ast.expr, names: dict[str, Any]) -> Any:
    return eval(compile(ast.Expression(node), "<formula>", "eval"), names)  # noqa: S307 - checked source, see rulebook/linking.py
