"""Which fields a formula can come to read when only a part of the description is known.

A compiled formula is walked with what is stated; all else may be anything. A branch that
can no longer be taken is left out, and with it what it would have read. Where a value is
not known both ways are walked, so that nothing is missed that may still be asked for.
"""

from __future__ import annotations

import ast
import operator
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any, Final, NamedTuple

from checker.absent import Absent
from checker.installation.fields import Field, Layout

__all__ = ["UNKNOWN", "Member", "Reach", "is_blank"]


class _Unknown:
    def __repr__(self) -> str:
        return "UNKNOWN"


UNKNOWN: Final = _Unknown()


class Member(NamedTuple):
    """A record as far as it is known; ``values`` is None for one that nobody has described.

    ``path`` stands in front of the names of its fields: '', 'mount.fixings[0].', or
    'mount.fixings[].' for a member that stands for any.
    """

    layout: Layout
    path: str
    values: Sequence[Any] | None

    def path_of(self, field: Field) -> str:
        """The path of one of its fields."""
        return self.path + (field.path.rpartition("[].")[2] if self.path else field.path)

    def value(self, field: Field) -> Any:
        """The value of one of its fields, or UNKNOWN."""
        value = UNKNOWN if self.values is None else self.values[field.slot]
        return UNKNOWN if isinstance(value, Absent) else value

    def members(self, field: Field) -> list[Member] | None:
        """The members of one of its lists; None where nothing is said of any."""
        layout = field.item
        assert layout is not None  # noqa: S101 - only lists are asked
        value = self.value(field)
        if value is UNKNOWN or (value and all(is_blank(v) for v in value)):
            return None
        path = self.path_of(field)
        return [Member(layout, f"{path}[{i}].", v) for i, v in enumerate(value)]

    def any_member(self, field: Field) -> Member:
        """A member that stands for any that one of its lists may come to hold."""
        assert field.item is not None  # noqa: S101 - only lists are asked
        return Member(field.item, f"{self.path_of(field)}[].", None)


def is_blank(values: Sequence[Any]) -> bool:
    """Whether a record's values say nothing at all, those of its lists included."""
    return all(
        isinstance(v, Absent) or (isinstance(v, list) and bool(v) and all(map(is_blank, v)))
        for v in values
    )


_BINARY: dict[type[ast.operator], Callable[[Any, Any], Any]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}
_COMPARE: dict[type[ast.cmpop], Callable[[Any, Any], Any]] = {
    ast.Eq: operator.eq,
    ast.NotEq: operator.ne,
    ast.In: lambda a, b: a in b,
    ast.NotIn: lambda a, b: a not in b,
}


@cache
def _tree(source: str) -> ast.expr:
    return ast.parse(source, mode="eval").body


