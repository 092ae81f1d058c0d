"""Which values a formula lacked: asked only after it has failed.

An audit asks it some fifty times a description, of the same few thousand formulas; what
can be known from a formula's text alone is therefore worked out once and kept.
"""

from __future__ import annotations

import ast
from collections.abc import Callable
from functools import lru_cache
from types import CodeType
from typing import Any

from checker.absent import Absent, CannotTell, OutOfReach, Unstated
from checker.engineering.limits import OutOfRange

__all__ = ["evaluate", "why_not"]

_KEPT = 20_000


def evaluate(source: str, names: dict[str, Any]) -> Any:
    """The value of a compiled formula's source, or an Absent that says why there is none."""
    try:
        return eval(_code(source), names)  # noqa: S307 - checked source, see rulebook/linking.py
    except Exception as error:
        reason = why_not(error)
        if isinstance(reason, Unstated):
            paths: dict[str, None] = dict.fromkeys(_finder(source)(names))
            reason = Unstated(*(paths or dict.fromkeys(reason.paths)))
        return Absent(reason)


def why_not(error: Exception) -> CannotTell:
    """The reason that an exception of a running formula stands for.

    Raises the exception itself if it is none that values can cause.
    """
    if isinstance(error, CannotTell):
        # Kept for as long as the answer; a traceback would keep every value in sight with it.
        error.__context__ = None
        return error.with_traceback(None)
    if isinstance(error, OutOfRange):
        return OutOfReach(str(error))
    if isinstance(error, ZeroDivisionError):
        return OutOfReach("A value of nought stands where something is divided by it.")
    if isinstance(error, (OverflowError, ValueError)):
        return OutOfReach("The numbers leave the range in which the formula can be computed.")
    raise error


@lru_cache(maxsize=_KEPT)
def _code(source: str) -> CodeType:
    return compile(source, "<formula>", "eval")


# Gives, for the names a formula ran with, every missing field that its value needs, in the
# order of the formula. The formula stopped at the first thing it lacked; what stands behind
# that was never reached, and may itself have no value (a division by nought): that part then
# names none.
_Finder = Callable[[dict[str, Any]], list[str]]
# Among the names stands, under this one, which member of its list each variable of a loop is.
_NUMBERS = "#"


@lru_cache(maxsize=_KEPT)
def _finder(source: str) -> _Finder:
    return _finder_of(ast.parse(source, mode="eval").body)


def _finder_of(node: ast.expr) -> _Finder:
    match node:
        case ast.Constant() | ast.Compare(left=ast.Call(func=ast.Name(id="type"))):
            return _none
        case ast.BoolOp(op=op, values=values):
            return _either([(_finder_of(v), _part(v)) for v in values], isinstance(op, ast.Or))
        case ast.IfExp(test=test, body=body, orelse=orelse):
            return _side(_finder_of(test), _part(test), _finder_of(body), _finder_of(orelse))
        case ast.Subscript(value=ast.Name(id=base), slice=ast.Constant(value=int(slot))):
            return _slot(base, slot)
        case ast.Name(id=name):
            return _name(name)
        case ast.Call(func=ast.Name(id=("any" | "all") as name), args=[ast.GeneratorExp() as loop]):
            return _loop(loop, name == "any")
        case ast.GeneratorExp() | ast.ListComp():
            return _loop(node)
        case ast.Call(args=arguments):
            return _all([_finder_of(a) for a in arguments])
    children = [c for c in ast.iter_child_nodes(node) if isinstance(c, ast.expr)]
    return _all([_finder_of(c) for c in children])


def _none(_: dict[str, Any]) -> list[str]:
    return []


def _all(parts: list[_Finder]) -> _Finder:
    wanted = [p for p in parts if p is not _none]
    if len(wanted) <= 1:
        return wanted[0] if wanted else _none
    return lambda names: [path for part in wanted for path in part(names)]


