"""The formula language: what is in it, what is not, and the column that is named."""

from __future__ import annotations

import ast
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.formulas.grammar import (
    MAX_DEPTH,
    MAX_LENGTH,
    MAX_NODES,
    FormulaError,
    dotted,
    parse_formula,
)

ALLOWED = [
    ("a name", "weight"),
    ("a path", "mount.post.wall"),
    ("sums", "a + b - c"),
    ("products", "a * b / c"),
    ("a power", "a ** 2"),
    ("a negative", "-a"),
    ("brackets", "(a + b) * c"),
    ("a comparison", "a <= b"),
    ("conditions", "a < b and not (c > d) or e == f"),
    ("a choice", "a if c else b"),
    ("one of a list", "kind in ['x', 'y']"),
    ("none of a list", "kind not in ['x', 'y']"),
    ("one of a bracketed list", "kind in ('x', 'y')"),
    ("a call", "f(a, b)"),
    ("a look-up", "table.thread.pitch(size)"),
    ("a sum over a list", "sum(x.mass for x in boxes)"),
    ("a condition in the sum", "sum(x.mass for x in boxes if x.kind == 'open')"),
    ("a list for a function", "f([x.mass for x in boxes])"),
    ("a text", "'side-post'"),
    ("true", "True"),
    ("a number with a point", "0.5"),
    ("a number with an exponent", "1e-3"),
    ("two lines", "a +\n  b"),
    ("space around it", "  a + b  "),
]

REFUSED = [
    ("nothing", "", "an empty formula", 0),
    ("spaces", "   ", "an empty formula", 0),
    ("two names", "x x", "not a formula", None),
    ("an operator too many", "a + * b", "not a formula", None),
    ("an operator left open", "a +", "not a formula", None),
    ("a bracket left open", "(a", "not a formula", None),
    ("a bracket closed too often", "a)", "a bracket closes that was never opened", 1),
    ("out of the brackets and in again", "a) + (b", "a bracket closes that was never opened", 1),
    ("out of the brackets on another line", "a\n) + (\nb", "a bracket closes that was never opened", None),
    ("a private attribute", "x.__class__", "a name cannot start with '_'", 0),
    ("a private name", "_x", "a name cannot start with '_'", 0),
    ("a private name in a path", "a._b.c", "a name cannot start with '_'", 0),
    ("the classes behind an empty list", "().__class__.__bases__", "a dot that belongs to no field path", 0),
    ("an attribute of a text", "'{0.__class__}'.format(x)", None, 0),
    ("an attribute of a number", "(1).real", "a dot that belongs to no field path", None),
    ("an attribute of a call", "f(x).y", "a dot that belongs to no field path", 0),
    ("the call of a call", "f(x)(y)", "only a named function can be called", 0),
    ("the call of a text", "'x'()", "only a named function can be called", 0),
    ("a formatted text", "f'{x}'", "a formatted text", 0),
    ("bytes", "b'x'", "is not part of a formula", 0),
    ("nothing by name", "None", "None is not part of a formula", 0),
    ("three points", "...", "is not part of a formula", 0),
    ("an imaginary number", "1j", "is not part of a formula", 0),
    ("a function of its own", "lambda: 1", "a function definition is not part", 0),
    ("an index", "a[0]", "an index in square brackets is not part", 0),
    ("a slice", "a[0:1]", "an index in square brackets is not part", 0),
    ("an assignment inside", "(a := 1)", "an assignment is not part", None),
    ("an assignment", "a = 1", "not a formula", None),
    ("a statement", "import os", "not a formula", None),
    ("two statements", "a; b", "not a formula", None),
    ("a mapping", "{'a': 1}", "a mapping is not part", 0),
    ("a set", "{1, 2}", "a set is not part", 0),
    ("a star", "f(*a)", "a star is not part", 2),
    ("waiting", "await a", None, None),
    ("yielding", "(yield a)", "yield is not part", None),
    ("a named argument", "f(a=1)", "an argument with a name is not part", 2),
    ("whole division", "a // b", "'//' is not part", None),
    ("a remainder", "a % b", "'%' is not part", None),
    ("a matrix product", "a @ b", "'@' is not part", None),
    ("a bar for or", "a | b", "write 'or'", None),
    ("an ampersand for and", "a & b", "write 'and'", None),
    ("a caret for a power", "a ^ b", "write '**'", None),
    ("a shift", "1 << 9", "'<<' is not part", None),
    ("a tilde", "~a", "write 'not'", None),
    ("a plus in front", "+a", "a plus sign in front", None),
    ("identity", "a is b", "write '=='", None),
    ("no identity", "a is not b", "write '!='", None),
    ("two comparisons in one", "x > 2 > 1", "two comparisons in one", 0),
    ("two comparisons behind a sum", "1 + (x > 2 > 1)", "two comparisons in one", 5),
    ("two loops in one", "sum(a for x in y for z in w)", "one 'for' at a time", 3),
    ("a loop over two names", "sum(a for x, y in z)", "'for' takes one name", None),
    ("a loop that waits", "sum(a async for x in y)", None, None),
    ("a list of names", "x in [a, b]", "fixed texts or numbers only", 5),
    ("a list in a list", "x in [[1], 2]", "fixed texts or numbers only", 5),
    ("a number beyond all", "10 ** 400 * 1e400", "a number that is too large", None),
    ("a whole number beyond all", "9" * 40, "a number that is too large", 0),
    ("a number run into a word", "1if x else 2", "not a formula", None),
    ("a backslash", "'\\d'", "not a formula", None),
    ("a zero byte", "a\0b", "not a formula", None),
    ("a question mark", "a ? b : c", "not a formula", None),
    ("and by signs", "a && b", "not a formula", None),
]  # fmt: skip


