"""A formula's dimension check and its compilation, in one walk over its tree.

Every node gives its type and its Python source. The source reads slots of flat
lists (``S`` the description, ``D`` derived values, ``m_x`` a list member), so what
runs is plain float arithmetic; units were settled here, before any description.
"""

from __future__ import annotations

import ast
from typing import Any

from checker import units
from checker.errors import near
from checker.formulas.agreement import at, field_type, fixed_number, possible, unify, whole
from checker.formulas.calls import call
from checker.formulas.functions import CONSTANTS
from checker.formulas.grammar import FormulaError, dotted, parse_formula
from checker.formulas.scope import Compiled, Scope, Uses
from checker.formulas.types import FLAG, PLAIN, ZERO, Flag, Items, Members, Numeric, Text, Type, say
from checker.installation.fields import Field, Section
from checker.units.dimensions import NONE, divide, multiply, power

__all__ = ["Walker", "compile_formula"]

_MAX_EXPONENT = 20


def compile_formula(text: str, scope: Scope) -> Compiled:
    """Check a formula and give its source.

    Raises FormulaError with the column, and with both dimensions where units clash.
    """
    walker = Walker(scope)
    kind, source = walker.visit(parse_formula(text))
    return Compiled(" ".join(text.split()), kind, source, walker.uses)


