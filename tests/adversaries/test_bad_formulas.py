"""Formulas that are none, that are too much, or that look for a way out of the language.

Each goes through a whole rule file, so that the message is the one that its author sees.
"""

from __future__ import annotations

import ast
import builtins
import contextlib
import math
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from attacks import checker
from campaign import examples, told_well
from hypothesis import given
from hypothesis import strategies as st
from mutations import ROOT, mutated
from situations import scope

from checker.absent import Absent
from checker.errors import Mistakes
from checker.formulas.compiling import compile_formula
from checker.formulas.functions import BUILT_IN, engineering_names
from checker.formulas.grammar import FormulaError
from checker.formulas.lacking import evaluate
from checker.formulas.running import surroundings
from checker.installation.schema import layout_from
from checker.rulebook.loading import load_rulebook

SMALL = ROOT / "tests" / "data" / "small"

# --- formulas of the wrong sense: what, the formula, the message, the hint -------

REFUSED = [
    ("a power beyond all use", "10**400*1.0", "an exponent beyond 20", ""),
    ("a number beyond all use", "1e308*10", "a number that is too large", ""),
    ("a number beyond every float", "1e400", "a number that is too large", ""),
    ("two comparisons in one", "shelf.bolts > 2 > 1", "two comparisons in one", "a < b and b < c"),
    ("a number and a truth", "1 == True", "compares two different things: a plain number and true or false", ""),
    ("a truth in small letters", "shelf.locked == true", "unknown name 'true'", ""),
    ("a text and a number", "'3' < 4", "compares two different things", ""),
    ("masses and forces", "shelf.mass < shelf.pull", "compares two different things: mass (kg) and force (kg·m/s2)", ""),
    ("masses and forces added", "shelf.mass + shelf.pull", "adds two different dimensions: mass (kg) and force (kg·m/s2)", ""),
    ("a value with its unit", "3 kg < 4 N", "not a formula", ""),
    ("five hundred brackets", "(" * 500 + "1" + ")" * 500, "characters", "name its parts"),
    ("a hundred brackets", "(" * 100 + "1" + ")" * 100, "nested deeper than", ""),
    ("three thousand times not", "not " * 3000 + "True", "characters", ""),
    ("a hundred times not", "not " * 100 + "True", "nested deeper than", ""),
    ("three thousand minus signs", "-" * 3000 + "1", "characters", ""),
    ("five hundred minus signs", "-" * 500 + "1", "nested deeper than", ""),
    ("five thousand times one more", "1" + "+1" * 5000, "characters", ""),
    ("two hundred times one more", "1" + "+1" * 200, "", ""),
    ("a hundred kilobytes", "1 + " * 25_000 + "1", "a text that is too long", ""),
    ("seven hundred characters", "1 + " * 175 + "1", "a formula of 701 characters", "name its parts"),
    ("nothing", "", "an empty formula", ""),
    ("two names", "x x", "not a formula", ""),
    ("an unknown name", "shelf.masss", "unknown name 'shelf.masss'", "shelf.mass"),
    ("an unknown function", "sqroot(shelf.bolts)", "there is no function 'sqroot'", "sqrt"),
    ("a family that is not there", "machine.mass", "unknown name 'machine.mass'", ""),
    ("a derived value that is not there", "derived.total_masss", "there is no derived value", "total_mass"),
    ("itself", "gap + 1", "unknown name 'gap'", ""),
    ("a text many times", "'a'*10**7", "a number is wanted, this is a text", ""),
    ("a list of a thousand million", "[i for i in range(1e9)]", "there is no function 'range'", ""),
    ("a section", "shelf + 1", "'shelf' is a group of fields", "stated("),
]  # fmt: skip

# --- ways out: all refused -------------------------------------------------------

