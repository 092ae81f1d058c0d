"""The formula language: a small, closed part of Python's expressions.

Allowed are arithmetic, one comparison at a time, ``and``/``or``/``not``,
``x if c else y``, ``in`` a list of texts, field paths, calls of registered
functions and tables, and comprehensions over a list of the description. The text
is parsed with ``ast`` and every node is held against a list; nothing is evaluated
by Python's own rules for attributes or names.
"""

from __future__ import annotations

import ast
import io
import re
import tokenize
import warnings

__all__ = ["FormulaError", "dotted", "parse_again", "parse_formula"]

MAX_LENGTH = 600
MAX_DEPTH = 40
MAX_NODES = 300

# As a description writes them: what only Python reads as a number (0x1F, 1_000, 1j) is none.
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?")
_ALLOWED: tuple[type[ast.AST], ...] = (
    ast.Expression, ast.BoolOp, ast.And, ast.Or, ast.UnaryOp, ast.Not, ast.USub,
    ast.BinOp, ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow,
    ast.Compare, ast.Eq, ast.NotEq, ast.Lt, ast.LtE, ast.Gt, ast.GtE, ast.In, ast.NotIn,
    ast.IfExp, ast.Call, ast.Attribute, ast.Name, ast.Constant, ast.List, ast.Tuple,
    ast.GeneratorExp, ast.ListComp, ast.comprehension, ast.Load, ast.Store,
)  # fmt: skip
_SAY: dict[type[ast.AST], str] = {
    ast.Lambda: "a function definition", ast.Subscript: "an index in square brackets",
    ast.Dict: "a mapping", ast.Set: "a set", ast.JoinedStr: "a formatted text",
    ast.NamedExpr: "an assignment", ast.Starred: "a star", ast.Await: "await",
    ast.FloorDiv: "'//'", ast.Mod: "'%'", ast.MatMult: "'@'", ast.BitAnd: "'&' (write 'and')",
    ast.BitOr: "'|' (write 'or')", ast.BitXor: "'^' (write '**' for a power)", ast.LShift: "'<<'", ast.RShift: "'>>'",
    ast.Invert: "'~' (write 'not')", ast.UAdd: "a plus sign in front", ast.Is: "'is' (write '==')", ast.IsNot: "'is not' (write '!=')",
    ast.DictComp: "a mapping", ast.SetComp: "a set", ast.Yield: "yield", ast.keyword: "an argument with a name",
}  # fmt: skip


class FormulaError(ValueError):
    """A formula that is not of the language; ``column`` counts from 0 in its text."""

    def __init__(self, what: str, column: int = 0, hint: str = "") -> None:
        super().__init__(what, column, hint)
        self.what = what
        self.column = column
        self.hint = hint


def parse_formula(text: str) -> ast.expr:
    """The tree of a formula.

    Raises FormulaError with the column of the first thing that is not allowed.
    """
    text = text.strip()
    if not text:
        raise FormulaError("an empty formula")
    if len(text) > MAX_LENGTH:
        raise FormulaError(
            f"a formula of {len(text)} characters; at most {MAX_LENGTH}",
            hint="name its parts in 'working'",
        )
    _refuse_depth(text)
    try:
        with warnings.catch_warnings():
            # What Python only warns of ("1if x else 2", "'\d'") is no formula either.
            warnings.simplefilter("error")
            # A formula may run over several lines of the file; in brackets Python reads it as one.
            tree = ast.parse(f"({text}\n)", mode="eval")
    except SyntaxError as error:
        raise FormulaError(f"not a formula: {error.msg}", max((error.offset or 1) - 2, 0)) from None
    except (ValueError, MemoryError, RecursionError):
        raise FormulaError("not a formula") from None
    _check(tree)
    return tree.body


def parse_again(text: str) -> ast.expr:
    """The tree of a formula that has been checked before: the caller may change it."""
    return ast.parse(f"({text.strip()}\n)", mode="eval").body


def dotted(node: ast.expr) -> str | None:
    """The field path that a node spells, or None if it is no path."""
    names: list[str] = []
    while isinstance(node, ast.Attribute):
        names.append(node.attr)
        node = node.value
    if not isinstance(node, ast.Name):
        return None
    names.append(node.id)
    return ".".join(reversed(names))


