"""Which cells of which tables a formula reads, with the keys that it asks for.

A table may be known well and one of its cells from memory. Whether an answer rests on that
cell is asked of every rule that is met, so it is worked out with the rulebook and kept: for
each look-up, byte code that gives the keys it is asked for.
"""

from __future__ import annotations

import ast
from collections.abc import Container, Iterable, Iterator, Mapping
from types import CodeType
from typing import Any, NamedTuple

from checker.absent import Absent
from checker.formulas.scope import Compiled, look_up_name

__all__ = ["Probe", "cells_read", "probes_of"]


class Probe(NamedTuple):
    """One look-up of a formula; ``keys`` gives those of each cell that has a say, as a list."""

    table: str
    column: str
    keys: CodeType


def probes_of(formula: Compiled, wanted: Container[str]) -> Iterator[Probe]:
    """The look-ups of a formula in the wanted tables."""
    paths = [path for path in formula.uses.tables if path.partition(".")[0] in wanted]
    tables = {look_up_name(*path.split(".")): path for path in paths}
    if not tables:
        return
    for path, keys in _reached(ast.parse(formula.source, mode="eval").body, tables):
        table, _, column = path.partition(".")
        tree = ast.fix_missing_locations(ast.Expression(keys))
        yield Probe(table, column, compile(tree, "<keys>", "eval"))


def cells_read(
    probes: Iterable[Probe], names: dict[str, Any]
) -> Iterator[tuple[str, str, tuple[Any, ...]]]:
    """Each look-up that had a say as (table, column, keys); none where its keys are not known."""
    for table, column, code in probes:
        try:
            found: list[tuple[Any, ...]] = eval(code, names)  # noqa: S307 - see rulebook/linking.py
        except Exception:  # noqa: S112 - the formula has no answer either, and says why
            continue
        for keys in found:
            if not any(isinstance(key, Absent) for key in keys):
                yield table, column, keys


def _reached(node: ast.AST, tables: Mapping[str, str]) -> Iterator[tuple[str, ast.expr]]:
    """Each look-up as its path and the list of its keys: of an 'if', those of the side taken."""
    match node:
        case ast.IfExp(test=test, body=body, orelse=orelse):
            yield from _reached(test, tables)
            for path, keys in _reached(body, tables):
                yield path, ast.IfExp(test, keys, ast.List([], ast.Load()))
            for path, keys in _reached(orelse, tables):
                yield path, ast.IfExp(test, ast.List([], ast.Load()), keys)
        case (
            ast.GeneratorExp(elt=element, generators=[over])
            | ast.ListComp(elt=element, generators=[over])
        ):
            yield from _reached(over.iter, tables)
            for test in over.ifs:
                for path, keys in _reached(test, tables):
                    yield path, _of_each(ast.comprehension(over.target, over.iter, [], 0), keys)
            for path, keys in _reached(element, tables):
                yield path, _of_each(over, keys)
        case ast.Call(func=ast.Name(id=name), args=arguments) if name in tables:
            yield tables[name], ast.List([ast.Tuple(arguments, ast.Load())], ast.Load())
            for argument in arguments:
                yield from _reached(argument, tables)
        case _:
            for child in ast.iter_child_nodes(node):
                yield from _reached(child, tables)


def _of_each(over: ast.comprehension, keys: ast.expr) -> ast.expr:
    """The keys of every member of a loop, one list after another."""
    one = ast.comprehension(ast.Name("keys", ast.Store()), keys, [], 0)
    return ast.ListComp(ast.Name("keys", ast.Load()), [over, one])