WAYS_OUT = [
    ("the class of a value", "shelf.mass.__class__"), ("the class of a name", "shelf.__class__"), ("the bases of a tuple", "().__class__.__bases__"),
    ("the subclasses of object", "().__class__.__mro__[1].__subclasses__()"), ("the globals of a function", "sqrt.__globals__"), ("the code of a function", "sqrt.__code__"),
    ("the dictionary of builtins", "__builtins__"), ("an import", "__import__('os')"), ("an import of a name", "import os"), ("evaluation", "eval('1')"), ("execution", "exec('1')"),
    ("compilation", "compile('1', '', 'eval')"), ("a file", "open('/etc/passwd')"), ("a module's path", "os.system"), ("a call on a path", "shelf.mass.hex()"), ("an attribute by name", "getattr(shelf, 'x')"),
    ("all names", "globals()"), ("names here", "locals()"), ("variables", "vars()"), ("input", "input()"), ("a breakpoint", "breakpoint()"), ("help", "help()"), ("leaving", "exit()"), ("printing", "print(1)"),
    ("the type of a thing", "type(1)"), ("the length of a thing", "len(boxes)"), ("a float by its class", "float('inf')"), ("a format with an attribute", "'{0.__class__}'.format(shelf.mass)"),
    ("a format by a sign", "'%s' % shelf.mass"), ("a formatted text", "f'{shelf.mass}'"), ("a formatted text with a call", "f'{().__class__}'"), ("raw bytes", "b'x'"), ("a function without a name", "(lambda: 1)()"),
    ("an assignment inside", "(a := 1)"), ("an assignment", "a = 1"), ("a keyword argument", "max(1, key=abs)"), ("a starred argument", "max(*boxes)"), ("two stars", "max(**shelf)"), ("an index", "boxes[0]"),
    ("a slice", "boxes[0:1]"), ("a mapping", "{'a': 1}"), ("a mapping of a loop", "{b: 1 for b in boxes}"), ("a set", "{1}"), ("a set of a loop", "{b for b in boxes}"), ("a loop on its own", "(b for b in boxes)"),
    ("a loop in a loop", "sum(c for b in boxes for c in b)"), ("a loop over no list", "sum(x for x in 'abc')"), ("a loop over two names", "sum(a for a, b in boxes)"), ("a loop over a starred name", "sum(a for *a in boxes)"),
    ("a loop over an attribute", "sum(1 for shelf.mass in boxes)"), ("a loop that takes a name", "sum(shelf.mass for shelf in boxes)"), ("a loop that waits", "sum(b async for b in boxes)"), ("waiting", "await shelf.mass"),
    ("yielding", "(yield 1)"), ("yielding from", "(yield from boxes)"), ("a statement behind", "1; import os"), ("a line behind", "1\nimport os"), ("out of the brackets", "1) or (__import__('os')"), ("out of the brackets and on", "1)\nimport os\n(1"),
    ("a decorator", "@f"), ("a definition", "def f(): pass"), ("a class", "class A: pass"), ("a matrix product", "1 @ 1"), ("an ellipsis", "..."), ("nothing by name", "None"), ("an imaginary number", "1j"), ("not implemented", "NotImplemented"),
    ("a debug flag", "__debug__"), ("a conditional import", "__import__('os') if True else 1"), ("a name with a line under it", "_x"), ("the slots themselves", "S[0]"), ("the derived values themselves", "D[0]"), ("our own helper", "_le(1, 2)"),
    ("our own class", "_Absent"), ("a compiled line", "v_arm"), ("a compiled function", "F_hole"), ("a compiled look-up", "T3_box_gap('open')"), ("a table without its column", "table.box('open')"), ("the class of a table", "table.box.__class__('open')"),
    ("a table as a value", "table.box.gap"), ("the table of tables", "table"), ("the list of derived values", "derived"), ("double underscores, full width", "shelf.＿＿class＿＿"), ("double underscores, another sign", "shelf.︴︴class︴︴"),
    ("double underscores, wavy", "﹏﹏import﹏﹏('os')"), ("eval in other letters", "ｅｖａｌ('1')"), ("a long s", "ſhelf.__class__"), ("an escape in a name", "\\u005f_import__('os')"), ("a text with a screen sequence", "'\\x1b[2J'"),
    ("a text with a direction", "'\\u202e'"), ("a text with half a code point", "'\\ud800'"), ("a text with a zero", "'\\0'"), ("a path that ends in a dot", "shelf."), ("a path that starts with a dot", ".shelf"), ("two dots", "shelf..mass"),
("a dollar", "$1"), ("an exclamation mark", "!1"), ("a question mark", "1 ? 2"), ("backticks", "`1`"), ("a quote left open", "'a"), ("three quotes left open", "'''a"), ("digits of another script", "٣"),
    ("a number that Python groups", "1_000"), ("a hexadecimal number", "0x1F"), ("a binary number", "0b11"), ("an octal number", "0o17"), ("a number against a word", "1if True else 2"), ("a walrus in a loop", "sum((a := b.mass) for b in boxes)"),
    ("a star in a list", "max([*boxes])"), ("a list as a value", "[1, 2]"), ("a tuple as a value", "(1, 2)"), ("an empty tuple", "()"), ("a comma at the end", "1,"), ("in a list of names", "mount.kind in [job.title]"), ("in a list of lists", "1 in [[1]]"),
    ("identity", "shelf.mass is shelf.mass"), ("stated of a call", "stated(sqrt(1))"), ("stated of a text", "stated('shelf.mass')"), ("stated of nothing", "stated()"), ("stated of an unknown field", "stated(shelf.nothing)"), ("stated of a private field", "stated(shelf.__dict__)"),
]  # fmt: skip


