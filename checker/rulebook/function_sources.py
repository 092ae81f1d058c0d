"""Where the engineering functions come from, as each says in its own docstring.

A function that was read may still call one that was not: what a formula rests on is found
through the code of the functions it calls. This is looked at where a rulebook is made, and
kept with it; no check reads a docstring.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from inspect import isfunction
from types import CodeType, FunctionType
from typing import Any, NamedTuple

from checker.formulas.functions import engineering_names, function
from checker.rulebook.model import Recalled

__all__ = ["FunctionSource", "functions_behind", "recalled", "source_of_function"]

_SOURCE_LINE = re.compile(
    r"^ *Source: (?P<text>.*?)\s*Confidence:\s+(?P<word>[a-z-]+)", re.S | re.M
)


class FunctionSource(NamedTuple):
    """What a function works out, where that comes from, and how far it was read."""

    does: str
    text: str
    confidence: str


@cache
def source_of_function(name: str) -> FunctionSource:
    """A function's own statement of its source; the tests refuse one without.

    >>> source_of_function("bore_area").confidence
    'checked'
    """
    lines = (function(name).__doc__ or "").splitlines() or [""]
    stated = _SOURCE_LINE.search("\n".join(lines))
    text = " ".join(stated["text"].split()).rstrip(".") if stated else ""
    return FunctionSource(lines[0], text, stated["word"] if stated else "")


@cache
def functions_behind(name: str) -> tuple[str, ...]:
    """The other functions for formulas that a function's result can rest on, through its helpers too.

    >>> "friction_factor" in functions_behind("duct_friction_loss")
    True
    """
    found: dict[str, None] = {}
    seen: set[Callable[..., Any]] = set()
    pending = [function(name)]
    while pending:
        call = pending.pop()
        if call in seen or not isfunction(call):
            continue
        seen.add(call)
        pending += _called_by(call)
        called = call.__name__
        if called != name and called in engineering_names() and function(called) is call:
            found[called] = None
    return tuple(found)


def recalled(names: Iterable[str]) -> tuple[Recalled, ...]:
    """Of what these functions rest on, what is from memory.

    A function from memory stands for all that it calls.

    >>> [one.name for one in recalled(["pivoting_plate_bolt_tension"])]
    ['pivoting_plate_bolt_tension']
    """
    found: dict[str, None] = {}
    for name in names:
        if _is_recalled(name):
            found[name] = None
        else:
            found.update(dict.fromkeys(n for n in functions_behind(name) if _is_recalled(n)))
    sources = {name: source_of_function(name) for name in found}
    return tuple(Recalled(name, s.does, s.text) for name, s in sources.items())


def _is_recalled(name: str) -> bool:
    return source_of_function(name).confidence == "from-memory"


def _called_by(call: FunctionType) -> Iterator[FunctionType]:
    """The engineering functions and private helpers that a function's code names."""
    codes: list[CodeType] = [call.__code__]
    while codes:
        code = codes.pop()
        codes += [c for c in code.co_consts if isinstance(c, CodeType)]
        for name in code.co_names:
            found = call.__globals__.get(name)
            if isfunction(found) and found.__module__.startswith("checker.engineering"):
                yield found