def _refuse_depth(text: str) -> None:
    """Refuse deep nesting, long chains and odd numbers before Python's own parser meets them."""
    depth = tokens = 0
    run = 0
    try:
        for token in tokenize.generate_tokens(io.StringIO(f"({text}\n)").readline):
            tokens += 1
            if token.type == tokenize.OP and token.string in "([{":
                depth += 1
            elif token.type == tokenize.OP and token.string in ")]}":
                depth -= 1
                if depth == 0 and token.start[0] <= text.count("\n") + 1:
                    # The brackets put around the formula stay open until its end, or
                    # "a) + (b" would be two formulas that pass for one.
                    raise FormulaError(
                        "a bracket closes that was never opened", max(token.start[1] - 1, 0)
                    )
            elif token.type == tokenize.NUMBER and not _NUMBER.fullmatch(token.string):
                raise FormulaError(
                    f"{token.string[:20]} is not part of a formula",
                    max(token.start[1] - 1, 0),
                    "write numbers with digits and a point: 0.5, 1000, 1e-3",
                )
            run = run + 1 if token.string in ("-", "+", "~", "not", "**") else 0
            if depth > MAX_DEPTH or run > MAX_DEPTH:
                raise FormulaError(f"nested deeper than {MAX_DEPTH}", max(token.start[1] - 1, 0))
            if tokens > 2 * MAX_NODES:
                raise FormulaError(
                    f"more than {MAX_NODES} parts", hint="name its parts in 'working'"
                )
    except (tokenize.TokenError, SyntaxError, IndentationError):
        return  # The parser that follows says what is wrong, with the column.


def _check(tree: ast.AST) -> None:
    stack: list[tuple[ast.AST, int, int]] = [(tree, 0, 0)]
    count = 0
    while stack:
        node, depth, column = stack.pop()
        count += 1
        # An operator has no place of its own: it is told at its parent's.
        column = max(getattr(node, "col_offset", column + 1) - 1, 0)
        if count > MAX_NODES:
            raise FormulaError(
                f"more than {MAX_NODES} parts", column, "name its parts in 'working'"
            )
        if depth > MAX_DEPTH:
            raise FormulaError(f"nested deeper than {MAX_DEPTH}", column)
        if not isinstance(node, _ALLOWED):
            raise FormulaError(
                f"{_SAY.get(type(node), type(node).__name__)} is not part of a formula", column
            )
        _check_one(node, column)
        stack.extend((child, depth + 1, column) for child in ast.iter_child_nodes(node))


def _check_one(node: ast.AST, column: int) -> None:
    match node:
        case ast.Constant(value=value):
            if isinstance(value, bool) or type(value) in (int, float, str):
                if isinstance(value, (int, float)) and abs(value) > 1e15:
                    raise FormulaError("a number that is too large", column)
                if isinstance(value, str) and not value.isprintable():
                    # Written with a backslash: the file itself cannot hold it.
                    raise FormulaError("a character that cannot be seen", column, "delete it")
                return
            raise FormulaError(f"{value!r} is not part of a formula", column)
        case ast.Compare(ops=ops) if len(ops) > 1:
            raise FormulaError("two comparisons in one", column, "write 'a < b and b < c'")
        case ast.Attribute() if dotted(node) is None:
            raise FormulaError("a dot that belongs to no field path", column)
        case ast.Name(id=name) | ast.Attribute(attr=name) if name.startswith("_"):
            raise FormulaError(f"a name cannot start with '_': {name}", column)
        case ast.Call(func=function):
            if dotted(function) is None:
                raise FormulaError("only a named function can be called", column)
        case ast.comprehension(target=target, is_async=is_async):
            if not isinstance(target, ast.Name) or is_async:
                raise FormulaError("'for' takes one name", column)
        case ast.GeneratorExp(generators=generators) | ast.ListComp(generators=generators):
            if len(generators) != 1:
                raise FormulaError("one 'for' at a time", column)
        case ast.Tuple(elts=elements) | ast.List(elts=elements):
            if any(not isinstance(e, ast.Constant) for e in elements):
                raise FormulaError("a list holds fixed texts or numbers only", column)