def message_of(formula: str, tmp_path: Path) -> str:
    """What the author of a rule is told, whose working holds the formula."""
    folder = tmp_path / "rules"
    (folder / "sources").mkdir(parents=True)
    (folder / "load").mkdir()
    (folder / "derived").mkdir()
    for name in ("sources/own.yaml", "load/capacity.yaml", "derived/total_mass.yaml"):
        (folder / name).write_bytes((SMALL / "rules" / name).read_bytes())
    block = "\n".join("      " + line for line in formula.split("\n"))
    text = (folder / "load" / "capacity.yaml").read_text(encoding="utf-8")
    text += f"working:\n  gap:\n    is: a gap\n    formula: |-\n{block}\n"
    (folder / "load" / "capacity.yaml").write_text(text, encoding="utf-8")
    layout = layout_from(SMALL / "schemas" / "installation.schema.json")
    with pytest.raises(Mistakes) as caught:
        load_rulebook([folder], shipped=False, layout=layout)
    told = str(caught.value)
    told_well(told)
    assert "capacity.yaml:" in told
    return told


@pytest.mark.parametrize(
    ("formula", "what", "hint"), [c[1:] for c in REFUSED], ids=[c[0] for c in REFUSED]
)
def test_refused_where_it_stands(formula: str, what: str, hint: str, tmp_path: Path) -> None:
    told = message_of(formula, tmp_path)
    assert what in told
    assert hint in told


@pytest.mark.parametrize("formula", [c[1] for c in WAYS_OUT], ids=[c[0] for c in WAYS_OUT])
def test_no_way_out(formula: str, tmp_path: Path) -> None:
    with pytest.raises(FormulaError) as refused:
        compile_formula(formula, scope())
    assert refused.value.what
    message_of(formula, tmp_path)


# --- what has a value, and what has none -----------------------------------------

WORTH = [
    ("a root by its power", "2**0.5", 2**0.5), ("a sum of tenths", "0.1+0.2==0.3", True), ("a tenth more", "0.1+0.2<=0.3", True), ("one over nought", "1/0", None), ("nought over nought", "0/0", None),
    ("a root of less than nought", "sqrt(-1)", None), ("a logarithm of nought", "ln(0)", None), ("an exponential of much", "exp(1000)", None), ("a product of much", "1e15**20*1e15", None), ("powers of powers", "9**9**9", None), ("nought to the minus one", "0**-1", None),
    ("a broken power of less than nought", "(0-2)**0.5", None), ("minus before a power", "-2**2", -4.0), ("powers from the right", "2**3**2", 512.0), ("a backslash at the end", "1 \\", 1), ("not before a comparison", "not 1 > 2", True), ("and before or", "True or False and False", True),
    ("a comment", "1 # and no more", 1), ("full-width letters of a name", "ｐｉ", 3.141592653589793),
]  # fmt: skip


@pytest.mark.parametrize(("formula", "worth"), [c[1:] for c in WORTH], ids=[c[0] for c in WORTH])
def test_what_it_is_worth(formula: str, worth: Any) -> None:
    compiled = compile_formula(formula, scope())
    found = evaluate(compiled.source, surroundings((), {}))
    if worth is None:
        # What grows beyond a float is seen by whoever compares it: checking.outcome_of.
        assert isinstance(found, Absent) or not math.isfinite(found)
    else:
        assert found == worth


# --- what compiled formulas are made of ------------------------------------------


def reached(source: str) -> set[str]:
    """The names that a compiled formula reads; fails for any attribute and any other node."""
    allowed = (
        ast.Expression, ast.BoolOp, ast.And, ast.Or, ast.UnaryOp, ast.Not, ast.USub, ast.BinOp, ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow, ast.Compare,
        ast.Eq, ast.NotEq, ast.In, ast.NotIn, ast.IsNot, ast.IfExp, ast.Call, ast.Name, ast.Constant, ast.Tuple, ast.GeneratorExp, ast.ListComp, ast.comprehension,
        ast.Load, ast.Store, ast.Subscript, ast.Slice,
    )  # fmt: skip
    names = set()
    for node in ast.walk(ast.parse(source, mode="eval")):
        assert isinstance(node, allowed), (type(node).__name__, source)
        if isinstance(node, ast.Name):
            names.add(node.id)
        if isinstance(node, ast.Subscript):
            # Only slots, by fixed numbers.
            assert isinstance(node.slice, ast.Constant | ast.Slice)
            assert isinstance(node.value, ast.Name)
            assert node.value.id in ("S", "D") or node.value.id.startswith("m_")
    return names


HELPERS = {name for name in surroundings((), {}) if name != "__builtins__"}


def is_ours(name: str) -> bool:
    return name in HELPERS or name in ("S", "D", "x") or name.startswith(("m_", "v_", "F_", "T"))