class Walker:
    """Walks one formula; ``uses`` gathers what it refers to."""

    def __init__(self, scope: Scope) -> None:
        self.scope = scope
        self.uses = Uses()
        self.local: dict[str, Members] = {
            name: Members(layout, path, many=False)
            for name, (layout, path) in scope.members.items()
        }

    def visit(self, node: ast.expr) -> tuple[Type, str]:
        """The type and the source of one node."""
        method = getattr(self, f"_{type(node).__name__.lower()}")
        result: tuple[Type, str] = method(node)
        return result

    def number(self, node: ast.expr) -> tuple[Numeric, str]:
        """A node that must be a number."""
        kind, source = self.visit(node)
        if not isinstance(kind, Numeric):
            raise FormulaError(f"a number is wanted, this is {say(kind)}", at(node))
        return kind, source

    def flag(self, node: ast.expr) -> str:
        """A node that must be true or false."""
        kind, source = self.visit(node)
        if not isinstance(kind, Flag):
            raise FormulaError(f"a condition is wanted, this is {say(kind)}", at(node))
        return source

    # --- leaves ---------------------------------------------------------------

    def _constant(self, node: ast.Constant) -> tuple[Type, str]:
        value: Any = node.value
        if isinstance(value, bool):
            return FLAG, repr(value)
        if isinstance(value, str):
            return Text((value,)), repr(value)
        return (ZERO if value == 0 else PLAIN), repr(value)

    def _name(self, node: ast.Name) -> tuple[Type, str]:
        return self.path(node.id, node)

    def _attribute(self, node: ast.Attribute) -> tuple[Type, str]:
        return self.path(dotted(node) or "", node)

    def path(self, path: str, node: ast.expr) -> tuple[Type, str]:
        """The value that a name or a dotted path stands for."""
        head, _, rest = path.partition(".")
        scope = self.scope
        if head in self.local:
            member = self.local[head]
            if not rest:
                return member, f"m_{head}"
            return self._leaf(member.layout.by_path.get(rest), f"m_{head}", path, member, node)
        if not rest:
            if head in scope.lines:
                self.uses.lines[head] = None
                return scope.lines[head], f"v_{head}"
            if head in scope.parameters:
                self.uses.parameters[head] = None
                kind, value = scope.parameters[head]
                return kind, repr(value)
            if head in CONSTANTS:
                value, unit = CONSTANTS[head]
                return Numeric(units.need(unit).dimension), repr(value)
        elif head == "derived":
            found = scope.derived.get(rest)
            if found is None:
                raise FormulaError(
                    f"there is no derived value '{rest}'", at(node), near(rest, scope.derived)
                )
            self.uses.derived[rest] = None
            return found.type, f"D[{found.slot}]"
        return self._leaf(scope.layout.by_path.get(path), "S", path, None, node)

    def _leaf(
        self,
        found: Field | Section | None,
        base: str,
        path: str,
        member: Members | None,
        node: ast.expr,
    ) -> tuple[Type, str]:
        if found is None:
            raise FormulaError(
                f"unknown name '{path}'", at(node), near(path, self._known(member, path))
            )
        if isinstance(found, Section):
            raise FormulaError(
                f"'{path}' is a group of fields, not a value",
                at(node),
                "ask with stated(...), or name one of: " + ", ".join(list(found.children)[:6]),
            )
        self.uses.fields[found.path] = None
        return field_type(found), f"{base}[{found.slot}]"

    def _known(self, member: Members | None, path: str) -> list[str]:
        if member is not None:
            head = path.partition(".")[0]
            return [f"{head}.{p}" for p in member.layout.by_path]
        return [
            *self.scope.layout.by_path,
            *self.scope.lines,
            *self.scope.parameters,
            *CONSTANTS,
            *self.local,
        ]

    # --- arithmetic -----------------------------------------------------------

    def _binop(self, node: ast.BinOp) -> tuple[Type, str]:
        if isinstance(node.op, ast.Pow):
            return self._power(node)
        left, a = self.number(node.left)
        right, b = self.number(node.right)
        column = at(node.right)
        match node.op:
            case ast.Add() | ast.Sub():
                sign = "+" if isinstance(node.op, ast.Add) else "-"
                return self._sum(left, right, sign, column), f"({a} {sign} {b})"
            case ast.Mult() | ast.Div():
                for kind in (left, right):
                    if kind.point:
                        raise FormulaError(
                            f"{say(kind)} cannot be multiplied or divided",
                            column,
                            "take a difference first",
                        )
                if isinstance(node.op, ast.Mult):
                    return Numeric(
                        multiply(left.dimension, right.dimension),
                        is_zero=left.is_zero or right.is_zero,
                    ), f"({a} * {b})"
                return Numeric(divide(left.dimension, right.dimension)), f"({a} / {b})"
        raise FormulaError("an operation that is not part of a formula", column)

    @staticmethod
    def _sum(left: Numeric, right: Numeric, sign: str, column: int) -> Numeric:
        if left.point or right.point:
            if left.point == right.point and sign == "-":
                return Numeric(left.dimension)
            if left.point and not right.point and left.dimension == right.dimension:
                return left
            raise FormulaError(
                f"cannot {'add' if sign == '+' else 'subtract'} {say(left)} and {say(right)}",
                column,
                "a difference may be added to a point on a scale, not a point to a point",
            )
        kind = unify(
            left,
            right,
            column,
            "adds two different dimensions"
            if sign == "+"
            else "subtracts two different dimensions",
        )
        assert isinstance(kind, Numeric)  # noqa: S101 - two numbers unify to a number
        return kind

    def _power(self, node: ast.BinOp) -> tuple[Type, str]:
        base, a = self.number(node.left)
        exponent = fixed_number(node.right)
        if base.point:
            raise FormulaError(f"{say(base)} cannot be raised to a power", at(node))
        if exponent is None:
            kind, b = self.number(node.right)
            if base.dimension != NONE or kind.dimension != NONE:
                raise FormulaError(
                    f"an exponent that is not fixed needs plain numbers: {say(base)} to the power of {say(kind)}",
                    at(node.right),
                )
            return PLAIN, f"_power({a}, {b})"
        if abs(exponent) > _MAX_EXPONENT:
            raise FormulaError(
                f"an exponent beyond {_MAX_EXPONENT}", at(node.right), "no formula needs it"
            )
        result = power(base.dimension, exponent)
        whole(result, base, at(node))
        b = repr(exponent)
        if not float(exponent).is_integer():
            return Numeric(result), f"_power({a}, {b})"
        # Whole numbers grow without end in Python; as floats they overflow and are caught.
        return Numeric(
            result
        ), f"(_float({a}) ** {b})" if base.dimension == NONE else f"({a} ** {b})"

    def _unaryop(self, node: ast.UnaryOp) -> tuple[Type, str]:
        if isinstance(node.op, ast.Not):
            return FLAG, f"(not {self.flag(node.operand)})"
        kind, source = self.number(node.operand)
        if kind.point:
            raise FormulaError(f"{say(kind)} has no negative", at(node))
        return kind, f"(-{source})"

    # --- logic ----------------------------------------------------------------

    def _boolop(self, node: ast.BoolOp) -> tuple[Type, str]:
        word = " and " if isinstance(node.op, ast.And) else " or "
        return FLAG, "(" + word.join(self.flag(v) for v in node.values) + ")"

    def _ifexp(self, node: ast.IfExp) -> tuple[Type, str]:
        test = self.flag(node.test)
        left, a = self.visit(node.body)
        right, b = self.visit(node.orelse)
        kind = unify(left, right, at(node.orelse), "the two sides of 'if' differ")
        return kind, f"({a} if {test} else {b})"

    def _compare(self, node: ast.Compare) -> tuple[Type, str]:
        operator, right_node = node.ops[0], node.comparators[0]
        left, a = self.visit(node.left)
        if isinstance(operator, (ast.In, ast.NotIn)):
            return FLAG, self._in(left, a, right_node, negate=isinstance(operator, ast.NotIn))
        right, b = self.visit(right_node)
        column = at(right_node)
        if isinstance(left, Text) and isinstance(right, Text):
            if not isinstance(operator, (ast.Eq, ast.NotEq)):
                raise FormulaError("texts have no order", column, "compare with == or !=")
            possible(left, right, column)
            return FLAG, f"({a} {'==' if isinstance(operator, ast.Eq) else '!='} {b})"
        unify(left, right, column, "compares two different things")
        if isinstance(left, Flag):
            if not isinstance(operator, (ast.Eq, ast.NotEq)):
                raise FormulaError("true and false have no order", column)
            return FLAG, f"({a} {'==' if isinstance(operator, ast.Eq) else '!='} {b})"
        name = {
            ast.Lt: "_lt",
            ast.LtE: "_le",
            ast.Gt: "_gt",
            ast.GtE: "_ge",
            ast.Eq: "_eq",
            ast.NotEq: "_ne",
        }[type(operator)]
        if (
            name in ("_eq", "_ne")
            and isinstance(left, Numeric)
            and isinstance(right, Numeric)
            and (left.dimension != NONE or right.dimension != NONE)
        ):
            raise FormulaError(
                "two measured values are never equal", column, "compare with <= or >="
            )
        return FLAG, f"{name}({a}, {b})"

    def _in(self, left: Type, source: str, node: ast.expr, *, negate: bool) -> str:
        column = at(node)
        if isinstance(node, (ast.List, ast.Tuple)):
            values = tuple(e.value for e in node.elts if isinstance(e, ast.Constant))
            right: Type = (
                Items(Text(tuple(str(v) for v in values)))
                if all(isinstance(v, str) for v in values)
                else Items(PLAIN)
            )
            listed = repr(values)
        else:
            right, listed = self.visit(node)
        if not isinstance(right, Items):
            raise FormulaError("'in' wants a list", column, "write: kind in ['a', 'b']")
        if isinstance(left, Text) and isinstance(right.of, Text):
            for word in right.of.choices or ():
                possible(left, Text((word,)), column)
        else:
            unify(left, right.of, column, "'in' compares two different things")
        return f"({source} {'not in' if negate else 'in'} {listed})"

    # --- lists and calls ------------------------------------------------------

    def comprehension(self, node: ast.GeneratorExp | ast.ListComp) -> tuple[Type, str]:
        """The type of one item, and the source of the loop without its brackets."""
        loop = node.generators[0]
        assert isinstance(loop.target, ast.Name)  # noqa: S101 - the grammar allows nothing else
        name = loop.target.id
        source_type, source = self.visit(loop.iter)
        if not (isinstance(source_type, Members) and source_type.many):
            raise FormulaError(
                f"'for' runs over a list of the description, this is {say(source_type)}",
                at(loop.iter),
            )
        if (
            name in self.local
            or name in self.scope.lines
            or name in self.scope.parameters
            or name in self.scope.layout.root.children
        ):
            raise FormulaError(f"the name '{name}' is taken", at(loop.target), "choose another")
        self.local[name] = Members(source_type.layout, source_type.path, many=False)
        try:
            conditions = "".join(f" if {self.flag(c)}" for c in loop.ifs)
            kind, item = self.visit(node.elt)
        finally:
            del self.local[name]
        return kind, f"{item} for m_{name} in {source}{conditions}"

    def _listcomp(self, node: ast.ListComp) -> tuple[Type, str]:
        kind, source = self.comprehension(node)
        if isinstance(kind, (Members, Items)):
            raise FormulaError("a list of lists is not part of a formula", at(node))
        return Items(kind), f"[{source}]"

    def _generatorexp(self, node: ast.GeneratorExp) -> tuple[Type, str]:
        raise FormulaError("'for' stands only inside sum, min, max, any, all or count", at(node))

    def _list(self, node: ast.List) -> tuple[Type, str]:
        raise FormulaError("a fixed list stands only behind 'in'", at(node))

    _tuple = _list

    def _call(self, node: ast.Call) -> tuple[Type, str]:
        return call(self, node)