class Reach:
    """Walks compiled formulas and gathers in ``reads`` the paths that they can read.

    root: the description. names: the functions and tables in sight. derived: gives a
    derived value by its index. as_it_is: ask ``stated(...)`` of the description as it
    stands; otherwise what is not stated may yet be.
    """

    def __init__(
        self,
        root: Member,
        names: Mapping[str, Any],
        derived: Callable[[int], Any],
        *,
        as_it_is: bool,
    ) -> None:
        self.root = root
        self.names = names
        self.derived = derived
        self.as_it_is = as_it_is
        self.lines: dict[str, Any] = {}
        self.local: dict[str, Member] = {}
        self.reads: dict[str, None] = {}

    def value(self, source: str) -> Any:
        """The value of a formula as far as it follows from what is known, else UNKNOWN."""
        return self._visit(_tree(source))

    def _visit(self, node: ast.expr) -> Any:
        match node:
            case ast.Constant(value=value):
                return value
            case ast.Name(id=name):
                return self.lines.get(name, UNKNOWN)
            case ast.Subscript():
                return self._slot(node)
            case ast.BoolOp(op=op, values=values):
                return self._logic(values, decided_by=isinstance(op, ast.Or))
            case ast.UnaryOp(op=ast.Not(), operand=operand):
                return self._given(operator.not_, [operand])
            case ast.UnaryOp(operand=operand):
                return self._given(operator.neg, [operand])
            case ast.IfExp(test=test, body=body, orelse=orelse):
                taken = self._visit(test)
                if taken is not UNKNOWN:
                    return self._visit(body if taken else orelse)
                ways = [self._visit(body), self._visit(orelse)]
                return ways[0] if UNKNOWN not in ways and ways[0] == ways[1] else UNKNOWN
            case ast.Compare(left=ast.Call(func=ast.Name(id="type"), args=[asked])):
                return self._is_stated(asked)
            case ast.Compare(left=left, ops=[op], comparators=[right]):
                return self._given(_COMPARE[type(op)], [left, right])
            case ast.BinOp(left=left, op=op, right=right):
                return self._given(_BINARY[type(op)], [left, right])
            case ast.List(elts=items) | ast.Tuple(elts=items):
                return self._given(lambda *values: values, items)
            case ast.ListComp() | ast.GeneratorExp():
                return self._loop(node)
            case ast.Call():
                return self._call(node)
        raise TypeError(f"no formula holds {ast.dump(node)}")

    def _given(self, function: Callable[..., Any], nodes: Sequence[ast.expr]) -> Any:
        """A function of values: known where all of them are and it has an answer."""
        values = [self._visit(node) for node in nodes]
        if any(_has_unknown(v) for v in values):
            return UNKNOWN
        try:
            return function(*values)
        except Exception:
            return UNKNOWN  # The check itself says why; here it is enough that there is none.

    def _record(self, node: ast.expr) -> Member:
        name = node.id if isinstance(node, ast.Name) else ""
        return self.root if name == "S" else self.local[name]

    def _slot(self, node: ast.Subscript) -> Any:
        if isinstance(node.value, ast.Name) and node.value.id == "D":
            return self.derived(_number(node.slice))
        record = self._record(node.value)
        field = record.layout.fields[_number(node.slice)]
        self.reads[record.path_of(field)] = None
        if field.item is not None and record.members(field) is None:
            return UNKNOWN
        return record.value(field)

    def _is_stated(self, node: ast.expr) -> Any:
        """What ``stated(field)`` gives; to ask is a read only where an answer may come."""
        before = dict(self.reads)
        if self._visit(node) is not UNKNOWN:
            return True
        if not self.as_it_is:
            return UNKNOWN
        self.reads = before
        return False

    def _logic(self, nodes: Sequence[ast.expr], *, decided_by: bool) -> Any:
        value: Any = not decided_by
        for node in nodes:
            one = self._visit(node)
            if one is UNKNOWN:
                value = UNKNOWN
            elif bool(one) is decided_by:
                return decided_by
        return value

    def _call(self, node: ast.Call) -> Any:
        assert isinstance(node.func, ast.Name)  # noqa: S101 - the compiler writes nothing else
        name = node.func.id
        if name in ("any", "all") and isinstance(node.args[0], ast.GeneratorExp):
            section = node.args[0].generators[0].iter
            if isinstance(section, ast.Subscript) and isinstance(section.slice, ast.Slice):
                return self._section(section)
            values = self._loop(node.args[0])
            if values is UNKNOWN:
                return UNKNOWN
            decided_by = name == "any"
            if any(v is not UNKNOWN and bool(v) is decided_by for v in values):
                return decided_by
            return UNKNOWN if UNKNOWN in values else not decided_by
        return self._given(self.names[name], node.args)

    def _section(self, node: ast.Subscript) -> Any:
        """What ``stated(section)`` gives: whether any of its fields is stated."""
        record = self._record(node.value)
        assert isinstance(node.slice, ast.Slice)  # noqa: S101 - the caller looked
        first, last = _number(node.slice.lower), _number(node.slice.upper)
        if any(record.value(f) is not UNKNOWN for f in record.layout.fields[first:last]):
            return True
        return False if self.as_it_is else UNKNOWN

    def _loop(self, node: ast.ListComp | ast.GeneratorExp) -> Any:
        """The values of a loop over a list; UNKNOWN where its members are not known."""
        loop = node.generators[0]
        assert isinstance(loop.iter, ast.Subscript)  # noqa: S101 - the compiler writes nothing else
        assert isinstance(loop.target, ast.Name)  # noqa: S101 - the compiler writes nothing else
        record = self._record(loop.iter.value)
        field = record.layout.fields[_number(loop.iter.slice)]
        self.reads[record.path_of(field)] = None
        known = record.members(field)
        values: list[Any] = []
        certain = known is not None
        for member in known if known is not None else [record.any_member(field)]:
            self.local[loop.target.id] = member
            kept = self._logic(loop.ifs, decided_by=False)
            if kept is not False:
                values.append(self._visit(node.elt))
            certain = certain and kept is not UNKNOWN
        self.local.pop(loop.target.id, None)
        return values if certain else UNKNOWN


def _has_unknown(value: Any) -> bool:
    return value is UNKNOWN or (isinstance(value, (list, tuple)) and UNKNOWN in value)


def _number(node: ast.expr | None) -> int:
    value = node.value if isinstance(node, ast.Constant) else None
    assert isinstance(value, int)  # noqa: S101 - the compiler writes nothing else
    return value