@pytest.mark.parametrize("text", [c[1] for c in ALLOWED], ids=[c[0] for c in ALLOWED])
def test_allowed(text: str) -> None:
    assert isinstance(parse_formula(text), ast.expr)


@pytest.mark.parametrize(
    ("text", "what", "column"), [c[1:] for c in REFUSED], ids=[c[0] for c in REFUSED]
)
def test_refused_with_its_column(text: str, what: str | None, column: int | None) -> None:
    with pytest.raises(FormulaError) as refused:
        parse_formula(text)
    error = refused.value
    assert what is None or what in f"{error.what} {error.hint}"
    assert column is None or error.column == column
    assert 0 <= error.column <= len(text)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("500 brackets", "(" * 250 + "a" + ")" * 250),
        ("41 brackets", "(" * 41 + "a" + ")" * 41),
        ("a chain of minus signs", "-" * 300 + "a"),
        ("3000 minus signs", "-" * 3000 + "a"),
        ("3000 times not", "not " * 3000 + "a"),
        ("a chain of not", "not " * 100 + "a"),
        ("5000 terms", "a" + "+1" * 5000),
        ("60 terms", "a" + "+1" * 60),
        ("a power of a power", "9" + "**9" * 60),
        ("100 kB", "a" * 100_000),
        ("a path of 200 steps", "a" + ".b" * 200),
        ("a call in a call", "f(" * 60 + "a" + ")" * 60),
        ("a choice in a choice", "a if b else " * 45 + "c"),
        ("too many parts side by side", "f(" + ",".join("a" * 290) + ")"),
    ],
)
def test_what_is_too_much_is_refused_at_once(name: str, text: str) -> None:
    start = time.perf_counter()
    with pytest.raises(FormulaError) as refused:
        parse_formula(text)
    assert time.perf_counter() - start < 0.5
    assert any(word in refused.value.what for word in ("deeper", "more than", "at most"))


def test_what_is_just_not_too_much_is_allowed() -> None:
    parse_formula("(" * (MAX_DEPTH - 1) + "a" + ")" * (MAX_DEPTH - 1))
    parse_formula("a" * MAX_LENGTH)
    parse_formula("f(" + ", ".join(["a"] * (MAX_NODES // 2 - 5)) + ")")


@pytest.mark.parametrize(
    ("text", "path"),
    [("a", "a"), ("a.b.c", "a.b.c"), ("a + b", None), ("f(x).y", None), ("'x'", None)],
)
def test_a_path_is_names_and_dots_only(text: str, path: str | None) -> None:
    assert dotted(ast.parse(text, mode="eval").body) == path


@given(st.text(max_size=60))
def test_any_text_is_a_formula_or_refused(text: str) -> None:
    _parses_or_refuses(text)


@given(
    st.lists(
        st.sampled_from(
            ["a", "b.c", "1", "2.5", "'x'", "+", "-", "*", "/", "**", "(", ")", "[", "]", ",", " if ", " else ",
             " and ", " or ", "not ", "<", "==", " in ", "f(", " for x in ", ":=", "{", "}", ":", "lambda ", "\n", "#"]
        ),
        max_size=14,
    ).map("".join)
)  # fmt: skip
def test_near_formulas_are_read_or_refused(text: str) -> None:
    _parses_or_refuses(text)


def _parses_or_refuses(text: str) -> None:
    refused: FormulaError | None = None
    tree: ast.expr | None = None
    try:
        tree = parse_formula(text)
    except FormulaError as error:
        refused = error
    if refused is not None:
        assert refused.what
        assert refused.column >= 0
        return
    assert tree is not None
    # What was read is one whole formula: written out and read again it is the same.
    written = ast.unparse(tree)
    if len(written) <= MAX_LENGTH:
        assert ast.dump(parse_formula(written)) == ast.dump(tree)
