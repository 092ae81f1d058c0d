"""Every function refuses what its own description says it does not take.

From the example in a function's description one parameter after the other is moved out of the
range that stands beside it ("> 0", ">= 0", "0.1 to 0.5"), the others staying as they are.
"""

from __future__ import annotations

import doctest
import importlib
import inspect
import math
import re
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

import pytest

from checker.engineering.limits import OutOfRange
from checker.formulas.functions import engineering_names

_NUMBER = r"[-−]?\d+(?:\.\d+)?(?:e-?\d+)?"
_RANGE = re.compile(
    rf",? (?:(?P<sign>>=? 0)|(?P<low>{_NUMBER}) to (?P<high>{_NUMBER}))(?=$|[;,.](?!\d))"
)


class Moved(NamedTuple):
    """A call of a function with one value out of its range."""

    name: str
    parameter: str
    arguments: tuple[Any, ...]


def _called(name: str, function: Callable[..., Any]) -> tuple[Any, ...] | None:
    """The arguments of the first call in a function's example that gave an answer."""
    seen: list[tuple[Any, ...]] = []

    def recording(*arguments: Any) -> Any:
        result = function(*arguments)
        seen.append(arguments)
        return result

    module = inspect.getmodule(function)
    names = {**vars(module), name: recording}
    for example in doctest.DocTestParser().get_examples(function.__doc__ or ""):
        if example.exc_msg is None:
            exec(compile(example.source, "<example>", "exec"), names)
        if seen:
            return seen[0]
    return None


def _outside(value: Any, stated: re.Match[str]) -> Iterator[Any]:
    """Values beyond a stated range, and what is no number at all."""
    if isinstance(value, (list, tuple)):
        if value:
            yield from ([other, *value[1:]] for other in _outside(value[0], stated))
        return
    if isinstance(value, (bool, str)):
        return
    if stated["sign"]:
        yield -abs(value) or -1.0
        if stated["sign"] == "> 0":
            yield 0.0
    else:
        low, high = (float(stated[end].replace("−", "-")) for end in ("low", "high"))
        yield low - 0.001 * (high - low)
        yield high + 0.001 * (high - low)
    yield math.nan


def _every() -> Iterator[Moved]:
    for name, module in sorted(engineering_names().items()):
        function = getattr(importlib.import_module(f"checker.engineering.{module}"), name)
        arguments = _called(name, function)
        if arguments is None:
            continue
        for i, parameter in enumerate(inspect.signature(function).parameters):
            line = re.search(
                rf"^ *{parameter}: (.*?\[[^\]]*\])(.*)$", function.__doc__ or "", re.MULTILINE
            )
            stated = _RANGE.match(line[2]) if line else None
            if stated is None or i >= len(arguments):
                continue
            for value in _outside(arguments[i], stated):
                yield Moved(name, parameter, (*arguments[:i], value, *arguments[i + 1 :]))


CALLS = list(_every())


@pytest.mark.parametrize("moved", CALLS, ids=[f"{m.name}-{m.parameter}-{i}" for i, m in enumerate(CALLS)])  # fmt: skip
def test_what_lies_outside_the_stated_range_is_refused(moved: Moved) -> None:
    function = getattr(
        importlib.import_module(f"checker.engineering.{engineering_names()[moved.name]}"),
        moved.name,
    )
    with pytest.raises(OutOfRange):
        function(*moved.arguments)


def test_most_parameters_state_their_range() -> None:
    assert len(CALLS) > 1500