def test_every_shipped_formula_reaches_slots_and_our_functions_only() -> None:
    formulas = 0
    for rule in checker().rulebook.rules:
        parts = [
            *(x.formula for x in (*rule.lines, rule.demand, rule.limit) if x is not None),
            *(c for _, c in rule.expect), *(x for x in (rule.applies, rule.subject) if x is not None),
        ]  # fmt: skip
        for one in parts:
            formulas += 1
            assert all(map(is_ours, reached(one.source))), one.source
    assert formulas > 2000


def test_what_compiled_formulas_run_with_holds_no_module_and_no_builtin_that_reaches_one() -> None:
    names = surroundings(engineering_names(), {})
    assert names["__builtins__"] == {}
    dangerous = {getattr(builtins, n) for n in ("eval", "exec", "compile", "open", "__import__", "getattr", "setattr", "vars", "globals", "locals", "input", "breakpoint")}  # fmt: skip
    for name, value in names.items():
        if name == "__builtins__":
            continue
        assert not isinstance(value, type(sys)), name
        with contextlib.suppress(TypeError):  # What cannot be hashed is no function.
            assert value not in dangerous, name


_PARTS = st.sampled_from([
    "shelf.mass", "shelf", "boxes", "b.mass", "for b in boxes", "if", "else", "sum(", "max(", "stated(", "table.box.gap(", ")", "(", "[", "]", "'open'", "\"", "'", "1", "0.5", "**", "*", "+", "-", "/",
    "<", "==", "and", "or", "not", "in", ",", ".", "_", "__class__", ":=", "lambda", "{", "}", ":", "import", "os", "eval", "=", "\n", "\\", "#", "S[0]", "D", "_le", "v_arm", "True", "None", " ",
])  # fmt: skip


@given(st.lists(_PARTS, max_size=14).map(" ".join))
@examples(400)
def test_whatever_is_accepted_reaches_slots_and_our_functions_only(formula: str) -> None:
    try:
        compiled = compile_formula(formula, scope())
    except FormulaError as error:
        assert error.what  # noqa: PT017
        assert error.column >= 0  # noqa: PT017
        return
    assert all(map(is_ours, reached(compiled.source))), compiled.source


_HONEST = [
    "shelf.mass * standard_gravity * shelf.reach <= most * shelf.reach", "sum(b.mass for b in boxes if b.kind == 'open') / shelf.capacity", "max(shelf.mass, shelf.capacity) if stated(shelf.mass) else shelf.capacity",
    "table.box.gap('open') + shelf.shift", "any(b.mass > shelf.mass for b in boxes) and not shelf.locked", "sqrt(shelf.reach ** 2 + shelf.shift ** 2)", "mount.kind in ['side-post', 'floor-stand'] or job.title == 'a'",
]  # fmt: skip


@given(st.sampled_from(_HONEST), st.randoms(use_true_random=False))
@examples(400)
def test_honest_formulas_mutated(formula: str, random: Any) -> None:
    text = mutated(formula, random, most=3)[:700]
    try:
        compiled = compile_formula(text, scope())
    except FormulaError as error:
        assert error.what  # noqa: PT017
        return
    assert all(map(is_ours, reached(compiled.source))), compiled.source


# --- watched while it compiles and runs ------------------------------------------

_WATCHED = """
import sys
sys.path[:0] = {paths!r}
from test_bad_formulas import WAYS_OUT, WORTH, _HONEST
from situations import scope
from checker.formulas.compiling import compile_formula
from checker.formulas.functions import engineering_names
from checker.formulas.grammar import FormulaError
from checker.formulas.lacking import evaluate
from checker.formulas.running import surroundings
import difflib
engineering_names(); scope()
allowed = ("compile", "exec", "object.__getattr__", "sys._getframe")
seen = []
def hook(event, arguments):
    if armed and event not in allowed:
        seen.append((event, arguments))
armed = False
sys.addaudithook(hook)
names = surroundings((), {{}})
armed = True
for formula in [*(w[1] for w in WAYS_OUT), *(w[1] for w in WORTH), *_HONEST]:
    try:
        compiled = compile_formula(formula, scope())
    except FormulaError:
        continue
    if not compiled.uses.fields and not compiled.uses.tables:
        evaluate(compiled.source, names)
armed = False
print(len(seen), seen[:3])
"""


@pytest.mark.slow
def test_no_formula_opens_a_file_or_imports_a_module() -> None:
    """Python's own audit events, while the whole corpus is compiled and what can be is run."""
    here = Path(__file__).parent
    code = _WATCHED.format(paths=[str(ROOT), str(here), str(ROOT / "tests" / "rules")])
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=120, check=False
    )
    assert done.returncode == 0, done.stderr[-2000:]
    assert done.stdout.startswith("0 "), done.stdout


def test_the_names_of_python_are_no_functions_of_ours() -> None:
    ours = {*BUILT_IN, *engineering_names(), "stated"}
    assert not ours & {"eval", "exec", "open", "compile", "getattr", "type", "vars", "input"}