def _either(parts: list[tuple[_Finder, CodeType]], stops_at: bool) -> _Finder:
    """Of 'and' and 'or': what the first part that has no value lacks, as far as they are reached."""

    def find(names: dict[str, Any]) -> list[str]:
        for part, code in parts:
            found = part(names)
            if found:
                return found
            try:
                if bool(_run(code, names)) is stops_at:
                    return []
            except Exception:
                return []
        return []

    return find


def _side(test: _Finder, code: CodeType, body: _Finder, orelse: _Finder) -> _Finder:
    """Of 'a if test else b': what the test lacks, else what the side taken lacks."""

    def find(names: dict[str, Any]) -> list[str]:
        found = test(names)
        if found:
            return found
        try:
            taken = body if _run(code, names) else orelse
        except Exception:
            return []
        return taken(names)

    return find


def _slot(base: str, slot: int) -> _Finder:
    def find(names: dict[str, Any]) -> list[str]:
        values = names[base]
        # A member of a list that is itself not stated lacks the list.
        found = _lacks(values if type(values) is Absent else values[slot])
        numbers = names[_NUMBERS].get(base, ()) if found and _NUMBERS in names else ()
        return [_numbered(path, numbers) for path in found] if numbers else found

    return find


def _numbered(path: str, numbers: tuple[int | None, ...]) -> str:
    """A path whose lists are given the numbers of their members, the outermost first.

    >>> _numbered("duct.parts[].diameter", (3,))
    'duct.parts[3].diameter'
    """
    first, *rest = path.split("[]")
    shown = ["[]" if n is None else f"[{n}]" for n in numbers]
    shown += ["[]"] * (len(rest) - len(shown))
    return first + "".join(number + part for number, part in zip(shown, rest, strict=False))


def _name(name: str) -> _Finder:
    return lambda names: _lacks(names[name])


def _lacks(value: Any) -> list[str]:
    is_missing = type(value) is Absent and type(value.why) is Unstated
    return list(value.why.paths) if is_missing else []


def _loop(node: ast.GeneratorExp | ast.ListComp, stops_at: bool | None = None) -> _Finder:
    """Of a loop: what each of its members lacks, by its number.

    stops_at: the value at which 'any' or 'all' looks no further.
    """
    (over,) = node.generators
    assert isinstance(over.target, ast.Name)  # noqa: S101 - the grammar allows nothing else
    target = over.target.id
    base = over.iter.value if isinstance(over.iter, ast.Subscript) else over.iter
    outer = base.id if isinstance(base, ast.Name) else ""
    listed, members_of = _finder_of(over.iter), _part(over.iter)
    tests = [(_finder_of(test), _part(test)) for test in over.ifs]
    element, value_of = _finder_of(node.elt), _part(node.elt)

    def find(names: dict[str, Any]) -> list[str]:
        found = listed(names)
        if found:
            return found
        numbers = names.get(_NUMBERS, {})
        # The member that a rule itself speaks of has no number here.
        above = () if outer == "S" else numbers.get(outer, (None,))
        for i, member in enumerate(_run(members_of, names)):
            inner = names | {target: member, _NUMBERS: numbers | {target: (*above, i)}}
            try:
                lacked = _first_lacking(tests, inner)
                if lacked is None:
                    continue
                lacked = lacked or element(inner)
                if not lacked and not found and _run(value_of, inner) is stops_at:
                    return []
            except Exception:  # noqa: S112 - a part without a value names none
                continue
            found += lacked
        return list(dict.fromkeys(found))

    return find


def _first_lacking(
    tests: list[tuple[_Finder, CodeType]], names: dict[str, Any]
) -> list[str] | None:
    """What the conditions of a loop lack; None for a member that they leave out."""
    for finder, code in tests:
        found = finder(names)
        if found:
            return found
        if not _run(code, names):
            return None
    return []


def _part(node: ast.expr) -> CodeType:
    return compile(ast.Expression(node), "<formula>", "eval")


def _run(code: CodeType, names: dict[str, Any]) -> Any:
    return eval(code, names)  # noqa: S307 - checked source, see rulebook/linking.py
